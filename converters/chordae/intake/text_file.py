"""From a file to its text, line by line, after a look at all of it; the text is never held whole.

What it accepts and refuses is told by :mod:`chordae.intake.encoding`, which also words every refusal.
"""

from __future__ import annotations

import codecs
import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import IO, TextIO

from chordae.intake.encoding import decode, mark_of, western_issue
from chordae.issues import Issue

__all__ = ["TextFile", "open_text"]

_BLOCK = 64 * 1024
_WESTERN = "cp1252"
_BY_PIECES = frozenset({"utf-8", "utf-8-sig", "utf-16", "utf-32", "cp1252", "iso8859-1", "ascii"})
"""Encodings whose pieces, read one after another, give what the whole gives."""


@dataclass(frozen=True, slots=True)
class TextFile:
    """A text that can be read more than once, by one reader at a time.

    ``quoted`` says whether there is a quotation mark in it; ``whole`` is the text where it could not be read by pieces.
    """

    stream: IO[bytes]
    codec: str
    quoted: bool
    whole: str | None = None

    @contextmanager
    def open(self) -> Iterator[TextIO]:
        """Open the text at its beginning; line ends are left as they are."""
        if self.whole is not None:
            yield io.StringIO(self.whole, newline="")
            return
        self.stream.seek(0)
        text = io.TextIOWrapper(self.stream, encoding=self.codec, newline="")
        try:
            if text.read(1) != "\ufeff":
                text.seek(0)
            yield text
        finally:
            text.detach()


@dataclass(frozen=True, slots=True)
class _Look:
    """What a pass over the file found; ``bad_line`` is that of the first byte that cannot be read."""

    bad_line: int | None = None
    zero: bool = False
    blank: bool = True
    quoted: bool = False


def open_text(
    stream: IO[bytes], name: str, *, encoding: str | None = None, guess: bool = False
) -> tuple[TextFile, list[Issue]]:
    """Return the text of a file and what had to be guessed; the parameters are those of :func:`decode`.

    Parameters
    ----------
    stream
        The file; it can be read from its beginning.

    Raises
    ------
    InputError, FormatError
        As for :func:`chordae.intake.encoding.decode`.
    """
    stream.seek(0)
    codec = encoding or mark_of(stream.read(4)) or "utf-8"
    guess = guess and codec == "utf-8" and encoding is None
    if (known := _name(codec)) in _BY_PIECES:
        look = _look(stream, known)
        if look.bad_line is None and not look.zero and not look.blank:
            return TextFile(stream, known, look.quoted), []
        if guess and look.bad_line is not None and not look.zero:
            other = _look(stream, _WESTERN)
            if other.bad_line is None and not other.zero:
                return TextFile(stream, _WESTERN, other.quoted), [western_issue(name, look.bad_line)]
    stream.seek(0)
    text, issues = decode(stream.read(), name, encoding=encoding, guess=guess)
    return TextFile(stream, codec, '"' in text, text), issues


def _name(codec: str) -> str:
    try:
        return codecs.lookup(codec).name
    except (LookupError, ValueError):  # ValueError: a zero byte in the name
        return ""


def _look(stream: IO[bytes], codec: str) -> _Look:
    decoder = codecs.getincrementaldecoder(codec)()
    stream.seek(0)
    lines = 0
    zero = quoted = False
    blank = True
    while True:
        block = stream.read(_BLOCK)
        try:
            text = decoder.decode(block, final=not block)
        except UnicodeDecodeError as error:
            return _Look(lines + error.object.count(b"\n", 0, error.start) + 1, zero or b"\0" in block)
        except UnicodeError:  # UTF-16 and UTF-32 without a mark are read whole only
            return _Look(1, zero)
        zero = zero or "\0" in text
        quoted = quoted or '"' in text
        blank = blank and not text.strip("\ufeff").strip()
        if not block:
            return _Look(None, zero, blank, quoted)
        lines += block.count(b"\n")
