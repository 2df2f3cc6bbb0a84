"""What was found in a record before, kept in a folder: an unchanged record is not checked again.

::

    FOLDER/findings-<what decides>.sqlite       key -> findings, sealed
                     |                           |
                     |                           SHA-256 of the record as it was read, and of its base IRI
                     SHA-256 of rules, criteria, vocabulary, code, engine and its version

A finding is kept without its place in a file: places are looked up again, so that a row may move. A profile and
confirmations are applied afterwards and are no part of it.

Nothing kept is believed because it is there. Each entry carries a seal over key and content: one that is damaged, cut
off, or belongs to another record is noticed, thrown away and told of, and the record is checked again. A file that is
no database is replaced. With ``audit`` a share of the entries is worked out again and compared. (The seal is no
safeguard against somebody who means to deceive: who can write the folder can also run chordae.)

Several threads and several processes may share a folder; entries are written whole or not at all.
"""

from __future__ import annotations

import contextlib
import hashlib
import sqlite3
import threading
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any

import orjson

from chordae import resources
from chordae.errors import InputError
from chordae.issues import Issue, Location, issue
from chordae.record import Record
from chordae.shapes.waivers import Finding

__all__ = ["FindingsCache", "Kept", "deciding", "record_key"]

_KEPT = ("rule", "severity", "message", "hint", "record", "part", "path", "value", "source")
_BATCH = 256
_WAIT = 10.0
_ENGINES: Mapping[str, tuple[str, ...]] = {"fast": ("shacl",)}
_REFERENCE = ("pyshacl", "rdflib")


@dataclass(frozen=True, slots=True)
class Kept:
    """What came of a record: its findings without places, and the nodes that rules look at, by kind."""

    findings: tuple[Finding, ...]
    looked: Mapping[str, int]


@cache
def deciding(engine: str) -> str:
    """Return the digest of everything beside the record that decides what is found, for an engine."""
    whole = hashlib.sha256(resources.digest("schema").encode())
    for name, file in sorted(_code(files("chordae"), "")):
        whole.update(f"{name}\t{hashlib.sha256(file.read_bytes()).hexdigest()}\n".encode())
    for package in _ENGINES.get(engine, _REFERENCE):
        try:
            whole.update(f"{package} {version(package)}\n".encode())
        except PackageNotFoundError:
            whole.update(f"{package} ?\n".encode())
    whole.update(engine.encode())
    return whole.hexdigest()


def record_key(record: Record, base: str | None) -> str | None:
    """Return the key of a record; ``None`` if it holds something that no document can hold."""
    try:
        data = orjson.dumps([base, record], option=orjson.OPT_SORT_KEYS)
    except (TypeError, RecursionError):
        return None
    return hashlib.sha256(data).hexdigest()


@dataclass
class FindingsCache:
    """The findings kept in a folder.

    Parameters
    ----------
    folder
        Made if it is not there.
    engine
        Name of the engine whose findings are kept.

    Attributes
    ----------
    hits, misses
        Records answered from the folder, and not.
    issues
        What was wrong with the folder.

    Raises
    ------
    InputError
        The folder cannot be made or written.
    """

    folder: Path
    engine: str
    hits: int = 0
    misses: int = 0
    issues: list[Issue] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.path = self.folder / f"findings-{deciding(self.engine)[:24]}.sqlite"
        self._lock = threading.Lock()
        self._waiting: dict[str, bytes] = {}
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise InputError(f"{self.folder} cannot be used: {error.strerror}.", "Name another folder.") from None
        self._base = self._open()

    def get(self, key: str) -> Kept | None:
        """Return what was kept under a key, if it is there and whole."""
        with self._lock:
            row = None
            if (waiting := self._waiting.get(key)) is not None:
                row = (waiting, _seal(key, waiting))
            else:
                with self._careful():
                    row = self._base.execute("SELECT content, seal FROM kept WHERE key = ?", (key,)).fetchone()
            kept = _unpack(key, row) if row is not None else None
            if row is not None and kept is None:
                self._throw(key, "is damaged")
            self.hits, self.misses = (self.hits + 1, self.misses) if kept else (self.hits, self.misses + 1)
            return kept

    def put(self, key: str, kept: Kept) -> None:
        """Keep what was found; written with others, at the latest by :meth:`close`."""
        with self._lock:
            self._waiting[key] = _pack(kept)
            if len(self._waiting) >= _BATCH:
                self._write()

    def wrong(self, key: str) -> None:
        """Throw away an entry that is not what the record gives when it is worked out again."""
        with self._lock:
            self._throw(key, "does not hold what the record gives now")

    def close(self) -> None:
        """Write what is waiting and let go of the file."""
        with self._lock:
            self._write()
            self._base.close()

    def __enter__(self) -> FindingsCache:
        return self

    def __exit__(self, *error: object) -> None:
        self.close()

    def _open(self) -> sqlite3.Connection:
        try:
            return _connect(self.path)
        except sqlite3.DatabaseError as error:
            if isinstance(error, sqlite3.OperationalError) and "unable to open" in str(error):
                raise InputError(f"{self.folder} cannot be written.", "Name another folder.") from None
            self._tell(f"the file {self.path.name} is damaged and was replaced")
            for ending in ("", "-wal", "-shm", "-journal"):
                self.path.with_name(self.path.name + ending).unlink(missing_ok=True)
            return _connect(self.path)

    def _write(self) -> None:
        rows = [(key, content, _seal(key, content)) for key, content in self._waiting.items()]
        self._waiting.clear()
        with self._careful(), self._base:
            self._base.executemany("INSERT OR REPLACE INTO kept VALUES (?, ?, ?)", rows)

    def _throw(self, key: str, what: str) -> None:
        self._waiting.pop(key, None)
        with self._careful(), self._base:
            self._base.execute("DELETE FROM kept WHERE key = ?", (key,))
        self._tell(f"an entry {what}; it was thrown away")

    @contextlib.contextmanager
    def _careful(self) -> Iterator[None]:
        """Let a fault of the database cost time, never a result."""
        try:
            yield
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) and "busy" not in str(error):
                self._tell(f"the file {self.path.name} could not be used ({error})")
        except sqlite3.DatabaseError as error:
            self._tell(f"the file {self.path.name} is damaged ({error})")

    def _tell(self, problem: str) -> None:
        told = issue("I-CAC-01", location=Location(str(self.path)), problem=problem)
        if told not in self.issues:
            self.issues.append(told)


def _connect(path: Path) -> sqlite3.Connection:
    base = sqlite3.connect(path, timeout=_WAIT, check_same_thread=False)
    try:
        base.execute("PRAGMA journal_mode = WAL")
        base.execute("PRAGMA synchronous = NORMAL")
        base.execute("CREATE TABLE IF NOT EXISTS kept (key TEXT PRIMARY KEY, content BLOB, seal BLOB) WITHOUT ROWID")
        base.execute("SELECT key, content, seal FROM kept LIMIT 1").fetchone()
        base.commit()
    except sqlite3.DatabaseError:
        base.close()
        raise
    return base


def _seal(key: str, content: bytes) -> bytes:
    return hashlib.sha256(key.encode() + b"\0" + content).digest()


def _pack(kept: Kept) -> bytes:
    told = [[one.premises, *(getattr(one.issue, name) for name in _KEPT)] for one in kept.findings]
    return orjson.dumps([told, dict(sorted(kept.looked.items()))])


def _unpack(key: str, row: tuple[Any, Any]) -> Kept | None:
    content, seal = row
    if not isinstance(content, bytes) or seal != _seal(key, content):
        return None
    try:
        told, looked = orjson.loads(content)
        return Kept(tuple(_finding(one) for one in told), {str(kind): int(number) for kind, number in looked.items()})
    except (ValueError, TypeError, KeyError, AttributeError):
        return None


def _finding(told: Sequence[Any]) -> Finding:
    premises, *values = told
    return Finding(Issue(**dict(zip(_KEPT, values, strict=True))), premises)


def _code(folder: Traversable, prefix: str) -> Iterator[tuple[str, Traversable]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            if entry.name not in {"__pycache__", "schema", "mappings"}:
                yield from _code(entry, f"{prefix}{entry.name}/")
        elif entry.name.endswith((".py", ".json")):
            yield prefix + entry.name, entry
