"""Checking many records: the same issues whatever order, threads or company; places; what was not tested."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator

import pytest

from chordae.errors import InputError
from chordae.issues import Issue, Location
from chordae.record import Reading
from chordae.shapes import check, ready
from chordae.shapes.check import check_records
from chordae.shapes.checker import Checker
from chordae.shapes.load import load_rules
from generate_records import make_records
from rule_cases import cases, full

VALVE = {"tricuspid_valve": {"septal_leaflet": "normal", "septal_chordal_attachment": "absent"}}


def readings() -> list[Reading]:
    """Every seventh case, and some generated hearts with planted faults."""
    return [
        *(Reading(case.record) for case in cases()[::7]),
        *(Reading(record) for record, _ in make_records(40, seed=3, faults=0.5)),
    ]


@pytest.fixture(scope="module")
def alone() -> tuple[Issue, ...]:
    """The issues of all readings, each checked by itself."""
    checker = Checker()
    return tuple(
        sorted((issue for one in readings() for issue in checker.check_one(one).issues), key=lambda issue: repr(issue))
    )


def same(issues: tuple[Issue, ...], others: tuple[Issue, ...]) -> bool:
    return sorted(map(repr, issues)) == sorted(map(repr, others))


@pytest.mark.parametrize("threads", [1, 2, 5])
def test_threads_and_company_change_nothing(threads: int, alone: tuple[Issue, ...]) -> None:
    assert same(check_records(readings(), threads=threads).issues, alone)


def test_order_changes_nothing(alone: tuple[Issue, ...]) -> None:
    mixed = readings()
    random.Random(11).shuffle(mixed)
    result = check_records(mixed, threads=3)
    assert same(result.issues, alone)
    assert result == check_records(readings(), threads=1)


def test_two_records_with_one_id_are_checked_apart() -> None:
    faulty = Reading(full({"parts": VALVE}))
    good = Reading(full({"parts": {"tricuspid_valve": {"septal_chordal_attachment": "present"}}}))
    issues = check_records([faulty, good, faulty], threads=1).issues
    assert [issue.rule for issue in issues] == ["R-AV-13", "R-AV-13"]


@pytest.mark.parametrize("base", ["https://example.org/c/", "https://example.org/c#", "urn:collection:"])
def test_base_of_the_records_changes_nothing(base: str, alone: tuple[Issue, ...]) -> None:
    assert same(check_records(readings(), base=base, threads=1).issues, alone)


def test_issue_has_place_part_path_value_and_remedy() -> None:
    record = full({"parts": {"aorta": {}, **VALVE}})
    place = Location("hearts.csv", 7, 12)
    (issue,) = check_records([Reading(record, {"/parts/1/septal_chordal_attachment": place})]).issues
    assert (issue.rule, issue.severity, issue.record, issue.part) == ("R-AV-13", "violation", "case", "tricuspid_valve")
    assert (issue.path, issue.value) == ("/parts/1/septal_chordal_attachment", "absent")
    assert issue.location == place
    assert issue.message == (
        "Valve called tricuspid: typed as tricuspid with a septal leaflet recorded as normal leaflet, "
        "but septal chordal attachment is recorded as absent."
    )
    assert issue.hint.startswith("Look again at the cords of the septal leaflet.")


def test_message_uses_the_words_of_the_school_of_the_description() -> None:
    conclusions = {"atrial_arrangement": "usual", "av_connection": "mixed"}
    european = {"observer": "A", "described_on": "2026", "school": "european"}
    (one,) = check_records([Reading(full({"stated": conclusions, "description": european}))]).issues
    american = {**european, "school": "north_american"}
    (other,) = check_records([Reading(full({"stated": conclusions, "description": american}))]).issues
    assert "usual atrial arrangement" in one.message
    assert one.message != other.message


def test_message_tells_what_the_features_give_where_that_is_another_conclusion() -> None:
    atria = {
        "right_sided_atrium": {"appendage_morphology": "morphologically_left"},
        "left_sided_atrium": {"appendage_morphology": "morphologically_left"},
    }
    record = full({"stated": {"atrial_arrangement": "usual"}, "parts": atria})
    issues = {issue.rule: issue for issue in check_records([Reading(record)]).issues}
    assert "usual atrial arrangement (from the features: left isomerism)" in issues["R-ATR-01"].message


def test_no_message_shows_an_address_or_a_word_of_shacl(alone: tuple[Issue, ...]) -> None:
    assert len(alone) > 100
    for issue in alone:
        assert not any(word in issue.message for word in ("http", "Constraint", "Shape", "sh:", "_")), issue
        assert not re.search(r"\{[a-z.]+\}", issue.message), issue
        assert issue.message.endswith((".", "?"))
        assert issue.hint


def test_rules_that_met_no_node_are_not_tested() -> None:
    result = check_records([Reading(full({"parts": VALVE}))])
    assert result.tested["R-AV-13"] == 1
    assert result.tested["R-COR-01"] == 0
    assert "R-COR-01" in result.untested
    assert "R-AV-13" not in result.untested
    assert set(result.tested) == set(load_rules().rules)


def test_no_records_test_nothing() -> None:
    result = check_records([])
    assert (result.issues, result.records) == ((), 0)
    assert set(result.untested) == set(load_rules().rules)


def test_issues_can_be_handed_on_record_by_record() -> None:
    handed: list[int] = []
    result = check_records(readings(), threads=2, on_issues=lambda issues: handed.append(len(issues)))
    assert result.issues == ()
    assert len(handed) == result.records == len(readings())


def test_records_are_read_only_as_far_as_they_are_needed() -> None:
    given = 0

    def source() -> Iterator[Reading]:
        nonlocal given
        for number in range(2000):
            given = number
            yield Reading(full({"parts": VALVE}, f"r{number}"))

    stream = check._checked(source(), Checker(), 2)
    next(stream)
    assert given < 10 * check.CHUNK
    stream.close()


def test_a_record_that_cannot_be_written_is_an_error_with_words() -> None:
    with pytest.raises(InputError, match="cannot be written"):
        check_records([Reading({"id": "x", "parts": ["aorta"]})], threads=1)


def test_audit_repeats_a_share_of_the_records_and_finds_no_difference() -> None:
    some = [Reading(case.record) for case in cases()[::80]]
    result = check_records(some, audit=0.5, threads=2)
    assert 0 < result.audited < len(some)
    assert result.differences == ()
    assert result == check_records(list(reversed(some)), audit=0.5, threads=1)
    assert check_records(some[:2], audit=1.0, threads=1).audited == 2


def test_audit_tells_a_difference(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ready, "validate_shown", lambda texts, iris, shapes: [[] for _ in texts])
    result = check_records([Reading(full({"parts": VALVE}))], audit=1.0, threads=1)
    assert result.issues == ()
    (difference,) = result.differences
    assert [found.rule.rpartition("/")[2] for found in difference.reference] == ["R-AV-13"]
    assert (difference.fast, difference.stopped) == ((), "")


def test_both_engines_say_the_same_of_fifty_generated_hearts_with_planted_faults() -> None:
    """The reference is pySHACL, an independent engine; 1,000 hearts stand in tests/bench/bench_audit.py."""
    hearts = [Reading(heart) for heart, _ in make_records(50, seed=21, faults=0.6)]
    result = check_records(hearts, audit=1.0)
    assert (result.audited, result.differences) == (50, ())


def test_planted_faults_are_found() -> None:
    for record, planted in make_records(120, seed=5, faults=0.7):
        found = {issue.rule for issue in check_records([Reading(record)], threads=1).issues}
        assert set(planted) <= found
