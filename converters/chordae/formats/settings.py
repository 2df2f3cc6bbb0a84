"""What a writer is told besides the records, and where it notes what it carried of each."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import Any

from chordae.formats.losses import Carried
from chordae.record import Record

__all__ = ["CAUTION", "Item", "Note", "Settings", "instant"]

CAUTION = (
    "Describes specimens for teaching, research and registries. Not for diagnosis or planning treatment. "
    "Defers to local codes on human remains, consent and data protection and to licensed practice."
)
"""Stands in every export."""

Item = tuple[Record, Mapping[str, Any] | None]
"""A record in canonical order, and what ``derive`` says of it, or ``None``."""

Note = Callable[[Record, Carried], None]


def instant() -> str:
    """Return the present instant in UTC, or that of ``SOURCE_DATE_EPOCH`` where the same bytes are wanted each time.

    Returns
    -------
    str
        As in ``2026-01-31T12:00:00Z``.
    """
    fixed = os.environ.get("SOURCE_DATE_EPOCH", "")
    when = datetime.fromtimestamp(int(fixed), UTC) if fixed.isdecimal() else datetime.now(UTC)
    return when.strftime("%Y-%m-%dT%H:%M:%SZ")


def _forget(record: Record, carried: Carried) -> None:
    """Note nothing."""


@dataclass(frozen=True, slots=True)
class Settings:
    """How to write.

    ``format`` is the name of the format, for modules that know several. ``base`` is the IRI under which the records
    stand, ``None`` for the default one. ``school`` is european, north_american or ``None``: the words of the schema.
    ``media`` is a folder with the files of the evidence, ``None`` where they are not at hand. ``recorded`` is the
    instant of the export.
    """

    format: str = ""
    base: str | None = None
    school: str | None = None
    media: str | None = None
    recorded: str = field(default_factory=instant)
    note: Note = _forget

    def noting(self, note: Note) -> Settings:
        """Return the same settings with another place for what was carried."""
        return replace(self, note=note)
