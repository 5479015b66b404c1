"""Files that are no drawing, or a broken one: each gets its one sentence."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from ezdxf.document import Drawing

from export.architects_drawing.outline import outline_of_drawing
from export.architects_drawing.search import Request, search_drawing
from framing.errors import PlanError
from parts.drawn_houses import HOUSE, draw_ring, new_drawing, saved, set_out

RIGHT = "save it from the drawing program as a DXF in text form, R12 to R2018"


def house_bytes(tmp_path: Path) -> bytes:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE))
    return saved(document, tmp_path, "good.dxf").read_bytes()


def without_sections(good: bytes) -> bytes:
    return good.replace(b"SECTION", b"SECTOIN")


def with_a_letter_for_a_number(good: bytes) -> bytes:
    return good.replace(b"\n560.0\n", b"\nfive\n", 1)


def with_infinity(good: bytes) -> bytes:
    return good.replace(b"\n560.0\n", b"\n1e999\n", 1)


FILES: dict[str, tuple[Callable[[bytes], bytes], str]] = {
    "binary": (
        lambda good: b"AutoCAD Binary DXF\r\n\x1a\x00" + good,
        f"this is a binary file (a DWG, a binary DXF or no drawing); {RIGHT}",
    ),
    "DWG": (
        lambda _: b"AC1032\x00\x00\x00\x00" + bytes(200),
        f"this is a binary file (a DWG, a binary DXF or no drawing); {RIGHT}",
    ),
    "empty": (lambda _: b"", f"this is no DXF file, or one that is cut off before its end; {RIGHT}"),
    "a letter": (lambda _: b"Dear Sir,\n", f"this is no DXF file, or one that is cut off before its end; {RIGHT}"),
    "cut off": (
        lambda good: good[: len(good) // 2],
        f"this is no DXF file, or one that is cut off before its end; {RIGHT}",
    ),
    "sections misspelt": (without_sections, f"this is a broken DXF file; {RIGHT}"),
    "letters for a number": (with_a_letter_for_a_number, f"this is a broken DXF file; {RIGHT}"),
    "no tags": (lambda _: b"hello\nEOF\n", f"this is a broken DXF file; {RIGHT}"),
    "infinity": (with_infinity, "a coordinate in the drawing is not a number; save the drawing again"),
}


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_is_no_good_drawing_gets_its_one_sentence(name: str, tmp_path: Path) -> None:
    spoil, sentence = FILES[name]
    good = house_bytes(tmp_path)
    spoilt = spoil(good)
    assert spoilt != good
    path = tmp_path / "floor.dxf"
    path.write_bytes(spoilt)
    with pytest.raises(PlanError) as problem:
        outline_of_drawing(path, "A-WALL", None)
    assert str(problem.value) == f"{path}: {sentence}"


def test_a_missing_file_and_a_folder_get_their_one_sentence(tmp_path: Path) -> None:
    for path, sentence in (
        (tmp_path / "none.dxf", "there is no such file; check the path of the drawing"),
        (tmp_path, "this is a folder; name the drawing file in it"),
    ):
        with pytest.raises(PlanError) as problem:
            outline_of_drawing(path, "A-WALL", None)
        assert str(problem.value) == f"{path}: {sentence}"


def test_a_drawing_without_a_line_has_nothing_to_list(tmp_path: Path) -> None:
    path = saved(new_drawing(), tmp_path)
    with pytest.raises(PlanError) as problem:
        search_drawing(path, Request())
    assert str(problem.value) == (
        f"{path}: no lines or polylines are drawn in its model; name a drawing of the outside walls"
    )


def empty_but_for(what: str) -> tuple[Drawing, str]:
    """A drawing whose model is empty, and what is said of it."""
    document = new_drawing()
    corners = [(0.0, 0.0), (480.0, 0.0), (480.0, 336.0), (0.0, 336.0)]
    if what == "a sheet":
        document.layout("Layout1").add_lwpolyline(corners, close=True)
        return (
            document,
            'its lines are on the sheet "Layout1" and none in its model; copy the outside walls into the model',
        )
    if what == "a block":
        document.blocks.new("HOUSE").add_lwpolyline(corners, close=True)
        return document, (
            'its lines are in blocks, "HOUSE" for one, that are not inserted; insert the outside walls into the model'
        )
    document.add_xref_def("shell.dwg", "SHELL")
    document.modelspace().add_blockref("SHELL", (0.0, 0.0))
    return document, "it only refers to other files; name shell.dwg itself, saved as a DXF"


@pytest.mark.parametrize("what", ["a sheet", "a block", "another file"])
def test_a_drawing_with_an_empty_model_says_where_its_lines_are(tmp_path: Path, what: str) -> None:
    document, sentence = empty_but_for(what)
    path = saved(document, tmp_path)
    with pytest.raises(PlanError) as problem:
        search_drawing(path, Request())
    assert str(problem.value) == f"{path}: {sentence}"
