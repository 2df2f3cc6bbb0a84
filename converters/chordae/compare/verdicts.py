"""From what two descriptions say at one place to a verdict.

::

    agree                    the same, in whatever words
    more_specific            A says more than B, and B's word is a wider one for the same
    less_specific            B says more
    differ                   not the same, but nothing in them excludes the other
    contradict               both cannot be true of one heart
    silent_in_a, silent_in_b one has not recorded it, or did not look
    not_assessable_in_a, _b  it can no longer be seen in one: nothing can be concluded
    not_assessable_in_both
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, TypeAlias

from chordae.compare.grounds import grounds, slug_of_value
from chordae.facts import Fact
from chordae.terms import vocabulary

__all__ = ["ORDER", "Verdict", "judge", "judge_terms"]

Verdict: TypeAlias = Literal[
    "agree", "more_specific", "less_specific", "differ", "contradict", "silent_in_a", "silent_in_b",
    "not_assessable_in_a", "not_assessable_in_b", "not_assessable_in_both",
]  # fmt: skip

ORDER: tuple[Verdict, ...] = (
    "contradict", "differ", "more_specific", "less_specific", "not_assessable_in_a", "not_assessable_in_b",
    "silent_in_a", "silent_in_b", "not_assessable_in_both", "agree",
)  # fmt: skip
"""Verdicts, those that need a second look first."""


def judge(slot: str, a: Sequence[Fact], b: Sequence[Fact]) -> Verdict | None:
    """Judge one place.

    Parameters
    ----------
    slot
        The property; with its member after a dot for a list of entries.
    a, b
        What each says there; several facts where the property holds a list, none where it is not recorded.

    Returns
    -------
    Verdict or None
        None where neither has seen it: nothing was compared.

    Examples
    --------
    >>> one, other = (Fact("stated", "topology", hand, "present") for hand in ("right_hand", "left_hand"))
    >>> judge("topology", [one], [other]), judge("topology", [one], [])
    ('contradict', 'silent_in_b')
    """
    mine, theirs = _state(a), _state(b)
    if mine == theirs == "not_assessable":
        return "not_assessable_in_both"
    if mine != "seen" and theirs != "seen":
        return None
    if mine == "not_assessable" or theirs == "not_assessable":
        return "not_assessable_in_a" if mine == "not_assessable" else "not_assessable_in_b"
    if mine != "seen" or theirs != "seen":
        return "silent_in_a" if mine != "seen" else "silent_in_b"
    stem = slot.partition(".")[0]
    one, other = {str(fact.value) for fact in a}, {str(fact.value) for fact in b}
    if one == other:
        return "agree"
    if len(one) == len(other) == 1:
        return _single(stem, next(iter(one)), next(iter(other)))
    if one > other:
        return "more_specific"
    return "less_specific" if one < other else "differ"


def judge_terms(one: str, other: str) -> Verdict | None:
    """Judge two terms by the hierarchy; None where neither is a kind of the other."""
    if one == other:
        return "agree"
    if vocabulary().is_a(one, other):
        return "more_specific"
    return "less_specific" if vocabulary().is_a(other, one) else None


def _single(slot: str, one: str, other: str) -> Verdict:
    if _number(one) is not None and _number(one) == _number(other):
        return "agree"
    found = judge_terms(slug_of_value(slot, one), slug_of_value(slot, other))
    if found is not None:
        return found
    return "contradict" if grounds().exclude(slot, one, other) else "differ"


def _state(facts: Sequence[Fact]) -> Literal["seen", "not_assessable", "silent"]:
    """Return what is known: a property that was not examined is one on which the observer is silent."""
    states = {fact.state for fact in facts}
    if states & {"present", "absent"}:
        return "seen"
    return "not_assessable" if "not_assessable" in states else "silent"


def _number(text: str) -> float | None:
    try:
        return float(text.partition(" ")[0])
    except ValueError:
        return None
