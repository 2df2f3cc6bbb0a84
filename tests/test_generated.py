"""Generated hearts: sound ones are left alone, and each planted fault is found by the rule that it breaks.

A thousand hearts with planted faults are checked by both engines in ``tests/bench/bench_audit.py``.
"""

from __future__ import annotations

from collections.abc import Sequence

from chordae.record import Reading, Record
from generate_records import FAULTS, KINDS, each_fault, make_records
from rule_cases import checker


def spoken(records: Sequence[Record]) -> list[set[str]]:
    """The rules that speak of each record."""
    return [{issue.rule for issue in one.issues} for one in checker().check_many([Reading(one) for one in records])]


def test_no_rule_speaks_of_a_sound_heart() -> None:
    records = [record for record, _ in make_records(200, seed=17)]
    assert set().union(*spoken(records)) == set()
    assert len(KINDS) >= 15


def test_every_planted_fault_is_found_by_its_rule() -> None:
    for seed in (1, 2):
        planted = list(each_fault(seed))
        found = spoken([record for record, _ in planted])
        assert [rule for (_, rule), rules in zip(planted, found, strict=True) if rule not in rules] == []


def test_generated_hearts_make_more_than_a_hundred_rules_speak() -> None:
    records = [record for record, _ in make_records(400, seed=5, faults=0.8)]
    assert len(set().union(*spoken(records))) > 100
    assert len(FAULTS) > 150


def test_one_fault_is_mostly_told_once() -> None:
    """Consequences of a fault are few: three of four faults make one rule speak, hardly any more than four."""
    numbers = sorted(len(rules) for rules in spoken([record for record, _ in each_fault(3)]))
    assert numbers[3 * len(numbers) // 4] == 1
    assert numbers[-1] <= 7
