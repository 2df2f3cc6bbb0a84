"""Identities: what decides, what only supports, what never decides; one check for each row of the criteria."""

from __future__ import annotations

import json
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae.derive import derive, explain
from chordae.derive.criteria import Identity, identify
from chordae.derive.criteria_page import criteria_page
from chordae.derive.kinds import kind
from chordae.knowledge import table
from chordae.model import class_slots
from chordae.record import enum_of, tables

CRITERIA = table("criteria")["identities"]
ROWS = [
    (name, answer, sort, number)
    for name, data in CRITERIA.items()
    for answer, rows in data["answers"].items()
    for sort in ("decides", "supports")
    for number in range(len(rows.get(sort, ())))
]
BARE = {"atrium": "Atrium", "ventricle": "Ventricle"}


def example(row: dict[str, Any]) -> dict[str, Any]:
    """Return features that meet one row of the criteria."""
    return {name: value[0] if isinstance(value, list) else value for name, value in row["see"].items()}


def meets(row: dict[str, Any], features: dict[str, Any]) -> bool:
    """Say whether features meet a row, told apart from the engine."""

    def within(name: str, value: Any) -> bool:
        return features.get(name) in (value if isinstance(value, list) else [value])

    blocked = any(within(name, value) for name, value in row.get("unless", {}).items())
    return all(within(name, value) for name, value in row["see"].items()) and not blocked


def of(name: str, **features: Any) -> Identity:
    return identify(kind(name), {"id": "x", **features})


@pytest.mark.parametrize(("name", "answer", "sort", "number"), ROWS)
def test_each_row_gives_its_answer_when_it_stands_alone(name: str, answer: str, sort: str, number: int) -> None:
    row = CRITERIA[name]["answers"][answer][sort][number]
    found = of(name, **example(row))
    assert found.answer == answer
    deciding = any(meets(one, example(row)) for one in CRITERIA[name]["answers"][answer].get("decides", ()))
    assert found.confidence == ("decided" if deciding else "supported")
    assert deciding or sort == "supports"
    assert found.used


@pytest.mark.parametrize(
    ("name", "answer", "number"),
    [
        (name, answer, number)
        for name, data in CRITERIA.items()
        for answer, rows in data["answers"].items()
        for number, row in enumerate(rows.get("decides", ()))
        if row.get("unless")
    ],
)
def test_each_exception_blocks_its_row(name: str, answer: str, number: int) -> None:
    row = CRITERIA[name]["answers"][answer]["decides"][number]
    for feature, value in row["unless"].items():
        for one in value if isinstance(value, list) else [value]:
            if feature in row["see"]:
                continue
            features = {**example(row), feature: one}
            others = [other for other in CRITERIA[name]["answers"][answer]["decides"] if meets(other, features)]
            assert row not in others
            found = of(name, **features)
            assert (found.answer, found.confidence) != (answer, "decided") or others, (feature, one)


def test_every_feature_of_the_criteria_is_in_the_schema() -> None:
    for data in CRITERIA.values():
        slots = set(class_slots(data["type"]))
        known = slots | set(data.get("given", {}))
        assert data["stated"] in slots
        for rows in data["answers"].values():
            for row in [*rows.get("decides", ()), *rows.get("supports", ()), *rows.get("excludes", ())]:
                for feature, value in [*row["see"].items(), *row.get("unless", {}).items()]:
                    assert feature in known, (data["type"], feature)
                    words = enum_of(feature) if feature in slots else None
                    for one in value if isinstance(value, list) else [value]:
                        assert words is None or one in words, (feature, one)
                assert row["source"]
                assert row["status"] in ("V", "M")


def values_of(feature: str) -> list[Any]:
    words = enum_of(feature)
    return [*words] if words else [0, 1, 2, 3, 5]


def never(name: str) -> list[str]:
    return [one["feature"] for one in CRITERIA[name]["never"]]


OWN = [
    (name, feature)
    for name, data in CRITERIA.items()
    for feature in never(name)
    if feature in class_slots(data["type"])
]


@pytest.mark.parametrize(("name", "feature"), OWN)
def test_a_feature_that_never_decides_decides_nothing_alone(name: str, feature: str) -> None:
    for value in values_of(feature):
        found = of(name, **{feature: value})
        assert (found.answer, found.confidence) == (None, "undetermined"), value


@pytest.mark.parametrize(("name", "feature"), OWN)
def test_a_feature_that_never_decides_changes_no_answer(name: str, feature: str) -> None:
    for answer, rows in CRITERIA[name]["answers"].items():
        for row in rows["decides"]:
            if feature in row["see"] or feature in row.get("unless", {}):
                continue
            for value in values_of(feature):
                found = of(name, **example(row), **{feature: value})
                if feature == "side" and found.confidence == "conflict":
                    continue  # a side that names a common valve is one of its deciding features
                assert found.answer == answer or feature == "cleft", (answer, value)


SURROUND = {
    "systemic_veins": {"type": "SystemicVeins", "features": ["inferior_caval_vein", "left_superior_caval_vein"]},
    "pulmonary_veins": {"type": "PulmonaryVeins", "features": ["pulmonary_venous_connection"]},
    "abdominal_organs": {"type": "AbdominalOrgans", "features": ["spleen", "stomach_side", "abdominal_arrangement"]},
    "thoracic_organs": {"type": "ThoracicOrgans", "features": ["bronchial_arrangement", "right_sided_bronchus"]},
    "ventricular_mass": {"type": "VentricularMass", "features": ["right_ventricle_lateral", "twisting", "tilting"]},
    "outflow_tracts": {"type": "OutflowTracts", "features": ["infundibulum"]},
    "great_arteries": {"type": "GreatArteries", "features": ["aorta_relation", "trunk_course"]},
    "heart_position": {"type": "HeartPosition", "features": ["cardiac_position", "apex"]},
}  # fmt: skip
NAMELESS = [
    {"id": "right_sided_atrium", "type": "Atrium", "side": "right_sided"},
    {"id": "left_sided_atrium", "type": "Atrium", "side": "left_sided"},
    {"id": "right_sided_ventricle", "type": "Ventricle", "side": "right_sided", "ventricle_position": ["right_sided"]},
    {"id": "left_sided_ventricle", "type": "Ventricle", "side": "left_sided", "ventricle_size": "hypoplastic"},
    {
        "id": "right_sided_atrioventricular_valve",
        "type": "AtrioventricularValve",
        "side": "right_sided",
        "leaflet_count": 3,
    },
    {
        "id": "left_sided_atrioventricular_valve",
        "type": "AtrioventricularValve",
        "side": "left_sided",
        "leaflet_count": 2,
    },
    {"id": "arterial_trunk", "type": "ArterialTrunk", "side": "right_sided"},
    {"id": "arterial_trunk_2", "type": "ArterialTrunk", "side": "left_sided"},
]


@pytest.mark.parametrize(
    ("part", "feature"), [(part, one) for part, data in SURROUND.items() for one in data["features"]]
)
def test_nothing_around_a_structure_decides_what_it_is(part: str, feature: str) -> None:
    for value in values_of(feature):
        around = {"id": part, "type": SURROUND[part]["type"], feature: value}
        found = derive({"id": "x", "parts": [*NAMELESS, around]})
        assert {one["identity"] for one in found["identities"]} == {None}, value
        assert [found[name] for name in ("arrangement", "topology", "av_connection", "va_connection")] == [None] * 4


def test_wall_thickness_decides_nothing() -> None:
    for right, left in product((2.0, 9.0), repeat=2):
        measured = [
            {"id": f"m{number}", "part": part, "quantity": "wall_thickness", "value": value, "unit": "mm"}
            for number, (part, value) in enumerate((("right_sided_ventricle", right), ("left_sided_ventricle", left)))
        ]
        found = derive({"id": "x", "parts": NAMELESS, "measurements": measured})
        assert {one["identity"] for one in found["identities"]} == {None}


@pytest.mark.parametrize("count", range(9))
def test_the_number_of_leaflets_alone_names_no_valve(count: int) -> None:
    assert of("atrioventricular_valve", leaflet_count=count).confidence == "undetermined"
    septal = of(
        "atrioventricular_valve", leaflet_count=count, septal_chordal_attachment="present", septal_leaflet="normal"
    )
    assert septal.answer == "tricuspid_valve"


def test_deciding_features_that_contradict_each_other_are_a_conflict() -> None:
    found = of("atrium", pectinate_extent="to_crux", appendage_morphology="morphologically_left")
    assert (found.answer, found.confidence) == (None, "conflict")
    assert set(found.used) == {"pectinate_extent = to_crux", "appendage_morphology = morphologically_left"}


def test_a_supporting_feature_that_disagrees_is_named_and_does_not_overrule() -> None:
    found = of("atrium", pectinate_extent="to_crux", terminal_crest="absent")
    assert (found.answer, found.confidence) == ("morphologically_right_atrium", "decided")
    assert found.against == ("terminal_crest = absent",)


def test_supporting_features_that_disagree_leave_it_undetermined() -> None:
    found = of("ventricle", septal_surface="coarse", septal_valve_attachments="absent")
    assert (found.answer, found.confidence) == (None, "undetermined")


def test_noncompaction_keeps_coarse_trabeculations_from_deciding() -> None:
    assert of("ventricle", apical_trabeculation="coarse").confidence == "decided"
    assert of("ventricle", apical_trabeculation="coarse", noncompaction="present").confidence == "supported"


def test_a_solitary_ventricle_must_be_sought_and_alone() -> None:
    part = {"id": "v", "type": "Ventricle", "apical_trabeculation": "neither"}
    for sought, confidence in (
        ("slices", "decided"),
        ("scan", "decided"),
        ("probe", "supported"),
        ("not_sought", "supported"),
    ):
        found = derive({"id": "x", "parts": [{**part, "second_ventricle_sought": sought}]})["identities"][0]
        assert found["confidence"] == confidence
    both = derive({"id": "x", "parts": [{**part, "second_ventricle_sought": "scan"}, {"id": "w", "type": "Ventricle"}]})
    assert both["identities"][0]["confidence"] == "supported"


VALVE = {"septal_leaflet": "normal", "septal_chordal_attachment": "absent"}


def test_flagship_a_normal_septal_leaflet_without_septal_cords_is_no_tricuspid_valve() -> None:
    found = of(
        "atrioventricular_valve",
        **VALVE,
        opens_mostly_into="morphologically_right_ventricle",
        junction_pattern="separate",
        av_connection="concordant",
    )
    assert found.confidence == "conflict"
    assert "septal_chordal_attachment = absent" in found.against


@pytest.mark.parametrize("leaflet", ["displaced", "dysplastic", "tethered", "absent", "not_assessable"])
def test_a_reason_for_missing_cords_takes_the_conflict_away(leaflet: str) -> None:
    found = of(
        "atrioventricular_valve",
        septal_leaflet=leaflet,
        septal_chordal_attachment="absent",
        opens_mostly_into="morphologically_right_ventricle",
        junction_pattern="separate",
        av_connection="concordant",
    )
    assert (found.answer, found.confidence) == ("tricuspid_valve", "decided")


@pytest.mark.parametrize(
    "connection", ["mixed", "double_inlet_lv", "double_inlet_rv", "absent_left", "uniatrial_biventricular"]
)
def test_a_valve_without_its_own_pair_is_named_by_its_side(connection: str) -> None:
    given = {"side": "right_sided", "av_connection": connection, "junction_pattern": "separate"}
    found = of("atrioventricular_valve", opens_mostly_into="morphologically_left_ventricle", **given)
    assert found.answer == "right_atrioventricular_valve"
    septal = of("atrioventricular_valve", septal_chordal_attachment="present", septal_leaflet="normal", **given)
    assert septal.answer == "right_atrioventricular_valve"


def test_possible_is_not_certain() -> None:
    part = {
        "id": "x",
        "pectinate_extent": "to_crux",
        "observed": [{"feature": "pectinate_extent", "certainty": "possible"}],
    }
    assert identify(kind("atrium"), part).confidence == "supported"
    part["observed"] = [{"feature": "pectinate_extent", "certainty": "probable"}]
    assert identify(kind("atrium"), part).confidence == "decided"


def test_an_observed_entry_gives_the_state_of_a_feature() -> None:
    part = {
        "id": "x",
        "septal_leaflet": "normal",
        "observed": [{"feature": "septal_chordal_attachment", "state": "absent"}],
    }
    found = identify(kind("atrioventricular_valve"), part)
    assert "septal_chordal_attachment = absent" in found.against + found.used


def test_what_was_cut_away_is_said_with_its_reason_and_what_it_would_change() -> None:
    atrium = {
        "id": "left_sided_atrium",
        "type": "Atrium",
        "side": "left_sided",
        "pectinate_extent": "not_assessable",
        "observed": [
            {"feature": "pectinate_extent", "state": "not_assessable", "state_reason": "removed_at_dissection"}
        ],
    }
    right = {"id": "right_sided_atrium", "type": "Atrium", "side": "right_sided", "pectinate_extent": "to_crux"}
    found = derive({"id": "x", "parts": [right, atrium]})
    left = next(one for one in found["identities"] if one["part"] == "left_sided_atrium")
    assert left["confidence"] == "undetermined"
    assert "pectinate extent (not assessable, removed at dissection)" in left["not_seen"]
    assert any("to crux = morphologically right atrium" in one for one in left["would_change"])
    assert found["arrangement"] is None
    why = next(one["why"] for one in found["undetermined"] if one["what"] == "arrangement")
    assert "removed at dissection" in why


def test_material_that_was_removed_speaks_for_its_structure() -> None:
    record = {
        "id": "x",
        "specimen": {
            "material_states": [
                {"structure": "left_sided_atrium", "state": "not_assessable", "state_reason": "damaged"}
            ]
        },
        "parts": [{"id": "left_sided_atrium", "type": "Atrium", "side": "left_sided"}],
    }
    found = derive(record)["identities"][0]
    assert all("(not assessable, damaged)" in one for one in found["not_seen"])


def test_cut_below_the_arch_only_the_coronary_orifices_tell_an_aorta() -> None:
    assert (
        of("arterial_trunk", gives_coronary_arteries="present", cut_level="sinutubular_junction").confidence
        == "decided"
    )
    arch = of(
        "arterial_trunk",
        gives_arch_branches="present",
        gives_pulmonary_arteries="absent",
        cut_level="sinutubular_junction",
    )
    assert arch.confidence != "decided"


def test_a_coronary_artery_from_the_pulmonary_trunk_makes_no_aorta_of_it() -> None:
    found = of(
        "arterial_trunk",
        gives_coronary_arteries="present",
        gives_pulmonary_arteries="present",
        gives_arch_branches="absent",
    )
    assert found.answer == "pulmonary_trunk"


def test_two_trunks_with_a_window_are_no_common_trunk() -> None:
    trunk = {
        "gives_coronary_arteries": "present",
        "gives_arch_branches": "present",
        "gives_pulmonary_arteries": "present",
    }
    assert of("arterial_trunk", **trunk).answer == "common_arterial_trunk"
    assert of("arterial_trunk", **trunk, second_trunk="present").answer != "common_arterial_trunk"


def test_a_stated_name_is_carried_and_never_counted() -> None:
    found = of("ventricle", stated_ventricular_identity="morphologically_left_ventricle")
    assert (found.answer, found.confidence, found.stated) == (None, "undetermined", "morphologically_left_ventricle")
    found = of("ventricle", stated_ventricular_identity="morphologically_left_ventricle", apical_trabeculation="coarse")
    assert (found.answer, found.stated) == ("morphologically_right_ventricle", "morphologically_left_ventricle")


VALUES = st.one_of(
    st.none(), st.booleans(), st.integers(), st.text(max_size=5), st.lists(st.text(max_size=3)), st.just({"a": [1]}),
    st.sampled_from(["present", "absent", "not_assessable", "common", "right_sided", "aorta", "atretic"]),
)  # fmt: skip
STATED = sorted(class_slots("StatedConclusions"))


@st.composite
def broken_parts(draw: st.DrawFn) -> dict[str, Any]:
    kind_name = draw(st.sampled_from(sorted(tables().classes)))
    slots = sorted(class_slots(kind_name))
    return {"type": kind_name, **draw(st.dictionaries(st.sampled_from(slots), VALUES, max_size=8))} if slots else {}


@given(st.lists(broken_parts(), max_size=6), st.dictionaries(st.sampled_from(STATED), VALUES), VALUES)
def test_any_record_is_survived(parts: list[Any], stated: Any, other: Any) -> None:
    found = derive({"id": "x", "parts": parts, "stated": stated, "specimen": other, "remarks": other})
    json.dumps(found)
    explain(found)


def test_the_page_of_criteria_names_every_answer_and_source() -> None:
    page = criteria_page(table("criteria"))
    for data in CRITERIA.values():
        assert data["what"].capitalize() in page
        for answer in data["answers"]:
            assert answer.replace("_", " ") in page
    assert page.count("Never decides:") == len(CRITERIA)
