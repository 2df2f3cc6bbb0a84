"""What a rule says, why, on whose word, where it does not hold, and two hearts to see it by: a rule id in, words out.

::

    explain_rule("R-AV-13")     text for the terminal
    rule_facts("R-AV-13")       the same as data

Everything is read from the rule files; the hearts are the first cases of the rule that passes and that fails.
"""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import yaml

from chordae import resources
from chordae.errors import ShapesError
from chordae.shapes.consequences import causes_of
from chordae.shapes.load import Rule, load_rules
from chordae.shapes.set_rules import load_set_rules
from chordae.terms import vocabulary

__all__ = ["Example", "examples", "explain_rule", "fields_of", "rule_facts"]

COMPILED = "_generated/rule_examples.json"
WIDTH = 100
SCHOOLS = {
    "both": "both schools",
    "european": "the European school only",
    "north_american": "the North American school only",
}


@dataclass(frozen=True, slots=True)
class Example:
    """A heart to see a rule by: what it is in words, the record in its short way of writing, and why."""

    says: str
    record: Mapping[str, Any]
    why: str

    @property
    def lines(self) -> list[str]:
        """The record as YAML, one line a key; of several records, one line each."""
        if isinstance(several := self.record.get("records"), list):
            return ["records:", *(f"- {_flow(one)}" for one in several)]
        return [f"{key}: {_flow(value)}" for key, value in self.record.items()]


@cache
def examples() -> Mapping[str, Mapping[str, Example]]:
    """The examples of every rule: ``passing`` and ``failing``."""
    found = json.loads(resources.read_text(COMPILED))
    return {rule: {kind: Example(**one) for kind, one in kinds.items()} for rule, kinds in found.items()}


def explain_rule(rule_id: str) -> str:
    """Explain a rule for the terminal.

    Raises
    ------
    ShapesError
        There is no such rule.

    Examples
    --------
    >>> print(explain_rule("R-AV-02").splitlines()[0])
    R-AV-02 (violation): Mixed connections need isomerism
    """
    rule = _rule(rule_id)
    lines = [f"{rule.id} ({rule.severity}): {rule.label}"]
    for name, text in fields_of(rule):
        lines += textwrap.wrap(f"{name}: {text}", WIDTH, initial_indent="  ", subsequent_indent="    ")
    for kind, example in examples().get(rule.id, {}).items():
        head = f"A heart that {'passes' if kind == 'passing' else 'fails'}: {example.says} ({example.why})"
        lines += textwrap.wrap(head, WIDTH, initial_indent="  ", subsequent_indent="    ")
        for line in example.lines:
            lines += textwrap.wrap(line, WIDTH, initial_indent="      ", subsequent_indent="        ")
    return "\n".join(lines)


def rule_facts(rule_id: str) -> dict[str, Any]:
    """Explain a rule as data for JSON.

    Raises
    ------
    ShapesError
        There is no such rule.
    """
    rule = _rule(rule_id)
    return {
        "rule": rule.id,
        "severity": rule.severity,
        "label": rule.label,
        "statement": rule.statement,
        "message": rule.message,
        "hint": rule.remedy,
        "why": rule.why,
        "exceptions": list(rule.exceptions),
        "may_follow_from": list(causes_of(rule.id)),
        "sources": list(rule.sources),
        "school": rule.school,
        "since": rule.since,
        "examples": {
            kind: {"says": one.says, "record": one.record, "why": one.why}
            for kind, one in examples().get(rule.id, {}).items()
        },
    }


def _rule(rule_id: str) -> Rule:
    rule = load_rules().rules.get(rule_id) or load_set_rules().get(rule_id)
    if rule is None:
        raise ShapesError(f"There is no rule {rule_id}.", "Rules of morphology have ids such as R-AV-13.")
    return rule


def fields_of(rule: Rule) -> Iterator[tuple[str, str]]:
    """Name and text of everything a rule says of itself, in the order of reading."""
    yield "Rule", rule.statement
    yield "Says", rule.message
    yield "Do", rule.remedy
    yield "Why", rule.why
    for exception in rule.exceptions:
        yield "Exception", exception
    if causes := causes_of(rule.id):
        yield "May follow from", f"{', '.join(causes)}; settle what these find first."
    yield "Source", "; ".join(map(_source, rule.sources))
    yield "Holds for", SCHOOLS[rule.school]
    yield "Since", rule.since


def _source(key: str) -> str:
    source = vocabulary().source(key)
    if source is None or key in {"from_memory", "common_practice"}:
        return key.replace("_", " ")
    return f"{key}: {source.citation} ({source.status})"


def _flow(value: Any) -> str:
    return (
        str(yaml.safe_dump(value, default_flow_style=True, width=10_000, sort_keys=False)).removesuffix("...\n").strip()
    )
