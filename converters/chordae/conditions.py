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
from operator import itemgetter
from typing import Any, Generic, TypeAlias, TypeVar

from chordae.errors import ResourceError

__all__ = [
    "SILENT",
    "Condition",
    "Facts",
    "Index",
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

    def role(self, name: str) -> Mapping[str, Any] | None:
        """Return the features recorded under names that begin with ``name`` and a dot; ``None`` if there are none."""
        stem = f"{name}."
        return {fact.removeprefix(stem): value for fact, value in self.items() if fact.startswith(stem)} or None


Condition: TypeAlias = tuple[str, str, Any]
"""Name of the fact, operator, operand."""

SILENT = frozenset((None, "not_assessable", "not_examined"))
"""Values that say nothing of the heart itself."""

T = TypeVar("T")
_Entry: TypeAlias = tuple[int, tuple[Condition, ...], T]
_PLACE = itemgetter(0)
_ANY = object()
_KEPT = 4096
_RECORDED = ("over", "under", "at_least", "at_most", "not")
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


class Index(Generic[T]):
    """Rules under the first value that they ask for, so that only those that can hold are looked at.

    Parameters
    ----------
    rules
        Conditions and what they stand for; :meth:`holding` gives these back in the order of the rules.
    """

    def __init__(self, rules: Iterable[tuple[tuple[Condition, ...], T]]) -> None:
        self._always: list[_Entry[T]] = []
        by_role: dict[str, dict[str, dict[Any, list[_Entry[T]]]]] = {}
        for place, (when, rule) in enumerate(rules):
            fact, operator, operand = when[0] if when else ("", "", ())
            if operator == "is":  # met by being found under its value
                entry, values = (place, when[1:], rule), operand
            elif operator in _RECORDED:
                entry, values = (place, when, rule), (_ANY,)
            else:
                self._always.append((place, when, rule))
                continue
            role, dot, feature = fact.partition(".")
            by_feature = by_role.setdefault(role if dot else "", {})
            by_value = by_feature.setdefault(feature if dot else fact, {})
            for value in values:
                by_value.setdefault(value, []).append(entry)
        self._roles = [(role, tuple(one), tuple(one.values()), _Seen()) for role, one in by_role.items()]

    def holding(self, facts: Facts) -> list[T]:
        """Return the rules whose conditions all hold."""
        found = list(self._always)
        for role, names, by_value, seen in self._roles:
            features = facts.role(role) if role else facts
            if features:
                values = tuple(map(features.get, names))
                try:
                    entries = seen.get(values)
                    if entries is None:
                        entries = seen.keep(values, _under(values, by_value))
                except TypeError:  # a set of values, as of several holes
                    entries = _under(values, by_value)
                found += entries
        if len(found) > 1:
            found.sort(key=_PLACE)
        return [rule for _, when, rule in found if not when or verdict(when, facts)]


class _Seen(dict[tuple[Any, ...], Any]):
    """What was found under some values before, for a bounded number of them."""

    def keep(self, values: tuple[Any, ...], entries: Any) -> Any:
        """Keep what was found, if there is room."""
        if len(self) < _KEPT:
            self[values] = entries
        return entries


def _under(values: tuple[Any, ...], by_value: tuple[Mapping[Any, list[_Entry[T]]], ...]) -> list[_Entry[T]]:
    """Return the entries under each of some values."""
    found: list[_Entry[T]] = []
    for value, entries in zip(values, by_value, strict=True):
        if value is None:
            continue
        for one in value if isinstance(value, (set, frozenset, list, tuple)) else (value,):
            found += entries.get(one, ())
        found += entries.get(_ANY, ())
    return found


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
