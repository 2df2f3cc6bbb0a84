"""The cases of the rules: ``tests/rules/<RULE-ID>.yaml``, one file a rule.

::

    rule: R-AV-13
    cases:
    - kind: failing                      passing | failing | not_applicable | not_assessable
      says: ...                          what the record says, in words
      record: {parts: {...}}             the record
      expect: [R-AV-13]                  exactly the rules that speak, sorted
      why: ...                           why

A record is written shortly: ``parts`` may be a mapping from conventional id to features (type and what the id states
are added), ``facts`` is the short form of a record, ``id`` and ``description`` are added where they are missing.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from chordae.model import part_defaults, part_type
from chordae.rdf.emit import emit
from chordae.record import Reading
from chordae.shapes.checker import Checker
from chordae.shortform import expand

FOLDER = Path(__file__).parent / "rules"
KINDS = ("passing", "failing", "not_applicable", "not_assessable")
DESCRIPTION = {"observer": "Reader A", "described_on": "2026-05", "school": "european"}


@dataclass(frozen=True, eq=False)
class Case:
    """One case; ``number`` counts from 1 in its file."""

    rule: str
    number: int
    kind: str
    says: str
    record: dict[str, Any]
    expect: tuple[str, ...]
    why: str

    @property
    def id(self) -> str:
        """A name that can be read in a log."""
        return f"{self.rule}-{self.number}-{self.says.replace(' ', '-')[:60]}"


@cache
def cases() -> tuple[Case, ...]:
    """Every case of every rule, in the order of the files."""
    return tuple(case for path in sorted(FOLDER.glob("R-*.yaml")) for case in read_cases(path))


def read_cases(path: Path) -> list[Case]:
    """The cases of one file."""
    found = yaml.safe_load(path.read_text(encoding="utf-8"))
    return [
        Case(
            rule=found["rule"],
            number=number,
            kind=one["kind"],
            says=one["says"],
            record=full(one["record"], f"{found['rule']}.{number}"),
            expect=tuple(one["expect"]),
            why=one["why"],
        )
        for number, one in enumerate(found["cases"], 1)
    ]


def full(short: dict[str, Any], name: str = "case") -> dict[str, Any]:
    """A record as it would be read, from the short way of writing it."""
    record = {"id": name, "description": DESCRIPTION, **short}
    if isinstance(parts := record.get("parts"), dict):
        record["parts"] = [
            {"id": name, "type": part_type(name), **part_defaults(name), **(features or {})}
            for name, features in parts.items()
        ]
    record, noticed = expand(record)
    assert not [one for one in noticed if one.severity == "violation"], noticed
    return record


@cache
def checker() -> Checker:
    """One checker for all tests of a process."""
    return Checker()


@cache
def graph_of(case: Case) -> str:
    """The graph of a case, with what was derived from it."""
    return emit(case.record, checker().derive(case.record))


def spoke(case: Case) -> tuple[str, ...]:
    """The rules that speak about a case, sorted, each once."""
    return spoke_of(case.record)


def spoke_of(record: dict[str, Any]) -> tuple[str, ...]:
    """The rules that speak about a record, sorted, each once."""
    return tuple(sorted({issue.rule for issue in checker().check_one(Reading(record)).issues}))
