"""The record: one description of one specimen by one observer, as plain data, and where it was read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from chordae.issues import Location

__all__ = ["Reading", "Record"]

Record: TypeAlias = dict[str, Any]
"""A record as in ``schema/chordae.yaml``: text, numbers, lists and mappings only."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A record as it was read, with the place of each value by JSON pointer; ``""`` is the record itself."""

    record: Record
    places: Mapping[str, Location] = field(default_factory=dict)
