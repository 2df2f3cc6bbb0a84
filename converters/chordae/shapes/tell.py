"""From a finding of an engine to an issue in a morphologist's words, with its place.

::

    Result(.../part/tricuspid_valve, rule R-AV-13)  +  record
        -> Issue("Valve called tricuspid: typed as tricuspid with a septal leaflet recorded as normal leaflet, but ...",
                 hint "Look again at the cords ...", part "tricuspid_valve",
                 path "/parts/3/septal_chordal_attachment", value "absent", source "EMED; MIN",
                 location cell or line the value was read from)

Words of the schema are shown by the label that the school of the description prefers. What holds in the European
school only is a step less severe where a description is in the words of the other.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from chordae.issues import Issue, Severity, shown
from chordae.model import class_slots, enum_of
from chordae.record import Reading, feature_state, pointer, say
from chordae.shapes.focus import Focus, locate
from chordae.shapes.lint import fields
from chordae.shapes.load import Rule
from chordae.shapes.result import Result
from chordae.shapes.shapes_graph import MODEL
from chordae.terms import vocabulary

__all__ = ["derived_in", "tell"]

CONCLUSIONS = ("atrial_arrangement", "topology", "av_connection", "va_connection")
"""Slots that stand both under what was stated and under what was derived."""
_LOWER: Mapping[Severity, Severity] = {"violation": "warning", "warning": "info", "info": "info"}
"""What a convention of the European school asks of a description in the words of the other one. Not the other way
round: the rules of the North American school are about its notation, which has to be right wherever it is written."""
_NO_FEATURES = ("state", "state_reason", "note", "parts", *CONCLUSIONS)
_OTHER_SCHOOL = "This is a convention of the European school; the description is in the words of the other."
_STEPS = ("stated", "derived", "specimen", "description")
_DOT = re.compile(r"(?<=[a-z])\.(?=[a-z])")
"""Between a part and its feature."""
_LEXICAL = re.compile(r'"(.*)"(?:@[a-z0-9-]+|\^\^<[^>]*>)?', re.DOTALL)


def tell(
    result: Result, rule: Rule, reading: Reading, record_iri: str, derived: Mapping[str, Any] | None = None
) -> Issue | None:
    """Tell one finding.

    Parameters
    ----------
    result, rule
        What an engine found, and the rule it found it by.
    reading
        The record that was checked, with the places of its values.
    record_iri
        IRI of the record in the graph that was checked.
    derived
        What was derived from the record, in the form of the schema.

    Returns
    -------
    Issue or None
        ``None`` where a rule asks for a feature of which the record does say something elsewhere: that the part, or
        the material of the specimen, could not be judged.
    """
    record = reading.record
    focus = locate(record, record_iri, result.focus, derived)
    if focus.part is not None and _asks(rule, focus) and _spoken_of(focus.part, rule, record):
        return None
    words = {"value": _lexical(result.value), "found": _lexical(result.value)}
    slot = _slot(rule, focus, words["value"], record, derived)
    path, value = _look(slot, focus, record, derived) if slot else (focus.path, None)
    if slot and path.startswith("/derived/") and (stated := (record.get("stated") or {}).get(slot)) is not None:
        path, value = pointer("stated", slot), stated  # what follows has no place of its own; what was stated has
    value = words["value"] or value
    message = _fill(rule.template, words, focus, record, derived) or rule.message
    about = _about(focus) if path.startswith(focus.path) else ""
    other_school = rule.school == "european" and _school(record) == "north_american"
    return Issue(
        rule=rule.id,
        severity=_LOWER[rule.severity] if other_school else rule.severity,
        message=f"{about}: {message[:1].lower()}{message[1:]}" if about else message,
        hint=f"{rule.remedy} {_OTHER_SCHOOL}" if other_school else rule.remedy,
        record=str(record.get("id")),
        part=_part_id(focus),
        path=path,
        value=None if value is None or slot == "parts" else shown(_plain(value)),
        source="; ".join(rule.sources) or None,
        location=reading.place(path),
    )


def _asks(rule: Rule, focus: Focus) -> bool:
    """Whether a rule asks for a feature of this part: a rule of silence, or one whose first slot has nothing in it."""
    first = rule.about[0] if rule.about else ""
    open_slot = focus.node is focus.part and first not in focus.node and first not in _NO_FEATURES
    return rule.silence or (rule.severity != "violation" and bool(first) and open_slot)


def _spoken_of(part: Mapping[str, Any], rule: Rule, record: Mapping[str, Any]) -> bool:
    return feature_state(part, rule.about[0], record).state in {"not_assessable", "not_examined"}


def _about(focus: Focus) -> str:
    if focus.part is not None:
        words = say(focus.part)
        if isinstance(feature := focus.node.get("feature"), str):
            words += f", {feature.replace('_', ' ')}"
    elif isinstance(structure := focus.node.get("structure"), str):
        name, dot, feature = structure.partition(".")
        words = say(name) + dot.replace(".", ", ") + feature.replace("_", " ")
    elif isinstance(part := focus.node.get("part"), str) and focus.path.startswith("/measurements"):
        words = f"measurement of the {say(part)}"
    else:
        return ""
    return words[:1].upper() + words[1:]


def _part_id(focus: Focus) -> str | None:
    found = focus.part.get("id") if focus.part is not None else focus.node.get("part")
    return found if isinstance(found, str) else None


def _slot(
    rule: Rule, focus: Focus, text: str, record: Mapping[str, Any], derived: Mapping[str, Any] | None
) -> str | None:
    """The slot that an issue points to: the one that holds the text found, else the first that holds anything."""
    for slot in rule.about:
        if text and str(focus.node.get(slot)) == text:
            return slot
    for slot in rule.about:
        if _look(slot, focus, record, derived)[1] is not None:
            return slot
    return rule.about[0] if rule.about else None


def _look(name: str, focus: Focus, record: Mapping[str, Any], derived: Mapping[str, Any] | None) -> tuple[str, Any]:
    """Path and value of a slot: of the node itself, else of what was stated, else of what was derived."""
    head, _, slot = name.rpartition(".")
    if not head and slot in focus.node:
        return focus.path + pointer(slot), focus.node[slot]
    if not focus.path or focus.path.startswith(("/stated", "/derived")) or focus.part is not None:
        for step in (head,) if head else _STEPS[:2]:
            node = derived if step == "derived" and derived is not None else record.get(step)
            for key in (slot, "arrangement") if step == "derived" and slot == "atrial_arrangement" else (slot,):
                if isinstance(node, Mapping) and node.get(key) is not None:
                    return pointer(step, key), node[key]
    elif head and isinstance(node := record.get(head), Mapping) and node.get(slot) is not None:
        return pointer(head, slot), node[slot]
    return focus.path, None


def _fill(
    template: str,
    words: Mapping[str, str],
    focus: Focus,
    record: Mapping[str, Any],
    derived: Mapping[str, Any] | None,
) -> str | None:
    filled = {}
    for name in fields(template):
        value = _look(name, focus, record, derived)[1]
        if value is None and (value := words.get(name)) in {None, ""}:
            return None
        school = _school(record)
        told = _words(name.rpartition(".")[2], value, school)
        other = _look(f"derived.{name}", focus, record, derived)[1] if "." not in name and name in CONCLUSIONS else None
        if other is not None and other != value:
            told = f"{told} (from the features: {_words(name, other, school)})"
        filled["{" + name + "}"] = shown(told, 200)
    return re.sub(r"\{[^{}]+\}", lambda match: filled[match.group()], template)


def _words(slot: str, value: Any, school: str) -> str:
    if isinstance(value, list):
        return ", ".join(_words(slot, one, school) for one in value)
    iri = (enum_of(slot) or {}).get(str(value))
    if slot in {"feature", "structure", "rests_on"}:
        return _DOT.sub(", ", str(value)).replace("_", " ")
    if iri is None:
        return _plain(value)
    term = vocabulary().get(iri.rpartition("/")[2])
    if term is None:
        return str(value).replace("_", " ")
    return term.north_american if school == "north_american" else term.european


def _school(record: Mapping[str, Any]) -> str:
    said = (record.get("description") or {}).get("school")
    return "north_american" if said == "north_american" else "european"


def _plain(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(_plain(one) for one in value)
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {_plain(one)}" for key, one in value.items())
    return str(value)


def _lexical(term: str) -> str:
    match = _LEXICAL.fullmatch(term)
    return match[1].replace('\\"', '"').replace("\\n", "\n").replace("\\\\", "\\") if match else ""


def derived_in(graph: str, iri: str) -> dict[str, Any]:
    """The derived conclusions that a graph holds, as words of the schema."""
    found: dict[str, Any] = {}
    start = f"<{iri}/derived> <{MODEL}"
    place = graph.find(start)
    while place >= 0 and graph.startswith(start, place):
        end = graph.find("\n", place)
        name, _, term = graph[place + len(start) : end].removesuffix(" .").partition("> ")
        slot = "arrangement" if name == "atrial_arrangement" else name
        if slot in class_slots("DerivedConclusions"):
            words = {f"<{value}>": key for key, value in (enum_of(slot) or {}).items()}
            found[slot] = words.get(term, term.strip('"'))
        place = end + 1
    return found
