"""Bring the ledger of an older version up to the present one; the lines stay as they are, byte for byte.

::

    1 -> 2    hearts got the numbers they are known by, collections their current version

What is not a line follows from the files beside the ledger, so it is made again from them. The old file stays beside
the new one until a curator removes it.
"""

from __future__ import annotations

import fcntl
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import orjson

from chordae.errors import InputError
from chordae.registry.entry import Entry
from chordae.registry.ledger import FORMAT, Ledger
from chordae.registry.made import read_rows

__all__ = ["convert"]


def convert(folder: Path) -> int:
    """Convert, and return the version that the ledger had.

    Raises
    ------
    InputError
        The ledger cannot be read, is newer than this chordae, or its registry is in use.
    """
    path = folder / "ledger.sqlite"
    if not path.is_file():
        raise InputError(f"There is no ledger {path}.")
    with (folder / "lock").open("ab") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            raise InputError("The registry is in use.", "End its service first.") from None
        with closing(sqlite3.connect(path)) as old:
            try:
                before = int(old.execute("PRAGMA user_version").fetchone()[0])
                bodies = [str(row[0]) for row in old.execute("SELECT body FROM entries ORDER BY number")]
            except sqlite3.DatabaseError as error:
                raise InputError(f"{path} is not a ledger: {error}.", "Restore it from a backup.") from None
            old.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        if before == FORMAT:
            return before
        if before > FORMAT:
            raise InputError(f"The ledger has version {before}; this chordae knows {FORMAT}.", "Use a newer chordae.")
        _write_new(folder, bodies)
        shutil.copyfile(path, path.with_suffix(f".version-{before}"))
        for name in ("ledger.sqlite-wal", "ledger.sqlite-shm"):
            (folder / name).unlink(missing_ok=True)
        (folder / "ledger.new").replace(path)
    return before


def _write_new(folder: Path, bodies: list[str]) -> None:
    aside = folder / "ledger.new"
    aside.unlink(missing_ok=True)
    ledger = Ledger(aside, write=True)
    try:
        for body in bodies:
            entry = Entry(orjson.loads(body))
            if entry.text != body:
                raise InputError(f"Line {entry.number} of the ledger cannot be kept byte for byte.")
            taken = entry.is_version
            ledger.add(entry, read_rows(folder / "made" / f"{entry.number:08d}") if taken else ())
    finally:
        ledger.close()
    with closing(sqlite3.connect(aside)) as new:
        new.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        new.execute("PRAGMA journal_mode=DELETE")
