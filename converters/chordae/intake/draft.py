"""A record while it is put together, cell by cell, with the place of each value.

Parts come into being when something is said of them, with what their name itself states (a column
"tricuspid valve" calls the valve tricuspid). At the end they are sorted in the order of sequential
segmental analysis. A second cell that contradicts an earlier one does not replace it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from chordae.intake.document_text import in_order
from chordae.intake.targets import LISTS, Target
from chordae.issues import Location
from chordae.model import conventional, part_defaults, part_type, tables
from chordae.record import Reading, Record
from chordae.resources import VERSION

__all__ = ["Conflict", "Draft"]

Path = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Conflict:
    """An earlier value that a later cell contradicts, and the heading it came from."""

    value: Any
    heading: str


class Draft:
    """One record being built.

    Parameters
    ----------
    record_id
        Its id.
    place
        The row it comes from.
    """

    def __init__(self, record_id: str, place: Location) -> None:
        self._record: Record = {"id": record_id, "vocabulary_version": VERSION}
        self._parts: dict[str, dict[str, Any]] = {}
        self._places: dict[Path, Location] = {(): place}
        self._headings: dict[Path, str] = {}

    def put(self, target: Target, value: Any, place: Location, heading: str, **more: Any) -> Conflict | None:
        """Set a value at a place of the record.

        Parameters
        ----------
        target
            Where it goes.
        value
            The value, of the slot's own kind.
        place, heading
            The cell it comes from.
        more
            Further keys of the list entry, where the target is one (``state_reason``).

        Returns
        -------
        Conflict
            The value that is there already, if it differs; nothing is changed then.
        """
        if target.kind == "reference" or target.entry == "Commitment":
            self._refer(target.member, place)
            self._refer(value, place)
        holder, path = self._holder(target.area, place)
        entry = target.entry
        if entry is not None:
            return self._put_entry(holder, path, target, value, place, heading, more)
        slot = tables().slots[target.slot]
        where = (*path, target.slot)
        if slot.multivalued:
            items = holder.setdefault(target.slot, [])
            if value not in items:
                items.append(value)
                self._mark((*where, str(len(items) - 1)), place, heading)
            self._places.setdefault(where, place)
            return None
        return self._set(holder, target.slot, value, where, place, heading)

    def observe(self, part: str, feature: str, place: Location, **said: str) -> None:
        """Add to what is said of one feature of a part: state, state_reason, certainty, quote."""
        holder, path = self._holder(part, place)
        items: list[dict[str, Any]] = holder.setdefault("observed", [])
        entry = next((one for one in items if one["feature"] == feature), None)
        if entry is None:
            entry = {"feature": feature}
            items.append(entry)
        where = (*path, "observed", str(items.index(entry)))
        self._places.setdefault(where, place)
        for key, text in said.items():
            if key == "quote" and key in entry and text not in entry[key].split("; "):
                entry[key] = f"{entry[key]}; {text}"
            else:
                entry.setdefault(key, text)
            self._places.setdefault((*where, key), place)

    def measure(
        self, part: str, quantity: str, value: float, unit: str, extras: dict[str, str], place: Location
    ) -> None:
        """Add a measurement; ``part`` may be empty for the heart as a whole."""
        items: list[dict[str, Any]] = self._record.setdefault("measurements", [])
        base = "_".join(one for one in (part, quantity) if one)
        taken = {one["id"] for one in items}
        name = next(one for one in (base, *(f"{base}_{n}" for n in range(2, len(items) + 3))) if one not in taken)
        entry: dict[str, Any] = {"id": name}
        if part:
            self._refer(part, place)
            entry["part"] = part
        items.append({**entry, "quantity": quantity, "value": value, "unit": unit, **extras})
        where = ("measurements", str(len(items) - 1))
        for path in (where, (*where, "value"), (*where, "quantity")):
            self._places[path] = place

    def remark(self, text: str, heading: str, place: Location) -> None:
        """Keep words as they are."""
        items: list[dict[str, Any]] = self._record.setdefault("remarks", [])
        items.append({"text": text, "place": heading})
        self._places[("remarks", str(len(items) - 1))] = place

    def finish(self) -> Reading:
        """Return the reading: keys in the order of the schema, parts in the order of the analysis."""
        ranks = {name: rank for rank, name in enumerate(tables().parts)}
        names = sorted(self._parts, key=lambda one: (ranks[_base(one)], len(one), one))
        numbers = {name: str(number) for number, name in enumerate(names)}
        if names:
            self._record["parts"] = [self._parts[name] for name in names]
        return Reading(in_order(self._record), _Places(self._places, numbers))

    def _put_entry(
        self,
        holder: dict[str, Any],
        path: Path,
        target: Target,
        value: Any,
        place: Location,
        heading: str,
        more: dict[str, Any],
    ) -> Conflict | None:
        named, _ = LISTS[str(target.entry)]
        items: list[dict[str, Any]] = holder.setdefault(target.slot, [])
        member = target.member or value
        entry = next((one for one in items if one.get(named) == member), None)
        if entry is None or target.entry == "Evidence":
            entry = {named: member}
            if target.entry == "Evidence":
                entry = {"id": f"{member}_{len(items) + 1}", **entry}
            items.append(entry)
        number = next(number for number, one in enumerate(items) if one is entry)
        where = (*path, target.slot, str(number))
        self._places.setdefault(where, place)
        if not target.member:
            return None
        conflict = self._set(entry, target.cell_slot, value, (*where, target.cell_slot), place, heading)
        if conflict is None:
            entry.update(more)
        return conflict

    def _set(
        self, holder: dict[str, Any], key: str, value: Any, where: Path, place: Location, heading: str
    ) -> Conflict | None:
        if where in self._headings and holder.get(key) != value:
            return Conflict(holder[key], self._headings[where])
        holder[key] = value
        self._mark(where, place, heading)
        return None

    def _mark(self, path: Path, place: Location, heading: str) -> None:
        self._places.setdefault(path, place)
        self._headings.setdefault(path, heading)

    def _refer(self, part: Any, place: Location) -> None:
        if isinstance(part, str) and part_type(part) is not None:
            self._holder(part, place)

    def _holder(self, area: str, place: Location) -> tuple[dict[str, Any], Path]:
        if area in self._parts:
            return self._parts[area], ("parts", area)
        if area == "record":
            return self._record, ()
        if part_type(area) is None:
            return self._record.setdefault(area, {}), (area,)
        self._parts[area] = {"id": area, "type": part_type(area), **part_defaults(area)}
        self._places[("parts", area)] = place
        return self._parts[area], ("parts", area)


class _Places(Mapping[str, Location]):
    """The places of a draft by JSON pointer, put into words when the first one but that of the row is asked for."""

    def __init__(self, places: Mapping[Path, Location], numbers: Mapping[str, str]) -> None:
        self._places = places
        self._numbers = numbers

    @cached_property
    def _worded(self) -> dict[str, Location]:
        found: dict[str, Location] = {}
        for path, place in self._places.items():
            if path[:1] == ("parts",) and len(path) > 1:
                path = ("parts", self._numbers[path[1]], *path[2:])
            found["".join([f"/{step}" for step in path])] = place
        return found

    def __getitem__(self, key: str) -> Location:
        return self._worded[key] if key else self._places[()]

    def __iter__(self) -> Iterator[str]:
        return iter(self._worded)

    def __len__(self) -> int:
        return len(self._places)


def _base(part: str) -> str:
    found = conventional(part)
    return found.id if found is not None else part
