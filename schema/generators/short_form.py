"""The short form's keys and spellings, checked against the tables and put under every spelling of a key."""

from __future__ import annotations

import re
from typing import Any

__all__ = ["make_short_form"]

_WORD = re.compile(r"[^\W_]+(_[^\W_]+)*")


def make_short_form(source: dict[str, Any], tables: dict[str, Any]) -> dict[str, Any]:
    """Return the short form as it is read at run time.

    Raises
    ------
    ValueError
        A spelling stands under two keys, a word is not written in its plain form, or a target is not in the schema.
    """
    spelled: dict[str, str] = {}
    for key, spec in source["keys"].items():
        for spelling in (key, *spec.get("spellings", ())):
            if spelled.setdefault(spelling, key) != key:
                raise ValueError(f"short form: {spelling!r} is a spelling of {spelled[spelling]} and of {key}")
        words = {**spec.get("words", {}), **spec.get("questions", {})}
        for word in words:
            if not isinstance(word, str) or not _WORD.fullmatch(word) or word != word.lower():
                raise ValueError(f"short form: the word {word!r} of {key} is not in lower case with underscores")
        for target in _targets(spec):
            _check(target, key, spec, tables)
    return {
        "not_recorded": source["not_recorded"],
        "contract": source["contract"],
        "doubt": source["doubt"],
        "affirm": source["affirm"],
        "deny": source["deny"],
        "spelled": spelled,
        "keys": source["keys"],
    }


def _targets(spec: dict[str, Any]) -> list[tuple[str, Any]]:
    to = str(spec.get("to", ""))
    settings = [
        *spec.get("words", {}).values(),
        *(row["set"] for row in spec.get("phrases", ())),
        *([spec["otherwise"]["set"]] if "otherwise" in spec else []),
    ]
    found: list[tuple[str, Any]] = [(to, None)] if to else []
    for one in settings:
        found += list(one.items()) if isinstance(one, dict) else [(to, one)]
    found += [(f"{part}.override_per_cent", None) for part in spec.get("parts", {}).values()]
    return found


def _check(target: tuple[str, Any], key: str, spec: dict[str, Any], tables: dict[str, Any]) -> None:
    place, value = target
    part, _, slot = place.partition(".")
    type_name = spec.get("types", {}).get(part) or tables["parts"].get(part, {}).get("type")
    owner = {"stated": "StatedConclusions", "description": "Description", "specimen": "Specimen"}.get(part, type_name)
    if owner is None or (slot and slot not in tables["classes"][owner]["slots"]):
        raise ValueError(f"short form: {key} leads to {place}, which the schema does not have")
    found = tables["slots"].get(slot, {})
    for one in value if isinstance(value, list) else [value]:
        if isinstance(one, str) and found.get("kind") == "enum" and one not in tables["enums"][found["enum"]]["values"]:
            raise ValueError(f"short form: {key}: {one!r} is no value of {place}")
