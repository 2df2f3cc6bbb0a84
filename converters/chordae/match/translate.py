"""A catalogue in the words of one collection to a table in the words of another, and what does not survive.

::

    tolliver_bay/catalogue.csv  --read-->  records  --facts-->  words of veyhaven  --table
                                              |                                      |
                                              +------ compared with ----- read back -+

A cell is written only if *everything* that it says is a fact of the heart: a word that says more than was recorded is
never chosen. What is lost is not worked out from a list; the table is read again with the other crosswalk, and each
fact that does not come back is named.
"""

from __future__ import annotations

import csv
import io
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from chordae.exchange.catalogue import find_catalogue
from chordae.facts import Fact, each_fact
from chordae.intake.build import build
from chordae.intake.crosswalk import Crosswalk, read_crosswalk
from chordae.intake.grid import RawRow, make_table
from chordae.intake.source import Source, find_crosswalk, read_source
from chordae.issues import Issue, counted, issue
from chordae.match.say import Sayer, area_words, place_words
from chordae.record import Record

__all__ = ["NOT_CARRIED", "Translation", "translate_collection", "translate_records"]

NOT_CARRIED = "Not carried over"
"""Heading of the last column: the facts of each heart that the words of the other collection do not hold."""

_NOT_OF_THE_HEART = frozenset({"record", "description"})


@dataclass(frozen=True, slots=True)
class Translation:
    """The table as text (TSV), and what does not survive, fact by fact.

    ``kept`` and ``lost`` count facts over all records; ``by_place`` counts the lost ones by property.
    """

    table: str
    records: int
    kept: int
    lost: int
    by_place: Mapping[str, int]
    issues: tuple[Issue, ...] = field(default_factory=tuple)

    def summary(self) -> str:
        """Return the counts in words."""
        whole = self.kept + self.lost
        share = f" ({100 * self.kept / whole:.1f} %)" if whole else ""
        lines = [f"{counted(self.records, 'description')}; {self.kept:,} of {counted(whole, 'fact')} kept{share}."]
        most = list(self.by_place.items())[:15]
        lines += [f"  lost {count:>5,} {'time: ' if count == 1 else 'times:'} {place}" for place, count in most]
        return "\n".join(lines) + "\n"


def translate_collection(folder: Path, into: Path) -> Translation:
    """Translate the catalogue of one folder into the words of the crosswalk of another.

    Raises
    ------
    InputError
        One of them has no crosswalk, or the first no catalogue.
    """
    catalogue = find_catalogue(folder)
    columns, values = find_crosswalk(folder) if not catalogue.is_document else (None, None)
    built = read_source(Source(str(catalogue.path), columns, values, catalogue.sheet, catalogue.encoding))
    crosswalk, faults = read_crosswalk(*find_crosswalk(into))
    found = translate_records([one.record for one in built.readings], crosswalk)
    return Translation(
        found.table, found.records, found.kept, found.lost, found.by_place, (*built.issues, *faults, *found.issues)
    )


def translate_records(records: Sequence[Record], crosswalk: Crosswalk) -> Translation:
    """Write records in the words of a crosswalk.

    Parameters
    ----------
    records
        Full records.
    crosswalk
        Of the collection into whose words they are put.
    """
    sayer = Sayer(crosswalk)
    headings = list(crosswalk.columns)
    rows = [sayer.row(record) for record in records]
    lines = [headings, *([row.get(heading, "") for heading in headings] for row in rows)]
    issues: list[Issue] = []
    missing: list[str] = []
    kept = 0
    places: Counter[str] = Counter()
    for record, back in zip(records, _read_back(lines, crosswalk, records), strict=True):
        lost = list(_lost(record, back))
        missing.append("; ".join(f"{area_words(one.area)}: {place_words(one)}: {_said(one)}" for one in lost))
        kept += sum(_counts(fact) for fact in each_fact(record)) - len(lost)
        for fact in lost:
            place = f"{area_words(fact.area)}: {place_words(fact)}"
            places[place] += 1
            why = sayer.why_not(fact)
            value = fact.value if fact.value is not None else fact.state
            issues.append(
                issue("I-TRA-01", record=str(record.get("id")), part=fact.area, value=value, place=place, why=why)
            )
        for said in sayer.less(record):
            issues.append(issue("I-TRA-02", record=str(record.get("id")), **said))
    marked = [[*line, mark] for line, mark in zip(lines, [NOT_CARRIED, *missing], strict=True)]
    text = io.StringIO()
    csv.writer(text, delimiter="\t", lineterminator="\n").writerows(marked)
    by_place = dict(places.most_common())
    return Translation(text.getvalue(), len(records), kept, sum(places.values()), by_place, tuple(issues))


def _read_back(
    lines: Sequence[Sequence[str]], crosswalk: Crosswalk, records: Sequence[Record]
) -> Iterator[Mapping[str, Any] | None]:
    """Yield for each record the one that its row gives, ``None`` where the row is refused."""
    if len(lines) < 2:
        return
    raw = (RawRow(number, list(cells)) for number, cells in enumerate(lines, 1))
    table, _ = make_table("translated", raw)
    built = build(table, crosswalk)
    by_line: dict[int | None, Record] = {}
    for reading in built.readings:
        by_line[reading.place("").line] = reading.record
    for number in range(len(records)):
        yield by_line.get(number + 2)


def _lost(record: Record, back: Mapping[str, Any] | None) -> Iterator[Fact]:
    there: dict[tuple[str, str], set[str]] = defaultdict(set)
    for fact in each_fact(back or {}):
        there[fact.place].add(_said(fact))
    for fact in each_fact(record):
        if _counts(fact) and _said(fact) not in there[fact.place]:
            yield fact


def _counts(fact: Fact) -> bool:
    """Whether a fact is one of the heart; school, reader and date belong to the description."""
    return fact.area not in _NOT_OF_THE_HEART and fact.slot != "accession"


def _said(fact: Fact) -> str:
    return str(fact.value) if fact.value is not None else fact.state
