"""Backup of a registry while it is used, and its restoration, verified by digests.

::

    backup   ledger.sqlite and tokens.sqlite (consistent copies)  deposits/  made/  audit.ndjson  registry.json ...
    restore  a new folder; the store is made again from the ledger when it is opened

The store is not copied: it follows from the ledger.
"""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from chordae import files
from chordae.errors import InputError
from chordae.registry.copies import check_copy, close_copy, copy_tree
from chordae.registry.entry import START, now
from chordae.registry.ledger import Ledger
from chordae.registry.place import Registry

__all__ = ["back_up", "restore"]

_PLAIN = ("registry.json", "profile.yaml", "audit.ndjson")
_FOLDERS = ("deposits", "made", "store/seen", "incoming", "queue")


def back_up(registry: Registry, out: Path) -> dict[str, Any]:
    """Write a backup into a new folder; the registry may be served meanwhile.

    Returns
    -------
    dict
        Number and digest of the last line that is in it.
    """
    with files.folder_aside(out) as aside:
        for name in ("ledger.sqlite", "tokens.sqlite"):
            if (registry.folder / name).exists():
                _copy_database(registry.folder / name, aside / name)
        ledger = Ledger(aside / "ledger.sqlite")
        entries = ledger.entries()
        ledger.close()
        for entry in entries:
            if entry.kind == "submission":
                copy_tree(registry.deposit(entry.deposit), aside / "deposits" / entry.deposit)
                copy_tree(registry.made(entry.number), aside / "made" / f"{entry.number:08d}")
        for name in _PLAIN:
            if (registry.folder / name).exists():
                shutil.copyfile(registry.folder / name, aside / name)
        for left in ("ledger.sqlite-wal", "ledger.sqlite-shm", "tokens.sqlite-wal", "tokens.sqlite-shm"):
            (aside / left).unlink(missing_ok=True)
        last = entries[-1].digest if entries else START
        about = {"kind": "backup", "at": now(), "lines": len(entries), "last": last}
        close_copy(aside, about)
    return about


def restore(source: Path, folder: Path) -> dict[str, Any]:
    """Make a registry from a backup, after every file was compared with its digest.

    Raises
    ------
    InputError
        The backup is not as it was written, or the folder is not empty. Nothing is written then.
    """
    about = check_copy(source, "backup")
    with files.folder_aside(folder) as aside:
        copy_tree(source, aside)
        for name in ("about.json", "manifest-sha256.txt"):
            (aside / name).unlink()
        for name in _FOLDERS:
            (aside / name).mkdir(parents=True, exist_ok=True)
        ledger = Ledger(aside / "ledger.sqlite")
        last = ledger.last()
        ledger.close()
        if (last.digest if last else START) != about["last"]:
            raise InputError("The ledger of the backup does not end as the backup says.", "Take another one.")
        if (aside / "tokens.sqlite").exists():
            (aside / "tokens.sqlite").chmod(0o600)
    return about


def _copy_database(source: Path, target: Path) -> None:
    with closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(target)) as new:
        old.backup(new)
        new.execute("PRAGMA journal_mode=DELETE")
