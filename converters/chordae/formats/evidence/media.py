"""Where the files of the evidence stand and of what sort they are: IRIs, media types, sizes of pictures.

A source file that is an IRI stays as it is; a bare name stands under ``<base>media/``.
"""

from __future__ import annotations

import mimetypes
import struct
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import quote, unquote

from chordae.errors import InputError
from chordae.files import inside
from chordae.rdf.emit import check_base
from chordae.rdf.terms import is_iri

__all__ = ["media_iri", "media_name", "media_type", "picture_size", "sort_of"]

_SORTS: Mapping[str, str] = {
    "photograph": "Image",
    "drawing": "Image",
    "histology": "Image",
    "video": "Video",
    "scan": "Dataset",
    "report": "Text",
}
"""Kind of evidence to the class of resource in Web Annotations and IIIF."""
_HEAD = 1024 * 1024


def media_iri(source_file: str, base: str | None) -> str:
    """Return the IRI of a source file.

    Examples
    --------
    >>> media_iri("plate 12.jpg", "https://example.org/c/")
    'https://example.org/c/media/plate%2012.jpg'
    """
    return source_file if is_iri(source_file) else f"{check_base(base)}media/{quote(source_file)}"


def media_name(iri: str, base: str) -> str:
    """Return the source file of an IRI; the inverse of :func:`media_iri`."""
    start = f"{base}media/"
    return unquote(iri.removeprefix(start)) if iri.startswith(start) else iri


def sort_of(evidence: Mapping[str, Any]) -> str:
    """Return Image, Video, Sound, Text or Dataset: by the kind of evidence, else by the ending of the file."""
    kind = str(evidence.get("evidence_kind"))
    if kind in _SORTS:
        return _SORTS[kind]
    main = (media_type(str(evidence["source_file"])) or "").partition("/")[0]
    return {"image": "Image", "video": "Video", "audio": "Sound", "text": "Text"}.get(main, "Dataset")


def media_type(name: str) -> str | None:
    """Return the media type for the ending of a file name, the same on every machine."""
    return _types().guess_type(name.partition("?")[0].partition("#")[0])[0]


def picture_size(folder: str | None, source_file: str) -> tuple[int, int] | None:
    """Return width and height of a PNG, JPEG or GIF file in a folder; ``None`` where nobody can tell.

    A name that leads out of the folder is not looked at.
    """
    if folder is None or is_iri(source_file):
        return None
    try:
        with inside(Path(folder), source_file).open("rb") as stream:
            head = stream.read(_HEAD)
    except (InputError, OSError):
        return None
    try:
        return _png(head) or _gif(head) or _jpeg(head)
    except (struct.error, IndexError):
        return None


@cache
def _types() -> mimetypes.MimeTypes:
    """The types that Python itself knows, without those that the machine adds."""
    return mimetypes.MimeTypes()


def _png(head: bytes) -> tuple[int, int] | None:
    if head[:8] != b"\x89PNG\r\n\x1a\n" or head[12:16] != b"IHDR":
        return None
    width, height = struct.unpack(">II", head[16:24])
    return _sound(width, height)


def _gif(head: bytes) -> tuple[int, int] | None:
    if head[:6] not in (b"GIF87a", b"GIF89a"):
        return None
    width, height = struct.unpack("<HH", head[6:10])
    return _sound(width, height)


def _jpeg(head: bytes) -> tuple[int, int] | None:
    if head[:2] != b"\xff\xd8":
        return None
    at = 2
    while at + 9 < len(head):
        if head[at] != 0xFF:
            return None
        marker = head[at + 1]
        if 0xC0 <= marker <= 0xCF and marker not in (0xC4, 0xC8, 0xCC):
            height, width = struct.unpack(">HH", head[at + 5 : at + 9])
            return _sound(width, height)
        (length,) = struct.unpack(">H", head[at + 2 : at + 4])
        at += 2 + max(int(length), 2)
    return None


def _sound(width: int, height: int) -> tuple[int, int] | None:
    return (width, height) if 0 < width < 2**24 and 0 < height < 2**24 else None
