"""The short form of a record, ``{id, facts: {...}}``, to the full record: every fact to its one place.

::

    {"id": "C04", "facts": {"topology": "right_hand", "aorta_relation": "left", "override": {"aorta": 60}}}

    {"id": "C04", "stated": {"topology": "right_hand"},
     "parts": [{"id": "great_arteries", "type": "GreatArteries", "aorta_relation": "left"},
               {"id": "aorta", "type": "ArterialTrunk", "stated_trunk_identity": "aorta", "override_per_cent": 60}]}

Keys, places and spellings are data (``schema/short_form.yaml``). A fact that is empty, ``?`` or ``not_seen`` was not
recorded, and nothing is set. Words that cannot be read are kept as remarks, with an issue: nothing is dropped and
nothing is guessed. Keys beyond the short form are slots of the schema, by name or as ``part.slot``.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from typing import Any

from chordae.issues import Issue, nearest
from chordae.model import class_slots, conventional
from chordae.record import Reading, Record, pointer
from chordae.shortplaces import Places, slot_places
from chordae.shortplain import as_text, plain_word
from chordae.shortvalues import Values
from chordae.shortwords import is_empty, read_term, short_form
from chordae.states import fill_states

__all__ = ["FACTS", "expand", "expand_reading", "is_short"]

FACTS = "facts"
"""Key under which the facts of a short record stand."""

_DIAGNOSES = "stated.diagnoses"
_FORMS = {
    "remarks": (list, "a list of keys with values"),
    "parts": (list, "a list of keys with values"),
    "stated": (dict, "keys with values"),
    "description": (dict, "keys with values"),
    "specimen": (dict, "keys with values"),
}


def expand(record: Record) -> tuple[Record, list[Issue]]:
    """Return the full record, and what was noticed on the way; a record that is full already comes back as it is.

    Examples
    --------
    >>> record, issues = expand({"id": "1", "facts": {"topology": "D-loop", "apex": "?", "lesions": ["coarctation"]}})
    >>> record["stated"], [one.rule for one in issues]
    ({'topology': 'right_hand', 'diagnoses': ['coarctation_of_aorta']}, ['I-SHO-01', 'I-SHO-01'])
    """
    reading, issues = expand_reading(Reading(record))
    return reading.record, issues


def expand_reading(reading: Reading) -> tuple[Reading, list[Issue]]:
    """Do the same for a reading; the values of the full record keep the places of their facts.

    In the record that comes back the state of a feature stands with the feature (:mod:`chordae.states`).
    """
    if not is_short(reading.record):
        return fill_states(reading), []
    work = _Expansion(reading)
    work.run(reading.record[FACTS])
    return fill_states(Reading(work.places.record, work.places.found)), work.issues


def is_short(record: Mapping[str, Any]) -> bool:
    """Say whether a record is in the short form."""
    return FACTS in record


class _Expansion(Values):
    def __init__(self, reading: Reading) -> None:
        rest = {key: copy.deepcopy(value) for key, value in reading.record.items() if key != FACTS}
        super().__init__(reading, Places(rest, reading))
        for key, (kind, words) in _FORMS.items():
            if key in rest and (not isinstance(rest[key], kind) or _holes(rest[key])):
                self.say("S-TYPE", f"/{key}", key=key, value=as_text(rest[key]), expected=words, found="another form")
                self.keep(rest.pop(key), key, f"/{key}")

    def run(self, facts: Any) -> None:
        known = set(class_slots("Record"))
        for key in [key for key in self.places.record if key not in known]:
            self.keep(self.places.record.pop(key), str(key), pointer(key))
            self.say("I-SHO-03", pointer(key), key=key, value=None, nearest="")
        if not isinstance(facts, Mapping):
            self.say("I-SHO-08", f"/{FACTS}", value=facts)
            self.keep(facts, FACTS, f"/{FACTS}")
            return
        for key, value in facts.items():
            self._fact(str(key), value, f"/{FACTS}{pointer(key)}")

    def _fact(self, key: str, value: Any, path: str) -> None:
        if is_empty(value):
            return
        name = short_form()["spelled"].get(plain_word(key))
        if name is not None:
            spec = short_form()["keys"][name]
            if "parts" in spec:
                self.shares(name, spec, value, path)
            elif not (isinstance(value, Mapping) and conventional(key)):
                self.values(name, spec, value, path)
            else:
                self._part(key, value, path)
        elif conventional(key) and isinstance(value, Mapping):
            self._part(key, value, path)
        elif (targets := slot_places(key)) and not isinstance(value, Mapping):
            self._elsewhere(key, targets, value, path)
        elif plain_word(value) in short_form()["affirm"] and (found := read_term(key, {}, _DIAGNOSES)).how != "unknown":
            self.take(key, {}, value, path, found, {})
        else:
            several = isinstance(value, Mapping) and plain_word(key).startswith("case")
            near = "" if several else nearest(plain_word(key), short_form()["spelled"])
            self.say("I-SHO-10" if several else "I-SHO-03", path, key=key, nearest=near)
            self.keep(value, key, path)

    def _part(self, part_id: str, values: Mapping[str, Any], path: str) -> None:
        """A conventional part with its own slots."""
        for slot, value in values.items():
            place = path + pointer(slot)
            if is_empty(value):
                continue
            if slot in class_slots(conventional(part_id).type):  # type: ignore[union-attr]  # looked up by the caller
                self.values(f"{part_id}.{slot}", {"to": f"{part_id}.{slot}"}, value, place)
            else:
                self.say("I-SHO-03", place, key=f"{part_id}.{slot}", nearest="")
                self.keep(value, f"{part_id}.{slot}", place)

    def _elsewhere(self, key: str, targets: list[str], value: Any, path: str) -> None:
        """A slot of the schema by its own name, if it can stand in one place only."""
        if len(targets) > 1:
            question = f"which is meant: {', '.join(targets[:4])}?"
            self.say("I-SHO-05", path, key=key, value=value, question=question)
            self.keep(value, key, path)
        else:
            self.values(key, {"to": targets[0]}, value, path)


def _holes(value: Any) -> bool:
    return isinstance(value, list) and not all(isinstance(one, dict) for one in value)
