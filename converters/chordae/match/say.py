"""From the facts of a heart to the cells of a row, in the words of one crosswalk.

A word of a crosswalk may make several statements; it is chosen only where all of them are facts of the heart. Among
those that fit, the one that says most is taken, exact ones before others; in a column that holds lists, one after
another until nothing new is said.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from chordae import model
from chordae.facts import Fact, each_fact
from chordae.intake.crosswalk_rules import ANY, LIST_STYLES, NOT_RECORDED, ColumnRule, Crosswalk, ValueRule
from chordae.intake.targets import Target
from chordae.record import Record, say

__all__ = ["Sayer", "area_words", "place_words"]

_Place = tuple[str, str]
_BETWEEN = {"list_comma": ", ", "list_semicolon": "; ", "list_slash": " / ", "list_plus": " + "}
_NO_VALUE = ("not_assessable", "not_examined")
_ORDER = {"exact": 0, "close": 1, "broad": 2, "narrow": 3}


@dataclass(frozen=True, slots=True)
class _Word:
    """A local word with all that it says: place and value, or place and state."""

    text: str
    match: str
    says: frozenset[tuple[_Place, str]]


class Sayer:
    """Puts records into the words of one crosswalk."""

    def __init__(self, crosswalk: Crosswalk) -> None:
        self._crosswalk = crosswalk
        self._words: dict[str, list[_Word]] = {}
        for column, rules in crosswalk.columns.items():
            if any(one.kind == "value" for one in rules):
                self._words[column] = list(_words_of(crosswalk, column, rules))
        self._reach: dict[_Place, list[tuple[str, _Word]]] = defaultdict(list)
        for column, words in self._words.items():
            for word in words:
                for place, _ in word.says:
                    self._reach[place].append((column, word))

    def row(self, record: Record) -> dict[str, str]:
        """Return heading -> cell; a heading is left out where nothing fits."""
        facts = _by_place(record)
        row: dict[str, str] = {}
        for column, rules in self._crosswalk.columns.items():
            cell = self._cell(column, rules, record, facts)
            if cell:
                row[column] = cell
        return row

    def less(self, record: Record) -> Iterator[dict[str, Any]]:
        """Yield what is said by a word that is not exact."""
        facts = _by_place(record)
        for column in self._words:
            for word in self._chosen(column, facts):
                if word.match != "exact":
                    for place, said in sorted(word.says):
                        match = {"close": "near to", "broad": "wider", "narrow": "narrower"}[word.match]
                        told = f"{area_words(place[0])}: {place[1].replace('_', ' ')}"
                        yield {"value": said, "place": told, "word": word.text, "match": match, "part": place[0]}

    def why_not(self, fact: Fact) -> str:
        """Say why a fact did not come through."""
        near = self._reach.get(fact.place)
        if not near:
            return "no column of the other collection speaks of it"
        value = fact.value if fact.value is not None else fact.state
        fitting = [word.text for _, word in near if (fact.place, str(value)) in word.says]
        if fitting:
            return f'its words for it ("{fitting[0]}") also say what was not recorded of this heart'
        return "the other collection has no word for it"

    def _cell(
        self, column: str, rules: tuple[ColumnRule, ...], record: Record, facts: Mapping[_Place, set[str]]
    ) -> str:
        for rule in rules:
            if rule.kind == "value":
                words = [word.text for word in self._chosen(column, facts)]
                if words:
                    return _BETWEEN.get(rule.style, " ").join(words) if len(words) > 1 else words[0]
            elif (text := _other(rule, record, facts)) is not None:
                return text
        return ""

    def _chosen(self, column: str, facts: Mapping[_Place, set[str]]) -> list[_Word]:
        style = next((one.style for one in self._crosswalk.columns[column] if one.kind == "value"), "")
        fitting = [
            word for word in self._words[column] if all(said in facts.get(place, ()) for place, said in word.says)
        ]
        fitting.sort(key=lambda word: (-len(word.says), _ORDER[word.match], word.text))
        if style not in LIST_STYLES:
            return fitting[:1]
        chosen: list[_Word] = []
        told: set[tuple[_Place, str]] = set()
        for word in fitting:
            if not word.says <= told:
                chosen.append(word)
                told |= word.says
        return chosen


def place_words(fact: Fact) -> str:
    """Return the property of a fact in words."""
    return fact.slot.replace("_", " ").replace(".", ", ")


def area_words(area: str) -> str:
    """Return where a fact stands in words."""
    return say(area) if model.conventional(area) else area.replace("_", " ")


def _words_of(crosswalk: Crosswalk, column: str, rules: tuple[ColumnRule, ...]) -> Iterator[_Word]:
    targets = [rule.target for rule in rules if rule.kind == "value" and rule.target is not None]
    for (where, _), rows in crosswalk.values.items():
        if where not in (column, ANY):
            continue
        said: set[tuple[_Place, str]] = set()
        for row in rows:
            if row.match == "ambiguous" or row.state == NOT_RECORDED:
                said.clear()
                break
            for target in [row.target] if row.target else targets:
                said.add((_place(target), _value(row, target)))
        if said:
            worst = max((row.match for row in rows), key=lambda one: _ORDER[one])
            yield _Word(rows[0].local, worst, frozenset(said))


def _place(target: Target) -> _Place:
    return target.area, target.slot + (f".{target.member}" if target.member else "")


def _value(row: ValueRule, target: Target) -> str:
    if row.state in _NO_VALUE:
        return row.state
    text = row.value or row.state
    if target.entry == "Commitment" and not target.member:
        return text  # a ventricle without a share
    return text


def _by_place(record: Record) -> dict[_Place, set[str]]:
    """Return the facts by place; a list of entries counts by member, and by the members themselves."""
    found: dict[_Place, set[str]] = defaultdict(set)
    for fact in each_fact(record):
        found[fact.place].add(str(fact.value) if fact.value is not None else fact.state)
        slot, dot, member = fact.slot.partition(".")
        if dot and fact.value == "present":
            found[fact.area, slot].add(member)
    return found


def _other(rule: ColumnRule, record: Record, facts: Mapping[_Place, set[str]]) -> str | None:
    """Return the text of a cell that is no word: identifier, number, date, text, remark, notation."""
    if rule.kind == "identifier":
        specimen = record.get("specimen")
        accession = specimen.get("accession") if isinstance(specimen, Mapping) else None
        return str(accession if rule.target and rule.target.slot == "accession" and accession else record.get("id"))
    if rule.kind == "notation":
        return next(iter(facts.get(("stated", "notation"), ())), None)
    if rule.kind == "remark":
        texts = [str(one["text"]) for one in record.get("remarks") or () if one.get("text")]
        return "; ".join(texts) or None
    if rule.kind == "measurement":
        return _measured(rule, record)
    if rule.target is None or rule.kind not in ("number", "percent", "date", "text"):
        return None
    found = facts.get(_place(rule.target))
    if not found:
        return None
    text = sorted(found)[0]
    if rule.kind == "date":
        return _date(text, rule.style.split("|"))
    return text.replace(".", ",") if rule.style == "decimal_comma" else text


def _measured(rule: ColumnRule, record: Record) -> str | None:
    for one in record.get("measurements") or ():
        same = one.get("quantity") == rule.quantity and (one.get("part") or "") == rule.part
        if (
            same
            and one.get("unit") == rule.unit
            and all(one.get(name, value) == value for name, value in rule.extras.items())
        ):
            text = str(one["value"])
            return text.replace(".", ",") if rule.style == "decimal_comma" else text
    return None


def _date(text: str, styles: list[str]) -> str | None:
    pieces = text.split("-")
    wanted = {3: {"d.m.y": "{2}.{1}.{0}", "d/m/y": "{2}/{1}/{0}", "m/d/y": "{1}/{2}/{0}", "y-m-d": "{0}-{1}-{2}"},
              2: {"m.y": "{1}.{0}"}, 1: {"y": "{0}"}}  # fmt: skip
    for style in styles:
        form = wanted.get(len(pieces), {}).get(style)
        if form and all(one.isdigit() for one in pieces):
            return form.format(*pieces)
    return None
