"""A deposit as a package: its digest, a copy that is on disk, a ZIP of it, and a ZIP safely unpacked.

The digest of a deposit is the SHA-256 of its ``tagmanifest-sha256.txt``, which holds the digest of the list of
files, which holds the digest of every file: two deposits with one digest are the same, byte for byte.

References
----------
RFC 8493 (BagIt 1.0), sections 2.1.3 and 2.2.1. Order and dates in the ZIP are fixed: the same deposit is the same file.
"""

from __future__ import annotations

import errno
import hashlib
import os
import shutil
import stat
import zipfile
from collections.abc import Iterator
from pathlib import Path

from chordae import files
from chordae.errors import InputError
from chordae.intake.package import BROKEN_ZIP, PACKED
from chordae.registry.place import sync_folder

__all__ = ["MAX_FILES", "MAX_TOTAL", "copy_deposit", "deposit_digest", "digest_file", "pack", "unpack"]

MAX_FILES = 10_000
MAX_TOTAL = 8 * 1024**3
"""Largest deposit taken in, in bytes, unpacked."""
_RATIO = 400
_SMALL = 16 * 1024 * 1024
_BLOCK = 1024 * 1024
_DATE = (1980, 1, 1, 0, 0, 0)
_OF_THE_ZIP = (errno.EINVAL, errno.ENAMETOOLONG, errno.ENOTDIR, errno.EISDIR, errno.EEXIST)
"""What the system says of a place or a name that the ZIP gives; a full disk is another matter."""


def deposit_digest(folder: Path) -> str:
    """Return the digest of a deposit.

    Raises
    ------
    InputError
        It has no list of tag files.
    """
    path = folder / "tagmanifest-sha256.txt"
    if path.is_symlink() or not path.is_file():
        raise InputError(
            f"{folder} is no deposit: tagmanifest-sha256.txt is missing.",
            'Name the folder that "chordae exchange" wrote.',
        )
    return digest_file(path)


def digest_file(path: Path) -> str:
    """Return the SHA-256 of a file, in hex."""
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def copy_deposit(source: Path, target: Path) -> None:
    """Copy the plain files of a deposit into a new folder and make sure that they are on disk; links are left out."""
    target.mkdir(parents=True)
    for path in _plain(source):
        copy = target / path.relative_to(source)
        copy.parent.mkdir(parents=True, exist_ok=True)
        with path.open("rb") as read, copy.open("wb") as write:
            shutil.copyfileobj(read, write, _BLOCK)
            write.flush()
            os.fsync(write.fileno())
    for top, _, _ in os.walk(target):
        sync_folder(Path(top))


def pack(folder: Path, target: Path) -> None:
    """Write a deposit as a ZIP file; the same deposit gives the same bytes."""
    with files.open_aside(target) as stream, zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as out:
        for path in sorted(_plain(folder), key=lambda one: one.relative_to(folder).as_posix()):
            told = zipfile.ZipInfo(path.relative_to(folder).as_posix(), _DATE)
            told.compress_type = zipfile.ZIP_DEFLATED
            told.external_attr = 0o644 << 16
            with path.open("rb") as read, out.open(told, "w", force_zip64=True) as write:
                shutil.copyfileobj(read, write, _BLOCK)


def unpack(archive: Path, target: Path, limit: int = MAX_TOTAL) -> None:
    """Unpack the ZIP of a deposit into a new folder; a folder around the deposit is taken off.

    Raises
    ------
    InputError
        It is no ZIP, is damaged or encrypted, leads out of the folder, holds a link or a name twice, or unpacks to
        more than ``limit`` bytes or to far more than a deposit ever would.
    """
    try:
        with zipfile.ZipFile(archive) as found:
            entries = [one for one in found.infolist() if not one.filename.endswith("/")]
            _look(entries, archive.stat().st_size, limit)
            target.mkdir(parents=True)
            room = limit
            for one in entries:
                room -= _take(found, one, target, room)
    except BROKEN_ZIP as error:
        problem = " ".join(str(error).split())[:150] or type(error).__name__
        raise InputError(f"it is no sound ZIP file ({problem})") from None
    except OSError as error:
        if error.errno not in _OF_THE_ZIP:
            raise
        raise InputError("it is no sound ZIP file (a place or a name in it is none)") from None
    inner = list(target.iterdir())
    if len(inner) == 1 and inner[0].is_dir() and not (target / "bagit.txt").exists():
        moved = target.with_name(target.name + ".inner")
        inner[0].rename(moved)
        target.rmdir()
        moved.rename(target)


def _look(entries: list[zipfile.ZipInfo], size: int, limit: int) -> None:
    if len(entries) > MAX_FILES:
        raise InputError(f"it holds {len(entries):,} files, more than {MAX_FILES:,}")
    total = sum(one.file_size for one in entries)
    if total > limit or (total > _SMALL and total > size * _RATIO):
        raise InputError(f"it would unpack to {total:,} bytes")
    names = [one.filename for one in entries]
    if len(set(names)) < len(names):
        raise InputError("it holds a name twice")
    for one in entries:
        if not one.filename:
            raise InputError("it holds a file without a name")
        if one.compress_type not in PACKED:
            raise InputError("it is packed in another way than deflate")
        if one.flag_bits & 1:
            raise InputError("it is encrypted")
        if stat.S_ISLNK(one.external_attr >> 16):
            raise InputError("it holds a link")


def _take(found: zipfile.ZipFile, one: zipfile.ZipInfo, target: Path, room: int) -> int:
    try:
        path = files.inside(target, one.filename)
    except InputError:
        raise InputError("a name in it leads out of the folder") from None
    path.parent.mkdir(parents=True, exist_ok=True)
    written = 0
    with found.open(one) as read, path.open("wb") as write:
        while block := read.read(_BLOCK):
            written += len(block)
            if written > room:
                raise InputError("it unpacks to more than it says")
            write.write(block)
    return written


def _plain(folder: Path) -> Iterator[Path]:
    for top, _, names in os.walk(folder, followlinks=False):
        for name in names:
            path = Path(top) / name
            if not path.is_symlink() and path.is_file():
                yield path
