"""From the name of a data file (``schema/...``, ``mappings/...``) to the file, in checkout or wheel.

::

    checkout:  <top>/schema/parts.yaml              <top>/converters/chordae/resources.py
    wheel:     site-packages/chordae/schema/...     site-packages/chordae/resources.py

An editable install holds only the code, so the files are then found in the checkout beside it.
"""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from chordae import __version__
from chordae.errors import ResourceError

__all__ = ["VERSION", "digest", "find", "read_bytes", "read_text"]

VERSION = __version__
"""Version of tool, schema, rules and vocabulary: they share one."""


def find(name: str) -> Traversable:
    """Find one data file or folder by its name from the top of the repository.

    Parameters
    ----------
    name
        For example ``schema/parts.yaml`` or ``mappings``; forward slashes, no ``..``.

    Returns
    -------
    Traversable
        Has ``read_text``, ``read_bytes``, ``iterdir``; a :class:`pathlib.Path` unless the package is zipped.

    Raises
    ------
    ResourceError
        There is no such file.
    """
    parts = name.split("/")
    if ".." not in parts:
        for root in _roots():
            found = root.joinpath(*parts)
            if found.is_file() or found.is_dir():
                return found
    raise ResourceError(f"The data file {name} is missing.", "Install chordae again, or look at the name.")


def read_bytes(name: str) -> bytes:
    """Return the bytes of a data file."""
    return find(name).read_bytes()


def read_text(name: str) -> str:
    """Return the text (UTF-8) of a data file."""
    return find(name).read_text(encoding="utf-8")


def digest(name: str) -> str:
    """Return the SHA-256 of a data file in hex; of a folder, over the names and digests of its files."""
    found = find(name)
    if found.is_file():
        return hashlib.sha256(found.read_bytes()).hexdigest()
    whole = hashlib.sha256()
    for sub, file in _walk(found, ""):
        whole.update(f"{sub}\t{hashlib.sha256(file.read_bytes()).hexdigest()}\n".encode())
    return whole.hexdigest()


@cache
def _roots() -> tuple[Traversable, ...]:
    package = files("chordae")
    top = Path(__file__).parents[2]
    return (package, top) if (top / "pyproject.toml").is_file() else (package,)


def _walk(folder: Traversable, prefix: str) -> list[tuple[str, Traversable]]:
    found: list[tuple[str, Traversable]] = []
    for entry in sorted(folder.iterdir(), key=lambda one: one.name):
        name = f"{prefix}{entry.name}"
        if entry.is_dir():
            if entry.name != "__pycache__":
                found.extend(_walk(entry, name + "/"))
        else:
            found.append((name, entry))
    return found
