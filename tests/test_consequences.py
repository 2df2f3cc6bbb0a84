"""One fault, one finding to settle first: consequences name their cause, and nothing is taken out of the list."""

from __future__ import annotations

from dataclasses import replace

import pytest

from chordae.issues import Confirmation, Issue
from chordae.knowledge import table
from chordae.record import Reading
from chordae.shapes.consequences import causes_of, settle_first
from chordae.shapes.load import load_rules
from generate_records import each_fault, make_record
from rule_cases import checker

MAY_FOLLOW: dict[str, list[str]] = table("consequences")["may_follow"]
FIRST = "May follow from "


def found_in(number: int, **changes: dict[str, object]) -> list[Issue]:
    """The issues of a sound heart after some features of its parts were changed."""
    record, _ = make_record(number, seed=17)
    for part in record["parts"]:
        part.update(changes.get(part["id"], {}))
    return checker().check_one(Reading(record)).issues


def test_every_rule_named_exists_and_none_follows_from_itself() -> None:
    rules = load_rules().rules
    assert {*MAY_FOLLOW, *(one for found in MAY_FOLLOW.values() for one in found)} <= set(rules)
    assert all(found == list(dict.fromkeys(found)) for found in MAY_FOLLOW.values())

    def follow(rule: str, way: tuple[str, ...]) -> None:
        assert rule not in way, f"{' -> '.join(way)} -> {rule}"
        for other in MAY_FOLLOW.get(rule, ()):
            follow(other, (*way, rule))

    for rule in MAY_FOLLOW:
        follow(rule, ())


@pytest.mark.parametrize(
    ("changes", "root", "least"),
    [
        ({"right_sided_ventricle": {"stated_ventricular_identity": "morphologically_left_ventricle"}}, "R-VEN-02", 5),
        ({"left_sided_atrium": {"appendage_morphology": "morphologically_right"}}, "R-ATR-02", 3),
        ({"aortic_arch": {"bronchus_crossed": "right"}}, "R-ARC-01", 3),
        ({"right_sided_atrioventricular_valve": {"stated_valve_type": "mitral"}}, "R-AV-12", 3),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_one_wrong_word_is_one_thing_to_settle(changes: dict[str, dict[str, object]], root: str, least: int) -> None:
    number = next(n for n in range(60) if make_record(n, seed=17)[0]["stated"] == SOUND and _plain(n))
    issues = found_in(number, **changes)
    assert len(issues) >= least
    assert {one.rule for one in issues if not one.hint.startswith(FIRST)} == {root}
    assert all(one.hint.startswith(f"{FIRST}{root}, ") for one in issues if one.rule != root)


SOUND = {
    "atrial_arrangement": "usual",
    "topology": "right_hand",
    "av_connection": "concordant",
    "va_connection": "concordant",
}


def _plain(number: int) -> bool:
    parts = {part["id"]: part for part in make_record(number, seed=17)[0]["parts"]}
    return "interventricular_communication" not in parts and parts["aortic_arch"].get("coarctation") != "present"


def test_most_planted_faults_leave_one_thing_to_settle() -> None:
    several = []
    for record, rule in each_fault(4):
        issues = checker().check_one(Reading(record)).issues
        first = {one.rule for one in issues if not one.hint.startswith(FIRST)}
        several += [(rule, sorted(first))] if len(first) > 1 else []
    assert len(several) < 30, several


def test_parts_of_one_kind_are_told_apart() -> None:
    base = Issue("R-AV-12", "violation", "m", "h", record="1", part="left_valve", path="/parts/3/x")
    other = Issue("R-AV-13", "violation", "m", "h", record="1", part="right_valve", path="/parts/4/x")
    rules = load_rules().rules
    assert settle_first([base, other], rules) == [base, other]
    same = replace(other, part="left_valve")
    assert settle_first([base, same], rules)[1].hint.startswith("May follow from R-AV-12, ")


def test_what_was_confirmed_is_no_cause() -> None:
    base = Issue("R-VEN-02", "warning", "m", "h", record="1", part="v")
    other = Issue("R-VEN-07", "warning", "m", "h", record="1", part="v")
    rules = load_rules().rules
    confirmed = replace(base, confirmed=Confirmation("Reader A", "2026-05-04", "seen again", "warning"))
    assert settle_first([confirmed, other], rules) == [confirmed, other]
    assert settle_first([base, other], rules)[1].hint.endswith("settle that first. h")
    assert causes_of("R-VEN-07") == ("R-VEN-02", "R-VEN-01")
