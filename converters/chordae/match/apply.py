"""From decisions to the files of a crosswalk: rows of values.tsv, and a mapping set in SSSOM.

::

    decisions.tsv   every decision ever made
    values.tsv      a row for each accepted one in force; rows that a changed decision wrote are taken out again
    local.sssom.tsv the same as mappings, with author, date, and what was ruled out (predicate_modifier Not)

Rows that stood in values.tsv before, written by hand, are kept as they are, in their order.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from chordae.files import read_input, write_aside
from chordae.formulas import guarded, unguarded
from chordae.intake.crosswalk_rules import VALUE_HEADINGS, normalised
from chordae.intake.encoding import decode
from chordae.intake.source import VALUES
from chordae.match.decisions import MATCHES, Decision, in_force, write_decisions
from chordae.match.local_set import FILE as MAPPINGS
from chordae.match.local_set import local_set
from chordae.sssom import write_mappings

__all__ = ["Applied", "apply"]


@dataclass(frozen=True, slots=True)
class Applied:
    """How many rows of values.tsv were added and taken out, and how many mappings stand in the set."""

    added: int
    taken_out: int
    mappings: int


def apply(folder: Path, history: Sequence[Decision], new: Sequence[Decision], base: str | None = None) -> Applied:
    """Write what was decided into the folder of a crosswalk.

    Parameters
    ----------
    folder
        Holds columns.tsv; values.tsv is written if it is not there.
    history, new
        Decisions made before, and those to add.
    base
        Base IRI of the collection's records, under which its words get theirs.
    """
    path = folder / VALUES
    heads, rows = _read(path)
    old = {one.about(): one for one in in_force(history)}
    taken_out = 0
    for one in new:
        before = old.get(one.about())
        if before is not None and before.decision in MATCHES:
            kept = [row for row in rows if not _wrote(before, dict(zip(heads, row, strict=True)))]
            taken_out += len(rows) - len(kept)
            rows = kept
    accepted = [one for one in new if one.decision in MATCHES and (one.part or one.state or one.decision == "ask")]
    for one in accepted:
        rows = [row for row in rows if not _undecided(one, dict(zip(heads, row, strict=True)))]
    rows += [_row(one, heads) for one in accepted]
    if new:
        text = io.StringIO()
        writer = csv.writer(text, delimiter="\t", lineterminator="\n")
        writer.writerows([guarded(cell, bare=True) for cell in row] for row in (heads, *rows))
        write_aside(path, text.getvalue())
        write_decisions(folder, [*history, *new])
    mappings = local_set([*history, *new], base)
    write_aside(folder / MAPPINGS, write_mappings(mappings))
    return Applied(len(accepted), taken_out, len(mappings.rows))


def _read(path: Path) -> tuple[list[str], list[list[str]]]:
    if not path.is_file():
        return list(VALUE_HEADINGS), []
    text, _ = decode(read_input(path), path.name)
    read = csv.reader(io.StringIO(text, newline=""), delimiter="\t")
    lines = [[unguarded(cell) for cell in row] for row in read if any(row)]
    heads = [one.strip() for one in lines[0]] if lines else list(VALUE_HEADINGS)
    heads += [one for one in VALUE_HEADINGS if one not in heads]
    return heads, [[*row, *[""] * (len(heads) - len(row))][: max(len(heads), len(row))] for row in lines[1:]]


def _row(one: Decision, heads: Sequence[str]) -> list[str]:
    said = {
        "column": one.column or "*",
        "local": one.word,
        "part": one.part,
        "property": one.property,
        "value": one.value,
        "state": one.state,
        "match": MATCHES[one.decision],
        "reviewer": one.author,
        "note": one.note,
    }
    return [said.get(head, "") for head in heads]


def _same_word(one: Decision, row: dict[str, str]) -> bool:
    column = " ".join(row.get("column", "").split())
    return column == (one.column or "*") and normalised(row.get("local", "")) == normalised(one.word)


def _wrote(one: Decision, row: dict[str, str]) -> bool:
    """Whether a row is the one that a decision wrote."""
    named = {name: row.get(name, "").strip() for name in ("part", "property", "value", "state", "match")}
    wanted = {
        "part": one.part, "property": one.property, "value": one.value, "state": one.state,
        "match": MATCHES[one.decision],
    }  # fmt: skip
    return _same_word(one, row) and named == wanted


def _undecided(one: Decision, row: dict[str, str]) -> bool:
    return _same_word(one, row) and not row.get("match", "").strip()
