"""From a review table that a curator filled in back to decisions, and every mistake in it as an issue.

Every row with a decision is either taken or an issue at its place; rows without one are passed over. A decision that
differs from the one in force is added to the history, with a remark that it changed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chordae.errors import InputError
from chordae.files import read_input
from chordae.formulas import unguarded
from chordae.identifiers import prefixes
from chordae.intake.crosswalk_rules import ANY, NOT_RECORDED, Crosswalk, normalised
from chordae.intake.grid import Row, Table
from chordae.intake.table import read_table
from chordae.intake.targets import Mistake, Target, find_target, has_state, typed
from chordae.issues import Issue, issue, nearest
from chordae.match.decisions import DECISIONS, Decision, in_force
from chordae.match.review import HEADINGS, OWN, PROPOSALS, QUESTION
from chordae.model import STATES
from chordae.terms import vocabulary

__all__ = ["read_review"]

_NEEDED = ("word", "decision")
_ACCEPTED = ("same", "nearly the same", "wider", "narrower")


@dataclass(frozen=True, slots=True)
class _Cells:
    row: Row
    text: Mapping[str, str]

    def __getitem__(self, heading: str) -> str:
        return self.text.get(heading, "")


def read_review(
    path: Path, crosswalk: Crosswalk | None, history: Sequence[Decision], author: str, day: str
) -> tuple[list[Decision], list[Issue]]:
    """Read the table back.

    Parameters
    ----------
    path
        The table that was filled in.
    crosswalk
        The crosswalk that the decisions are for; None for words without one.
    history
        Decisions made before, oldest first.
    author, day
        Who decided, and when (year-month-day).

    Returns
    -------
    tuple
        The decisions that are new or differ from those in force, in the order of the table; and the issues.

    Raises
    ------
    InputError
        The file cannot be read, or is not a review table.
    """
    data = read_input(path)
    sheet = PROPOSALS if data[:4] == b"PK\x03\x04" else None
    table, issues = read_table(path, data=data, sheet=sheet)
    missing = [one for one in _NEEDED if table.index(one) is None]
    if missing:
        raise InputError(
            f"{table.file} has no column {missing[0]!r}; its headings should be: {', '.join(HEADINGS)}.",
            "Read back a table that chordae match --out wrote.",
        )
    reader = _Reader(table, crosswalk, [one for one in issues if one.rule != "I-TAB-08"])
    made = [decision for row in table.rows if (decision := reader.decision(row, author, day)) is not None]
    kept = reader.without_contradictions(made)
    before = {one.about(): one for one in in_force(history)}
    new = []
    for one in kept:
        old = before.get(one.about())
        if old is not None and old.says(one):
            continue
        if old is not None:
            reader.changed(one, old)
        new.append(one)
    return new, reader.issues


class _Reader:
    def __init__(self, table: Table, crosswalk: Crosswalk | None, issues: list[Issue]) -> None:
        self.table, self.crosswalk, self.issues = table, crosswalk, issues
        self._at = {name: table.index(name) for name in HEADINGS}
        self._rows: dict[int, Row] = {}

    def decision(self, row: Row, author: str, day: str) -> Decision | None:
        text = {name: unguarded(row.cells[at]) for name, at in self._at.items() if at is not None}
        cells = _Cells(row, {name: " ".join(one.split()) for name, one in text.items()})
        decision = cells["decision"].casefold()
        filled = [name for name in ("part", "property", "value", "state") if cells[name]]
        if not decision:
            if cells["no."] == OWN and filled:
                self._wrong(cells, "decision", "I-RVW-02", cells["word"], what="the decision")
            return None
        if decision not in DECISIONS:
            near = nearest(decision, DECISIONS)
            self._wrong(cells, "decision", "I-RVW-01", decision, expected=", ".join(DECISIONS), nearest=near)
            return None
        if decision == "later":
            return None
        if not cells["word"]:
            self._wrong(cells, "word", "I-RVW-02", None, what="the word")
            return None
        if not self._sound(cells, decision):
            return None
        taken = {name: cells[name] for name in ("part", "property", "value", "state")}
        if decision == "says nothing":
            taken = {"part": "", "property": "", "value": "", "state": NOT_RECORDED}
        elif decision in ("not this", "ask"):
            taken = dict.fromkeys(taken, "")
        note = cells["note"] or (cells["candidate"] if decision == "ask" and cells["no."] == QUESTION else "")
        label = "" if cells["no."] == QUESTION else cells["candidate"]
        made = Decision(
            day, author, cells["column"], cells["word"], cells["target"], label, **taken, decision=decision, note=note
        )
        self._rows[id(made)] = row
        return made

    def without_contradictions(self, made: Sequence[Decision]) -> list[Decision]:
        """Leave out decisions on one word that exclude each other: two values of one property, or a value and none."""
        refused: set[int] = set()
        words: dict[tuple[str, str], list[Decision]] = {}
        for one in made:
            if one.decision != "not this":
                words.setdefault((one.column, normalised(one.word)), []).append(one)
        for several in words.values():
            places: dict[tuple[str, str], Decision] = {}
            for one in several:
                if one.target and not one.part:
                    continue  # an outside term, or a term without a place: says nothing of the record
                clash = places.get((one.part, one.property))
                alone = next((old for old in several if old is not one and _excludes(one, old)), None)
                if (clash is not None and not _may_be_several(one)) or alone is not None:
                    other = clash or alone
                    refused.add(id(one))
                    if other is not None:
                        refused.add(id(other))
                        self._say(one, "I-RVW-03", first=_said(other), now=_said(one), line=self._rows[id(other)].line)
                places.setdefault((one.part, one.property), one)
        # A word may have been asked about in several rows; the first question stands for all of them.
        first = {one.about(): one for one in reversed(made) if id(one) not in refused}
        return [one for one in made if first.get(one.about()) is one]

    def changed(self, new: Decision, old: Decision) -> None:
        self._say(new, "I-RVW-05", first=f"{old.decision} ({old.author}, {old.decided_on})", now=new.decision)

    def _sound(self, cells: _Cells, decision: str) -> bool:
        column, target = cells["column"], cells["target"]
        if self.crosswalk is not None and column not in ("", ANY) and column not in self.crosswalk.columns:
            near = nearest(column, self.crosswalk.columns)
            self._wrong(cells, "column", "I-XW-19", column, nearest=near)
            return False
        if target and target not in vocabulary() and target.partition(":")[0] not in prefixes() and "//" not in target:
            near = nearest(target, vocabulary().slugs)
            self._wrong(cells, "target", "I-RVW-04", target, nearest=near)
            return False
        if decision == "not this":
            if not target:
                self._wrong(cells, "target", "I-RVW-02", cells["word"], what="the candidate that is ruled out")
            return bool(target)
        if decision == "ask" and not cells["note"] and cells["no."] != QUESTION:
            self._wrong(cells, "note", "I-RVW-02", cells["word"], what="the question, in the note")
            return False
        return decision not in _ACCEPTED or self._placed(cells)

    def _placed(self, cells: _Cells) -> bool:
        """Check that an accepted row says where its value goes; an outside term goes nowhere in the record."""
        part, property, value, state = (cells[name] for name in ("part", "property", "value", "state"))
        outside = bool(cells["target"]) and cells["target"] not in vocabulary()
        if not any((part, property, value, state)):
            if outside or (cells["target"] and self.crosswalk is None):
                return True
            self._wrong(cells, "part", "I-RVW-02", cells["word"], what="part, property, and value or state")
            return False
        if state and state not in (*STATES, NOT_RECORDED):
            known = (*STATES, NOT_RECORDED)
            self._wrong(cells, "state", "I-XW-08", state, expected=", ".join(known), nearest=nearest(state, known))
            return False
        if not value and not state:
            self._wrong(cells, "value", "I-RVW-02", cells["word"], what="the value or the state")
            return False
        if not part and state in ("not_assessable", "not_examined", NOT_RECORDED):
            return True
        found = find_target(part, property)
        if isinstance(found, Mistake):
            self._wrong(
                cells, "part" if found.rule == "I-XW-03" else "property", found.rule, found.value, **found.fields
            )
            return False
        return self._fits(cells, found, value, state)

    def _fits(self, cells: _Cells, target: Target, value: str, state: str) -> bool:
        if state in ("not_assessable", "not_examined", NOT_RECORDED):
            return True
        if state and not value and not has_state(target, state):
            fields = {"part": target.area, "property": target.slot, "nearest": ""}
            self._wrong(cells, "state", "I-XW-05", state, **fields)
            return False
        mistake = typed(target, value or state)
        if isinstance(mistake, Mistake):
            self._wrong(cells, "value" if value else "state", mistake.rule, mistake.value, **mistake.fields)
            return False
        return True

    def _wrong(self, cells: _Cells, heading: str, rule: str, value: str | None, **fields: Any) -> None:
        place = self.table.place(cells.row.line, self._at.get(heading))
        self.issues.append(issue(rule, location=place, value=value, **fields))

    def _say(self, one: Decision, rule: str, **fields: Any) -> None:
        place = self.table.place(self._rows[id(one)].line, self._at["decision"])
        self.issues.append(issue(rule, location=place, value=one.word, **fields))


def _excludes(one: Decision, other: Decision) -> bool:
    """Whether one of two decisions on a word says that it has a meaning, and the other that it has none, or several."""
    return one.decision != other.decision and bool({one.decision, other.decision} & {"ask", "says nothing"})


def _may_be_several(one: Decision) -> bool:
    from chordae.model import tables

    slot = tables().slots.get(one.property.partition(".")[0])
    return slot is not None and slot.multivalued


def _said(one: Decision) -> str:
    return f"{one.decision}: {one.value or one.state or one.target or one.note}"
