"""Two descriptions of one heart: verdicts, pairing of parts, schools, what changes the diagnosis, and the command.

Check from outside: the sixteen hearts that two collections of the examples describe (``exchange.tsv`` says of each pair
whether it agrees, differs in a detail, or contradicts), and segmental sets against words of the other school as the
literature equates them.
"""

from __future__ import annotations

import copy
import csv
import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, settings

from chordae.cli import main
from chordae.compare.align import align
from chordae.compare.hearts import Comparison, compare
from chordae.compare.page import make_page
from chordae.compare.sets import pair_by_id, read_set
from chordae.compare.told import VERDICTS
from chordae.compare.verdicts import ORDER, Verdict, judge
from chordae.derive import derive
from chordae.facts import Fact
from chordae.record import Record
from chordae.shortform import expand
from strategies import records

EXAMPLES = Path(__file__).parents[1] / "examples"
OPPOSITE: dict[Verdict, Verdict] = {
    "more_specific": "less_specific",
    "less_specific": "more_specific",
    "silent_in_a": "silent_in_b",
    "silent_in_b": "silent_in_a",
    "not_assessable_in_a": "not_assessable_in_b",
    "not_assessable_in_b": "not_assessable_in_a",
}


def short(**facts: Any) -> Record:
    return expand({"id": "x", "facts": facts})[0]


def heart(*parts: dict[str, Any], **more: Any) -> Record:
    return {"id": "x", "parts": list(parts), **more}


@cache
def collection(name: str) -> dict[str, Record]:
    return {str(one["id"]): one for one in read_set(str(EXAMPLES / name))[0]}


def pairs() -> list[tuple[str, str, str]]:
    with (EXAMPLES / "exchange.tsv").open(encoding="utf-8", newline="") as stream:
        return [
            (row["veyhaven"], row["tolliver_bay"], row["verdict"]) for row in csv.DictReader(stream, delimiter="\t")
        ]


@cache
def compared(one: str, other: str) -> Comparison:
    return compare(collection("veyhaven")[one], collection("tolliver_bay")[other])


def verdict_of(found: Comparison, area: str, slot: str) -> str | None:
    return next((one.verdict for one in found.items if (one.area, one.slot) == (area, slot)), None)


# --- verdicts --------------------------------------------------------------------------------------------------------


def fact(value: Any, state: str = "present") -> Fact:
    return Fact("x", "x", value, state)  # type: ignore[arg-type]  # states are written out in the cases below


@pytest.mark.parametrize(
    ("slot", "one", "other", "expected"),
    [
        ("topology", [fact("right_hand")], [fact("right_hand")], "agree"),
        ("topology", [fact("right_hand")], [fact("left_hand")], "contradict"),
        ("cleft", [fact("present")], [fact("absent", "absent")], "contradict"),
        ("leaflet_count", [fact(3)], [fact(3.0)], "agree"),
        ("leaflet_count", [fact(3)], [fact(4)], "differ"),
        ("septal_leaflet", [fact("displaced")], [fact("dysplastic")], "differ"),
        ("ventricle_position", [fact("left_sided"), fact("anterior")], [fact("anterior")], "more_specific"),
        ("ventricle_position", [fact("anterior")], [fact("left_sided"), fact("anterior")], "less_specific"),
        ("ventricle_position", [fact("anterior")], [fact("posterior"), fact("left_sided")], "differ"),
        ("cleft", [fact("present")], [], "silent_in_b"),
        ("cleft", [fact(None, "not_examined")], [fact("present")], "silent_in_a"),
        ("cleft", [fact("present")], [fact(None, "not_assessable")], "not_assessable_in_b"),
        ("cleft", [fact(None, "not_assessable")], [fact(None, "not_assessable")], "not_assessable_in_both"),
        ("cleft", [fact(None, "not_examined")], [], None),
        ("cleft", [fact(None, "not_assessable")], [], None),
    ],
)
def test_a_verdict_for_each_case(slot: str, one: list[Fact], other: list[Fact], expected: str | None) -> None:
    assert judge(slot, one, other) == expected


def test_a_narrower_word_of_the_vocabulary_is_more_specific() -> None:
    found = compare(short(lesions=["tetralogy_with_pulmonary_atresia"]), short(lesions=["tetralogy_of_fallot"]))
    malformations = [one for one in found.items if one.segment == "malformations"]
    assert [one.verdict for one in malformations] == ["more_specific"]
    assert found.verdict == "agree"


def test_every_verdict_has_its_words_and_its_place() -> None:
    assert set(ORDER) == set(VERDICTS)


# --- the two schools -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("notation", "words"),
    [
        ("TGA {S,L,L}", {"av_connection": "discordant", "va_connection": "discordant", "topology": "left_hand"}),
        ("TGA {S,D,D}", {"av_connection": "concordant", "va_connection": "discordant", "topology": "right_hand"}),
        ("{S,D,S}", {"av_connection": "concordant", "va_connection": "concordant", "topology": "right_hand"}),
        (
            "DORV {S,D,D}",
            {"av_connection": "concordant", "va_connection": "double_outlet_rv", "topology": "right_hand"},
        ),
        ("{S,L,S}", {"av_connection": "discordant", "va_connection": "concordant", "topology": "left_hand"}),
    ],
)
def test_a_segmental_set_agrees_with_the_words_of_the_other_school(notation: str, words: dict[str, str]) -> None:
    """Letters: Schallert EK et al. RadioGraphics 2013;33. That the words equal them is common practice."""
    found = compare(short(notation=notation), short(atrial_arrangement="usual", **words))
    conclusions = {one.slot: one.verdict for one in found.items if one.segment == "conclusions"}
    assert {conclusions[slot] for slot in ("atrial_arrangement", *words)} == {"agree"}
    assert found.verdict == "agree"
    assert found.diagnostic == ()


def test_the_issue_of_the_third_letter_is_silence_and_not_a_difference() -> None:
    found = compare(
        short(notation="TGA {S,L,L}"),
        short(atrial_arrangement="usual", topology="left_hand", av_connection="discordant", va_connection="discordant"),
    )
    assert verdict_of(found, "conclusions", "aorta_relation") == "silent_in_b"


def test_sets_that_differ_in_one_letter_contradict() -> None:
    found = compare(short(notation="TGA {S,D,D}"), short(notation="TGA {S,L,D}"))
    assert verdict_of(found, "conclusions", "topology") == "contradict"
    assert found.verdict == "contradict"
    assert found.items[0].changes


# --- the sixteen hearts of two collections ---------------------------------------------------------------------------


@pytest.mark.parametrize(("one", "other", "expected"), pairs())
def test_hearts_described_by_two_collections(one: str, other: str, expected: str) -> None:
    found = compared(one, other)
    if expected == "agree":
        assert found.verdict == "agree"
        assert not [item for item in found.items if item.different]
    elif expected == "contradict":
        assert found.verdict == "contradict"
        assert found.diagnostic
    else:
        assert [item for item in found.items if item.different]


def test_what_changes_the_diagnosis_stands_first() -> None:
    found = compared("0029", "TB-0140")
    changing = [bool(one.changes) for one in found.items]
    assert changing == sorted(changing, reverse=True)
    shares = [one for one in found.diagnostic if one.area == "aorta"]
    assert any("double outlet right ventricle" in change for one in shares for change in one.changes)


def test_a_difference_that_changes_nothing_is_not_called_diagnostic() -> None:
    found = compared("0066", "TB-0190")
    (item,) = [one for one in found.items if one.different]
    assert (item.slot, item.changes) == ("hinge_offset_mm", ())


def test_parts_are_the_same_structure_whatever_they_are_called() -> None:
    a = heart({"id": "right_sided_atrioventricular_valve", "type": "AtrioventricularValve", "side": "right_sided",
               "stated_valve_type": "tricuspid", "leaflet_count": 3})  # fmt: skip
    b = heart(
        {"id": "tricuspid_valve", "type": "AtrioventricularValve", "stated_valve_type": "tricuspid", "leaflet_count": 4}
    )
    assert align(a, b, derive(a), derive(b)) == {"tricuspid_valve": "right_sided_atrioventricular_valve"}
    assert verdict_of(compare(a, b), "right_sided_atrioventricular_valve", "leaflet_count") == "differ"


def test_two_holes_are_paired_by_what_was_seen_of_them() -> None:
    def hole(number: str, **seen: str) -> dict[str, Any]:
        return {"id": f"interventricular_communication{number}", "type": "InterventricularCommunication", **seen}

    inlet = {"stated_border_category": "perimembranous", "geography": "inlet", "restrictive": "absent"}
    apical = {"stated_border_category": "muscular", "geography": "trabecular_apical", "restrictive": "present"}
    a, b = heart(hole("", **inlet), hole("_2", **apical)), heart(hole("", **apical), hole("_2", **inlet))
    assert align(a, b, derive(a), derive(b)) == {
        "interventricular_communication": "interventricular_communication_2",
        "interventricular_communication_2": "interventricular_communication",
    }
    assert not [one for one in compare(a, b).items if one.different]


def test_a_part_absent_to_one_and_described_by_the_other_is_a_contradiction() -> None:
    a = heart({"id": "arterial_duct", "type": "ArterialDuct", "state": "absent"})
    b = heart({"id": "arterial_duct", "type": "ArterialDuct", "duct_patency": "patent"})
    assert verdict_of(compare(a, b), "arterial_duct", "state") == "contradict"
    assert verdict_of(compare(b, a), "arterial_duct", "state") == "contradict"


def test_a_removed_part_contradicts_nothing() -> None:
    a = heart({"id": "atrial_septum", "type": "AtrialSeptum", "septal_integrity": "not_assessable"})
    b = heart({"id": "atrial_septum", "type": "AtrialSeptum", "septal_integrity": "deficient"})
    found = compare(a, b)
    assert verdict_of(found, "atrial_septum", "septal_integrity") == "not_assessable_in_a"
    assert found.verdict == "agree"


@settings(max_examples=40)
@given(records())
def test_a_heart_agrees_with_itself(record: Record) -> None:
    before = copy.deepcopy(record)
    found = compare(record, record)
    assert not [one for one in found.items if one.different or one.verdict.startswith("silent")]
    assert record == before


@settings(max_examples=40)
@given(records(), records())
def test_the_other_way_round_the_verdicts_are_turned_round(a: Record, b: Record) -> None:
    there, back = compare(a, b), compare(b, a)
    names = {mine: theirs for theirs, mine in there.parts.items()}
    # Parts that are equally like two others may be paired otherwise.
    assume(set(there.parts.items()) == {(mine, theirs) for theirs, mine in back.parts.items()})
    mine = {(names.get(one.area, one.area), one.slot): one.verdict for one in there.items if "." not in one.slot}
    theirs = {(one.area, one.slot): one.verdict for one in back.items if "." not in one.slot}
    for place, verdict in mine.items():
        if place in theirs and place[0] != "diagnoses":
            assert theirs[place] == OPPOSITE.get(verdict, verdict), place


# --- sets ------------------------------------------------------------------------------------------------------------


def test_descriptions_are_paired_by_id_and_by_catalogue_number() -> None:
    a = [{"id": "1"}, {"id": "2", "specimen": {"accession": "K7"}}, {"id": "3"}]
    b = [{"id": "K7"}, {"id": "1"}, {"id": "9"}]
    found = pair_by_id(a, b)
    assert [(one["id"], other["id"]) for one, other in found.pairs] == [("1", "1"), ("2", "K7")]
    assert found.unpaired == ("3 stands in A only.", "9 stands in B only.")


def test_a_pair_that_is_not_there_is_an_issue(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = tmp_path / "pairs.tsv"
    table.write_text("a\tb\n0003\tTB-0101\n0003\tTB-9999\n", encoding="utf-8")
    folders = [str(EXAMPLES / "veyhaven"), str(EXAMPLES / "tolliver_bay")]
    assert main(["compare", *folders, "--pairs", str(table), "--report", "json"]) == 1
    issues = json.loads(capsys.readouterr().err)
    assert [(one["value"], one["location"]["line"]) for one in issues if one["rule"] == "I-CMP-01"] == [("TB-9999", 3)]


# --- the command -----------------------------------------------------------------------------------------------------


@pytest.fixture
def two_files(tmp_path: Path) -> list[str]:
    files = []
    for name, facts in (("a", "{notation: 'TGA {S,D,D}'}"), ("b", "{notation: 'DORV {S,D,D}', arch_side: left}")):
        path = tmp_path / f"{name}.yaml"
        path.write_text(f"id: heart-1\nfacts: {facts}\n", encoding="utf-8")
        files.append(str(path))
    return files


def test_text_says_the_diagnosis_first(two_files: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *two_files]) == 0
    out = capsys.readouterr().out
    assert "contradict each other" in out
    assert re.search(r"What changes the diagnosis\n  Ventriculoarterial connection: contradict", out)


def test_json_holds_every_item(two_files: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *two_files, "--to", "json"]) == 0
    (pair,) = json.loads(capsys.readouterr().out)["pairs"]
    assert (pair["verdict"], pair["changes_diagnosis"]) == ("contradict", True)
    assert pair["notation"] == {"a": "TGA {S,D,D}", "b": "DORV {S,D,D}"}
    assert sum(pair["counts"].values()) == len(pair["items"])


def test_the_page_needs_nothing_else_and_escapes_what_it_is_given() -> None:
    a, b = short(notation="TGA {S,D,D}"), short(notation="{S,D,S}")
    a["description"] = {"observer": "<script>alert(1)</script>"}
    page = make_page([compare(a, b)], ["<b>9 stands in B only.</b>"])
    assert "<script" not in page
    assert "&lt;b&gt;9 stands" in page
    assert not re.search(r"""(?:src|href)=["']?(?!#)[^"'> ]*//""", page)
    assert "not for diagnosis" in page
    assert page == make_page([compare(a, b)], ["<b>9 stands in B only.</b>"])


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["compare", "a", "b", "c"], "no file a"),
        (["compare", str(EXAMPLES / "veyhaven"), "--agreement", "--reconcile"], "do not go together"),
        (["compare", str(EXAMPLES / "valid"), "--nearest", "x"], "no table in"),
        (["compare", str(EXAMPLES / "veyhaven"), "--nearest", "nobody"], "no heart 'nobody'"),
        (["compare", str(EXAMPLES / "veyhaven")], "described twice"),
        (["compare", *[str(EXAMPLES / "veyhaven")] * 2, "--to", "svg"], "not written as svg"),
    ],
    ids=["missing", "two-wishes", "folder", "no-such-heart", "no-pair", "form"],
)
def test_what_cannot_be_done_is_said_in_words(args: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(args) == 2
    assert said in capsys.readouterr().err
