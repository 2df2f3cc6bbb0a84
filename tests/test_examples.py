"""The examples: the valid ones break no rule, each invalid one breaks its rule, every planted fault is found.

All of it is invented, so nothing here proves the toolkit against the world outside; it proves that the examples are
what their README says, and that a whole catalogue comes back as the facts it was written from.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
import yaml

from chordae.derive import derive
from chordae.intake.build import Built, build
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.document import read_document
from chordae.intake.grid import Table
from chordae.intake.table import read_table
from chordae.issues import Issue
from chordae.record import Reading, Record
from chordae.shapes.check import check_records
from chordae.shortform import expand
from chordae.structure import check_structure

EXAMPLES = Path(__file__).parent.parent / "examples"
CATALOGUES = {"veyhaven": "catalogue.xlsx", "tolliver_bay": "catalogue.csv"}
CONCLUSIONS = ("arrangement", "topology", "av_connection", "va_connection", "notation")


def read_tsv(path: Path) -> list[dict[str, str]]:
    lines = path.read_text(encoding="utf-8").splitlines()
    return [dict(zip(lines[0].split("\t"), line.split("\t"), strict=True)) for line in lines[1:]]


FAULTS = read_tsv(EXAMPLES / "planted_faults.tsv")


@cache
def read_catalogue(name: str) -> tuple[Table, Built, tuple[Issue, ...]]:
    """Return the table, what was built of it, and all issues: reading, structure, rules."""
    folder = EXAMPLES / name
    crosswalk, of_crosswalk = read_crosswalk(folder / "columns.tsv", folder / "values.tsv")
    table, of_table = read_table(folder / CATALOGUES[name])
    built = build(table, crosswalk)
    of_structure = [one for reading in built.readings for one in check_structure(reading)]
    of_rules = check_records(built.readings).issues
    return table, built, (*of_crosswalk, *of_table, *built.issues, *of_structure, *of_rules)


def one_reading(path: Path) -> tuple[Reading, list[Issue]]:
    readings, issues = read_document(path)
    assert len(readings) == 1, path
    return readings[0], issues


def violations(issues: Iterator[Issue] | list[Issue] | tuple[Issue, ...]) -> set[str]:
    return {one.rule for one in issues if one.severity == "violation"}


def files(folder: str) -> list[Path]:
    return sorted((EXAMPLES / folder).glob("*.yaml"))


@pytest.mark.parametrize("path", files("valid"), ids=lambda path: path.stem)
def test_valid_record_breaks_no_rule(path: Path) -> None:
    reading, issues = one_reading(path)
    assert not issues
    assert not check_structure(reading)
    assert violations(check_records([reading]).issues) == set()


@pytest.mark.parametrize("path", files("valid"), ids=lambda path: path.stem)
def test_what_is_derived_is_what_the_observer_stated(path: Path) -> None:
    record = one_reading(path)[0].record
    stated = {
        "arrangement" if name == "atrial_arrangement" else name: value for name, value in record["stated"].items()
    }
    derived = derive(record)
    for name in CONCLUSIONS:
        if name in stated and stated[name] != "not_assessable":
            assert derived[name] == stated[name], name
    assert {one["part"] for one in derived["identities"] if one["confidence"] == "conflict"} == set()


def test_nothing_is_derived_from_atria_that_were_cut_off() -> None:
    derived = derive(one_reading(EXAMPLES / "valid" / "damaged_atria_removed.yaml")[0].record)
    assert derived["arrangement"] is None
    assert derived["av_connection"] is None
    assert derived["va_connection"] == "concordant"
    assert {"arrangement", "av_connection"} <= {one["what"] for one in derived["undetermined"]}


@pytest.mark.parametrize("path", files("invalid"), ids=lambda path: path.stem)
def test_invalid_record_breaks_the_rule_it_names_and_no_other(path: Path) -> None:
    rule = path.read_text(encoding="utf-8").split("# rule: ")[1].splitlines()[0]
    reading, issues = one_reading(path)
    issues += check_structure(reading)
    if not violations(issues):
        issues += check_records([reading]).issues
    assert violations(issues) == {rule}


@pytest.mark.parametrize(
    "fault", FAULTS, ids=lambda fault: "-".join((fault["record"] or fault["collection"], fault["rule"]))
)
def test_planted_fault_is_found(fault: dict[str, str]) -> None:
    table, built, issues = read_catalogue(fault["collection"])
    lines = {place.line for place in (one.places[""] for one in built.readings if one.record["id"] == fault["record"])}
    column = table.index(fault["column"])
    found = [
        one
        for one in issues
        if one.rule == fault["rule"]
        and (
            one.record == fault["record"]
            or not fault["record"]
            or (one.record is None and (one.location.line in lines or not lines or one.rule == "I-TAB-03"))
        )
    ]
    if fault["rule"].startswith("I-CEL") and column is not None:
        found = [one for one in found if one.location.column == table.numbers[column]]
    assert found, fault


def test_no_rule_is_broken_in_hearts_without_planted_faults() -> None:
    planted = {fault["record"] for fault in FAULTS}
    for name in CATALOGUES:
        issues = read_catalogue(name)[2]
        assert {
            (one.record, one.rule) for one in issues if one.severity == "violation" and one.record not in planted
        } <= {(None, fault["rule"]) for fault in FAULTS}


@pytest.mark.parametrize(("name", "rows", "records"), [("veyhaven", 61, 59), ("tolliver_bay", 63, 61)])
def test_rows_in_are_records_out_and_rows_refused(name: str, rows: int, records: int) -> None:
    _, built, issues = read_catalogue(name)
    assert (built.rows, len(built.readings)) == (rows, records)
    assert built.rows == len(built.readings) + built.refused
    refusals = [
        one for one in issues if one.rule in ("I-REC-01", "I-CEL-08", "I-TAB-01") and one.severity == "violation"
    ]
    assert len(refusals) == built.refused
    hearts = {reading.record["specimen"]["accession"] for reading in built.readings}
    assert len(hearts) >= 40


def test_hearts_that_stand_in_both_collections() -> None:
    links = read_tsv(EXAMPLES / "exchange.tsv")
    ids = {name: {one.record["id"]: one.record for one in read_catalogue(name)[1].readings} for name in CATALOGUES}
    assert len(links) >= 15
    assert {one["verdict"] for one in links} == {"agree", "differ", "contradict"}
    for link in links:
        borrowed = ids["tolliver_bay"][link["tolliver_bay"]]
        assert link["veyhaven"] in ids["veyhaven"]
        assert borrowed["specimen"]["other_numbers"] == [link["veyhaven"]]


@pytest.mark.parametrize("name", CATALOGUES)
def test_crosswalk_has_no_faults_and_names_a_reviewer(name: str) -> None:
    _, built, issues = read_catalogue(name)
    assert not [one for one in issues if one.rule.startswith("I-XW") and one.rule != "I-XW-14"]
    assert all(row["reviewer"] for row in read_tsv(EXAMPLES / name / "values.tsv"))
    planted = {fault["cell"] for fault in FAULTS if fault["rule"] == "I-CEL-02" and fault["collection"] == name}
    assert {word for _, word in built.unmapped} == planted


def flat(record: Record) -> dict[str, Any]:
    """Return a record as the facts of hearts.yaml: part.property, and measure.part.quantity."""
    facts: dict[str, Any] = {}
    areas = {one["id"]: one for one in record.get("parts", [])}
    areas |= {name: record.get(name, {}) for name in ("specimen", "stated")}
    for area, values in areas.items():
        for key, value in values.items():
            if key in ("opens_into", "arises_from"):
                value = [f"{one['ventricle']} {one['per_cent']}" for one in value]
            facts[f"{area}.{key}"] = value
    for one in record.get("measurements", []):
        facts[f"measure.{one.get('part', 'heart')}.{one['quantity']}"] = one["value"]
    return facts


@pytest.mark.parametrize("name", CATALOGUES)
def test_a_catalogue_comes_back_as_the_facts_it_was_written_from(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(EXAMPLES)
    facts_of = import_module("make_examples").facts_of
    source = yaml.safe_load((EXAMPLES / "hearts.yaml").read_text(encoding="utf-8"))
    desk = source["collections"][name]
    planted = {fault["record"] for fault in FAULTS}
    records = {one.record["id"]: flat(one.record) for one in read_catalogue(name)[1].readings}
    columns: dict[str, list[str]] = {row["column"]: [] for row in read_tsv(EXAMPLES / name / "values.tsv")}
    for row in read_tsv(EXAMPLES / name / "values.tsv"):
        columns[row["column"]].append(f"{row['part']}.{row['property'].partition('.')[0]}")
    may_be_blank = {fact for column in desk["seldom"] for fact in columns.get(column, [])} | set(desk["silent"])
    compared = 0
    for heart in source["hearts"]:
        here = heart.get(name)
        if here is None or here["number"] in planted or here["number"] not in records:
            continue
        facts = facts_of(heart, source["kinds"], here.get("facts", {}))
        back = records[here["number"]]
        for key, value in facts.items():
            if key not in may_be_blank:
                assert back.get(key) == value, (here["number"], key)
                compared += 1
    assert compared > 500


def test_the_catalogues_are_what_the_program_writes(tmp_path: Path) -> None:
    copy = tmp_path / "examples"
    shutil.copytree(EXAMPLES, copy, ignore=shutil.ignore_patterns("__pycache__"))
    made = ["README.md", "exchange.tsv", *(f"{name}/{file}" for name, file in CATALOGUES.items())]
    for one in made[1:]:
        (copy / one).unlink()
    subprocess.run([sys.executable, copy / "make_examples.py"], check=True)
    for one in made:
        assert (copy / one).read_bytes() == (EXAMPLES / one).read_bytes(), one


def test_every_planted_fault_stands_in_the_readme() -> None:
    readme = (EXAMPLES / "README.md").read_text(encoding="utf-8")
    for fault in FAULTS:
        assert f"{fault['wrong']} | {fault['rule']} |" in readme
    assert len({fault["rule"] for fault in FAULTS}) >= 25


def test_short_records_expand_and_are_derived() -> None:
    readings, issues = read_document(EXAMPLES / "short.yaml")
    assert not issues
    assert len(readings) == 10
    for reading in readings:
        full, found = expand(reading.record)
        assert not [one for one in found if one.severity != "info"]
        facts = reading.record["facts"]
        derived = derive(full)
        assert derived["va_connection"] == facts["va_connection"]
        if "notation" in facts:
            assert derived["notation"] == facts["notation"]
