"""The shape of records: one fault, one issue, with its place and a remedy; what is left when faults are out."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from chordae import references
from chordae.canonical import canonical
from chordae.issues import Location
from chordae.rdf.emit import emit
from chordae.record import Reading, Record, find_part
from chordae.soundness import make_sound
from chordae.soundrefs import all_well
from chordae.structure import check_structure, has_shape
from generate_records import each_fault, make_records
from strategies import records


def valve(**values: Any) -> dict[str, Any]:
    return {"id": "v", "type": "AtrioventricularValve", **values}


def with_parts(*parts: Any, **rest: Any) -> Record:
    return {"id": "7", "parts": list(parts), **rest}


CASES: dict[str, tuple[Record, str, str, str, str]] = {
    "unknown key of the record": ({"id": "7", "wieght": 3}, "S-KEY", "/wieght", "wieght", ""),
    "unknown key of a part": (
        with_parts(valve(cleftt="absent")),
        "S-KEY",
        "/parts/0/cleftt",
        'Did you mean "cleft"?',
        "",
    ),
    "key of another class": (
        with_parts(valve(coarctation="absent")),
        "S-KEY",
        "/parts/0/coarctation",
        "AorticArch",
        "",
    ),
    "value not in the list": (
        with_parts(valve(cleft="abscent")),
        "S-VAL",
        "/parts/0/cleft",
        'Did you mean "absent"?',
        "present, absent, not_assessable, not_examined",
    ),
    "value of another kind": (
        with_parts(valve(leaflet_count="3")),
        "S-TYPE",
        "/parts/0/leaflet_count",
        "whole number",
        "",
    ),
    "list where a word belongs": (with_parts(valve(cleft=["present"])), "S-TYPE", "/parts/0/cleft", "a list", ""),
    "word where a list belongs": ({"id": "7", "remarks": "words"}, "S-TYPE", "/remarks", "a list", ""),
    "text where a part belongs": (with_parts("valve"), "S-TYPE", "/parts/0", "keys with values", ""),
    "number out of range": (
        with_parts(valve(override_per_cent=140)),
        "S-RNG",
        "/parts/0/override_per_cent",
        "0 to 100",
        "",
    ),
    "no number": (
        {"id": "7", "measurements": [{"id": "m", "quantity": "weight", "value": float("nan")}]},
        "S-TYPE",
        "/measurements/0/value",
        "no finite number",
        "",
    ),
    "not a date": (
        {"id": "7", "description": {"described_on": "May 2026"}},
        "S-PAT",
        "/description/described_on",
        "May",
        "2026-05",
    ),
    **{
        f"day that is none, {day}": (
            {"id": "7", "description": {"described_on": day}},
            "S-PAT",
            "/description/described_on",
            day,
            "full date",
        )
        for day in ("2026-02-30", "2023-02-29", "1900-02-29", "2026-04-31", "2026-13-01")
    },
    "id with a blank": ({"id": "a b"}, "S-PAT", "/id", "a b", "letters, digits"),
    "no id": ({"stated": {}}, "S-REQ", "", "The record needs", ""),
    "no type": (with_parts({"id": "v"}), "S-REQ", "/parts/0", 'needs the property "type"', ""),
    "unknown type": (with_parts({"id": "v", "type": "Valv"}), "S-PART", "/parts/0/type", "Valv", ""),
    "id given twice": (with_parts(valve(), valve()), "S-DUP", "/parts/1/id", "Two parts", ""),
    "reserved id": (with_parts({"id": "stated", "type": "AtrialSeptum"}), "S-ID", "/parts/0/id", "crosswalks", ""),
    "conventional id of another type": (
        with_parts({"id": "aorta", "type": "Atrium"}),
        "S-CONV",
        "/parts/0/type",
        "ArterialTrunk",
        "",
    ),
    "dangling junction": (with_parts(valve(junction="x")), "S-REF", "/parts/0/junction", "no part of this record", ""),
    "dangling ventricle": (
        with_parts({"id": "j", "type": "AtrioventricularJunction", "opens_into": [{"ventricle": "lv"}]}),
        "S-REF",
        "/parts/0/opens_into/0/ventricle",
        "lv",
        "",
    ),
    "dangling evidence": (
        with_parts(valve(observed=[{"feature": "cleft", "evidence_refs": ["plate_1"]}])),
        "S-REF",
        "/parts/0/observed/0/evidence_refs/0",
        "no piece of evidence",
        "",
    ),
    "evidence of nothing": (
        {"id": "7", "evidence": [{"id": "e", "source_file": "p.jpg", "shows": [{"part": "aorta"}]}]},
        "S-REF",
        "/evidence/0/shows/0/part",
        "aorta",
        "",
    ),
    "junction that is a septum": (
        with_parts(valve(junction="s"), {"id": "s", "type": "AtrialSeptum"}),
        "S-AIM",
        "/parts/0/junction",
        "atrial septum",
        "",
    ),
    "observed feature that is none": (
        with_parts(valve(observed=[{"feature": "clefft"}])),
        "S-FEAT",
        "/parts/0/observed/0/feature",
        'Did you mean "cleft"?',
        "",
    ),
    "value and another state": (
        with_parts(valve(cleft="present", observed=[{"feature": "cleft", "state": "absent"}])),
        "S-STATE",
        "/parts/0/observed/0/state",
        "its state is absent",
        "",
    ),
    "value given twice": (
        {"id": "7", "stated": {"diagnoses": ["a", "a"]}},
        "S-TWICE",
        "/stated/diagnoses",
        '"a" twice',
        "",
    ),
    "key without a value": (with_parts(valve(cleft=None)), "S-NULL", "/parts/0/cleft", "not recorded", ""),
}


@pytest.mark.parametrize("case", CASES)
def test_one_fault_is_one_issue_with_place_and_remedy(case: str) -> None:
    record, rule, path, words, remedy = CASES[case]
    place = Location("hearts.yaml", 41, 7)
    found = check_structure(Reading(record, {path: place}))
    assert [(one.rule, one.path) for one in found] == [(rule, path)]
    assert words in found[0].message
    assert found[0].hint and remedy in found[0].hint
    assert found[0].location == place
    assert found[0].record == (str(record["id"]) if "id" in record else None)
    if path.startswith("/parts/0/"):
        assert found[0].part == record["parts"][0].get("id")
    assert "http" not in found[0].message + found[0].hint


def test_a_place_that_is_not_known_is_that_of_the_value_around_it() -> None:
    places = {"": Location("a", 1), "/parts/0": Location("a", 5)}
    (found,) = check_structure(Reading(with_parts(valve(cleft="abscent")), places))
    assert found.location.line == 5


def test_all_faults_are_told_at_once() -> None:
    record = with_parts(
        valve(cleft="x", leaflet_count=99, nonsense=1), {"id": "v", "type": "Atrium"}, stated={"topology": 4}
    )
    rules = sorted(one.rule for one in check_structure(Reading(record)))
    assert rules == ["S-DUP", "S-KEY", "S-RNG", "S-TYPE", "S-VAL"]


@settings(max_examples=100)
@given(record=records())
def test_generated_records_have_no_fault_of_shape(record: Record) -> None:
    assert {one.rule for one in check_structure(Reading(record))} <= {"S-FEAT", "S-STATE", "S-ID", "S-CONV"}


def test_realistic_records_have_no_fault_even_with_contradictions_of_morphology() -> None:
    for record, _ in [*each_fault(seed=3), *make_records(100, seed=3)]:
        assert check_structure(Reading(record)) == []


JUNK = st.sampled_from([None, "aorta", "Atrium", "v", 4, [{"feature": "cleft", "state": "absent"}]])


@settings(max_examples=200)
@given(record=records(), data=st.data())
def test_the_quick_answer_is_the_long_one(record: Record, data: st.DataObject) -> None:
    broken = copy.deepcopy(record)
    for part in broken.get("parts", []):
        if data.draw(st.booleans()):
            part[data.draw(st.sampled_from(["id", "type", "junction", "observed"]))] = data.draw(JUNK)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(references, "all_well", lambda record: False)
        found = list(references.check_references(Reading(broken)))
    if all_well(broken):
        assert found == []
    elif has_shape(broken):
        assert found != []


JSON = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=5)),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=6), inner, max_size=3)),
    max_leaves=8,
)
KEYS = st.sampled_from(["id", "parts", "specimen", "stated", "evidence", "measurements", "remarks", "derived", "x"])


@settings(max_examples=200)
@given(record=st.dictionaries(KEYS, JSON, max_size=5))
def test_no_record_breaks_the_check_and_what_is_left_is_sound(record: Record) -> None:
    before = copy.deepcopy(record)
    sound, issues = make_sound(Reading(record))
    assert repr(record) == repr(before), "the record that came is not changed"
    assert bool(issues) or sound.record is record
    assert has_shape({**sound.record, "id": "x"})
    if isinstance(sound.record.get("id"), str):
        emit(sound.record)


def test_what_is_taken_out_is_kept_as_a_remark_with_its_place() -> None:
    record = with_parts("q", valve(cleft="abscent", leaflet_count=3), remarks=[{"text": "old"}])
    places = {"/parts/1/cleft": Location("a", 9), "/parts/1/leaflet_count": Location("a", 10)}
    sound, issues = make_sound(Reading(record, places))
    assert sorted(one.rule for one in issues) == ["S-TYPE", "S-VAL"]
    assert sound.record["parts"] == [valve(leaflet_count=3)]
    assert {"text": "abscent", "place": "v.cleft"} in sound.record["remarks"]
    assert {"text": "q", "place": "parts.0"} in sound.record["remarks"]
    assert sound.record["remarks"][0] == {"text": "old"}
    assert sound.place("/parts/0/leaflet_count").line == 10, "the place follows the value to its new position"
    moved = sound.record["remarks"].index({"text": "abscent", "place": "v.cleft"})
    assert sound.place(f"/remarks/{moved}").line == 9
    assert check_structure(sound) == []


def test_a_second_part_with_the_same_id_goes_to_the_remarks_whole() -> None:
    sound, _ = make_sound(Reading(with_parts(valve(), valve(cleft="present"))))
    assert find_part(sound.record, "v") == valve()
    assert '"cleft": "present"' in sound.record["remarks"][0]["text"]


def test_a_sound_record_is_canonical_in_the_same_way_whether_or_not_nulls_stood_in_it() -> None:
    sound, _ = make_sound(Reading(with_parts(valve(cleft=None, leaflet_count=2))))
    assert canonical(sound.record) == canonical(with_parts(valve(leaflet_count=2)))


@pytest.mark.parametrize("day", ["2024-02-29", "2000-02-29", "2026-12-31", "2026-02", "1998"])
def test_days_that_there_are_pass(day: str) -> None:
    assert check_structure(Reading({"id": "7", "description": {"described_on": day}})) == []
