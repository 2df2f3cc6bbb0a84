"""Several files as one: a folder or a zip to names and bytes, and back.

::

    {"datapackage.json": b"...", "hearts/record.csv": b"..."}   <->   folder/   or   folder.zip

The zip is the same for the same files: names sorted, one fixed date. Reading trusts nothing: names that lead out,
links out of the folder, and files that unpack to many times their size are refused before anything is unpacked.
"""

from __future__ import annotations

import io
import os
import zipfile
from collections.abc import Iterable
from pathlib import Path

from chordae.errors import InputError
from chordae.files import MAX_INPUT, folder_aside, inside, open_aside, read_input
from chordae.intake.package import BROKEN_ZIP, refuse_traps

__all__ = ["files_of_folder", "is_zip", "pack", "safe_name", "unpack", "write_several"]

_FIXED = (1980, 1, 1, 0, 0, 0)
_MOST = 5000


def files_of_folder(path: str | os.PathLike[str]) -> dict[str, bytes]:
    """Return the files of a folder by name, with forward slashes.

    Raises
    ------
    InputError
        There are too many, they are too large, or a link leads out of the folder.
    """
    folder = Path(path)
    found: dict[str, bytes] = {}
    total = 0
    for one in sorted(folder.rglob("*")):
        name = one.relative_to(folder).as_posix()
        if not one.is_file() or _beside(name):
            continue
        if len(found) >= _MOST:
            raise InputError(f"{folder} holds more than {_MOST} files.", "Name a folder with the export only.")
        found[name] = read_input(inside(folder, name))
        total += len(found[name])
        if total > MAX_INPUT:
            raise InputError(f"The files of {folder} are longer than {MAX_INPUT // 1024 // 1024} MB together.")
    return found


def is_zip(data: bytes) -> bool:
    """Say whether bytes begin as a zip does."""
    return data[:4] in (b"PK\x03\x04", b"PK\x05\x06")


def unpack(data: bytes, name: str) -> dict[str, bytes]:
    """Return the files of a zip.

    Raises
    ------
    InputError
        It is no zip, is damaged, or may not be unpacked.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            refuse_traps(package, name, "Pack fewer or smaller files.")
            parts = [one for one in package.infolist() if not one.is_dir() and not _beside(one.filename)]
            return {one.filename: package.read(one) for one in parts}
    except (*BROKEN_ZIP, OSError) as error:
        words = str(error)[:120]
        raise InputError(f"{name} is not a zip that can be read ({words}).", "Pack the files again.") from None


def pack(files: Iterable[tuple[str, bytes]]) -> bytes:
    """Return a zip of files: sorted, with one fixed date, so that the same files give the same bytes."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in sorted(files):
            entry = zipfile.ZipInfo(name, _FIXED)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            package.writestr(entry, data)
    return stream.getvalue()


def write_several(path: str | os.PathLike[str], files: Iterable[tuple[str, bytes]], *, replace: bool = False) -> None:
    """Write files into a zip, if the name ends in ``.zip``, or else into a new folder; whole or not at all."""
    if str(path).lower().endswith(".zip"):
        with open_aside(path) as stream:
            stream.write(pack(files))
        return
    with folder_aside(path, replace=replace) as folder:
        for name, data in files:
            target = inside(folder, name)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)


def safe_name(text: str) -> str:
    """Return a text as the name of a file that every system takes; different texts may give the same name.

    Examples
    --------
    >>> safe_name("../0012 a/b.jpg"), safe_name("")
    ('0012_a_b.jpg', 'unnamed')
    """
    kept = "".join(one if one.isascii() and (one.isalnum() or one in "._-") else "_" for one in text)
    return kept.lstrip("._-")[:100] or "unnamed"


def _beside(name: str) -> bool:
    """Files that systems put beside others: hidden ones, and what a packing program of one system adds."""
    return any(one.startswith(".") or one == "__MACOSX" for one in name.split("/"))
