"""From a table to first drafts of its crosswalk: what can be told for certain is filled in, the rest is asked.

::

    heading "Tricuspid valve / leaflet count"  ->  tricuspid_valve, leaflet_count, number
    words "discordant", "concordant"           ->  the property whose values are called so
    word "levo-TGA"                            ->  left blank; note: "7 times; near: ..."

A word is taken for a value only if it is, but for case, spaces and hyphens, a name of that value in the words of
either school. A word that can mean more than one thing is marked ambiguous, with the question. Nothing here is a
decision: the reviewer's column stays empty until somebody has looked.
"""

from __future__ import annotations

import csv
import io
import os
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from chordae import model
from chordae.errors import InputError
from chordae.files import write_aside
from chordae.formulas import guarded
from chordae.intake.cells import Refusal, parse_date, parse_measurement, parse_number, parse_percent
from chordae.intake.crosswalk_rules import COLUMN_HEADINGS, UNITS, VALUE_HEADINGS
from chordae.intake.grid import Table
from chordae.intake.questions import question_about
from chordae.intake.source import COLUMNS, VALUES
from chordae.intake.targets import AREAS, LISTS, Target, find_target
from chordae.wordlist import term_words

__all__ = ["Drafts", "suggest_crosswalk"]

_DATES = ("y-m-d", "d.m.y", "d/m/y", "m/d/y", "m.y", "y")
_NOTATION = re.compile(r"\{[^{}]*,[^{}]*,[^{}]*\}")
_MOST_WORDS = 200
_LONG = 40
_ENOUGH = 0.5
_YEARS = range(1600, 2100)


@dataclass(slots=True)
class Drafts:
    """Rows for columns.tsv and values.tsv; each row is a mapping of heading to text."""

    columns: list[dict[str, str]] = field(default_factory=list)
    values: list[dict[str, str]] = field(default_factory=list)

    def write(self, folder: str | os.PathLike[str]) -> None:
        """Write both files into a folder, which is made if it is not there.

        Raises
        ------
        InputError
            It is a file, or holds a crosswalk already: what somebody filled in is never written over.
        """
        try:
            Path(folder).mkdir(parents=True, exist_ok=True)
        except (FileExistsError, NotADirectoryError):
            raise InputError(f"{folder} cannot be a folder: a file has that name.", "Name another folder.") from None
        for name in (COLUMNS, VALUES):
            if (Path(folder) / name).exists():
                raise InputError(f"There is a {name} in {folder} already.", "Name a new folder, then compare the two.")
        write_aside(Path(folder) / COLUMNS, _tsv(COLUMN_HEADINGS, self.columns))
        write_aside(Path(folder) / VALUES, _tsv(VALUE_HEADINGS, self.values))


def suggest_crosswalk(table: Table, *, ask: Callable[[str], str | None] = question_about) -> Drafts:
    """Draft a crosswalk for a table.

    Parameters
    ----------
    table
        The table.
    ask
        Returns the question about a word that can mean more than one thing, else ``None``.
    """
    drafts = Drafts()
    known = _Names()
    for index, heading in enumerate(table.headings):
        words = Counter(row.cells[index] for row in table.rows if row.cells[index])
        target = known.target(heading, words)
        row = _column(heading, words, target, len(table.rows), first=index == 0)
        drafts.columns.append(row)
        if row["kind"] == "value":
            for word, count in words.most_common():
                question = ask(word)
                drafts.values.append(_value(heading, word, count, target, known, question))
    return drafts


class _Names:
    """Looks up slots by their words, and values by the names of their terms."""

    def __init__(self) -> None:
        self._names: dict[str, set[str]] = defaultdict(set)
        for word, slugs in term_words().items():
            for slug in slugs:
                self._names[slug].add(_key(word))
        self._values: dict[str, dict[str, set[str]]] = {}

    def value(self, slot: str, word: str) -> str | None:
        """Return the value of a slot that a word names, if it names just one."""
        found = self._words(slot).get(_key(word), set())
        return next(iter(found)) if len(found) == 1 else None

    def near(self, slot: str, word: str) -> list[str]:
        """Return names of values that look like a word."""
        return get_close_matches(_key(word), list(self._words(slot)), 3, 0.6)

    def target(self, heading: str, words: Counter[str]) -> Target | None:
        """Guess the place that a column fills: by its heading, else by its words."""
        named = _by_heading().get(_key(heading))
        if named is not None and len(named) == 1:
            return named[0]
        scores: dict[Target, int] = {}
        part = _part_in(heading)
        for target in _candidates():
            if target.is_part if part is None else target.area != part:
                continue
            hits = sum(1 for word in words if self.value(target.cell_slot, word) is not None)
            if hits and hits >= len(words) * _ENOUGH:
                scores[target] = hits
        best = sorted(scores, key=lambda one: -scores[one])
        clear = len(best) == 1 or (len(best) > 1 and scores[best[0]] > scores[best[1]])
        return best[0] if clear else None

    def _words(self, slot: str) -> dict[str, set[str]]:
        if slot not in self._values:
            found: dict[str, set[str]] = defaultdict(set)
            for value, iri in (model.enum_of(slot) or {}).items():
                for name in {_key(value), *self._names[iri.rpartition("/")[2]]}:
                    found[name].add(value)
            self._values[slot] = found
        return self._values[slot]


@cache
def _candidates() -> tuple[Target, ...]:
    """Return every place with words of its own."""
    found: list[Target] = []
    for area, name in [*AREAS.items(), *((part, row.type) for part, row in model.tables().parts.items())]:
        for slot in model.class_slots(name):
            target = find_target(area, slot)
            if isinstance(target, Target) and target.entry is None and target.kind == "enum":
                found.append(target)
    return tuple(found)


@cache
def _by_heading() -> Mapping[str, list[Target]]:
    """Return the places by the headings that name them: "leaflet count" alone, or with the part before it."""
    found: dict[str, list[Target]] = defaultdict(list)
    for area, name in [*AREAS.items(), *((part, row.type) for part, row in model.tables().parts.items())]:
        for slot in model.class_slots(name):
            target = find_target(area, slot)
            if not isinstance(target, Target) or (target.entry in LISTS and target.entry != "Commitment"):
                continue
            for text in {f"{area} {slot}", *([] if target.is_part else [slot])}:
                found[_key(text)].append(target)
    for slot in model.tables().slots:
        owners = [part for part, row in model.tables().parts.items() if slot in model.class_slots(row.type)]
        if len(owners) == 1 and isinstance(target := find_target(owners[0], slot), Target):
            found[_key(slot)].append(target)
    return found


def _part_in(heading: str) -> str | None:
    """Return the part that a heading names, alone or before " / "."""
    words = {_key(one) for one in (heading, heading.split(" / ")[0])}
    return next((part for part in model.tables().parts if _key(part) in words), None)


def _column(heading: str, words: Counter[str], target: Target | None, rows: int, *, first: bool) -> dict[str, str]:
    filled = sum(words.values())
    row = dict.fromkeys(COLUMN_HEADINGS, "") | {"column": heading}
    if not filled:
        return row | {"kind": "ignore", "note": "no filled cells"}
    if target is not None:
        row |= {"part": target.area, "property": target.slot + (f".{target.member}" if target.member else "")}
    note = f"{filled} of {rows} filled, {len(words)} different"
    if first and len(words) == filled == rows and target is None:
        return row | {"part": "specimen", "property": "accession", "kind": "identifier", "note": note}
    if sum(count for word, count in words.items() if _NOTATION.search(word)) > filled / 2:
        return row | {"part": "", "property": "", "kind": "notation", "note": note}
    kind, style, unit = _kind(list(words), target)
    return row | {"kind": kind, "style": style, "unit": unit, "note": note}


def _kind(words: list[str], target: Target | None) -> tuple[str, str, str]:
    """Return kind, style and unit; the kind is empty where somebody has to say it."""
    if target is not None and target.kind == "enum":
        return "value", "", ""
    for style in _DATES:
        if all(not isinstance(parse_date(word, style), Refusal) for word in words):
            dated = target is None or target.kind == "date"
            if style != "y" or (dated and all(int(word) in _YEARS for word in words)):
                return "date", style, ""
    for style in ("", "decimal_comma"):
        if all(not isinstance(parse_number(word, style), Refusal) for word in words):
            return ("number" if target is not None else ""), style, ""
        if all(not isinstance(parse_percent(word, style), Refusal) for word in words):
            return "percent", style, ""
        for unit in UNITS:
            if all(not isinstance(parse_measurement(word, unit, style), Refusal) for word in words):
                return "measurement", style, unit
    if target is not None and target.kind in ("text", "uri"):
        return "text", "", ""
    long = sum(1 for word in words if len(word) > _LONG) > len(words) / 4
    return ("remark" if long or len(words) > _MOST_WORDS else "value"), "", ""


def _value(
    heading: str, word: str, count: int, target: Target | None, known: _Names, question: str | None
) -> dict[str, str]:
    row = dict.fromkeys(VALUE_HEADINGS, "") | {"column": heading, "local": word}
    times = f"{count} time{'' if count == 1 else 's'}"
    if question is not None:
        return row | {"match": "ambiguous", "note": question}
    slot = target.cell_slot if target is not None else ""
    value = known.value(slot, word) if slot else None
    if value is None:
        near = known.near(slot, word) if slot else []
        return row | {"note": f"{times}; near: {', '.join(near)}" if near else times}
    state = value in ("not_assessable", "not_examined")
    return row | {"state" if state else "value": value, "match": "exact", "note": times}


def _key(text: str) -> str:
    """Return a text with spaces for hyphens, underscores and slashes, single spaces, and no capitals."""
    return " ".join(re.sub(r"[-_/]+", " ", text).split()).casefold()


def _tsv(headings: tuple[str, ...], rows: list[dict[str, str]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, delimiter="\t", lineterminator="\n")
    writer.writerow(headings)
    writer.writerows([guarded(" ".join(row[one].split()), bare=True) for one in headings] for row in rows)
    return text.getvalue()
