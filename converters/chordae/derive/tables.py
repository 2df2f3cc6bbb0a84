"""The compiled tables of connections: from their name in ``schema/combinations.yaml`` to the row that holds.

::

    rows("av_connection")                          the rows of one table, in order
    decide("av_connection", facts)                 the first row that holds, or the values that remain possible
    look_up("own_ventricle.right_to", facts)       the value of the first row that holds

A table asks for few facts, and hearts repeat their values: each combination of values is decided once.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, lru_cache
from typing import Any, TypeAlias

from chordae import conditions
from chordae.conditions import Facts, Row, compile_row
from chordae.knowledge import table

__all__ = ["Decision", "decide", "look_up", "other_ventricle", "rows"]

Decision: TypeAlias = tuple[Row | None, tuple[str, ...]]
"""The row that holds, or ``None``; and the values that remain possible."""

_KEPT = 16384


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of one table; ``own_ventricle.right_to`` is the table under that key of another."""
    found: Any = table("combinations")
    for key in name.split("."):
        found = found[key]
    return tuple(compile_row(one) for one in found)


def decide(name: str, facts: Facts) -> Decision:
    """Find the row of one table that holds, or else the values that remain possible (:func:`conditions.decide`)."""
    names, decided = _table(name)
    values = tuple([facts[one] for one in names])
    try:
        return decided(values)
    except TypeError:  # a set of values, as of several holes
        return conditions.decide(rows(name), facts)


def look_up(name: str, facts: Facts) -> str | None:
    """Return the value of the first row that holds."""
    row, _ = decide(name, facts)
    return row.value if row else None


def other_ventricle(identity: str | None) -> str | None:
    """Return the ventricle that is not this one; ``None`` where there is no other."""
    found = table("combinations")["other_ventricle"].get(identity)
    return str(found) if found else None


@cache
def _table(name: str) -> tuple[tuple[str, ...], Callable[[tuple[Any, ...]], Decision]]:
    """Return the facts that a table asks for, and its decision for their values."""
    known = rows(name)
    names = tuple(dict.fromkeys(fact for row in known for fact, _, _ in row.when))

    @lru_cache(maxsize=_KEPT)
    def decided(values: tuple[Any, ...]) -> Decision:
        return conditions.decide(known, Facts(zip(names, values, strict=True)))

    return names, decided
