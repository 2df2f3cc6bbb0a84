"""From the facts of a heart to the combinations that cannot be, or that need a condition.

The table (``schema/combinations.yaml``, ``combinations``) is that of the trade: 20 rows with a verdict each,
``impossible``, ``condition`` or ``possible``. Rows that are possible are kept as tests of the others and never given.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from chordae.conditions import Condition, compile_when
from chordae.derive.heart import Heart
from chordae.derive.index import Entries, Index
from chordae.knowledge import table

__all__ = ["judge", "rules"]

_POSSIBLE = "possible"


def judge(heart: Heart, index: Index, gathered: Entries) -> list[dict[str, Any]]:
    """Return the rows that hold and are not simply possible: ``number``, ``verdict``, ``why``, ``source``.

    ``index`` holds the table *combinations*, ``gathered`` what it found in the parts of the heart.
    """
    found: dict[int, dict[str, Any]] = {}
    for data in index.holding("combinations", heart, gathered):
        kept = {"number": data["number"], "verdict": data["verdict"], "why": data["say"], "source": data["source"]}
        found.setdefault(data["number"], kept)
    return list(found.values())


@cache
def rules() -> tuple[tuple[tuple[Condition, ...], dict[str, Any]], ...]:
    """Return the rows that are not simply possible, each with its conditions."""
    rows = [(compile_when(when), data) for data in table("combinations")["combinations"] for when in data["when"]]
    return tuple((when, data) for when, data in rows if data["verdict"] != _POSSIBLE)
