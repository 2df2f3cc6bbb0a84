"""From a condition written in a data file and the facts known of one heart to true, false or unknown.

::

    {va_connection: discordant}              recorded and equal
    {atrial_arrangement: [usual, mirror_image]}   recorded and one of these
    {aortic_share: {over: 50}}               recorded and greater; also under, at_least, at_most
    {patency: {not: imperforate}}            recorded and another value
    {topology: {recorded: false}}            not recorded

    fact       condition     answer
    equal      equal         True
    other      equal         False
    no value   equal         None, unknown: silence is never read as an answer

*Not assessable* and *not examined* count as no value. A fact may be a set of values (several holes, several
obstructions); then one member that fits is enough, and a set without such a member answers unknown unless it
says itself that there is none (``none`` or ``absent``).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from chordae.errors import ResourceError

__all__ = [
    "SILENT",
    "Condition",
    "Facts",
    "Row",
    "compile_row",
    "compile_when",
    "decide",
    "unknown",
    "verdict",
]


class Facts(dict[str, Any]):
    """Name of a fact to its value: text, number, truth, or a set of texts; ``None`` for what is not recorded."""

    def __missing__(self, name: str) -> Any:
        return None


Condition: TypeAlias = tuple[str, str, Any]
"""Name of the fact, operator, operand."""

SILENT = frozenset((None, "not_assessable", "not_examined"))
"""Values that say nothing of the heart itself."""

_NONE = frozenset(("none", "absent"))
_OPERATORS = ("not", "over", "under", "at_least", "at_most", "recorded")


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table: conditions that must all hold, the value that follows, and the row as written."""

    when: tuple[Condition, ...]
    value: str
    data: Mapping[str, Any]


def compile_when(when: Mapping[str, Any]) -> tuple[Condition, ...]:
    """Compile the mapping of one ``when``.

    Raises
    ------
    ResourceError
        The condition has an operator that does not exist.
    """
    return tuple(one for fact, expected in when.items() for one in _compile(fact, expected))


def compile_row(data: Mapping[str, Any], value: str = "value") -> Row:
    """Compile one row of a table; ``value`` names the key under which its answer stands."""
    return Row(compile_when(data["when"]), str(data[value]), data)


def verdict(when: Iterable[Condition], facts: Facts) -> bool | None:
    """Say whether all conditions hold: ``True``, ``False`` (one fails) or ``None`` (one cannot be told)."""
    answer: bool | None = True
    for fact, operator, operand in when:
        value = facts[fact]
        if operator == "is" and value.__class__ is str:  # the common case, without a call
            one = True if value in operand else None if value in SILENT else False
        else:
            one = _test(value, operator, operand)
        if one is False:
            return False
        if one is None:
            answer = None
    return answer


def unknown(when: Iterable[Condition], facts: Facts) -> list[str]:
    """Return the names of the facts on which the conditions cannot be told, in order."""
    return [fact for fact, operator, operand in when if _test(facts[fact], operator, operand) is None]


def decide(rows: Iterable[Row], facts: Facts) -> tuple[Row | None, tuple[str, ...]]:
    """Find the first row of a table that holds, or else the values that remain possible.

    Returns
    -------
    tuple
        The row, or ``None``; and the values of the rows that are not excluded, each once, in order. Of a row
        that holds, its own value alone.
    """
    possible: dict[str, None] = {}
    for row in rows:
        answer = verdict(row.when, facts)
        if answer:
            return row, (row.value,)
        if answer is None:
            possible[row.value] = None
    return None, tuple(possible)


def _compile(fact: str, expected: Any) -> list[Condition]:
    if isinstance(expected, Mapping):
        if set(expected) - set(_OPERATORS):
            raise ResourceError(f"Condition on {fact}: {sorted(expected)} is not among {_OPERATORS}.")
        return [(fact, name, _values(operand) if name == "not" else operand) for name, operand in expected.items()]
    return [(fact, "is", _values(expected))]


def _values(expected: Any) -> frozenset[Any]:
    return frozenset(expected if isinstance(expected, list) else [expected])


def _test(value: Any, operator: str, operand: Any) -> bool | None:
    if isinstance(value, (frozenset, set, list, tuple)):
        return _test_set(value, operator, operand)
    if operator == "recorded":
        return (value not in SILENT) is operand
    if value in SILENT:
        return None
    if operator == "is":
        return value in operand
    if operator == "not":
        return value not in operand
    if not isinstance(value, (int, float)):
        return None
    if operator == "over":
        return bool(value > operand)
    if operator == "under":
        return bool(value < operand)
    if operator == "at_least":
        return bool(value >= operand)
    return bool(value <= operand)


def _test_set(values: Iterable[Any], operator: str, operand: Any) -> bool | None:
    known = {one for one in values if one not in SILENT}
    if operator == "recorded":
        return bool(known) is operand
    answers = {_test(one, operator, operand) for one in known}
    if operator == "not":
        return None if not answers else False not in answers
    if True in answers:
        return True
    return False if known & _NONE else None
