"""Words of a page -> a whole page that stands still: its style in it, no script, nothing fetched."""

from __future__ import annotations

import base64
import hashlib

from export.report.markup import esc

STYLE = """
:root { color-scheme: light; font: 16px/1.45 system-ui, -apple-system, "Segoe UI", Roboto, sans-serif; }
body { margin: 0 auto; max-width: 64rem; padding: 0.8rem 1rem 3rem; color: #000; background: #fff; }
h1 { font-size: 1.5rem; margin: 0.2rem 0; } h2 { font-size: 1.2rem; border-bottom: 2px solid #000; margin-top: 1.6rem; }
.caution { border-left: 0.35rem solid #000; padding-left: 0.6rem; font-weight: 600; }
.wide { overflow-x: auto; } table { border-collapse: collapse; width: 100%; font-size: 0.9rem; }
th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.45rem; border-bottom: 1px solid #999; }
th { border-bottom: 2px solid #000; vertical-align: bottom; } .n { text-align: right; white-space: nowrap; }
svg { width: 100%; height: auto; }
@media print { body { max-width: none; } tr, svg { break-inside: avoid; } }
"""


def still_page(title: str, body: str, style: str = STYLE) -> bytes:
    """The page of a body that is HTML already; a policy in it lets the browser load nothing but this style."""
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        f"<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-{digest}'\">"
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{esc(title)}</title><style>{style}</style></head><body>{body}</body></html>"
    ).encode()
