"""The folder of a registry: made, opened for reading by many, opened for writing by one.

::

    with Registry.open(folder, write=True) as registry: ...

The lock is one of the operating system: it ends with the process, however that ends. Opening for writing sweeps away
what an interrupted run left, and brings the store up to the ledger.
"""

from __future__ import annotations

import fcntl
import os
import re
import shutil
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO, Any

import orjson

from chordae import files
from chordae.errors import InputError
from chordae.rdf.emit import check_base
from chordae.registry.ledger import Ledger
from chordae.registry.profile import EXAMPLE, Profile, read_profile

__all__ = ["LAYOUT", "Registry", "create", "sync_folder"]

LAYOUT = 1
"""Version of the folder."""
_FOLDERS = ("deposits", "made", "store", "store/seen", "incoming", "queue")
_DIGEST = re.compile(r"[0-9a-f]{64}")


@dataclass
class Registry:
    """An open registry."""

    folder: Path
    about: dict[str, Any]
    profile: Profile
    ledger: Ledger
    writable: bool = False
    _lock: IO[bytes] | None = field(default=None, repr=False)

    @property
    def base(self) -> str:
        """IRI under which this registry names its versions."""
        return str(self.about["base_iri"])

    @property
    def name(self) -> str:
        """Name in words."""
        return str(self.about["name"])

    @property
    def incoming(self) -> Path:
        """Where uploads and half-done work stand; emptied of half-done work at each start."""
        return self.folder / "incoming"

    def deposit(self, digest: str) -> Path:
        """Return the folder of a deposit."""
        if not _DIGEST.fullmatch(digest):
            raise InputError(f"{digest[:80]!r} is not the digest of a deposit.", "Give 64 hexadecimal digits.")
        return self.folder / "deposits" / digest

    def made(self, number: int) -> Path:
        """Return the folder of what was made for a line of the ledger."""
        return self.folder / "made" / f"{number:08d}"

    @classmethod
    @contextmanager
    def open(cls, folder: str | os.PathLike[str], *, write: bool = False) -> Iterator[Registry]:
        """Open a registry.

        Raises
        ------
        InputError
            There is no registry, or another process writes to it.
        """
        top = Path(folder)
        about = _about(top)
        lock = _locked(top) if write else None
        try:
            ledger = Ledger(top / "ledger.sqlite", write=write)
            try:
                profile = read_profile(top / "profile.yaml")
                registry = cls(top, about, profile, ledger, write, lock)
                if write:
                    _sweep(registry)
                yield registry
            finally:
                ledger.close()
        finally:
            if lock is not None:
                lock.close()


def create(folder: str | os.PathLike[str], name: str, base_iri: str) -> None:
    """Make an empty registry.

    Parameters
    ----------
    folder
        New or empty.
    name
        Name in words.
    base_iri
        IRI under which it names its versions; ends in a slash or a hash.
    """
    if not base_iri.startswith(("https://", "http://", "urn:")):
        raise InputError(f"{base_iri!r} is no IRI of a registry.", "Give one such as https://example.org/registry/ .")
    about = {"id": str(uuid.uuid4()), "name": name, "base_iri": check_base(base_iri), "layout": LAYOUT, "peers": {}}
    with files.folder_aside(folder) as aside:
        for one in _FOLDERS:
            (aside / one).mkdir()
        (aside / "registry.json").write_bytes(orjson.dumps(about, option=orjson.OPT_INDENT_2) + b"\n")
        (aside / "profile.yaml").write_text(EXAMPLE, encoding="utf-8")
        Ledger(aside / "ledger.sqlite", write=True).close()


def sync_folder(path: Path) -> None:
    """Make sure that the names in a folder are on disk."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _about(top: Path) -> dict[str, Any]:
    try:
        found = orjson.loads((top / "registry.json").read_bytes())
    except (OSError, orjson.JSONDecodeError):
        raise InputError(
            f"There is no registry in {top}.", "Make one: chordae registry create FOLDER --name NAME --base IRI"
        ) from None
    if not isinstance(found, dict) or found.get("layout") != LAYOUT:
        raise InputError(f"The registry {top} has another layout than this chordae knows.", "See its runbook.")
    return found


def _locked(top: Path) -> IO[bytes]:
    stream = (top / "lock").open("ab")
    try:
        fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        stream.close()
        raise InputError(
            f"The registry {top} is being written to by another process.",
            "If it is being served, use its address: chordae registry submit DEPOSIT --to URL",
        ) from None
    return stream


def _sweep(registry: Registry) -> None:
    """Remove what an interrupted run left: it was never in the ledger. Uploads that may go on stay."""
    last = registry.ledger.last()
    number = last.number if last else 0
    for one in (registry.folder / "made").iterdir():
        if not one.name.isdigit() or int(one.name) > number:
            shutil.rmtree(one)
    for one in registry.incoming.iterdir():
        if one.name.startswith("work."):
            shutil.rmtree(one)
    for one in (registry.folder / "deposits").iterdir():
        if not registry.ledger.of_deposit(one.name):
            shutil.rmtree(one)
