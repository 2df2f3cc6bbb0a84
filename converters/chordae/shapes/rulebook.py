"""The rule book: all rules as one HTML page that asks nothing of the network; it opens from a folder as well.

::

    Atrioventricular junctions and valves (37)
      R-AV-13  violation   A tricuspid valve has septal cords
        the rule, why, exceptions, what it says, what to do, source, school, version
        a heart that passes          | a heart that fails
        Valve called tricuspid       | Valve called tricuspid
          septal leaflet: normal     |   septal leaflet: normal

Rules stand by segment (``schema/shapes/groups.yaml``); a search box and two lists narrow them. Without scripts the page
is a plain list. The frame is ``rulebook.html``; everything put into it is escaped.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape
from importlib.resources import files
from string import Template
from typing import Any

import yaml

from chordae import resources
from chordae.issues import SEVERITIES
from chordae.model import conventional, enum_of
from chordae.record import say
from chordae.shapes.explain import SCHOOLS, Example, examples, fields_of
from chordae.shapes.load import Rule, load_rules
from chordae.shapes.set_rules import load_set_rules
from chordae.terms import vocabulary

__all__ = ["rule_book"]

GROUPS = "schema/shapes/groups.yaml"
_KINDS = {"passing": "A heart that passes", "failing": "A heart that fails"}
_PLAIN = ("facts", "stated", "specimen", "description")
_LONG = {"av": "atrioventricular", "va": "ventriculoarterial", "ivc": "communication", "refs": "named"}
_HEADS = {
    "facts": "The heart in short",
    "stated": "Stated by the observer",
    "specimen": "Specimen",
    "description": "Description",
    "measurements": "Measurement",
    "evidence": "Evidence",
}


def rule_book() -> str:
    """Return the page."""
    names: dict[str, str] = yaml.safe_load(resources.read_text(GROUPS))["groups"]
    groups: dict[str, list[Rule]] = {letters: [] for letters in names}
    rules = [*load_rules().rules.values(), *load_set_rules().values()]
    for rule in rules:
        groups[rule.id.split("-")[1]].append(rule)
    contents = "".join(
        f'<li><a href="#{letters}">{escape(names[letters])}</a> <span>{len(own)}</span></li>\n'
        for letters, own in groups.items()
    )
    body = "".join(
        f'<section id="{letters}">\n<h2>{escape(names[letters])}</h2>\n{"".join(map(_article, own))}</section>\n'
        for letters, own in groups.items()
    )
    frame = Template(files("chordae.shapes").joinpath("rulebook.html").read_text(encoding="utf-8"))
    return frame.substitute(
        number=len(rules),
        version=resources.VERSION,
        counts=", ".join(f"{sum(one.severity == severity for one in rules)} {severity}" for severity in SEVERITIES),
        severities="".join(f"<option>{one}</option>" for one in SEVERITIES),
        schools="".join(f'<option value="{key}">{escape(words)}</option>' for key, words in SCHOOLS.items()),
        contents=contents,
        rules=body,
    )


def _article(rule: Rule) -> str:
    rows = "".join(
        f"<dt>{escape(name)}</dt><dd>{escape(text)}</dd>\n" for name, text in fields_of(rule) if name != "Rule"
    )
    hearts = "".join(
        f'<div class="{kind}"><h4>{_KINDS[kind]}</h4>{_heart(one)}</div>\n'
        for kind, one in examples().get(rule.id, {}).items()
    )
    return (
        f'<article id="{rule.id}" data-severity="{rule.severity}" data-school="{rule.school}">\n'
        f'<h3><a href="#{rule.id}">{rule.id}</a> <span class="mark {rule.severity}">{rule.severity}</span> '
        f'{escape(rule.label)}</h3>\n<p class="statement">{escape(rule.statement)}</p>\n<dl>\n{rows}</dl>\n'
        f'<div class="hearts">{hearts}</div>\n</article>\n'
    )


def _heart(example: Example) -> str:
    lines = escape("\n".join(example.lines))
    says = f"{example.says[:1].upper()}{example.says[1:]}: {example.why}."
    return (
        f"<p>{escape(says)}</p>\n{_facts(example.record)}"
        f"<details><summary>As a record</summary><pre>{lines}</pre></details>\n"
    )


def _facts(record: Mapping[str, Any]) -> str:
    """The record in words: a list of what is recorded, node by node."""
    if isinstance(records := record.get("records"), list):
        return "".join(f'<p class="one">Record {escape(str(one.get("id")))}</p>{_facts(one)}' for one in records)
    items = []
    for head, node in _nodes(record):
        told = "; ".join(f"{_name(slot)}: {_words(slot, value)}" for slot, value in node.items())
        items.append(f"<li><b>{escape(head)}</b> {escape(told)}</li>\n")
    return f"<ul>{''.join(items)}</ul>\n"


def _nodes(record: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    if collection := record.get("collection"):
        yield "Collection", {"id": collection}
    for key in _PLAIN:
        if isinstance(node := record.get(key), dict) and node:
            yield _HEADS[key], node
    parts = record.get("parts") or {}
    listed = parts.items() if isinstance(parts, dict) else [(str(one.get("id")), one) for one in parts]
    for part_id, features in listed:
        own = {slot: value for slot, value in (features or {}).items() if slot not in ("id", "type")}
        words = say({"id": part_id, "type": (features or {}).get("type", "")}) if part_id else "part"
        yield words[:1].upper() + words[1:], own or {"state": "described, nothing else recorded"}
    for key in ("measurements", "evidence"):
        for node in record.get(key) or ():
            yield _HEADS[key], {slot: value for slot, value in node.items() if slot != "id"}


def _name(slot: str) -> str:
    return " ".join(_LONG.get(word, word) for word in slot.split("_"))


def _words(slot: str, value: Any) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{_name(key)} {_words(key, one)}" for key, one in value.items())
    if isinstance(value, Sequence) and not isinstance(value, str):
        return ", then ".join(_words(slot, one) for one in value)
    if slot in ("lesions", "diagnoses") or value in (enum_of(slot) or {}):
        iri = (enum_of(slot) or {}).get(str(value), f"/{value}")
        term = vocabulary().get(iri.rpartition("/")[2])
        return term.european if term is not None else _name(str(value))
    text = str(value)
    if conventional(text) is not None:
        return say(text)
    return _name(text) if isinstance(value, str) and text.replace("_", "").isalnum() else text
