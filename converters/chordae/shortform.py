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
import re
from collections.abc import Mapping
from typing import Any

from chordae.issues import Issue, issue, nearest
from chordae.model import class_slots, conventional
from chordae.record import Reading, Record, pointer
from chordae.shortplaces import Places, in_words, slot_places
from chordae.shortplain import as_text, plain_word
from chordae.shortwords import Understood, is_empty, read_share, read_term, read_words, short_form, target_slot
from chordae.states import fill_states
from chordae.wordlist import term_words

__all__ = ["FACTS", "expand", "expand_reading", "is_short"]

FACTS = "facts"
"""Key under which the facts of a short record stand."""

_DIAGNOSES = "stated.diagnoses"
_NOTATION = "stated.notation"
_PHRASE = 3
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


class _Expansion:
    def __init__(self, reading: Reading) -> None:
        self._reading = reading
        self.issues: list[Issue] = []
        rest = {key: copy.deepcopy(value) for key, value in reading.record.items() if key != FACTS}
        self.places = Places(rest, reading)
        for key, (kind, words) in _FORMS.items():
            if key in rest and (not isinstance(rest[key], kind) or _holes(rest[key])):
                self._say("S-TYPE", f"/{key}", key=key, value=as_text(rest[key]), expected=words, found="another form")
                self._keep(rest.pop(key), key, f"/{key}")

    def run(self, facts: Any) -> None:
        known = set(class_slots("Record"))
        for key in [key for key in self.places.record if key not in known]:
            self._keep(self.places.record.pop(key), str(key), pointer(key))
            self._say("I-SHO-03", pointer(key), key=key, value=None, nearest="")
        if not isinstance(facts, Mapping):
            self._say("I-SHO-08", f"/{FACTS}", value=facts)
            self._keep(facts, FACTS, f"/{FACTS}")
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
                self._shares(name, spec, value, path)
            elif not (isinstance(value, Mapping) and conventional(key)):
                self._values(name, spec, value, path)
            else:
                self._part(key, value, path)
        elif conventional(key) and isinstance(value, Mapping):
            self._part(key, value, path)
        elif (targets := slot_places(key)) and not isinstance(value, Mapping):
            self._elsewhere(key, targets, value, path)
        elif plain_word(value) in short_form()["affirm"] and (found := read_term(key, {}, _DIAGNOSES)).how != "unknown":
            self._take(key, {}, value, path, found, {})
        else:
            several = isinstance(value, Mapping) and plain_word(key).startswith("case")
            near = "" if several else nearest(plain_word(key), short_form()["spelled"])
            self._say("I-SHO-10" if several else "I-SHO-03", path, key=key, nearest=near)
            self._keep(value, key, path)

    def _part(self, part_id: str, values: Mapping[str, Any], path: str) -> None:
        """A conventional part with its own slots."""
        for slot, value in values.items():
            place = path + pointer(slot)
            if is_empty(value):
                continue
            if slot in class_slots(conventional(part_id).type):  # type: ignore[union-attr]  # looked up by the caller
                self._values(f"{part_id}.{slot}", {"to": f"{part_id}.{slot}"}, value, place)
            else:
                self._say("I-SHO-03", place, key=f"{part_id}.{slot}", nearest="")
                self._keep(value, f"{part_id}.{slot}", place)

    def _elsewhere(self, key: str, targets: list[str], value: Any, path: str) -> None:
        """A slot of the schema by its own name, if it can stand in one place only."""
        if len(targets) > 1:
            question = f"which is meant: {', '.join(targets[:4])}?"
            self._say("I-SHO-05", path, key=key, value=value, question=question)
            self._keep(value, key, path)
        else:
            self._values(key, {"to": targets[0]}, value, path)

    def _values(self, name: str, spec: Mapping[str, Any], value: Any, path: str) -> None:
        slot = target_slot(spec.get("to", ""))
        several = isinstance(value, list) and (spec.get("list") or (slot is not None and slot.multivalued))
        entries = value if several else [value]
        met: dict[str, list[Any]] = {}
        for number, entry in enumerate(entries):
            place = f"{path}/{number}" if several else path
            if is_empty(entry):
                continue
            if spec.get("to") == _NOTATION and isinstance(entry, Mapping):
                entry = _braces(entry)
            if isinstance(entry, list | Mapping):
                self._say("I-SHO-02", place, key=name, value=as_text(entry), nearest="", severity=self._strictly(name))
                self._keep(entry, name, place)
            else:
                self._entry(name, spec, entry, place, met)

    def _entry(self, name: str, spec: Mapping[str, Any], value: Any, path: str, met: dict[str, list[Any]]) -> None:
        self._take(name, spec, value, path, read_words(value, spec), met)

    def _take(
        self, name: str, spec: Mapping[str, Any], value: Any, path: str, found: Understood, met: dict[str, list[Any]]
    ) -> None:
        if found.settings:
            self._apply(name, spec, value, path, found, met)
            return
        if found.how == "question":
            self._say("I-SHO-05", path, key=name, value=value, question=found.question)
        elif found.how == "kept":
            self._say("I-SHO-03", path, key=name, value=value, nearest="")
        else:
            self._unknown(name, spec, value, path)
        self._keep(value, name, path)

    def _apply(
        self, name: str, spec: Mapping[str, Any], value: Any, path: str, found: Understood, met: dict[str, list[Any]]
    ) -> None:
        taken = []
        for target, one in found.settings.items():
            joined = _join(target, one, spec, met)
            clash = self.places.put(target, joined, path, spec.get("types", {}), replace=joined != one)
            taken.append(as_text(one) if target == spec.get("to") else in_words(target, one))
            if clash is not None:
                self._say("I-SHO-06", path, key=in_words(target), value=as_text(one), first=as_text(clash))
                self._keep(value, name, path)
        for caution in spec.get("cautions", ()):
            if re.search(caution["match"], str(value).casefold()):
                self._say("I-SHO-05", path, key=name, value=value, question=caution["say"])
        if found.how == "spelling":
            self._say("I-SHO-01", path, key=name, value=value, taken=" and ".join(taken))
        elif found.how == "phrase":
            self._say("I-SHO-04", path, key=name, value=value, taken=" and ".join(taken))
            part = spec.get("place") or next(iter(found.settings)).partition(".")[0]
            if not self.places.note(part, str(value), path):
                self._keep(value, name, path)

    def _shares(self, name: str, spec: Mapping[str, Any], value: Any, path: str) -> None:
        """Override in per cent, or a feature that is present or absent, of valves and trunks by name."""
        if isinstance(value, str) and plain_word(value) in spec["parts"]:
            value = {value: True}
        if not isinstance(value, Mapping):
            self._say("I-SHO-09", path, key=name, value=as_text(value), severity=self._strictly(name))
            self._keep(value, name, path)
            return
        for whose, share in value.items():
            place = path + pointer(whose)
            part = spec["parts"].get(plain_word(whose))
            if is_empty(share):
                continue
            if part is None:
                near = nearest(plain_word(whose), spec["parts"])
                self._say("I-SHO-03", place, key=f"{name}.{whose}", nearest=near)
                self._keep(share, f"{name}.{whose}", place)
                continue
            found = read_share(share, part, spec.get("presence"))
            if found.how in {"exact", "spelling"}:
                self._apply(f"{name}.{whose}", {}, share, place, found, {})
            else:
                self._say("I-SHO-07", place, key=f"{name}.{whose}", value=as_text(share), severity=self._strictly(name))
                self._keep(share, f"{name}.{whose}", place)

    def _unknown(self, name: str, spec: Mapping[str, Any], value: Any, path: str) -> None:
        slot = target_slot(spec.get("to", ""))
        if slot is not None and slot.kind == "term":
            self._say("I-SHO-11", path, key=name, value=value, nearest=nearest(plain_word(value), term_words()))
            return
        known = [*(slot.values if slot else ()), *spec.get("words", ())]
        free = isinstance(value, str) and len(value.split()) > _PHRASE
        near = "" if free else nearest(plain_word(value), known)
        severity = "warning" if free else self._strictly(name)
        self._say("I-SHO-02", path, key=name, value=value, nearest=near, severity=severity)

    @staticmethod
    def _strictly(name: str) -> str:
        """A value that is not known is a violation under the keys of the contract, elsewhere a warning."""
        return "violation" if name in short_form()["contract"] else "warning"

    def _keep(self, value: Any, key: str, path: str) -> None:
        self.places.remark(as_text(value), key, path)

    def _say(self, rule: str, path: str, **fields: Any) -> None:
        record = self._reading.record.get("id")
        shown = None if record is None else str(record)
        self.issues.append(issue(rule, location=self._reading.place(path), record=shown, path=path, **fields))


def _braces(value: Mapping[str, Any]) -> Any:
    """Notation without quotes, {S,D,S}, is read by YAML as keys without values."""
    letters = all(one is None for one in value.values()) and all(isinstance(one, str) for one in value)
    return "{" + ",".join(value) + "}" if letters else value


def _holes(value: Any) -> bool:
    return isinstance(value, list) and not all(isinstance(one, dict) for one in value)


def _join(target: str, value: Any, spec: Mapping[str, Any], met: dict[str, list[Any]]) -> Any:
    rule = spec.get("join", {}).get(target.rpartition(".")[2])
    if rule is None:
        return value
    values = met.setdefault(target, [])
    values.append(value)
    return rule["value"] if set(rule["values"]) == set(values) else value
