"""Every file that `build` writes carries the caution word for word, every page of it where it has pages."""

from __future__ import annotations

import html
import re
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import ezdxf
import pypdf
import pytest

from framing.run import CAUTION
from house.project import ROOT

SAMPLE = "hip_house.toml"


def texts(path: Path) -> list[str]:
    """The text of a file, page by page where it has pages, as its own kind of reader finds it."""
    data = path.read_bytes()
    if path.suffix == ".pdf":
        return [page.extract_text() for page in pypdf.PdfReader(BytesIO(data)).pages]
    if path.suffix == ".dxf":
        found = ezdxf.readfile(path).modelspace().query("TEXT MTEXT")
        return [" ".join(item.plain_text() for item in found)]
    text = data.decode("utf-8", errors="ignore")
    return [html.unescape(text) if path.suffix == ".html" else text]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The outputs of one sample plan."""
    out = tmp_path_factory.mktemp("caution") / "out"
    command = [sys.executable, "-P", "-m", "export", "build", ROOT / "sample_plans" / SAMPLE, "--out", out]
    result = subprocess.run(command, capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stderr
    return out


def test_every_output_carries_the_caution_on_every_page(built: Path) -> None:
    bare = [
        f"{path.name}, page {n}"
        for path in sorted(built.iterdir())
        for n, text in enumerate(texts(path), start=1)
        if CAUTION not in " ".join(text.split())
    ]
    assert bare == []


def test_the_readme_tells_every_output_and_no_other(built: Path) -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    table = readme.split("# What comes out")[1].split("\n\n")[1]
    told = [name for row in table.splitlines()[2:] for name in re.findall(r"`([\w-]+\.\w+)`", row.split("|")[1])]
    assert sorted(told) == sorted(path.name for path in built.iterdir())
