"""From the facts of a heart to the combinations that cannot be, or that need a condition.

The table (``schema/combinations.yaml``, ``combinations``) is that of the trade: 20 rows with a verdict each,
``impossible``, ``condition`` or ``possible``. Rows that are possible are kept as tests of the others and never given.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from chordae.conditions import Index, compile_when
from chordae.derive.heart import Heart
from chordae.knowledge import table

__all__ = ["judge"]

_POSSIBLE = "possible"


def judge(heart: Heart) -> list[dict[str, Any]]:
    """Return the rows that hold and are not simply possible: ``number``, ``verdict``, ``why``, ``source``."""
    found: dict[int, dict[str, Any]] = {}
    for data in _index().holding(heart):
        kept = {"number": data["number"], "verdict": data["verdict"], "why": data["say"], "source": data["source"]}
        found.setdefault(data["number"], kept)
    return list(found.values())


@cache
def _index() -> Index[dict[str, Any]]:
    rows = [(compile_when(when), data) for data in table("combinations")["combinations"] for when in data["when"]]
    return Index((when, data) for when, data in rows if data["verdict"] != _POSSIBLE)
