"""Put values into a record by ``part.slot``, with the place each came from; say where two values meet.

::

    put("great_arteries.aorta_relation", "left", "/facts/aorta_relation")    a part is made when it is not there
    put("stated.topology", "right_hand", ...)                                a mapping of the record
    put("arterial_trunk", "present", ...)                                    the part alone
    put("pulmonary_outflow_tract.obstruction", {"state": "present"}, ...)    a state alone: under "observed"
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.issues import Location
from chordae.model import class_slots, conventional, tables
from chordae.record import Reading, Record, ensure_part, find_part, pointer, say
from chordae.shortplain import plain_word

__all__ = ["Places", "in_words", "slot_places"]

_OWNERS = {"stated": "StatedConclusions", "description": "Description", "specimen": "Specimen"}


class Places:
    """A record that is being filled; ``found`` holds the places of its values by JSON pointer.

    Parameters
    ----------
    record
        What is there already; it is changed.
    source
        The reading whose facts are put in; it knows where they stood.
    """

    def __init__(self, record: Record, source: Reading) -> None:
        self.record = record
        self._source = source
        self.found: dict[str, Location] = dict(source.places)

    def put(self, target: str, value: Any, path: str, types: Mapping[str, str], *, replace: bool = False) -> Any | None:
        """Put a value in its place.

        Parameters
        ----------
        target
            ``part.slot``, a mapping of the record and its slot, or a part alone.
        path
            Pointer of the fact it came from.
        types
            Classes of parts that have no conventional id.
        replace
            Whether a value that is there already gives way.

        Returns
        -------
        Any or None
            The value that was there and is another one; it stays. ``None`` if all is well.
        """
        owner, _, slot = target.partition(".")
        node, where = self._owner(owner, types, path)
        if not slot:
            return None
        if isinstance(value, Mapping):
            self._observe(node, where, slot, value, path)
            return None
        before = node.get(slot)
        if tables().slots[slot].multivalued:
            values = before if isinstance(before, list) else []
            new = [one for one in (value if isinstance(value, list) else [value]) if one not in values]
            for one in new:
                self._note_place(f"{where}{pointer(slot, len(values))}", path)
                values.append(one)
            node[slot] = values
        elif before is None or before == value or replace:
            node[slot] = value
            self._note_place(where + pointer(slot), path)
        else:
            return before
        return None

    def note(self, part_id: str, words: str, path: str) -> bool:
        """Add words to the note of a part; say whether there is such a part."""
        part = find_part(self.record, part_id)
        if part is None:
            return False
        before = part.get("note")
        part["note"] = f"{before}; {words}" if before else words
        self._note_place(f"{self._where(part)}/note", path)
        return True

    def remark(self, words: str, key: str, path: str) -> None:
        """Keep words as a remark of the record."""
        remarks = self.record.setdefault("remarks", [])
        self._note_place(f"/remarks/{len(remarks)}", path)
        remarks.append({"text": words, "place": key})

    def _owner(self, owner: str, types: Mapping[str, str], path: str) -> tuple[dict[str, Any], str]:
        if owner in _OWNERS:
            node: dict[str, Any] = self.record.setdefault(owner, {})
            self.found.setdefault(f"/{owner}", self._source.place(path))
            return node, f"/{owner}"
        part = find_part(self.record, owner)
        if part is None and owner in types:
            part = {"id": owner, "type": types[owner]}
            self.record.setdefault("parts", []).append(part)
        part = part if part is not None else ensure_part(self.record, owner)
        where = self._where(part)
        self.found.setdefault(where, self._source.place(path))
        return part, where

    def _observe(self, part: dict[str, Any], where: str, slot: str, value: Mapping[str, Any], path: str) -> None:
        if part.get(slot) is None:
            observed = part.setdefault("observed", [])
            self._note_place(f"{where}/observed/{len(observed)}", path)
            observed.append({"feature": slot, **value})

    def _where(self, part: dict[str, Any]) -> str:
        number = next(number for number, one in enumerate(self.record["parts"]) if one is part)
        return f"/parts/{number}"

    def _note_place(self, pointer_: str, path: str) -> None:
        self.found[pointer_] = self._source.place(path)


def slot_places(key: str) -> list[str]:
    """Where a slot of the schema can stand, as ``part.slot``; the key may name the part itself."""
    part, dot, slot = key.partition(".")
    if dot:
        kind = conventional(part)
        owner = kind.type if kind else _OWNERS.get(part, "")
        return [key] if slot in class_slots(owner) and slot not in {"id", "type"} else []
    name = plain_word(key)
    found = [f"{place}.{name}" for place, owner in _OWNERS.items() if name in class_slots(owner)]
    if name in class_slots("Part") or name not in tables().slots:
        return found if name != "note" else []
    return found + [f"{part_id}.{name}" for part_id, one in tables().parts.items() if name in class_slots(one.type)]


def in_words(target: str, value: Any = None) -> str:
    """Name a place of the record, and what is put there.

    Examples
    --------
    >>> in_words("ventricular_mass.right_ventricle_vertical", "inferior")
    'ventricular mass: right ventricle vertical inferior'
    """
    owner, _, slot = target.partition(".")
    name = owner if owner in _OWNERS else say(owner)
    if isinstance(value, Mapping):
        value = value.get("state")
    shown = ", ".join(value) if isinstance(value, list) else value
    words = [slot.replace("_", " ")] if slot else []
    words += [] if shown is None else [str(shown)]
    return f"{name}: {' '.join(words)}" if words else name
