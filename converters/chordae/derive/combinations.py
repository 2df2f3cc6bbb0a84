"""From the facts of a heart to the combinations that cannot be, or that need a condition.

The table (``schema/combinations.yaml``, ``combinations``) is that of the trade: 20 rows with a verdict each,
``impossible``, ``condition`` or ``possible``. Rows that are possible are kept as tests of the others and never given.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from chordae.conditions import Condition, compile_when, verdict
from chordae.derive.heart import Heart
from chordae.knowledge import table

__all__ = ["judge"]

_POSSIBLE = "possible"


def judge(heart: Heart) -> list[dict[str, Any]]:
    """Return the rows that hold and are not simply possible: ``number``, ``verdict``, ``why``, ``source``."""
    found = []
    for data, alternatives in _rows():
        if data["verdict"] != _POSSIBLE and any(verdict(when, heart) for when in alternatives):
            found.append(
                {"number": data["number"], "verdict": data["verdict"], "why": data["say"], "source": data["source"]}
            )
    return found


@cache
def _rows() -> tuple[tuple[dict[str, Any], tuple[tuple[Condition, ...], ...]], ...]:
    return tuple(
        (data, tuple(compile_when(when) for when in data["when"])) for data in table("combinations")["combinations"]
    )
