"""What the records of a set say of each other: readings in, one by one; issues out at the end.

::

    with Across() as across:
        for reading in readings:
            across.add(reading)
        issues = list(across.issues())

Ids that stand twice, copies, references into another record, descriptions of one specimen that contradict in what
follows from them, hearts on loan that the lender does not have: ``schema/set_rules.yaml``.

One specimen is known by its accession number within a collection; and in another collection by a number that one of
the two *says* the heart has elsewhere (``other_numbers``). Equal numbers of two collections are no sign by themselves.

What has to be remembered stands in a file of its own that goes when the pass ends, so memory does not grow with the
number of records. Only descriptions of specimens that are described more than once are derived again.
"""

from __future__ import annotations

import hashlib
import re
import sqlite3
import zlib
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import orjson

from chordae.issues import Issue, Location
from chordae.model import tables
from chordae.record import Reading, Record, pointer
from chordae.shapes.set_rules import set_table, tell_set
from chordae.shapes.specimens import Described, compare

__all__ = ["Across"]

_SPACE = re.compile(r"\s+")
_TABLES = """
PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA temp_store = FILE; PRAGMA cache_size = -8000;
CREATE TABLE heard (number INTEGER PRIMARY KEY, id TEXT, collection TEXT, whole BLOB, rest BLOB, place BLOB,
    later TEXT, content BLOB);
CREATE TABLE named (kind TEXT, collection TEXT, name TEXT, number INTEGER, lender TEXT);
CREATE TABLE referred (number INTEGER, path TEXT, key TEXT, value TEXT);
"""
# Every description is held against the first of a group only, so that a number given to all of them costs no square.
_OWN_ELSEWHERE = """
SELECT one.number, min(other.number), one.name FROM named AS one JOIN named AS other ON one.name = other.name
WHERE one.kind = 'other' AND other.kind = 'own' AND one.collection <> other.collection AND (one.lender = ''
    OR one.lender = other.collection OR one.lender NOT IN (SELECT DISTINCT collection FROM heard))
GROUP BY one.number, one.name, other.collection ORDER BY one.number, other.collection
"""
_SAID_BY_BOTH = """
SELECT one.number, first.number, one.name FROM named AS one JOIN (SELECT min(number) AS number, name, lender FROM named
    WHERE kind = 'other' AND lender <> '' GROUP BY name, lender) AS first
    ON first.name = one.name AND first.lender = one.lender
WHERE one.kind = 'other' AND one.number > first.number ORDER BY one.number
"""
_INDEXES = """
CREATE INDEX by_id ON heard (id); CREATE INDEX by_rest ON heard (rest);
CREATE INDEX by_name ON named (name, kind, collection);
"""


class Across:
    """One pass over a set of records.

    Parameters
    ----------
    derive
        What follows from a record; by default :func:`chordae.derive.derive`.
    """

    def __init__(self, derive: Callable[[Record], Mapping[str, Any]] | None = None) -> None:
        self._derive = derive
        self._number = 0
        self._base = sqlite3.connect("")  # a file of its own, removed by SQLite when it is closed
        self._base.executescript(_TABLES)

    def __enter__(self) -> Across:
        return self

    def __exit__(self, *error: object) -> None:
        self._base.close()

    def add(self, reading: Reading) -> None:
        """Remember what is needed of a full record, sound in structure."""
        record = reading.record
        self._number += 1
        content = orjson.dumps(record, option=orjson.OPT_SORT_KEYS)
        rest = orjson.dumps({key: one for key, one in record.items() if key != "id"}, option=orjson.OPT_SORT_KEYS)
        specimen, description = (record.get(name) or {} for name in ("specimen", "description"))
        collection, accession = _plain(record.get("collection")), _plain(specimen.get("accession"))
        numbers = [_plain(one) for one in specimen.get("other_numbers") or ()]
        lender = _plain(specimen.get("loan_from"))
        reader = str(description.get("reader") or "")
        later = reader if reader.casefold() in set_table()["later_readings"] else None
        place = reading.place("")
        self._base.execute(
            "INSERT INTO heard VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (
                self._number,
                str(record.get("id")),
                collection,
                _digest(content),
                _digest(rest) if record.get("parts") or record.get("stated") else None,
                orjson.dumps([place.file, place.line, place.column, place.sheet]),
                later,
                zlib.compress(content, 1) if accession or numbers else None,
            ),
        )
        rows = [("own", collection, accession, self._number, lender)] if accession else []
        rows += [("other", collection, one, self._number, lender) for one in numbers if one]
        self._base.executemany("INSERT INTO named VALUES (?, ?, ?, ?, ?)", rows)
        self._base.executemany("INSERT INTO referred VALUES (?, ?, ?, ?)", self._foreign(record))

    def issues(self) -> Iterator[Issue]:
        """Yield what was found, rule by rule; a set of one record gives next to nothing."""
        self._base.executescript(_INDEXES)
        yield from self._ids()
        yield from self._copies()
        yield from self._references()
        yield from self._specimens()
        yield from self._lenders()

    def _ids(self) -> Iterator[Issue]:
        query = (
            "SELECT later.number, later.id, later.whole = first.whole, first.place FROM heard AS later "
            "JOIN heard AS first ON first.number = (SELECT min(number) FROM heard WHERE id = later.id) "
            "WHERE later.number > first.number ORDER BY later.number"
        )
        for number, name, same, place in self._rows(query):
            rule = "R-SET-02" if same else "R-SET-01"
            where = str(_location(place)) or "earlier in the set"
            yield self._tell(rule, number, name, "/id", value=name, place=where)

    def _copies(self) -> Iterator[Issue]:
        query = (
            "SELECT later.number, later.id, first.id FROM heard AS later JOIN heard AS first ON first.number = "
            "(SELECT min(number) FROM heard WHERE rest = later.rest) "
            "WHERE later.id <> first.id ORDER BY later.number"
        )
        for number, name, other in self._rows(query):
            yield self._tell("R-SET-03", number, name, None, other=f"heart {other}")

    def _references(self) -> Iterator[Issue]:
        query = (
            "SELECT referred.number, heard.id, path, key, value, other.id FROM referred JOIN heard USING (number) "
            "JOIN heard AS other ON other.number = (SELECT min(number) FROM heard AS one WHERE one.id = referred.value "
            "OR one.id = substr(referred.value, 1, instr(referred.value, '/') - 1)) "
            "WHERE other.id <> heard.id ORDER BY referred.number, path"
        )
        for number, name, path, key, value, other in self._rows(query):
            yield self._tell("R-SET-04", number, name, path, key=key, value=value, other=f"heart {other}")

    def _specimens(self) -> Iterator[Issue]:
        own = (
            "SELECT name, collection, group_concat(number) FROM (SELECT * FROM named WHERE kind = 'own' "
            "ORDER BY number) GROUP BY name, collection ORDER BY min(number)"
        )
        for name, _, numbers in self._rows(own):
            group = [self._described(int(one)) for one in str(numbers).split(",")]
            if len(group) == 1 and group[0].later:
                yield self._of(group[0], "R-SET-09", "/description/reader", value=group[0].later)
            for later in group[1:]:
                yield from compare(later, group[0], name, "R-SET-05", self._of)
        for query in (_OWN_ELSEWHERE, _SAID_BY_BOTH):
            for number, other, name in self._rows(query):
                yield from compare(self._described(number), self._described(other), name, "R-SET-06", self._of)

    def _lenders(self) -> Iterator[Issue]:
        query = (
            "SELECT number, heard.id, lender, name FROM named JOIN heard USING (number) WHERE kind = 'other' "
            "AND lender IN (SELECT DISTINCT collection FROM heard) AND lender <> '' AND NOT EXISTS "
            "(SELECT 1 FROM named AS own WHERE own.kind = 'own' AND own.collection = named.lender "
            "AND own.name IN (SELECT name FROM named AS said WHERE said.number = named.number AND said.kind = 'other'))"
            " ORDER BY number, name"
        )
        for number, name, lender, value in self._rows(query):
            yield self._tell("R-SET-10", number, name, "/specimen/other_numbers", value=value, owner=lender)

    def _described(self, number: int) -> Described:
        row = self._base.execute(
            "SELECT id, collection, place, later, content, whole FROM heard WHERE number = ?", (number,)
        ).fetchone()
        name, collection, place, later, content, whole = row
        record = orjson.loads(zlib.decompress(content))
        return Described(number, name, collection, _location(place), later, record, whole, self._derived)

    def _derived(self, record: Record) -> Mapping[str, Any]:
        if self._derive is None:
            from chordae.derive import derive

            self._derive = derive
        return self._derive(record)

    def _of(self, one: Described, rule: str, path: str | None, **fields: Any) -> Issue:
        return tell_set(rule, record=one.id, path=path, location=one.place, **fields)

    def _tell(self, rule: str, number: int, name: str, path: str | None, **fields: Any) -> Issue:
        (place,) = self._base.execute("SELECT place FROM heard WHERE number = ?", (number,)).fetchone()
        return tell_set(rule, record=name, path=path, location=_location(place), **fields)

    def _rows(self, query: str) -> Iterator[tuple[Any, ...]]:
        yield from self._base.execute(query)

    def _foreign(self, record: Record) -> Iterator[tuple[int, str, str, str]]:
        """References to something that the record does not hold."""
        known = {str(one.get("id")) for name in ("parts", "evidence", "measurements") for one in record.get(name) or ()}
        for path, key, value in _references(record, ""):
            if value not in known:
                yield self._number, path, key, value


def _references(node: Any, path: str) -> Iterator[tuple[str, str, str]]:
    slots = tables().slots
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, value in items:
        where = path + pointer(key)
        slot = slots.get(key) if isinstance(key, str) else None
        if slot is not None and slot.kind == "reference":
            for one in value if isinstance(value, list) else [value]:
                if isinstance(one, str):
                    yield where, slot.name, one
        elif isinstance(value, dict | list):
            yield from _references(value, where)


def _digest(data: bytes) -> bytes:
    return hashlib.sha256(data).digest()


def _location(place: bytes) -> Location:
    return Location(*orjson.loads(place))


def _plain(value: object) -> str:
    """A number or name without blanks and capitals; what holds neither letter nor digit is no number."""
    text = _SPACE.sub("", str(value or "")).casefold()
    return text if any(map(str.isalnum, text)) else ""
