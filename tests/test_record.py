"""Looking things up in a record: parts, states, names; and its one order."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from chordae.canonical import canonical
from chordae.model import STATES, class_slots, enum_of, is_a, part_defaults, part_type
from chordae.record import Reading, Record, ensure_part, feature_state, find_part, parts_of, pointer, say
from strategies import records

VALVE = {
    "id": "tricuspid_valve",
    "type": "AtrioventricularValve",
    "leaflet_count": 0,
    "septal_leaflet": "displaced",
    "anterosuperior_leaflet": "absent",
    "cleft": "not_examined",
    "observed": [
        {"feature": "override_per_cent", "state": "not_assessable", "state_reason": "transected"},
        {"feature": "septal_leaflet", "certainty": "probable", "evidence_refs": ["plate_1"]},
        {"feature": "stenosis", "certainty": "possible"},
    ],
}


@pytest.mark.parametrize(
    ("feature", "state", "value", "origin"),
    [
        ("leaflet_count", "present", 0, "value"),
        ("septal_leaflet", "present", "displaced", "value"),
        ("anterosuperior_leaflet", "absent", "absent", "value"),
        ("cleft", "not_examined", None, "value"),
        ("override_per_cent", "not_assessable", None, "observed"),
        ("straddling", None, None, None),
        ("stenosis", None, None, None),
    ],
)
def test_the_state_of_a_feature(feature: str, state: str | None, value: object, origin: str | None) -> None:
    found = feature_state(VALVE, feature)
    assert (found.state, found.value, found.origin) == (state, value, origin)


def test_certainty_evidence_and_reason_come_along() -> None:
    leaflet = feature_state(VALVE, "septal_leaflet")
    assert (leaflet.certainty, leaflet.evidence) == ("probable", ("plate_1",))
    assert feature_state(VALVE, "override_per_cent").reason == "transected"
    assert feature_state(VALVE, "stenosis").certainty == "possible"


@pytest.mark.parametrize(
    ("state", "seen"), [("present", True), ("absent", True), ("not_assessable", False), ("not_examined", False)]
)
def test_the_state_of_the_whole_part_holds_for_its_features_unless_it_is_present(state: str, seen: bool) -> None:
    septum = {"id": "s", "type": "AtrialSeptum", "state": state, "state_reason": "damaged"}
    found = feature_state(septum, "septal_integrity")
    assert found.state == (None if state == "present" else state)
    assert found.seen == (seen and state != "present")
    assert feature_state({**septum, "septal_integrity": "intact"}, "septal_integrity").state == "present"


@pytest.mark.parametrize("structure", ["atrial_septum", "atrial_septum.septal_integrity", "interatrial_septum"])
def test_the_material_speaks_where_the_part_is_silent(structure: str) -> None:
    septum = {"id": "atrial_septum", "type": "AtrialSeptum"}
    states = [{"structure": structure, "state": "not_assessable", "state_reason": "removed_at_dissection"}]
    record = {"id": "1", "specimen": {"material_states": states}, "parts": [septum]}
    assert feature_state(septum, "septal_integrity").state is None
    found = feature_state(septum, "septal_integrity", record)
    assert (found.state, found.origin, found.reason) == ("not_assessable", "material", "removed_at_dissection")
    other = {"id": "aorta", "type": "ArterialTrunk"}
    assert feature_state(other, "trunk_calibre", record).state is None


def test_none_found_is_absent_and_a_list_of_one_is_read_as_its_word() -> None:
    tract = {"id": "t", "type": "OutflowTract", "obstruction": ["none"]}
    assert feature_state(tract, "obstruction").state == "absent"
    assert feature_state({**tract, "obstruction": ["not_assessable"]}, "obstruction").state == "not_assessable"
    assert feature_state({**tract, "obstruction": ["valvar", "subvalvar"]}, "obstruction").state == "present"
    assert feature_state({**tract, "obstruction": []}, "obstruction").state is None


def test_parts_are_found_by_id_class_and_ancestor() -> None:
    record = {"id": "1", "parts": [VALVE, {"id": "a", "type": "Atrium"}, {"id": "b", "type": "Nonsense"}]}
    assert find_part(record, "tricuspid_valve") is VALVE
    assert find_part(record, "aorta") is None
    assert [part["id"] for part in parts_of(record, "Atrium")] == ["a"]
    assert len(list(parts_of(record))) == 3
    assert list(parts_of({"id": "1"})) == []


def test_a_conventional_part_is_made_once_with_what_its_name_states() -> None:
    record: Record = {"id": "1"}
    part = ensure_part(record, "left_sided_atrium")
    assert part == {"id": "left_sided_atrium", "type": "Atrium", "side": "left_sided"}
    assert ensure_part(record, "left_sided_atrium") is part
    assert ensure_part(record, "interatrial_communication_2")["type"] == "InteratrialCommunication"
    with pytest.raises(KeyError):
        ensure_part(record, "interatrial_communication_1")
    with pytest.raises(KeyError):
        ensure_part(record, "left_atrium")


def test_look_ups_in_the_schema() -> None:
    assert part_type("aorta") == "ArterialTrunk"
    assert part_type("aorta_2") == "ArterialTrunk"
    assert part_type("heart") is None
    assert part_defaults("common_junction") == {"side": "common"}
    assert class_slots("Atrium")[:2] == ("id", "type")
    assert class_slots("Nonsense") == ()
    assert is_a("Atrium", "Part") and not is_a("Atrium", "Ventricle") and not is_a(None, "Part")
    assert set(STATES) == set(enum_of("cleft") or ())
    assert enum_of("leaflet_count") is None


def test_names_in_messages() -> None:
    assert say("right_sided_junction") == "right-sided atrioventricular junction"
    assert say({"id": "x", "type": "Atrium"}) == "atrium 'x'"
    assert say({}) == "part"
    assert pointer("a/b", 0, "~") == "/a~1b/0/~0"


def test_a_reading_knows_the_place_of_what_is_inside() -> None:
    from chordae.issues import Location

    reading = Reading({"id": "1"}, {"": Location("f", 1), "/parts/0": Location("f", 4)})
    assert reading.place("/parts/0/cleft").line == 4
    assert reading.place("/stated").line == 1
    assert Reading({"id": "1"}).place("/stated") == Location()


@settings(max_examples=60)
@given(record=records())
def test_the_one_order_is_reached_in_one_step(record: Record) -> None:
    assert canonical(canonical(record)) == canonical(record)
    assert list(canonical(record)) == [name for name in class_slots("Record") if name in record]


def test_lists_with_an_order_keep_it_and_others_are_sorted() -> None:
    record = {
        "remarks": [{"text": "b"}, {"text": "a"}],
        "stated": {"diagnoses": ["b", "a", "b"]},
        "parts": [
            {"type": "AorticArch", "id": "aortic_arch", "arch_branches": ["vertebral", "left_subclavian"]},
            {"type": "Atrium", "id": "z"},
            {"type": "Atrium", "id": "right_sided_atrium", "side": None, "observed": []},
        ],
        "id": "1",
        "unheard_of": 1,
    }
    assert canonical(record) == {
        "id": "1",
        "parts": [
            {"id": "right_sided_atrium", "type": "Atrium"},
            {"id": "z", "type": "Atrium"},
            {"id": "aortic_arch", "type": "AorticArch", "arch_branches": ["vertebral", "left_subclavian"]},
        ],
        "stated": {"diagnoses": ["a", "b"]},
        "remarks": [{"text": "b"}, {"text": "a"}],
        "unheard_of": 1,
    }
