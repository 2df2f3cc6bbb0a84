"""From the bytes of a file to its text.

::

    BOM of UTF-8, UTF-16 or UTF-32      that encoding
    no BOM, valid UTF-8                 UTF-8
    otherwise, documents                refused, with the byte
    otherwise, tables                   Windows-1252 with a warning, or refused if it cannot be that either

Nothing is replaced: a byte that cannot be read stops the reading.
"""

from __future__ import annotations

import codecs

from chordae.errors import FormatError, InputError
from chordae.issues import Issue, Location, issue

__all__ = ["decode", "empty", "mark_of", "western_issue"]

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_WESTERN = "windows-1252"


def empty(name: str, remedy: str) -> InputError:
    """Return the error that tells of a file, or of standard input, that holds nothing."""
    subject = "Standard input" if name == "standard input" else f"The file {name}"
    return InputError(f"{subject} is empty.", remedy)


def mark_of(start: bytes) -> str | None:
    """Return the encoding that the byte order mark at the start of a file says, ``None`` if there is none."""
    return next((codec for mark, codec in _MARKS if start.startswith(mark)), None)


def western_issue(name: str, line: int) -> Issue:
    """Return the issue about a file that is not UTF-8 from a line on, and was read as Windows-1252."""
    return issue("I-FIL-03", location=Location(name, line), name=name, encoding="Windows-1252")


def decode(data: bytes, name: str, *, encoding: str | None = None, guess: bool = False) -> tuple[str, list[Issue]]:
    """Return the text of a file and what had to be guessed.

    Parameters
    ----------
    data
        The whole file.
    name
        Its name, for messages.
    encoding
        The encoding the user named; nothing is guessed then.
    guess
        Whether Windows-1252 is tried (for tables) where the file is not UTF-8.

    Raises
    ------
    InputError
        The file is empty, or is not text in the encoding.
    FormatError
        There is no encoding of that name.
    """
    if not data.strip(b" \t\r\n"):
        raise empty(name, "Export the table or the records again.")
    if encoding is not None:
        return _named(data, name, encoding), []
    if (codec := mark_of(data)) is not None:
        return _named(data, name, codec), []
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        if guess and b"\0" not in data:
            return _western(data, name, error)
        raise _not_text(name, "UTF-8", error) from None
    if "\0" in text:
        raise InputError(
            f"The file {name} holds zero bytes (the first at byte {data.index(0) + 1}); it is no UTF-8 text.",
            "It is perhaps UTF-16 or a program's own format: save it as UTF-8 text, or name its encoding.",
        )
    return text, []


def _named(data: bytes, name: str, encoding: str) -> str:
    try:
        text = data.decode(encoding)
    except (LookupError, ValueError) as error:
        if isinstance(error, UnicodeDecodeError):
            raise _not_text(name, encoding, error) from None
        raise FormatError(f"There is no text encoding named {encoding!r}.", "Use utf-8 or windows-1252.") from None
    text = text.removeprefix("\ufeff")
    if "\0" in text:
        raise InputError(f"The file {name} holds zero characters; it is not text in {encoding}.")
    if not text.strip():
        raise empty(name, "Export the table or the records again.")
    return text


def _western(data: bytes, name: str, first: UnicodeDecodeError) -> tuple[str, list[Issue]]:
    try:
        text = data.decode(_WESTERN)
    except UnicodeDecodeError:
        raise _not_text(name, "UTF-8 and not Windows-1252", first) from None
    line = data.count(b"\n", 0, first.start) + 1
    return text, [western_issue(name, line)]


def _not_text(name: str, encoding: str, error: UnicodeDecodeError) -> InputError:
    line = error.object.count(b"\n", 0, error.start) + 1
    return InputError(
        f"The file {name} is not {encoding} text: byte {error.start + 1} (line {line}) is not valid there.",
        "Save the file as UTF-8, or name its encoding with --encoding.",
    )
