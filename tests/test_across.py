"""Rules across records: each speaks where it must and nowhere else, whatever the size and order of the set.

Outside references: SQL over the same catalogue numbers by SQLite's own command of grouping (duplicate ids), and the
two invented collections of ``examples``, whose exchanged hearts were set down in ``examples/exchange.tsv`` before.
"""

from __future__ import annotations

import csv
import random
import re
import tracemalloc
from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from chordae.exchange import exchange, find_catalogue, load_steps
from chordae.intake.document import read_document
from chordae.issues import Location
from chordae.record import Reading
from chordae.shapes.across import Across
from chordae.shapes.lint import fields
from chordae.shapes.set_rules import load_set_rules, set_table
from generate_records import make_records
from rule_cases import KINDS, full

TOP = Path(__file__).resolve().parents[1]
FOLDER = TOP / "tests/sets"


@dataclass(frozen=True)
class SetCase:
    """One case: several records, and exactly the rules that speak, each with the record it speaks of."""

    rule: str
    number: int
    kind: str
    says: str
    records: tuple[dict[str, Any], ...]
    expect: tuple[str, ...]

    @property
    def id(self) -> str:
        """A name that can be read in a log."""
        return f"{self.rule}-{self.number}-{self.says.replace(' ', '-')[:60]}"


@cache
def set_cases() -> tuple[SetCase, ...]:
    """Every case of every rule across records."""
    found = []
    for path in sorted(FOLDER.glob("*.yaml")):
        file = yaml.safe_load(path.read_text(encoding="utf-8"))
        for number, one in enumerate(file["cases"], 1):
            records = tuple(full(record) for record in one["records"])
            found.append(SetCase(file["rule"], number, one["kind"], one["says"], records, tuple(one["expect"])))
    return tuple(found)


def told(records: Any) -> list[str]:
    """Rule and record of every issue, sorted."""
    with Across() as across:
        for number, record in enumerate(records, 1):
            across.add(Reading(record, {"": Location("set.yaml", number, 1)}))
        return sorted(f"{one.rule} {one.record}" for one in across.issues())


def test_every_rule_has_a_file_with_each_kind_of_case() -> None:
    assert {path.stem for path in FOLDER.glob("*.yaml")} == set(load_set_rules())
    for rule in load_set_rules():
        own = [case for case in set_cases() if case.rule == rule]
        assert {case.kind for case in own} == set(KINDS), rule
        for case in own:
            assert any(one.startswith(rule) for one in case.expect) == (case.kind == "failing"), case.id


@pytest.mark.parametrize("case", set_cases(), ids=lambda case: case.id)
def test_exactly_these_rules_speak(case: SetCase) -> None:
    assert told(case.records) == sorted(case.expect)


@pytest.mark.parametrize("rule", load_set_rules().values(), ids=lambda rule: rule.id)
def test_sentences_read_without_the_words_of_a_program(rule: Any) -> None:
    assert re.fullmatch(r"R-SET-\d\d", rule.id)
    for text in (rule.statement, rule.message, rule.remedy, rule.why):
        assert re.fullmatch(r"[A-Z].*\.", text, re.DOTALL)
        assert not re.search(r"https?:|IRI|SQL|NULL", text)
    known = {"value", "place", "other", "key", "what", "found", "number", "owner"}
    assert set(fields(rule.template)) <= known


def test_the_exchanged_hearts_of_the_examples(tmp_path: Path) -> None:
    """Those set down as contradicting are told of, and no other: both collections read from their own tables."""
    with Across() as across:
        for name in ("veyhaven", "tolliver_bay"):
            out = tmp_path / name
            exchange(find_catalogue(TOP / "examples" / name), out, load_steps(), copy_source=False)
            for reading in read_document(out / "data/records.ndjson")[0]:
                across.add(reading)
        found = list(across.issues())
    rows = list(csv.DictReader((TOP / "examples/exchange.tsv").open(encoding="utf-8"), delimiter="\t"))
    wanted = {row["tolliver_bay"] for row in rows if row["verdict"] == "contradict"}
    assert wanted and {one.record for one in found if one.rule == "R-SET-06"} == wanted
    assert all(one.location.file and one.location.line for one in found)


def test_order_of_the_records_changes_only_which_of_a_pair_is_named() -> None:
    records = [record for case in set_cases()[:60] for record in case.records]
    records = [{**record, "id": f"{record['id']}-{number // 3}"} for number, record in enumerate(records)]
    shuffled = random.Random(4).sample(records, len(records))
    assert Counter(one.split()[0] for one in told(shuffled))["R-SET-01"] == Counter(
        one.split()[0] for one in told(records)
    )["R-SET-01"]


def test_duplicate_ids_are_those_that_counting_finds() -> None:
    draw = random.Random(11)
    records = [
        {"id": str(draw.randrange(300)), "stated": {"statement": str(number)}} for number in range(600)
    ]
    counted = Counter(record["id"] for record in records)
    found = Counter(one.split()[1] for one in told(records) if one.startswith("R-SET-01"))
    assert found == {name: number - 1 for name, number in counted.items() if number > 1}


def test_memory_does_not_grow_with_the_records() -> None:
    """Python's own memory after 300 and after 3,000 records; SQLite keeps the rest in a file."""
    (record, _), *_ = make_records(1, seed=2)

    def after(number: int) -> int:
        tracemalloc.start()
        with Across() as across:
            for one in range(number):
                across.add(Reading({**record, "id": str(one), "specimen": {"accession": str(one)}}))
            size = tracemalloc.get_traced_memory()[0]
        tracemalloc.stop()
        return size

    after(10)
    assert after(3000) < after(300) + 100_000


def test_a_number_given_to_every_heart_costs_no_square() -> None:
    """A thousand hearts on loan under one number: each is held against the first, not against every other."""
    compared = Counter[str]()

    def derive(record: dict[str, Any]) -> dict[str, Any]:
        compared[record["id"]] += 1
        return {"topology": "left_hand" if record["id"] == "0" else "right_hand"}

    with Across(derive) as across:
        for number in range(1000):
            specimen = {"accession": str(number), "other_numbers": ["unknown"], "loan_from": "alder"}
            across.add(Reading({"id": str(number), "specimen": specimen, "stated": {"statement": str(number)}}))
        found = Counter(one.rule for one in across.issues())
    assert found == {"R-SET-06": 999}
    assert sum(compared.values()) <= 2 * 999 + 1000


def test_a_dash_is_no_catalogue_number() -> None:
    hearts = [{"id": str(one), "specimen": {"accession": "-"}, "stated": {"topology": word}}
              for one, word in enumerate(("left_hand", "right_hand"))]  # fmt: skip
    assert told(hearts) == []


def test_the_table_names_slots_of_the_schema() -> None:
    from chordae.model import class_slots, tables

    assert all(row["slot"] in tables().slots for row in set_table()["conclusions"].values())
    assert set(set_table()["specimen_facts"]) <= set(class_slots("Specimen"))
