"""The text of a file that a person named, or one sentence that says why there is none."""

from __future__ import annotations

import codecs
import contextlib
import hashlib
import stat
from pathlib import Path

from framing.errors import StraplineError
from framing.units import shown

LARGEST_BYTES = 2_000_000


def read_text(path: Path, what: str, error: type[StraplineError]) -> str:
    """The text of a file in UTF-8, or in UTF-16 with its mark, as some shells write; without its byte-order mark.

    Parameters
    ----------
    path : Path
        The file.
    what : str
        What it should hold, for the sentence: `plan`, `catalogue`.
    error : type
        The error to raise.

    Returns
    -------
    str
        The text.

    Raises
    ------
    StraplineError
        Of the given kind, if the file is missing, a folder, not readable, too large, binary or not UTF-8.
    """
    return decoded(read_bytes(path, what, error), path, what, error)


def read_bytes(path: Path, what: str, error: type[StraplineError], largest_bytes: int = LARGEST_BYTES) -> bytes:
    """The bytes of a file of at most `largest_bytes`; raises as `read_text` does."""
    name = _named(path)
    try:
        status = path.stat()
        data = path.read_bytes() if stat.S_ISREG(status.st_mode) and status.st_size <= largest_bytes else None
    except (FileNotFoundError, NotADirectoryError):
        raise error(f"{name}: there is no such file; check the path of the {what}") from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "the path is not one"
        raise error(f"{name}: it cannot be read ({reason}); name a {what} file that can") from None
    if stat.S_ISDIR(status.st_mode):
        raise error(f"{name}: this is a folder; name the {what} file in it")
    if not stat.S_ISREG(status.st_mode):
        raise error(f"{name}: this is not a plain file; name a {what} file")
    if data is None:
        raise error(f"{name}: it is larger than {largest_bytes // 1_000_000} MB; name a {what} file")
    return data


def decoded(data: bytes, path: Path, what: str, error: type[StraplineError]) -> str:
    """The bytes as text, UTF-8 or what begins as UTF-16 does; raises the given error where they are none."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        with contextlib.suppress(UnicodeDecodeError):
            return data.decode("utf-16")
    if b"\0" in data:
        raise error(f"{_named(path)}: this is a binary file; name a {what} file, which is plain text in UTF-8")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = data.count(b"\n", 0, problem.start) + 1
        raise error(f"{_named(path)} line {line}: this is not UTF-8 text; save the {what} as UTF-8") from None


def _named(path: Path) -> str:
    name = str(path)
    return name if name.isprintable() else shown(name)


def digest(text: str) -> str:
    """A SHA-256 of a text: the same whether its lines end as on Windows or elsewhere."""
    return hashlib.sha256(text.replace("\r\n", "\n").replace("\r", "\n").encode()).hexdigest()
