"""A line of a plan file that is not TOML -> the slip that people make there, and how to put it right."""

from __future__ import annotations

import re
import tomllib

TYPOGRAPHIC = "\u201c\u201d\u201e\u201f\u2018\u2019\u201a\u2032\u2033"
QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"')
KEY = re.compile(r"\s*([A-Za-z_][\w.]*)\s*=\s*(.*?)\s*,?\s*")


def slip_in(line: str, problem: str) -> str | None:
    """The usual slip in a line with its cure, `problem` as the reader of TOML calls it; None if it is none of them."""
    bare = QUOTED.sub('""', line).split("#")[0]  # what stands outside quotation marks
    slips = (_twice(bare, problem), _marks(line, bare), _without_quotes(bare), _signs(bare))
    return next((slip for slip in slips if slip), None)


def _twice(bare: str, problem: str) -> str | None:
    name = re.match(r"\s*(\[[\w.]+\]|[\w.]+)", bare)
    if name is None or not problem.startswith(("Cannot overwrite", "Cannot declare")):
        return None
    return f"{name[1]} is written a second time; keep one of the two"


def _marks(line: str, bare: str) -> str | None:
    """Quotation marks that are not TOML's, and inch marks among them."""
    if found := next((c for c in bare if c in TYPOGRAPHIC), None):
        return f'{found} is a typographic quotation mark; write the plain one, "'
    if re.search(r"\d\"\"|(?<!\\)\" *\d+/\d+\"", line):
        return 'an inch mark ends the text too soon; write it as \\", for instance "46\'-8\\""'
    return None


def _without_quotes(bare: str) -> str | None:
    """Words and lengths that want them."""
    key = KEY.fullmatch(bare)
    if key and _needs_quotes(key[2]):
        if number := re.fullmatch(r"([\d.]+) *(mph|psf|psi|ft2)", key[2]):
            return f"{key[1]} is a number without its unit; write {key[1]} = {number[1]}"
        inner = key[2].strip("'").replace('"', '\\"')
        return f'{key[1]} is no plain number and stands in quotes; write {key[1]} = "{inner}"'
    if re.search(r"\d\s*('|ft\b|feet\b|in\b|mm\b|cm\b|m\b|/\s*\d)", bare.replace('""', "")):
        return 'a length with a unit stands in quotes; write such as ["46\'8", "12.2m"], or plain numbers in feet'
    return None


def _needs_quotes(value: str) -> bool:
    """Whether what stands behind a = is one text without quotation marks."""
    if not re.match(r"[\w.'-]", value) or not value.isprintable() or '""' in value:
        return False
    try:
        tomllib.loads(f"key = {value}")
    except tomllib.TOMLDecodeError:
        return True
    return False


def _signs(bare: str) -> str | None:
    """Brackets, quotation marks, commas and colons."""
    key = KEY.fullmatch(bare)
    if re.match(r"\s*\[+[\w.]+\s*$", bare):
        return f"a section's name stands between brackets; write {bare.strip()}]"
    if bare.replace('""', "").count('"') % 2:
        return 'a quotation mark is not closed; write one at each end of the text, an inch mark in it as \\"'
    if key and bare.rstrip().endswith(","):
        return f"a line with {key[1]} = ends without a comma; take it away"
    if re.match(r"\s*[A-Za-z_][\w. ]*:", bare):
        return "a key and its value are joined by =, not by a colon; write such as speed = 160"
    return None
