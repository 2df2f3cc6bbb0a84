"""From ``schema/criteria.yaml`` to compiled criteria: the kinds of structure, their answers, the rows of each answer.

::

    Kind  atrium
      Answer  morphologically_right_atrium
        decides   (Criterion: see pectinate_extent in {to_crux}), ...
        supports  ...
        excludes  ...
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from chordae.knowledge import table

__all__ = ["SORTS", "Answer", "Criterion", "Kind", "kind"]

SORTS = ("decides", "supports", "excludes")
"""Sorts of rows."""


@dataclass(frozen=True, slots=True)
class Criterion:
    """Features that must all be recorded so, and features each of which blocks the row."""

    see: tuple[tuple[str, frozenset[Any]], ...]
    unless: tuple[tuple[str, frozenset[Any]], ...]
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class Answer:
    """One possible identity with its rows."""

    name: str
    term: str
    stated_as: str
    decides: tuple[Criterion, ...]
    supports: tuple[Criterion, ...]
    excludes: tuple[Criterion, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """The criteria of one kind of structure; ``features`` are all that its rows ask for."""

    name: str
    type: str
    what: str
    stated: str
    answers: tuple[Answer, ...]
    not_for: tuple[tuple[str, frozenset[Any]], ...]
    features: tuple[str, ...]
    named: Mapping[str, str]


@cache
def kind(name: str) -> Kind:
    """Return the compiled criteria of one kind of structure, for example ``atrium``."""
    data = table("criteria")["identities"][name]
    answers = tuple(
        Answer(
            answer,
            rows.get("term", answer),
            rows.get("stated_as", answer),
            *(tuple(_criterion(one) for one in rows.get(sort, ())) for sort in SORTS),
        )
        for answer, rows in data["answers"].items()
    )
    not_for = _pairs(data.get("not_for", {}))
    rows = [row for one in answers for sort in SORTS for row in getattr(one, sort)]
    named = {one.stated_as: one.name for one in answers}
    features = dict.fromkeys(feature for row in rows for feature, _ in (*row.see, *row.unless))
    return Kind(name, data["type"], data["what"], data["stated"], answers, not_for, tuple(features), named)


def _criterion(row: Mapping[str, Any]) -> Criterion:
    return Criterion(_pairs(row["see"]), _pairs(row.get("unless", {})), row["source"], row["status"])


def _pairs(mapping: Mapping[str, Any]) -> tuple[tuple[str, frozenset[Any]], ...]:
    return tuple((name, frozenset(one if isinstance(one, list) else [one])) for name, one in mapping.items())
