"""Messages as a curator reads them: the thirty of DEVELOPERS.md are those of today; none sounds like a program."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from chordae.issues import Issue
from chordae.record import Reading
from chordae.shapes.load import Rule, load_rules
from rule_cases import cases, checker

GUIDE = Path(__file__).resolve().parents[1] / "DEVELOPERS.md"
ROW = re.compile(r"^\| (R-[A-Z]+-\d+[A-Z]?) \| (.+) \|$", re.MULTILINE)
SHOWN = ROW.findall(GUIDE.read_text(encoding="utf-8"))
PROGRAMS = re.compile(r"https?:|<|>|sh:|\bIRI\b|Constraint|[a-z]_[a-z]|\bnode\b|\bnull\b|None|[{}]")


@cache
def first_of(rule: str) -> Issue:
    """The issue of the first failing case of a rule."""
    case = next(one for one in cases() if one.rule == rule and one.kind == "failing")
    return next(one for one in checker().check_one(Reading(case.record)).issues if one.rule == rule)


def test_thirty_messages_are_shown_of_every_group() -> None:
    assert len(SHOWN) == len(dict(SHOWN)) == 30
    groups = {rule.split("-")[1] for rule in load_rules().rules}
    assert {rule.split("-")[1] for rule, _ in SHOWN} == groups


@pytest.mark.parametrize(("rule", "words"), SHOWN, ids=[rule for rule, _ in SHOWN])
def test_a_message_shown_is_the_message_of_today(rule: str, words: str) -> None:
    found = first_of(rule)
    assert words == f"{found.message} *{found.hint}*"


@pytest.mark.parametrize("rule", load_rules().rules)
def test_messages_are_sentences_of_a_curator(rule: str) -> None:
    found = first_of(rule)
    for text in (found.message, found.hint):
        bare = re.sub(r"\{ ?[A-Z](\([SI]\))?,[^{}]*\}", "", text)
        assert not PROGRAMS.search(bare), text
        assert text[0].isupper() and text.endswith("."), text
    assert len(found.message) < 320


def test_an_issue_of_what_follows_points_to_what_was_stated() -> None:
    for rule in ("R-ASS-12", "R-ASS-13"):
        assert (first_of(rule).path or "").startswith("/stated/")


ONE_SCHOOL = [rule for rule in load_rules().rules.values() if rule.school == "european"]


@pytest.mark.parametrize("rule", ONE_SCHOOL, ids=lambda rule: rule.id)
def test_a_convention_of_one_school_is_no_contradiction_in_the_words_of_the_other(rule: Rule) -> None:
    case = next(one for one in cases() if one.rule == rule.id and one.kind == "failing")
    record = {**case.record, "description": {**case.record["description"], "school": "north_american"}}
    found = next(one for one in checker().check_one(Reading(record)).issues if one.rule == rule.id)
    assert found.severity == {"violation": "warning", "warning": "info", "info": "info"}[rule.severity]
    assert "convention of the European school" in found.hint
    assert first_of(rule.id).severity == rule.severity
