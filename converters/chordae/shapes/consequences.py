"""What to settle first: the issues of one record in, the same issues out, some with a hint that names another one.

One wrong name for a ventricle makes the rules on its valve, its trunk and its place speak as well::

    R-VEN-02  the ventricle is called morphologically left, but its apex is coarse
    R-VEN-07  ... hint: "May follow from R-VEN-02, apical trabeculations name the ventricle: settle that first. ..."

Which finding may follow from which is data: ``schema/consequences.yaml``. Every issue stays, with its severity.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache

from chordae.issues import Issue
from chordae.knowledge import table
from chordae.shapes.load import Rule

__all__ = ["causes_of", "settle_first"]


def settle_first(issues: Sequence[Issue], rules: Mapping[str, Rule]) -> list[Issue]:
    """Name in the hint of each issue the one from which it may follow.

    Parameters
    ----------
    issues
        All issues of one record.
    rules
        The rules of morphology, by id.

    Returns
    -------
    list[Issue]
        The issues in the same order. What was confirmed is neither a cause nor a consequence.
    """
    spoke: dict[str, list[Issue]] = {}
    for one in issues:
        if one.confirmed is None and one.rule in rules:
            spoke.setdefault(one.rule, []).append(one)
    if len(spoke) < 2:
        return list(issues)
    return [_told(one, spoke, rules) for one in issues]


@cache
def causes_of(rule: str) -> tuple[str, ...]:
    """The rules from whose findings one of this rule may follow, in the order of the file."""
    return tuple(cause for cause, found in table("consequences")["may_follow"].items() if rule in found)


def _told(found: Issue, spoke: Mapping[str, list[Issue]], rules: Mapping[str, Rule]) -> Issue:
    if found.confirmed is not None or found.rule not in spoke:
        return found
    cause = _root(found, spoke, rules)
    if cause is None:
        return found
    label = rules[cause].label
    hint = f"May follow from {cause}, {label[:1].lower()}{label[1:]}: settle that first. {found.hint}"
    return replace(found, hint=hint.strip())


def _root(found: Issue, spoke: Mapping[str, list[Issue]], rules: Mapping[str, Rule]) -> str | None:
    """The first cause of an issue that spoke and follows from no other one that spoke."""
    causes = [
        cause
        for cause in causes_of(found.rule)
        if any(_together(found, other, rules) for other in spoke.get(cause, ()))
    ]
    return next((cause for cause in causes if not set(causes) & set(causes_of(cause))), None)


def _together(found: Issue, other: Issue, rules: Mapping[str, Rule]) -> bool:
    """Whether two issues can be of one fault: rules on one kind of part speak of the same part."""
    if found.part == other.part or not all((one.path or "").startswith("/parts/") for one in (found, other)):
        return True
    return not set(rules[found.rule].targets) & set(rules[other.rule].targets)
