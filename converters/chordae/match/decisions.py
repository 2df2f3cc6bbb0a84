"""What curators decided about proposals: a table to which rows are only ever added, and what holds now.

::

    decisions.tsv    decided_on  author  column  word  target  label  part  property  value  state  decision  note
                     2026-11-25  A. R.   Spleen  polysplennia  multiple_spleens  ...  same
                     2026-12-01  A. R.   Spleen  polysplennia  multiple_spleens  ...  not this

The last row about a word and a target holds; the rows before it are its history. ``target`` is a term of the
vocabulary, or the identifier of an outside term; it is empty for a row that a curator filled in without a proposal.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from pathlib import Path

from chordae.files import write_aside
from chordae.formulas import guarded, unguarded
from chordae.intake.crosswalk_rules import normalised
from chordae.intake.table import read_table

__all__ = ["DECISIONS", "FILE", "Decision", "in_force", "read_decisions", "rejected", "write_decisions"]

FILE = "decisions.tsv"

DECISIONS: Mapping[str, str] = {
    "same": "the word means this",
    "nearly the same": "the word means nearly this",
    "wider": "the term is wider than the word",
    "narrower": "the term is narrower than the word",
    "not this": "the word does not mean this; it will not be proposed again",
    "ask": "the word may mean more than one thing; put the question into the note",
    "says nothing": "the word says nothing about the heart",
    "later": "not decided yet",
}
"""Words of the decision column, with what each means."""

MATCHES: Mapping[str, str] = {
    "same": "exact",
    "nearly the same": "close",
    "wider": "broad",
    "narrower": "narrow",
    "ask": "ambiguous",
    "says nothing": "exact",
}
"""Decisions that become rows of values.tsv, with the match of the row."""


@dataclass(frozen=True, slots=True)
class Decision:
    """One decision; ``decided_on`` is a day (year-month-day), ``decision`` a key of ``DECISIONS``."""

    decided_on: str
    author: str
    column: str
    word: str
    target: str
    label: str
    part: str
    property: str
    value: str
    state: str
    decision: str
    note: str

    def about(self) -> tuple[str, str, str]:
        """Return what the decision is about: column, word, and target or place."""
        return self.column, normalised(self.word), self.target or f"{self.part} {self.property}"

    def says(self, other: Decision) -> bool:
        """Whether two decisions about the same say the same, whoever made them and when."""
        mine, theirs = ((one.part, one.property, one.value, one.state, one.decision, one.note) for one in (self, other))
        return mine == theirs


_HEADINGS = tuple(one.name for one in fields(Decision))


def read_decisions(folder: Path) -> list[Decision]:
    """Read all decisions, oldest first; an empty list where there are none yet.

    Raises
    ------
    InputError
        The file is there and cannot be read.
    """
    path = folder / FILE
    if not path.is_file():
        return []
    table, _ = read_table(path, delimiter="\t")
    at = [table.index(name) for name in _HEADINGS]
    return [Decision(*("" if index is None else unguarded(row.cells[index]) for index in at)) for row in table.rows]


def write_decisions(folder: Path, decisions: Sequence[Decision]) -> None:
    """Write all decisions, whole or not at all."""
    text = io.StringIO()
    writer = csv.writer(text, delimiter="\t", lineterminator="\n")
    writer.writerow(_HEADINGS)
    lines = ([" ".join(str(getattr(one, name)).split()) for name in _HEADINGS] for one in decisions)
    writer.writerows([guarded(cell, bare=True) for cell in line] for line in lines)
    write_aside(folder / FILE, text.getvalue())


def in_force(decisions: Iterable[Decision]) -> list[Decision]:
    """Return the last decision about each word and target, in the order in which these were first decided."""
    last: dict[tuple[str, str, str], Decision] = {}
    for one in decisions:
        last[one.about()] = one
    return list(last.values())


def rejected(decisions: Iterable[Decision]) -> list[tuple[str, str, str]]:
    """Return ``(column, word, target)`` of what has been ruled out."""
    return [(one.column, one.word, one.target) for one in in_force(decisions) if one.decision == "not this"]
