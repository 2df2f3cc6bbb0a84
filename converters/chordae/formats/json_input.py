"""Foreign JSON, as :func:`chordae.intake.json_value.read_json` reads it, and what stands in it where it is expected."""

from __future__ import annotations

from typing import Any

from chordae.intake.json_value import read_json

__all__ = ["listed", "mapped", "read_json"]


def mapped(value: Any) -> dict[str, Any]:
    """Return a value that should be keys with values; an empty mapping for anything else."""
    return value if isinstance(value, dict) else {}


def listed(value: Any) -> list[dict[str, Any]]:
    """Return the mappings of a value that should be a list of them; anything else is passed over."""
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []
