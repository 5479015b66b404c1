"""Reads a page as a browser's parser would: its elements, the text in them, and the rows of its table."""

from __future__ import annotations

import base64
import json
import zlib
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

import numpy as np

VOID = {"meta", "link", "br", "input", "img"}


@dataclass
class Page(HTMLParser):
    """The elements in order, the text of those with an id, and the body rows of the table by their id."""

    elements: list[tuple[str, dict[str, str | None]]] = field(default_factory=list)
    texts: dict[str, str] = field(default_factory=dict)
    rows: dict[str, list[str]] = field(default_factory=dict)
    heads: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.stack: list[tuple[str, str]] = []
        self.other: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.elements.append((tag, found))
        if tag not in VOID:
            self.stack.append((tag, found.get("id") or ""))
        if tag == "tr" and found.get("id"):
            self.rows[found["id"] or ""] = []
        if tag in {"td", "th"}:
            self.cells().append("")

    def handle_endtag(self, tag: str) -> None:
        while self.stack and self.stack.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        for tag, name in self.stack:
            for key in {tag, name} - {""}:
                self.texts[key] = self.texts.get(key, "") + data
        if self.stack and self.stack[-1][0] in {"td", "th"}:
            self.cells()[-1] += data

    def cells(self) -> list[str]:
        row = next((name for tag, name in reversed(self.stack) if tag == "tr"), "")
        inside = [tag for tag, _ in self.stack]
        return self.rows[row] if row else self.heads if "thead" in inside else self.other


def read(page: bytes) -> Page:
    parsed = Page()
    parsed.feed(page.decode("utf-8"))
    return parsed


def data_of(page: bytes) -> dict[str, Any]:
    """The numbers that the page draws."""
    packed = base64.b64decode(read(page).texts["data"])
    data: dict[str, Any] = json.loads(zlib.decompress(packed))
    return data


def numbers(text: str, kind: str = "<i2") -> np.ndarray:
    return np.frombuffer(base64.b64decode(text), kind)
