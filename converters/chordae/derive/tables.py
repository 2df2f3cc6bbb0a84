"""The compiled tables of connections: from their name in ``schema/combinations.yaml`` to rows for :func:`decide`."""

from __future__ import annotations

from functools import cache
from typing import Any

from chordae.conditions import Facts, Row, compile_row, decide
from chordae.knowledge import table

__all__ = ["look_up", "other_ventricle", "rows"]


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of one table; ``own_ventricle.right_to`` is the table under that key of another."""
    found: Any = table("combinations")
    for key in name.split("."):
        found = found[key]
    return tuple(compile_row(one) for one in found)


def look_up(name: str, facts: Facts) -> str | None:
    """Return the value of the first row that holds."""
    row, _ = decide(rows(name), facts)
    return row.value if row else None


def other_ventricle(identity: str | None) -> str | None:
    """Return the ventricle that is not this one; ``None`` where there is no other."""
    found = table("combinations")["other_ventricle"].get(identity)
    return str(found) if found else None
