"""What the records of a set say of each other: readings in, one by one; issues out at the end.

::

    with Across() as across:
        for reading in readings:
            across.add(reading)             or, from elsewhere: across.add_facts(facts_of(reading, derived))
        issues = list(across.issues())

Ids that stand twice, copies, references into another record, descriptions of one specimen that contradict in what
follows from them, hearts on loan that the lender does not have: ``schema/set_rules.yaml``.

One specimen is known by its accession number within a collection; and in another collection by a number that one of
the two *says* the heart has elsewhere (``other_numbers``). Equal numbers of two collections are no sign by themselves.

What has to be remembered stands in a file of its own that goes when the pass ends, so memory does not grow with the
number of records. Where nobody derived them yet, only descriptions of specimens that are described more than once are.
What is found does not depend on who worked out the facts; the later of two records is named, in the order of adding.
"""

from __future__ import annotations

import sqlite3
import zlib
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import orjson

from chordae.issues import Issue, Location
from chordae.record import Reading, Record
from chordae.shapes.profile import DEFAULT, Profile
from chordae.shapes.set_facts import facts_of
from chordae.shapes.set_rules import tell_set
from chordae.shapes.set_waivers import SetFinding, SetWaivers, premises_of
from chordae.shapes.specimens import Described, compare, tell_description

__all__ = ["Across"]

_TABLES = """
PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA temp_store = FILE; PRAGMA cache_size = -8000;
CREATE TABLE heard (number INTEGER PRIMARY KEY, id TEXT, collection TEXT, whole TEXT, rest TEXT, place BLOB,
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
CREATE INDEX IF NOT EXISTS by_id ON heard (id); CREATE INDEX IF NOT EXISTS by_rest ON heard (rest);
CREATE INDEX IF NOT EXISTS by_name ON named (name, kind, collection);
"""


class Across:
    """One pass over a set of records.

    Parameters
    ----------
    derive
        What follows from a record; by default :func:`chordae.derive.derive`.
    profile
        What a registry asks for: the severity of rules, and which are not to be heard.
    """

    def __init__(
        self, derive: Callable[[Record], Mapping[str, Any]] | None = None, *, profile: Profile = DEFAULT
    ) -> None:
        self._derive = derive
        self._profile = profile
        self._number = 0
        self._base = sqlite3.connect("")  # a file of its own, removed by SQLite when it is closed
        self._base.executescript(_TABLES)
        self._waivers = SetWaivers(self._base)

    def __enter__(self) -> Across:
        return self

    def __exit__(self, *error: object) -> None:
        self._base.close()

    def add(self, reading: Reading, derived: Mapping[str, Any] | None = None) -> None:
        """Remember what is needed of a full record, sound in structure; with what follows from it, if that is known."""
        self.add_facts(facts_of(reading, derived))

    def add_facts(self, facts: Mapping[str, Any]) -> None:
        """Remember the facts of a record (:func:`chordae.shapes.set_facts.facts_of`)."""
        self._number += 1
        number, collection, lender = self._number, facts["collection"], facts["lender"]
        content = None
        if "told" in facts:
            content = orjson.dumps(facts["told"])
        elif "record" in facts:
            content = zlib.compress(orjson.dumps(facts["record"]), 1)
        self._base.execute(
            "INSERT INTO heard VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (
                number,
                facts["id"],
                collection,
                facts["whole"],
                facts["rest"],
                orjson.dumps(facts["place"]),
                facts["later"],
                content,
            ),
        )
        rows = [("own", collection, facts["own"], number, lender)] if facts["own"] else []
        rows += [("other", collection, one, number, lender) for one in facts["others"]]
        self._base.executemany("INSERT INTO named VALUES (?, ?, ?, ?, ?)", rows)
        self._base.executemany("INSERT INTO referred VALUES (?, ?, ?, ?)", [(number, *one) for one in facts["refs"]])
        for waiver in facts["waivers"]:
            self._waivers.add(number, facts["id"], waiver)

    def issues(self) -> Iterator[Issue]:
        """Yield what was found, rule by rule, then what is wrong with confirmations of it.

        Confirmed warnings are for the record. A set of one record gives next to nothing.
        """
        for found in self.findings():
            issue = self._profile.apply(found.issue)
            if issue is not None:
                yield self._waivers.settle(found, issue)
        yield from (one for each in self._waivers.faults() if (one := self._profile.apply(each)) is not None)

    def findings(self) -> Iterator[SetFinding]:
        """Yield what was found as the rules have it, whoever confirms it."""
        self._base.executescript(_INDEXES)
        yield from self._ids()
        yield from self._copies()
        yield from self._references()
        yield from self._specimens()
        yield from self._lenders()

    def _ids(self) -> Iterator[SetFinding]:
        query = (
            "SELECT later.number, later.id, later.whole = first.whole, first.place FROM heard AS later "
            "JOIN heard AS first ON first.number = (SELECT min(number) FROM heard WHERE id = later.id) "
            "WHERE later.number > first.number ORDER BY later.number"
        )
        for number, name, same, place in self._rows(query):
            rule = "R-SET-02" if same else "R-SET-01"
            where = str(_location(place)) or "earlier in the set"
            yield SetFinding(self._tell(rule, number, name, "/id", value=name, place=where), number)

    def _copies(self) -> Iterator[SetFinding]:
        query = (
            "SELECT later.number, later.id, first.id, first.number, later.rest FROM heard AS later "
            "JOIN heard AS first ON first.number = (SELECT min(number) FROM heard WHERE rest = later.rest) "
            "WHERE later.id <> first.id ORDER BY later.number"
        )
        for number, name, other, first, rest in self._rows(query):
            told = self._tell("R-SET-03", number, name, None, other=f"heart {other}")
            yield SetFinding(told, number, first, other, premises_of("R-SET-03", [name, rest], [other, rest]))

    def _references(self) -> Iterator[SetFinding]:
        query = (
            "SELECT referred.number, heard.id, path, key, value, other.id FROM referred JOIN heard USING (number) "
            "JOIN heard AS other ON other.number = (SELECT min(number) FROM heard AS one WHERE one.id = referred.value "
            "OR one.id = substr(referred.value, 1, instr(referred.value, '/') - 1)) "
            "WHERE other.id <> heard.id ORDER BY referred.number, path"
        )
        for number, name, path, key, value, other in self._rows(query):
            told = self._tell("R-SET-04", number, name, path, key=key, value=value, other=f"heart {other}")
            yield SetFinding(told, number)

    def _specimens(self) -> Iterator[SetFinding]:
        own = (
            "SELECT name, collection, group_concat(number) FROM (SELECT * FROM named WHERE kind = 'own' "
            "ORDER BY number) GROUP BY name, collection ORDER BY min(number)"
        )
        for name, _, numbers in self._rows(own):
            group = [int(one) for one in str(numbers).split(",")]
            first = self._described(group[0])
            if len(group) == 1 and first.later:
                told = self._of(first, "R-SET-09", "/description/reader", value=first.later)
                yield SetFinding(told, first.number, premises=premises_of("R-SET-09", [first.id, first.later, name]))
            for number in group[1:]:
                yield from self._compared(self._described(number), first, name, "R-SET-05")
        for query in (_OWN_ELSEWHERE, _SAID_BY_BOTH):
            for number, other, name in self._rows(query):
                yield from self._compared(self._described(number), self._described(other), name, "R-SET-06")

    def _compared(self, later: Described, first: Described, name: str, rule: str) -> Iterator[SetFinding]:
        self._waivers.compared(later.number, first.number, rule)
        for one in compare(later, first, name, rule, self._of):
            mine, other = (
                [each.id, each.rest]
                if one.rule == "R-SET-08"
                else [each.id, each.told["conclusions"], each.told["facts"]]
                for each in (later, first)
            )
            yield SetFinding(one, later.number, first.number, first.id, premises_of(one.rule, mine, other))

    def _lenders(self) -> Iterator[SetFinding]:
        query = (
            "SELECT number, heard.id, lender, name FROM named JOIN heard USING (number) WHERE kind = 'other' "
            "AND lender IN (SELECT DISTINCT collection FROM heard) AND lender <> '' AND NOT EXISTS "
            "(SELECT 1 FROM named AS own WHERE own.kind = 'own' AND own.collection = named.lender "
            "AND own.name IN (SELECT name FROM named AS said WHERE said.number = named.number AND said.kind = 'other'))"
            " ORDER BY number, name"
        )
        for number, name, lender, value in self._rows(query):
            told = self._tell("R-SET-10", number, name, "/specimen/other_numbers", value=value, owner=lender)
            yield SetFinding(told, number, premises=premises_of("R-SET-10", [name, lender, value]))

    def _described(self, number: int) -> Described:
        row = self._base.execute(
            "SELECT id, collection, place, later, whole, rest FROM heard WHERE number = ?", (number,)
        ).fetchone()
        name, collection, place, later, whole, rest = row
        return Described(number, name, collection, _location(place), later, whole, rest, lambda: self._told(number))

    def _told(self, number: int) -> Mapping[str, Any]:
        (content,) = self._base.execute("SELECT content FROM heard WHERE number = ?", (number,)).fetchone()
        if content[:1] == b"{":  # told already; a packed record begins otherwise (RFC 1950)
            found: Mapping[str, Any] = orjson.loads(content)
            return found
        record = orjson.loads(zlib.decompress(content))
        return tell_description(record, self._derived(record))

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


def _location(place: bytes) -> Location:
    return Location(*orjson.loads(place))
