"""From the value of one fact to its places in a full record, by its row of the short form; what is not read is kept.

::

    values("infundibulum", {"to": "outflow_tracts.infundibulum", ...}, "subaortic", "/facts/infundibulum")
    shares("override", {"parts": {"aorta": "aorta"}}, {"aorta": 60}, "/facts/override")
        |  read_words, read_share
        v
    places.put(...)    or a remark, with an issue that says why
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from chordae.issues import Issue, issue, nearest
from chordae.record import Reading, pointer
from chordae.shortplaces import Places, in_words
from chordae.shortplain import as_text, plain_word
from chordae.shortwords import Understood, is_empty, read_share, read_words, short_form, target_slot
from chordae.wordlist import term_words

__all__ = ["Values"]

_NOTATION = "stated.notation"
_PHRASE = 3


class Values:
    """Values on their way into ``places``; ``issues`` says what was noticed."""

    def __init__(self, reading: Reading, places: Places) -> None:
        self.reading = reading
        self.places = places
        self.issues: list[Issue] = []

    def values(self, name: str, spec: Mapping[str, Any], value: Any, path: str) -> None:
        """Take one value, or each of a list, of a fact whose row of the short form is ``spec``."""
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
                self.say("I-SHO-02", place, key=name, value=as_text(entry), nearest="", severity=self._strictly(name))
                self.keep(entry, name, place)
            else:
                self._entry(name, spec, entry, place, met)

    def _entry(self, name: str, spec: Mapping[str, Any], value: Any, path: str, met: dict[str, list[Any]]) -> None:
        self.take(name, spec, value, path, read_words(value, spec), met)

    def take(
        self, name: str, spec: Mapping[str, Any], value: Any, path: str, found: Understood, met: dict[str, list[Any]]
    ) -> None:
        """Take what was understood of a value, or keep the value with an issue."""
        if found.settings:
            self._apply(name, spec, value, path, found, met)
            return
        if found.how == "question":
            self.say("I-SHO-05", path, key=name, value=value, question=found.question)
        elif found.how == "kept":
            self.say("I-SHO-03", path, key=name, value=value, nearest="")
        else:
            self._unknown(name, spec, value, path)
        self.keep(value, name, path)

    def _apply(
        self, name: str, spec: Mapping[str, Any], value: Any, path: str, found: Understood, met: dict[str, list[Any]]
    ) -> None:
        taken = []
        for target, one in found.settings.items():
            joined = _join(target, one, spec, met)
            clash = self.places.put(target, joined, path, spec.get("types", {}), replace=joined != one)
            taken.append(as_text(one) if target == spec.get("to") else in_words(target, one))
            if clash is not None:
                self.say("I-SHO-06", path, key=in_words(target), value=as_text(one), first=as_text(clash))
                self.keep(value, name, path)
        for caution in spec.get("cautions", ()):
            if re.search(caution["match"], str(value).casefold()):
                self.say("I-SHO-05", path, key=name, value=value, question=caution["say"])
        if found.how == "spelling":
            self.say("I-SHO-01", path, key=name, value=value, taken=" and ".join(taken))
        elif found.how == "phrase":
            self.say("I-SHO-04", path, key=name, value=value, taken=" and ".join(taken))
            part = spec.get("place") or next(iter(found.settings)).partition(".")[0]
            if not self.places.note(part, str(value), path):
                self.keep(value, name, path)

    def shares(self, name: str, spec: Mapping[str, Any], value: Any, path: str) -> None:
        """Override in per cent, or a feature that is present or absent, of valves and trunks by name."""
        if isinstance(value, str) and plain_word(value) in spec["parts"]:
            value = {value: True}
        if not isinstance(value, Mapping):
            self.say("I-SHO-09", path, key=name, value=as_text(value), severity=self._strictly(name))
            self.keep(value, name, path)
            return
        for whose, share in value.items():
            place = path + pointer(whose)
            part = spec["parts"].get(plain_word(whose))
            if is_empty(share):
                continue
            if part is None:
                near = nearest(plain_word(whose), spec["parts"])
                self.say("I-SHO-03", place, key=f"{name}.{whose}", nearest=near)
                self.keep(share, f"{name}.{whose}", place)
                continue
            found = read_share(share, part, spec.get("presence"))
            if found.how in {"exact", "spelling"}:
                self._apply(f"{name}.{whose}", {}, share, place, found, {})
            else:
                self.say("I-SHO-07", place, key=f"{name}.{whose}", value=as_text(share), severity=self._strictly(name))
                self.keep(share, f"{name}.{whose}", place)

    def _unknown(self, name: str, spec: Mapping[str, Any], value: Any, path: str) -> None:
        slot = target_slot(spec.get("to", ""))
        if slot is not None and slot.kind == "term":
            self.say("I-SHO-11", path, key=name, value=value, nearest=nearest(plain_word(value), term_words()))
            return
        known = [*(slot.values if slot else ()), *spec.get("words", ())]
        free = isinstance(value, str) and len(value.split()) > _PHRASE
        near = "" if free else nearest(plain_word(value), known)
        severity = "warning" if free else self._strictly(name)
        self.say("I-SHO-02", path, key=name, value=value, nearest=near, severity=severity)

    @staticmethod
    def _strictly(name: str) -> str:
        """A value that is not known is a violation under the keys of the contract, elsewhere a warning."""
        return "violation" if name in short_form()["contract"] else "warning"

    def keep(self, value: Any, key: str, path: str) -> None:
        """Keep what could not be read as a remark."""
        self.places.remark(as_text(value), key, path)

    def say(self, rule: str, path: str, **fields: Any) -> None:
        """Add an issue."""
        record = self.reading.record.get("id")
        shown = None if record is None else str(record)
        self.issues.append(issue(rule, location=self.reading.place(path), record=shown, path=path, **fields))


def _braces(value: Mapping[str, Any]) -> Any:
    """Notation without quotes, {S,D,S}, is read by YAML as keys without values."""
    letters = all(one is None for one in value.values()) and all(isinstance(one, str) for one in value)
    return "{" + ",".join(value) + "}" if letters else value


def _join(target: str, value: Any, spec: Mapping[str, Any], met: dict[str, list[Any]]) -> Any:
    rule = spec.get("join", {}).get(target.rpartition(".")[2])
    if rule is None:
        return value
    values = met.setdefault(target, [])
    values.append(value)
    return rule["value"] if set(rule["values"]) == set(values) else value
