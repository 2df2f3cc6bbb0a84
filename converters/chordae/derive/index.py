"""Rules of several tables under the first value that each asks for, so that the parts of a heart are gone through once.

::

    tables  {"diagnoses": [(conditions, rule), ...], "clauses": [...], ...}
        |  gather(roles)      each feature of each part looked up once, for all tables together
        v
    {"diagnoses": [entries whose first condition holds], "clauses": [...]}
        |  holding("diagnoses", facts, entries)     with what stands under plain names, and the other conditions
        v
    rules that hold, in the order of their table
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from operator import itemgetter
from typing import Any, TypeAlias

from chordae.conditions import Condition, Facts, verdict

__all__ = ["Entries", "Index"]

_Entry: TypeAlias = tuple[int, tuple[Condition, ...], Any]
Entries: TypeAlias = Mapping[str, list[_Entry]]
"""Entries by table: place in the table, conditions that are still to be tested, rule."""

_ANY = object()
_PLACE = itemgetter(0)
_RECORDED = ("over", "under", "at_least", "at_most", "not")


class Index:
    """Tables of rules.

    Parameters
    ----------
    tables
        Name of a table to its rules, each with its conditions.
    """

    def __init__(self, tables: Mapping[str, Iterable[tuple[tuple[Condition, ...], Any]]]) -> None:
        self._by_role: dict[str, dict[str, dict[Any, list[tuple[str, _Entry]]]]] = {}
        self._plain: dict[str, dict[str, dict[Any, list[_Entry]]]] = {}
        self._always: dict[str, list[_Entry]] = {}
        for table, rules in tables.items():
            self._plain[table], self._always[table] = {}, []
            for place, (when, rule) in enumerate(rules):
                self._put(table, place, when, rule)

    def _put(self, table: str, place: int, when: tuple[Condition, ...], rule: Any) -> None:
        fact, operator, operand = when[0] if when else ("", "", ())
        if operator == "is":  # met by being found under its value
            entry, values = (place, when[1:], rule), tuple(operand)
        elif operator in _RECORDED:
            entry, values = (place, when, rule), (_ANY,)
        else:
            self._always[table].append((place, when, rule))
            return
        role, dot, feature = fact.partition(".")
        for value in values:
            if dot:
                by_value = self._by_role.setdefault(role, {}).setdefault(feature, {})
                by_value.setdefault(value, []).append((table, entry))
            else:
                self._plain[table].setdefault(fact, {}).setdefault(value, []).append(entry)

    def gather(self, roles: Mapping[str, Mapping[str, Any]]) -> Entries:
        """Return the entries of every table whose first condition is on a part and holds."""
        found: dict[str, list[_Entry]] = {table: [] for table in self._always}
        by_role = self._by_role
        for role, features in roles.items():
            by_feature = by_role.get(role)
            if by_feature is None:
                continue
            for feature in by_feature if len(by_feature) < len(features) else features:
                value, by_value = features.get(feature), by_feature.get(feature)
                if by_value is None or value is None:
                    continue
                for one in (value,) if value.__class__ is str else _each(value):
                    for table, entry in by_value.get(one, ()):
                        found[table].append(entry)
                if _ANY in by_value:
                    for table, entry in by_value[_ANY]:
                        found[table].append(entry)
        return found

    def plain(self, table: str, facts: Mapping[str, Any]) -> list[_Entry]:
        """Return the entries of a table whose first condition is on no part and may hold."""
        found = list(self._always[table])
        for feature, by_value in self._plain[table].items():
            value = facts.get(feature)
            if value is None:
                continue
            if value.__class__ is str:
                if value in by_value:
                    found += by_value[value]
            else:
                for one in _each(value):
                    found += by_value.get(one, ())
            if _ANY in by_value:
                found += by_value[_ANY]
        return found

    def holding(self, table: str, facts: Facts, gathered: Entries) -> list[Any]:
        """Return the rules of a table whose conditions all hold."""
        found = self.plain(table, facts) + gathered[table]
        if len(found) > 1:
            found.sort(key=_PLACE)
        return [rule for _, when, rule in found if not when or verdict(when, facts)]


def _each(value: Any) -> Iterable[Any]:
    return value if isinstance(value, (set, frozenset, list, tuple)) else (value,)
