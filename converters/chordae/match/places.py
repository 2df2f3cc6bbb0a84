"""From a term to where it stands in a record: the row of values.tsv that an accepted proposal becomes.

::

    right_hand_topology            stated            topology          right_hand
    not_assessable                                                     state not_assessable
    tetralogy_of_fallot            stated            diagnoses         tetralogy_of_fallot
    paired_papillary_muscles       (of which valve?)                   nothing: the curator has to say

In the column of a crosswalk a term stands first of all where that column points to.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from chordae import model
from chordae.intake.crosswalk_rules import Crosswalk
from chordae.intake.targets import AREAS, Target, find_target
from chordae.terms import vocabulary

__all__ = ["Fill", "fills_of_column", "only_place", "term_of"]

_NO_VALUE = frozenset({"not_assessable", "not_examined"})
_DIAGNOSES = frozenset({"malformation"})


@dataclass(frozen=True, slots=True)
class Fill:
    """What a row of values.tsv says: part, property, and a value or a state."""

    part: str = ""
    property: str = ""
    value: str = ""
    state: str = ""


def fills_of_column(crosswalk: Crosswalk | None, column: str) -> Mapping[str, Fill]:
    """Return every term that a column can give, with the row that gives it; empty for an unknown column.

    A column whose words are terms (malformations) gives any of them, and is left to :func:`only_place`.
    """
    found: dict[str, Fill] = {}
    for rule in crosswalk.columns.get(column, ()) if crosswalk else ():
        target = rule.target
        if rule.kind != "value" or target is None or target.kind != "enum":
            continue
        for slug, fill in _fills(target).items():
            found.setdefault(slug, fill)
    return found


def only_place(slug: str) -> Fill | None:
    """Return the one place of a record where a term can stand; None where there is none, or several."""
    places = _everywhere().get(slug, ())
    if len(places) == 1:
        return places[0]
    term = vocabulary().get(slug)
    if not places and term is not None and term.kind in _DIAGNOSES:
        return Fill("stated", "diagnoses", slug)
    return None


def term_of(target: Target | None, value: str, state: str = "") -> str | None:
    """Return the term that a row of values.tsv says; None where it is a number or words.

    Examples
    --------
    >>> term_of(Target("stated", "topology"), "right_hand"), term_of(None, "", "not_examined")
    ('right_hand_topology', 'not_examined')
    """
    if target is not None and target.kind == "term" and value in vocabulary():
        return value
    said = value or state
    iri = (model.enum_of(target.cell_slot) or {}).get(said) if target is not None else None
    if iri is not None:
        return iri.rpartition("/")[2]
    return state if state in model.STATES and not value else None


def _fills(target: Target) -> Mapping[str, Fill]:
    property = target.slot + (f".{target.member}" if target.member else "")
    found = {}
    for value, iri in (model.enum_of(target.cell_slot) or {}).items():
        states = value in _NO_VALUE
        fill = Fill(target.area, property, "" if states else value, value if states else "")
        found[iri.rpartition("/")[2]] = fill
    return found


@cache
def _everywhere() -> Mapping[str, tuple[Fill, ...]]:
    found: dict[str, list[Fill]] = defaultdict(list)
    for area, name in [*AREAS.items(), *((part, row.type) for part, row in model.tables().parts.items())]:
        for slot in model.class_slots(name):
            target = find_target(area, slot)
            if isinstance(target, Target) and target.entry is None and target.kind == "enum":
                for slug, fill in _fills(target).items():
                    found[slug].append(fill)
    return {slug: tuple(fills) for slug, fills in found.items()}
