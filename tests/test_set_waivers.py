"""Confirmations of rules across records: on one of the two, naming the other; they end when either changes."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import orjson
import pytest

from chordae.cli import main
from chordae.derive import derive
from chordae.exchange import exchange, find_catalogue, load_steps
from chordae.intake.document import read_document
from chordae.intake.document_text import write_document
from chordae.issues import Issue, Location
from chordae.record import Reading
from chordae.shapes.across import Across
from chordae.shapes.profile import Profile
from chordae.shapes.set_facts import facts_of
from chordae.shapes.set_rules import load_set_rules, set_rule_row
from test_across import set_cases

WHY = ["--by", "Reader A", "--reason", "Both looked again.", "--on", "2026-05-04"]
PAIR = """\
- {id: "1", specimen: {accession: "12"}, description: {observer: A}, stated: {av_connection: concordant}}
- {id: "2", specimen: {accession: "12"}, description: {observer: B}, stated: {av_connection: discordant}}
- {id: "3", specimen: {accession: "13"}, description: {observer: B}, stated: {av_connection: discordant}}
"""


@pytest.fixture
def pair(tmp_path: Path) -> Path:
    path = tmp_path / "pair.yaml"
    path.write_text(PAIR, encoding="utf-8")
    return path


def confirm(path: Path, *options: str, more: tuple[Path, ...] = ()) -> int:
    return main(["check", *map(str, (path, *more)), "--confirm", *options, *WHY, "--out", str(path)])


def told(records: list[dict[str, Any]], profile: Profile | None = None) -> list[Issue]:
    with Across(**({"profile": profile} if profile else {})) as across:
        for number, record in enumerate(records, 1):
            across.add(Reading(record, {"": Location("set.yaml", number, 1)}))
        return [one for one in across.issues() if one.rule.startswith(("R-SET", "I-WAI"))]


def records_of(path: Path) -> list[dict[str, Any]]:
    return [one.record for one in read_document(path)[0]]


@pytest.mark.parametrize("name", ["1", "2"])
def test_one_of_the_two_confirms_for_both_in_any_order(pair: Path, name: str) -> None:
    assert [one.severity for one in told(records_of(pair))] == ["warning"]
    assert confirm(pair, "R-SET-05", "--record", name) == 0
    records = records_of(pair)
    (waiver,) = next(one for one in records if one["id"] == name)["waivers"]
    assert waiver["other_record"] == ("2" if name == "1" else "1")
    for order in (records, records[::-1]):
        (found,) = told(order)
        assert (found.rule, found.severity) == ("R-SET-05", "info")
        assert found.confirmed is not None and found.confirmed.severity == "warning"
        assert found.message.endswith("Confirmed by Reader A on 2026-05-04: Both looked again.")


def test_it_ends_when_either_changes_and_only_then(pair: Path) -> None:
    confirm(pair, "R-SET-05", "--record", "2")
    one, two, three = records_of(pair)
    beside = {**one, "remarks": [{"text": "A remark changes nothing."}]}
    assert [each.severity for each in told([beside, two, three])] == ["info"]
    for changed in (
        [{**one, "stated": {**one["stated"], "topology": "right_hand"}}, two],
        [one, {**two, "stated": {"av_connection": "double_inlet_lv"}}],
        [one, {**two, "specimen": {**two["specimen"], "sex": "female"}}],
    ):
        found = told(changed)
        assert {each.rule: each.severity for each in found} == {"R-SET-05": "warning", "I-WAI-02": "warning"}
        ended = next(each for each in found if each.rule == "I-WAI-02")
        assert (ended.record, ended.path) == ("2", "/waivers/0")
        assert "against heart 1" in ended.message
    agreed = told([{**one, "stated": two["stated"]}, two])
    assert [each.rule for each in agreed] == ["I-WAI-01"]


def test_nothing_is_said_where_the_other_record_is_not_at_hand(pair: Path, capsys: pytest.CaptureFixture[str]) -> None:
    confirm(pair, "R-SET-05", "--record", "2")
    alone = records_of(pair)[1:]
    assert told(alone) == []
    pair.write_text(write_document(alone), encoding="utf-8")
    main(["check", str(pair), "--report", "json"])
    assert "I-WAI" not in capsys.readouterr().out


def test_a_registry_that_calls_it_a_violation_lets_nobody_confirm_it(pair: Path) -> None:
    confirm(pair, "R-SET-05", "--record", "2")
    found = told(records_of(pair), Profile("strict", rules={"R-SET-05": "violation"}))
    assert {one.rule: one.severity for one in found} == {"R-SET-05": "violation", "I-WAI-03": "warning"}
    assert told(records_of(pair), Profile("deaf", rules={"R-SET-05": "off", "I-WAI-01": "off"})) == []


@pytest.mark.parametrize("case", [one for one in set_cases() if one.kind == "failing"], ids=lambda case: case.id)
def test_every_warning_is_confirmed_or_says_why_not(case: Any) -> None:
    """For each failing case: what can be confirmed is, by its own confirmation and by nothing less."""
    from chordae.shapes.set_waivers import waivers_of
    from chordae.shapes.waivers import with_waivers

    with Across() as across:
        for record in case.records:
            across.add(Reading(record, {"": Location("set.yaml", 1, 1)}))
        found = [one for one in across.findings() if one.issue.rule == case.rule]
    row = set_rule_row(case.rule)
    assert found and ("confirmation" in row) != ("not_confirmed" in row)
    records = list(case.records)
    for one in found:
        asked = {"other": one.other, "reason": "Seen.", "by": "A", "on": "2026-05-04"}
        if "not_confirmed" in row:
            from chordae.errors import InputError

            with pytest.raises(InputError, match="cannot be confirmed"):
                waivers_of(found, case.rule, str(one.issue.record), **asked)
            continue
        made = waivers_of(found, case.rule, str(one.issue.record), **asked)
        at = next(at for at, each in enumerate(records) if each["id"] == one.issue.record)
        records[at] = with_waivers(records[at], made)
    after = [one for one in told(records) if one.rule == case.rule]
    if "confirmation" in row:
        assert after and all(one.confirmed is not None and one.severity == "info" for one in after)
        spoiled = [
            {**one, "waivers": [{**each, "premises_digest": "0" * 32} for each in one.get("waivers", ())]}
            for one in records
        ]
        assert not any(one.confirmed for one in told(spoiled))


def test_the_other_collection_stands_in_another_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    here, there = tmp_path / "here.yaml", tmp_path / "there.yaml"
    here.write_text(
        '- {id: a, collection: alder, specimen: {accession: "1", other_numbers: ["v7"], loan_from: veyhaven}, '
        "stated: {topology: left_hand}}\n"
    )
    there.write_text('- {id: v, collection: veyhaven, specimen: {accession: "v7"}, stated: {topology: right_hand}}\n')
    assert confirm(here, "R-SET-06", "--record", "a") == 2
    assert "Give the files of both records" in capsys.readouterr().err
    assert confirm(here, "R-SET-06", "--record", "a", more=(there,)) == 0
    assert [one["id"] for one in records_of(here)] == ["a"]
    main(["check", str(there), str(here), "--report", "json"])
    found = [one for one in json.loads(capsys.readouterr().out) if one["rule"] == "R-SET-06"]
    assert [one["confirmed"]["by"] for one in found] == ["Reader A"]


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["R-SET-01", "--record", "1"], "One id for two descriptions is a fault of logic"),
        (["R-SET-05", "--record", "3"], "does not speak of heart 3"),
        (["R-SET-05", "--record", "1", "--other", "3"], "does not speak of heart 1 against heart 3"),
        (["R-TOPO-01", "--record", "1", "--other", "2"], "R-TOPO-01 speaks of one record"),
    ],
)
def test_what_cannot_be_confirmed_is_told(
    pair: Path, options: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert confirm(pair, *options) == 2
    assert words in capsys.readouterr().err
    assert pair.read_text(encoding="utf-8") == PAIR


def test_several_others_have_to_be_told_apart(pair: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pair.write_text(PAIR.replace('"13"', '"12"'), encoding="utf-8")
    assert confirm(pair, "R-SET-05", "--record", "1") == 2
    assert "several others: 2, 3" in capsys.readouterr().err
    assert confirm(pair, "R-SET-05", "--record", "1", "--other", "3") == 0
    assert {one.record: one.severity for one in told(records_of(pair))} == {"2": "warning", "3": "info"}


def test_a_waiver_by_hand_that_says_too_little_or_cannot_be(pair: Path, capsys: pytest.CaptureFixture[str]) -> None:
    records = records_of(pair)
    base = {"reason": "So.", "confirmed_by": "A", "confirmed_on": "2026-05-04", "premises_digest": "0" * 32}
    records[0]["waivers"] = [{"rule": "R-SET-05", **base}, {"rule": "R-SET-02", **base}]
    pair.write_text(write_document(records), encoding="utf-8")
    main(["check", str(pair), "--report", "json"])
    found = {one["rule"]: one["message"] for one in json.loads(capsys.readouterr().out)}
    assert "which other record it is about" in found["I-WAI-04"]
    assert "leave one of the copies out" in found["I-WAI-06"]


def test_exchange_tells_them_in_every_file_of_the_deposit(pair: Path, tmp_path: Path) -> None:
    confirm(pair, "R-SET-05", "--record", "2")
    made = exchange(find_catalogue(pair), tmp_path / "out", load_steps())
    data = tmp_path / "out/data"
    for name in ("issues.json", "issues.tsv", "report.html", "report.json"):
        assert "Both looked again." in (data / name).read_text(encoding="utf-8"), name
    (rule,) = [one for one in made.counts["by_rule"] if one["rule"] == "R-SET-05"]
    assert (rule["severity"], rule["count"]) == ("info", 1)
    assert 'other_record> "1"' in (data / "records.nq").read_text(encoding="utf-8")


def test_facts_are_plain_and_give_what_the_records_give() -> None:
    """Through JSON and back, derived before or when needed: the same issues for every case."""
    for case in set_cases():
        found = []
        for how in ("records", "facts"):
            with Across() as across:
                for record in case.records:
                    reading = Reading(record, {"": Location("set.yaml", 1, 1)})
                    if how == "records":
                        across.add(reading)
                    else:
                        across.add_facts(orjson.loads(orjson.dumps(facts_of(reading, derive(record)))))
                found.append(list(across.issues()))
        assert found[0] == found[1], case.id
    assert load_set_rules()
