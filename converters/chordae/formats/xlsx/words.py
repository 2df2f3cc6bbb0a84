"""The sheet of words: every list of the schema with its words in both schools and what they mean.

The drop-down lists of the other sheets point at its rows: ``Words!$B$10:$B$14``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from chordae import resources
from chordae.formats.sheets.cells import label
from chordae.model import Slot, is_a, tables
from chordae.rdf.terms import TERM
from chordae.terms import vocabulary

__all__ = ["Choices", "help_of", "texts"]

SHEET = "Words"
_HEADINGS = ("list", "word", "word of the schema", "European", "North American", "meaning")
_DIAGNOSES = "diagnoses"


@cache
def texts() -> Mapping[str, Any]:
    """Return the words of the workbook (``schema/template.yaml``)."""
    import yaml

    found: Mapping[str, Any] = yaml.safe_load(resources.read_text("schema/template.yaml"))
    return found


class Choices:
    """The lists of one workbook, in the words of the schema or of a school, and where each stands."""

    def __init__(self, school: str | None) -> None:
        self.school = school
        self.rows: list[tuple[str, ...]] = [_HEADINGS]
        self._spans: dict[str, tuple[int, int]] = {}
        for name in sorted(tables().enums):
            self._add(name, self._words(name))
        for name in sorted({part.type for part in tables().parts.values()}):
            self._add(f"parts: {name}", self._parts(name))
        self._add(_DIAGNOSES, self._diagnoses())
        self._add(
            "property", ((one, one, "", "", texts()["keys"]["property"]) for one in ("opens_into", "arises_from"))
        )

    def range_of(self, slot: Slot) -> str | None:
        """Return the cells that hold the choices of a slot, ``None`` if it has no list."""
        if slot.kind == "enum":
            return self.span(slot.range or "")
        if slot.kind == "reference" and slot.range not in ("Part", "Evidence"):
            return self.span(f"parts: {slot.range}")
        return self.span(_DIAGNOSES) if slot.name == _DIAGNOSES else None

    def span(self, name: str) -> str | None:
        """Return the cells of a list."""
        if name not in self._spans:
            return None
        first, last = self._spans[name]
        return f"{SHEET}!$B${first}:$B${last}"

    def _add(self, name: str, rows: Iterator[tuple[str, ...]]) -> None:
        first = len(self.rows) + 1
        title = re.sub("Enum$", "", name)
        self.rows += [(title, *row) for row in rows]
        if len(self.rows) >= first:
            self._spans[name] = (first, len(self.rows))

    def _words(self, name: str) -> Iterator[tuple[str, ...]]:
        slot = next((one for one in tables().slots.values() if one.range == name), None)
        for word, one in tables().enums[name].items():
            term = vocabulary().get(one["iri"].removeprefix(TERM))
            shown = label(slot, word, self.school) if slot and self.school else word
            schools = (term.european, term.north_american) if term else ("", "")
            yield (shown, word, *schools, one["description"])

    def _parts(self, class_name: str) -> Iterator[tuple[str, ...]]:
        for part in tables().parts.values():
            if is_a(part.type, class_name):
                yield (part.id, part.id, part.say, part.say, "")

    def _diagnoses(self) -> Iterator[tuple[str, ...]]:
        for term in sorted(vocabulary(), key=lambda one: one.slug):
            if term.kind == "malformation" and not term.deprecated:
                shown = term.slug
                if self.school is not None:
                    shown = term.european if self.school == "european" else term.north_american
                yield (shown, term.slug, term.european, term.north_american, term.definition)


def help_of(slot: Slot, school: str | None) -> str:
    """Return the help text of a column: what it is, its unit and range, its words."""
    words = texts()["help"]
    lines = [slot.description]
    if slot.unit:
        lines.append(words["unit"].format(unit=slot.unit))
    if slot.minimum is not None and slot.maximum is not None:
        lines.append(words["range"].format(low=f"{slot.minimum:g}", high=f"{slot.maximum:g}"))
    if slot.multivalued:
        lines.append(words["several"])
    if slot.kind == "enum":
        lines.append(words["words"])
        for word, one in tables().enums[slot.range or ""].items():
            lines.append(f"{label(slot, word, school) if school else word}: {one['description']}")
    return "\n".join(lines)
