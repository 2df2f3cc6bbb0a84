"""A folder of files with a list of their digests: how registries are exported and backed up.

::

    <folder>/ manifest-sha256.txt    one line a file, as sha256sum -c reads it
              about.json             what it is a copy of, up to which line of the ledger
              ...
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import orjson

from chordae import files
from chordae.errors import InputError
from chordae.registry.package import digest_file

__all__ = ["MANIFEST", "check_copy", "close_copy", "copy_tree"]

MANIFEST = "manifest-sha256.txt"


def copy_tree(source: Path, target: Path) -> None:
    """Copy the plain files of a folder; links are left out."""
    for path in _files(source):
        copy = target / path.relative_to(source)
        copy.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, copy)


def close_copy(folder: Path, about: dict[str, Any]) -> None:
    """Write what the folder is, and the digests of all its files."""
    (folder / "about.json").write_bytes(orjson.dumps(about, option=orjson.OPT_INDENT_2) + b"\n")
    names = sorted(path.relative_to(folder).as_posix() for path in _files(folder))
    lines = [f"{digest_file(folder / name)}  {name}\n" for name in names]
    (folder / MANIFEST).write_text("".join(lines), encoding="utf-8")


def check_copy(folder: Path, kind: str) -> dict[str, Any]:
    """Compare every file with its digest, and return what the folder is.

    Raises
    ------
    InputError
        It is no such copy, or a file is missing, changed or too many.
    """
    try:
        listed = (folder / MANIFEST).read_text(encoding="utf-8").splitlines()
        about: dict[str, Any] = orjson.loads((folder / "about.json").read_bytes())
    except (OSError, ValueError):
        raise InputError(f"{folder} is no {kind} of a registry.", f"Name a folder that the {kind} wrote.") from None
    if not isinstance(about, dict) or about.get("kind") != kind:
        raise InputError(f"{folder} is no {kind} of a registry, but {about.get('kind', 'something else')!r}.")
    there = {path.relative_to(folder).as_posix() for path in _files(folder)} - {MANIFEST}
    for line in listed:
        digest, _, name = line.partition("  ")
        path = files.inside(folder, name)
        if name not in there:
            raise InputError(f"The {kind} lacks the file {name}.", "Take another one.")
        if digest_file(path) != digest:
            raise InputError(f"In the {kind} the file {name} is not as it was written.", "Take another one.")
        there.remove(name)
    if there:
        raise InputError(
            f"The {kind} holds the file {sorted(there)[0]}, which is not in its list.", "Take another one."
        )
    return about


def _files(folder: Path) -> Iterator[Path]:
    for top, _, names in os.walk(folder, followlinks=False):
        for name in names:
            path = Path(top) / name
            if path.is_file() and not path.is_symlink():
                yield path
