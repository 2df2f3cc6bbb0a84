"""The ledger: decisions one after another in one SQLite file; lines are added, never changed and never removed.

::

    entries  number  digest  previous  deposit  collection  outcome  body      triggers refuse UPDATE and DELETE
    hearts   number  record  iri  accession  place  length  facts              where each description stands
    numbers  number  record  said                                              the numbers it is known by
    heads    collection  number                                                the current version of each collection

One transaction writes a line with its hearts: it is there whole or not at all, also after a loss of power.
``heads`` follows from the lines and can be made again.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import orjson

from chordae.errors import InputError
from chordae.registry.entry import START, Entry

__all__ = ["FORMAT", "HeartRow", "Ledger"]

FORMAT = 2
"""Version of the tables; :mod:`chordae.registry.convert` brings older ones up."""

_TABLES = """
CREATE TABLE IF NOT EXISTS entries (number INTEGER PRIMARY KEY, digest TEXT NOT NULL UNIQUE, previous TEXT NOT NULL,
  kind TEXT NOT NULL, deposit TEXT NOT NULL, collection TEXT NOT NULL, outcome TEXT NOT NULL, body TEXT NOT NULL);
CREATE INDEX IF NOT EXISTS by_deposit ON entries (deposit);
CREATE INDEX IF NOT EXISTS by_collection ON entries (collection, number);
CREATE TABLE IF NOT EXISTS hearts (number INTEGER NOT NULL, record TEXT NOT NULL, iri TEXT NOT NULL,
  accession TEXT NOT NULL, place INTEGER NOT NULL, length INTEGER NOT NULL, facts TEXT NOT NULL,
  PRIMARY KEY (number, record)) WITHOUT ROWID;
CREATE INDEX IF NOT EXISTS by_iri ON hearts (iri);
CREATE INDEX IF NOT EXISTS by_accession ON hearts (number, accession);
CREATE INDEX IF NOT EXISTS by_facts ON hearts (facts) WHERE facts <> '';
CREATE TABLE IF NOT EXISTS numbers (said TEXT NOT NULL, number INTEGER NOT NULL, record TEXT NOT NULL,
  PRIMARY KEY (said, number, record)) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS heads (collection TEXT PRIMARY KEY, number INTEGER NOT NULL) WITHOUT ROWID;
CREATE TRIGGER IF NOT EXISTS no_change BEFORE UPDATE ON entries
  BEGIN SELECT RAISE(ABORT, 'a line of the ledger is never changed'); END;
CREATE TRIGGER IF NOT EXISTS no_removal BEFORE DELETE ON entries
  BEGIN SELECT RAISE(ABORT, 'a line of the ledger is never removed'); END;
"""


@dataclass(frozen=True, slots=True)
class HeartRow:
    """Where one description stands and by what it may be known again.

    ``place`` and ``length`` are the bytes of its line in ``hearts.ndjson``; ``numbers`` are the catalogue numbers
    it is known by, ``facts`` the digest of its derived facts (empty if these are too common to tell anything).
    """

    record: str
    iri: str
    accession: str
    place: int
    length: int
    facts: str
    numbers: tuple[str, ...] = ()


class Ledger:
    """The open ledger; ``write`` only for the one process that holds the lock of the registry.

    Raises
    ------
    InputError
        The file is not a ledger of this version.
    """

    def __init__(self, path: Path, *, write: bool = False) -> None:
        self.path = path
        new = not path.exists()
        if new and not write:
            raise InputError(f"There is no ledger {path}.", "Make the registry first: chordae registry create FOLDER")
        self._connection = sqlite3.connect(path, isolation_level=None, check_same_thread=False, timeout=30)
        try:
            self._connection.execute("PRAGMA journal_mode=WAL")
            self._connection.execute("PRAGMA synchronous=FULL")
            if new:
                self._connection.executescript(f"BEGIN; {_TABLES} PRAGMA user_version={FORMAT}; COMMIT;")
            found = self._connection.execute("PRAGMA user_version").fetchone()[0]
        except sqlite3.DatabaseError as error:
            raise InputError(f"{path} is not a ledger: {error}.", "Restore it from a backup.") from None
        if found != FORMAT:
            raise InputError(
                f"The ledger {path} has version {found}; this chordae works with version {FORMAT}.",
                "Bring it up with: chordae registry convert FOLDER" if found < FORMAT else "Use a newer chordae.",
            )

    def close(self) -> None:
        """Close the file."""
        self._connection.close()

    def last(self) -> Entry | None:
        """Return the last line."""
        return self._one("SELECT body FROM entries ORDER BY number DESC LIMIT 1")

    def get(self, number: int) -> Entry | None:
        """Return a line by its number."""
        return self._one("SELECT body FROM entries WHERE number = ?", number)

    def of_deposit(self, deposit: str) -> list[Entry]:
        """Return the lines that speak of a deposit, in their order."""
        return self._many("SELECT body FROM entries WHERE deposit = ? ORDER BY number", deposit)

    def entries(self, after: int = 0, limit: int = -1, collection: str | None = None) -> list[Entry]:
        """Return lines in their order."""
        if collection is None:
            return self._many("SELECT body FROM entries WHERE number > ? ORDER BY number LIMIT ?", after, limit)
        return self._many(
            "SELECT body FROM entries WHERE number > ? AND collection = ? ORDER BY number LIMIT ?",
            after,
            collection,
            limit,
        )

    def head(self, collection: str) -> Entry | None:
        """Return the line that made the current version of a collection."""
        return self._one("SELECT body FROM entries JOIN heads USING (number) WHERE heads.collection = ?", collection)

    def heads(self) -> list[Entry]:
        """Return the lines of all current versions, by collection."""
        return self._many("SELECT body FROM entries JOIN heads USING (number) ORDER BY heads.collection")

    def has_origin(self, digest: str) -> bool:
        """Say whether a line of another registry, or of this one, is here."""
        query = "SELECT 1 FROM entries WHERE digest = ? OR json_extract(body, '$.origin.digest') = ? LIMIT 1"
        return self._connection.execute(query, (digest, digest)).fetchone() is not None

    def hearts(self, number: int, after: str = "", limit: int = -1) -> list[HeartRow]:
        """Return the descriptions that came with a line, by record id."""
        query = (
            "SELECT record, iri, accession, place, length, facts FROM hearts WHERE number = ? AND record > ? "
            "ORDER BY record LIMIT ?"
        )
        return [HeartRow(*row) for row in self._connection.execute(query, (number, after, limit))]

    def heart(self, number: int, record: str) -> HeartRow | None:
        """Return one description that came with a line."""
        query = "SELECT record, iri, accession, place, length, facts FROM hearts WHERE number = ? AND record = ?"
        row = self._connection.execute(query, (number, record)).fetchone()
        return HeartRow(*row) if row else None

    def same_specimen(self, number: int, row: HeartRow) -> list[HeartRow]:
        """Return the other descriptions of the same catalogue number that came with a line."""
        if not row.accession:
            return []
        query = (
            "SELECT record, iri, accession, place, length, facts FROM hearts "
            "WHERE number = ? AND accession = ? AND record <> ? ORDER BY record LIMIT 20"
        )
        return [HeartRow(*one) for one in self._connection.execute(query, (number, row.accession, row.record))]

    def elsewhere(self, column: str, value: str, collection: str, limit: int) -> list[tuple[str, str, str]]:
        """Return (collection, record, accession) of descriptions in the current versions of *other* collections.

        ``column`` is ``iri``, ``facts`` or ``said`` (any number a heart is known by).
        """
        tables = {
            "iri": "hearts WHERE hearts.iri = ?",
            "facts": "hearts WHERE hearts.facts = ? AND hearts.facts <> ''",
            "said": "numbers JOIN hearts USING (number, record) WHERE numbers.said = ?",
        }
        query = (
            f"SELECT heads.collection, record, accession FROM heads JOIN (SELECT hearts.number AS number, "  # noqa: S608 - one of three texts above
            f"hearts.record AS record, accession FROM {tables[column]}) USING (number) "
            "WHERE heads.collection <> ? ORDER BY 1, 2 LIMIT ?"
        )
        return [(str(a), str(b), str(c)) for a, b, c in self._connection.execute(query, (value, collection, limit))]

    def shared_iris(self, limit: int = 100) -> list[tuple[str, tuple[str, ...]]]:
        """Return identifiers that the current versions of two collections hold, with the collections."""
        query = (
            "SELECT iri, GROUP_CONCAT(DISTINCT heads.collection) FROM heads JOIN hearts USING (number) GROUP BY iri "
            "HAVING COUNT(DISTINCT heads.collection) > 1 ORDER BY iri LIMIT ?"
        )
        return [
            (str(iri), tuple(sorted(str(names).split(",")))) for iri, names in self._connection.execute(query, (limit,))
        ]

    def add(self, entry: Entry, hearts: Iterable[HeartRow] = ()) -> None:
        """Add a line with its hearts, in one transaction; the moment at which a decision counts."""
        last = self.last()
        number, digest = (last.number, last.digest) if last else (0, START)
        if entry.number != number + 1 or entry.previous != digest:
            raise InputError("The ledger has gone on in the meantime.", "Hand the deposit in again.")
        with self._transaction() as run:
            run.execute(
                "INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                (
                    entry.number,
                    entry.digest,
                    entry.previous,
                    entry.kind,
                    entry.deposit,
                    entry.collection,
                    entry.outcome,
                    entry.text,
                ),
            )
            rows = list(hearts)
            run.executemany(
                "INSERT INTO hearts VALUES (?, ?, ?, ?, ?, ?, ?)",
                ((entry.number, one.record, one.iri, one.accession, one.place, one.length, one.facts) for one in rows),
            )
            run.executemany(
                "INSERT OR IGNORE INTO numbers VALUES (?, ?, ?)",
                ((said, entry.number, one.record) for one in rows for said in one.numbers),
            )
            if entry.current:
                self._set_head(run, entry)

    @contextmanager
    def _transaction(self) -> Iterator[sqlite3.Connection]:
        self._connection.execute("BEGIN IMMEDIATE")
        try:
            yield self._connection
            self._connection.execute("COMMIT")
        except BaseException:
            if self._connection.in_transaction:
                self._connection.execute("ROLLBACK")
            raise

    def _set_head(self, run: sqlite3.Connection, entry: Entry) -> None:
        number = entry.body.get("chosen", entry.number)  # a resolution chooses a version that is there already
        run.execute("INSERT OR REPLACE INTO heads VALUES (?, ?)", (entry.collection, number))

    def _one(self, query: str, *values: object) -> Entry | None:
        row = self._connection.execute(query, values).fetchone()
        return Entry(orjson.loads(row[0])) if row else None

    def _many(self, query: str, *values: object) -> list[Entry]:
        return [Entry(orjson.loads(row[0])) for row in self._connection.execute(query, values)]
