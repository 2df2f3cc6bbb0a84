"""The header of a mapping set: YAML, or the keys of a JSON object, to the slots of a set; and back to YAML.

::

    mapping_set_id: https://...        "https://..."
    mapping_set_version: 1.10          "1.10", as written: a version is no number
    creator_label: Thorngate           ["Thorngate"], for a slot that may hold several
    curie_map: {HP: http://...}        {"HP": "http://..."}

Every slot that is not of the standard, and every value that is not of its form, is told in an issue.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from chordae.issues import Issue, Location, issue
from chordae.sssom_slots import slots

__all__ = ["CONTROL", "SET_SLOTS", "header_of", "header_text", "read_header"]

_SET_SLOTS = """
    sssom_version mapping_set_id mapping_set_version mapping_set_source mapping_set_title mapping_set_description
    mapping_set_confidence creator_id creator_label license subject_type subject_source subject_source_version
    object_type object_source object_source_version predicate_type mapping_provider cardinality_scope mapping_tool
    mapping_tool_id mapping_tool_version mapping_date publication_date subject_match_field object_match_field
    subject_preprocessing object_preprocessing similarity_measure curation_rule curation_rule_text see_also
    issue_tracker other comment curie_map"""
SET_SLOTS = tuple(_SET_SLOTS.split())
"""Slots of the header in the order written."""
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
"""Characters that no cell and no header may hold."""

_MAX_HEADER = 65_536
_MAX_DEPTH = 5


def read_header(text: str, name: str, issues: list[Issue]) -> dict[str, Any]:
    """Return the slots of a header in YAML; empty, with an issue, if it cannot be read."""
    import yaml

    where = Location(name, 1)
    found: Any = None
    problem = ""
    if len(text) > _MAX_HEADER:
        problem = f"its header is longer than {_MAX_HEADER} characters"
    elif CONTROL.search(text):
        problem = "its header holds control characters"
    else:
        try:
            problem = _trap(text)
            # Every value stays the text that was written: 1.10 is a version, not a number.
            found = None if problem else (yaml.load(text, yaml.BaseLoader) or {})  # noqa: S506 - makes text only
        except (yaml.YAMLError, ValueError) as error:
            mark = getattr(error, "problem_mark", None)
            where = Location(name, mark.line + 1) if mark else where
            problem = "its header cannot be read as YAML"
    if not problem and not isinstance(found, dict):
        problem = "its header is not made of keys and values"
    if problem:
        issues.append(issue("I-MAP-01", location=where, problem=problem))
        return {}
    return header_of(found, where, issues)


def header_of(found: Mapping[Any, Any], where: Location, issues: list[Issue]) -> dict[str, Any]:
    """Return the slots of a header out of keys and values; what is no slot is told and left out."""
    header: dict[str, Any] = {}
    for key, value in found.items():
        slot = slots().get(str(key))
        if slot is None or not slot.of_set:
            issues.append(issue("I-MAP-02", location=where, value=key, kind="slot of the header"))
            continue
        kept, problem = _prefixes(value) if slot.kind == "prefixes" else _words(value, slot.several)
        if problem:
            issues.append(issue("I-MAP-01", location=where, problem=f"{slot.name} of its header {problem}"))
        if kept is not None:
            header[slot.name] = kept
    return header


def header_text(header: Mapping[str, Any]) -> str:
    """Return a header as YAML: slots in their order."""
    import yaml

    known = {slot: _plain(slot, header[slot]) for slot in SET_SLOTS if slot in header}
    return yaml.safe_dump(known, sort_keys=False, allow_unicode=True, width=110) if known else ""


def _trap(text: str) -> str:
    """Say why a text must not be loaded: what the standard does not use, and what could grow or recur without end."""
    import yaml

    depth = 0
    tokens: Iterator[Any] = yaml.scan(text, yaml.SafeLoader)
    for token in tokens:
        if isinstance(token, yaml.AliasToken | yaml.AnchorToken | yaml.TagToken):
            return "its header holds an alias, an anchor or a tag"
        depth += isinstance(token, yaml.FlowSequenceStartToken | yaml.FlowMappingStartToken)
        depth += isinstance(token, yaml.BlockSequenceStartToken | yaml.BlockMappingStartToken)
        depth -= isinstance(token, yaml.FlowSequenceEndToken | yaml.FlowMappingEndToken | yaml.BlockEndToken)
        if depth > _MAX_DEPTH:
            return "its header is nested too deep"
    return ""


def _prefixes(value: Any) -> tuple[dict[str, str] | None, str]:
    if not isinstance(value, Mapping):
        return None, "is not made of prefixes and what they stand for"
    kept = {str(one): iri for one, iri in value.items() if isinstance(iri, str)}
    return kept, "" if len(kept) == len(value) else "holds a prefix that stands for no IRI"


def _words(value: Any, several: bool) -> tuple[str | list[str] | None, str]:
    values = value if isinstance(value, list) else [value]
    if any(isinstance(one, dict | list) for one in values) or (isinstance(value, list) and not several):
        return None, f"does not hold {'words' if several else 'one word'}"
    texts = [_text(one) for one in values]
    return (texts if several else texts[0]), ""


def _text(value: Any) -> str:
    if value is None:
        return ""
    return str(value).lower() if isinstance(value, bool) else str(value)


def _plain(slot: str, value: Any) -> Any:
    """Return a number as one, if it is written as its digits stand; other readers expect one."""
    if slots()[slot].kind == "number":
        try:
            return float(value) if str(float(value)) == value else value
        except (TypeError, ValueError):
            return value
    return value
