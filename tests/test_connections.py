"""Connections: shares and halves, every type, topology table, the twenty combinations, origins."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae.derive import derive
from chordae.derive.tables import rows
from chordae.knowledge import table
from chordae.shortform import expand

RV, LV, SOLITARY = (
    "morphologically_right_ventricle",
    "morphologically_left_ventricle",
    "solitary_indeterminate_ventricle",
)
RIGHT, LEFT = "to_crux", "confined_to_appendage"
ARRANGEMENTS = {
    "usual": (RIGHT, LEFT),
    "mirror_image": (LEFT, RIGHT),
    "right_isomerism": (RIGHT, RIGHT),
    "left_isomerism": (LEFT, LEFT),
}
COARSE = {"id": RV, "type": "Ventricle", "apical_trabeculation": "coarse"}
FINE = {"id": LV, "type": "Ventricle", "apical_trabeculation": "fine"}
ALONE = {"id": SOLITARY, "type": "Ventricle", "apical_trabeculation": "neither", "second_ventricle_sought": "scan"}


def atria(arrangement: str | None) -> list[dict[str, Any]]:
    if arrangement is None:
        return []
    right, left = ARRANGEMENTS[arrangement]
    return [
        {"id": "right_sided_atrium", "type": "Atrium", "side": "right_sided", "pectinate_extent": right},
        {"id": "left_sided_atrium", "type": "Atrium", "side": "left_sided", "pectinate_extent": left},
    ]


def junction(side: str, *shares: tuple[str, float | None], **features: Any) -> dict[str, Any]:
    listed = [
        {"ventricle": name} if share is None else {"ventricle": name, "per_cent": share} for name, share in shares
    ]
    part = {"id": f"{side}_junction", "type": "AtrioventricularJunction", "side": side, **features}
    return {**part, "opens_into": listed} if listed else part


def heart(arrangement: str | None, *parts: dict[str, Any], stated: dict[str, Any] | None = None) -> dict[str, Any]:
    return derive({"id": "x", "parts": [*atria(arrangement), *parts], "stated": stated or {}})


def trunk(name: str, *shares: tuple[str, float | None], **features: Any) -> dict[str, Any]:
    gives = {
        "aorta": {
            "gives_coronary_arteries": "present",
            "gives_arch_branches": "present",
            "gives_pulmonary_arteries": "absent",
        },
        "pulmonary_trunk": {"gives_pulmonary_arteries": "present", "gives_arch_branches": "absent"},
    }[name]
    part = {"id": name, "type": "ArterialTrunk", **gives, **features}
    listed = [{"ventricle": one} if share is None else {"ventricle": one, "per_cent": share} for one, share in shares]
    return {**part, "arises_from": listed} if listed else part


# --- arrangement ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_arrangement_follows_both_appendages(arrangement: str) -> None:
    found = heart(arrangement)
    assert found["arrangement"] == arrangement
    assert found["origins"]["arrangement"] == "evidence"


@pytest.mark.parametrize(
    ("stated", "verdict"),
    [
        ("usual", "more_specific"),
        ("right_isomerism", "more_specific"),
        ("mirror_image", "contradicts"),
        ("left_isomerism", "contradicts"),
    ],
)
def test_one_appendage_cannot_tell_and_can_contradict(stated: str, verdict: str) -> None:
    found = heart(None, atria("usual")[0], stated={"atrial_arrangement": stated})
    stands = (stated, "stated") if verdict == "more_specific" else (None, None)
    assert (found["arrangement"], found["origins"].get("arrangement")) == stands
    assert found["stated_against_derived"][0]["verdict"] == verdict
    why = [one["why"] for one in found["undetermined"] if one["what"] == "arrangement"]
    assert [text.startswith("what was stated is excluded by what was recorded: ") for text in why] == [True] * len(why)
    assert bool(why) is (verdict == "contradicts")


# --- atrioventricular connections -----------------------------------------------------------------------------------

EXPECTED_AV = {
    ("usual", RV, LV): "concordant", ("usual", LV, RV): "discordant",
    ("mirror_image", LV, RV): "concordant", ("mirror_image", RV, LV): "discordant",
    ("right_isomerism", RV, LV): "mixed", ("right_isomerism", LV, RV): "mixed",
    ("left_isomerism", RV, LV): "mixed", ("left_isomerism", LV, RV): "mixed",
}  # fmt: skip


@pytest.mark.parametrize(("arrangement", "right", "left"), list(product(ARRANGEMENTS, (RV, LV), (RV, LV))))
def test_each_pair_of_junctions_gives_its_connection(arrangement: str, right: str, left: str) -> None:
    found = heart(
        arrangement, COARSE, FINE, junction("right_sided", (right, None)), junction("left_sided", (left, None))
    )
    same = {RV: "double_inlet_rv", LV: "double_inlet_lv"}
    assert found["av_connection"] == (same[right] if right == left else EXPECTED_AV[arrangement, right, left])
    assert found["origins"]["av_connection"] == "evidence"


@given(st.integers(0, 100), st.integers(0, 100), st.sampled_from(sorted(ARRANGEMENTS)))
def test_more_than_half_decides_and_a_half_never_does(right: int, left: int, arrangement: str) -> None:
    found = heart(
        arrangement,
        COARSE,
        FINE,
        junction("right_sided", (RV, right), (LV, 100 - right)),
        junction("left_sided", (RV, left), (LV, 100 - left)),
    )
    if 50 in (right, left):
        assert found["av_connection"] is None
        assert len(found["shared_by_halves"]) == [right, left].count(50)
        return
    to = [RV if share > 50 else LV for share in (right, left)]
    if to[0] == to[1]:
        assert found["av_connection"] == {RV: "double_inlet_rv", LV: "double_inlet_lv"}[to[0]]
    else:
        assert found["av_connection"] == EXPECTED_AV[arrangement, to[0], to[1]]


def test_a_half_leaves_a_stated_connection_standing() -> None:
    parts = [COARSE, FINE, junction("right_sided", (RV, 50), (LV, 50)), junction("left_sided", (LV, None))]
    found = heart("usual", *parts, stated={"av_connection": "concordant"})
    assert (found["av_connection"], found["origins"]["av_connection"]) == ("concordant", "stated")
    assert found["shared_by_halves"] == ["right_sided_junction"]
    assert heart("usual", *parts)["av_connection"] is None


@pytest.mark.parametrize(
    ("side", "other", "absent"),
    [("right_sided", "left_sided", "absent_right"), ("left_sided", "right_sided", "absent_left")],
)
def test_absent_junction_and_uniatrial_but_biventricular(side: str, other: str, absent: str) -> None:
    blind = junction(side, state="absent")
    assert heart("usual", COARSE, FINE, blind, junction(other, (LV, None)))["av_connection"] == absent
    assert (
        heart("usual", COARSE, FINE, blind, junction(other, (LV, 60), (RV, 40)))["av_connection"]
        == "uniatrial_biventricular"
    )
    assert (
        heart("usual", COARSE, FINE, blind, junction(other, (LV, 50), (RV, 50)))["av_connection"]
        == "uniatrial_biventricular"
    )
    straddling = {"id": "v", "type": "AtrioventricularValve", "side": other, "straddling": "present"}
    found = heart("usual", COARSE, FINE, blind, junction(other, (LV, None)), straddling)
    assert found["av_connection"] == "uniatrial_biventricular"


def test_a_missing_junction_of_which_nothing_else_is_known_stays_open() -> None:
    found = heart(
        "usual", COARSE, FINE, junction("right_sided", state="absent"), stated={"av_connection": "absent_right"}
    )
    assert found["origins"]["av_connection"] == "stated"
    row = next(one for one in found["stated_against_derived"] if one["what"] == "av_connection")
    assert row["verdict"] == "more_specific"


def test_solitary_ventricle() -> None:
    found = heart("usual", ALONE, junction("right_sided", (SOLITARY, None)), junction("left_sided", (SOLITARY, None)))
    assert (found["av_connection"], found["topology"]) == ("double_inlet_solitary", None)
    assert found["notation"].startswith("SV {S,X,")


@pytest.mark.parametrize(
    ("share", "expected"),
    [
        (100, "double_inlet_lv"),
        (76, "double_inlet_lv"),
        (75, "concordant"),
        (50, "concordant"),
        (25, "concordant"),
        (24, "double_inlet_rv"),
        (0, "double_inlet_rv"),
    ],
)
def test_common_junction_needs_more_than_three_quarters(share: int, expected: str) -> None:
    common = {
        "id": "atrioventricular_junctions",
        "type": "AtrioventricularJunctions",
        "junction_pattern": "common",
        "per_cent_to_left_ventricle": share,
    }
    found = heart("usual", common, stated={"topology": "right_hand"})
    assert found["av_connection"] == expected
    listed = junction("common", (LV, share), (RV, 100 - share))
    assert heart("usual", COARSE, FINE, listed, stated={"topology": "right_hand"})["av_connection"] == expected


@pytest.mark.parametrize(
    ("arrangement", "topology", "expected"),
    [
        ("usual", "left_hand", "discordant"),
        ("mirror_image", "left_hand", "concordant"),
        ("left_isomerism", "left_hand", "mixed"),
        ("right_isomerism", None, "mixed"),
        ("usual", None, None),
    ],
)
def test_shared_common_junction_by_arrangement_and_topology(
    arrangement: str, topology: str | None, expected: str | None
) -> None:
    common = {
        "id": "atrioventricular_junctions",
        "type": "AtrioventricularJunctions",
        "junction_pattern": "common",
        "per_cent_to_left_ventricle": 50,
    }
    assert heart(arrangement, common, stated={"topology": topology} if topology else {})["av_connection"] == expected


def test_override_over_half_in_the_short_form_changes_the_type() -> None:
    facts = {
        "atrial_arrangement": "usual",
        "topology": "right_hand",
        "av_connection": "concordant",
        "override": {"right_av_valve": 70},
    }
    found = derive(expand({"id": "x", "facts": facts})[0])
    assert (found["av_connection"], found["origins"]["av_connection"]) == ("double_inlet_lv", "inferred")
    row = next(one for one in found["stated_against_derived"] if one["what"] == "av_connection")
    assert row["verdict"] == "contradicts"
    for share, expected in ((30, "concordant"), (50, "concordant")):
        facts["override"] = {"right_av_valve": share}
        assert derive(expand({"id": "x", "facts": facts})[0])["av_connection"] == expected


def test_solitary_valve_over_both_ventricles_in_the_short_form() -> None:
    # UBC20: one connection absent, the other valve shared: uniatrial but biventricular.
    facts = {
        "atrial_arrangement": "usual",
        "topology": "right_hand",
        "av_connection": "absent_left",
        "override": {"right_av_valve": 40},
    }
    assert derive(expand({"id": "x", "facts": facts})[0])["av_connection"] == "uniatrial_biventricular"


@pytest.mark.parametrize("relation", ["twisting", "tilting", "whole_heart_rotation"])
def test_relations_of_the_ventricles_set_no_connection(relation: str) -> None:
    mass = {
        "id": "ventricular_mass",
        "type": "VentricularMass",
        relation: "present",
        "right_ventricle_lateral": "left_sided",
    }
    assert heart("usual", COARSE, FINE, mass)["av_connection"] is None


def test_an_imperforate_valve_keeps_the_type() -> None:
    valve = {"id": "v", "type": "AtrioventricularValve", "side": "right_sided", "valve_patency": "imperforate"}
    found = heart("usual", COARSE, FINE, junction("right_sided", (RV, None)), junction("left_sided", (LV, None)), valve)
    assert found["av_connection"] == "concordant"
    assert "imperforate_right_atrioventricular_valve" in [one["term"] for one in found["diagnoses"]]


def test_shares_that_add_up_to_more_than_the_whole_give_nothing() -> None:
    found = heart(
        "usual", COARSE, FINE, junction("right_sided", (RV, 60), (LV, 60)), junction("left_sided", (LV, None))
    )
    assert found["av_connection"] is None
    why = next(one["why"] for one in found["undetermined"] if one["what"] == "av_connection")
    assert "120 %" in why


def test_what_was_cut_away_is_not_inferred() -> None:
    gone = junction("right_sided", state="not_assessable")
    found = heart("usual", gone, stated={"topology": "right_hand"})
    assert found["av_connection"] is None
    assert found["av_connection_expected"] == "concordant"


def test_named_ventricles_make_no_evidence() -> None:
    named = [
        {"id": RV, "type": "Ventricle", "stated_ventricular_identity": RV},
        {"id": LV, "type": "Ventricle", "stated_ventricular_identity": LV},
    ]
    found = heart("usual", *named, junction("right_sided", (RV, None)), junction("left_sided", (LV, None)))
    assert (found["av_connection"], found["origins"]["av_connection"]) == ("concordant", "inferred")


# --- topology ---------------------------------------------------------------------------------------------------------

TOPOLOGY = {
    ("usual", "concordant"): "right_hand", ("usual", "discordant"): "left_hand",
    ("mirror_image", "concordant"): "left_hand", ("mirror_image", "discordant"): "right_hand",
}  # fmt: skip


@pytest.mark.parametrize(
    ("arrangement", "connection"), list(product(ARRANGEMENTS, ("concordant", "discordant", "mixed")))
)
def test_topology_table(arrangement: str, connection: str) -> None:
    found = derive({"id": "x", "stated": {"atrial_arrangement": arrangement, "av_connection": connection}})
    expected = TOPOLOGY.get((arrangement, connection))
    assert (found["topology"], found["topology_expected"]) == (expected, expected)
    assert found["origins"].get("topology") == ("inferred" if expected else None)
    impossible = [one["number"] for one in found["combinations"] if one["verdict"] == "impossible"]
    isomeric = arrangement.endswith("isomerism")
    assert impossible == (
        [1] if isomeric and connection != "mixed" else [2] if not isomeric and connection == "mixed" else []
    )


@pytest.mark.parametrize(("arrangement", "topology"), list(product(ARRANGEMENTS, ("right_hand", "left_hand"))))
def test_connection_is_expected_from_the_first_two_letters(arrangement: str, topology: str) -> None:
    found = derive({"id": "x", "stated": {"atrial_arrangement": arrangement, "topology": topology}})
    back = {(first, third): second for (first, second), third in TOPOLOGY.items()}
    assert found["av_connection"] == back.get((arrangement, topology), "mixed")
    assert found["origins"]["av_connection"] == "inferred"


@pytest.mark.parametrize("disharmony", ["confirmed", "not_confirmed", None])
def test_disharmony_is_named_and_never_overruled(disharmony: str | None) -> None:
    stated = {"atrial_arrangement": "usual", "av_connection": "concordant", "topology": "left_hand"}
    found = derive({"id": "x", "stated": {**stated, "disharmony": disharmony} if disharmony else stated})
    assert (found["topology"], found["topology_expected"]) == ("left_hand", "right_hand")
    row = next(one for one in found["stated_against_derived"] if one["what"] == "topology")
    assert row["disharmony"] == (disharmony or "not_recorded")
    assert any(one["what"] == "av_connection" for one in found["notation_lost"])


# --- ventriculoarterial connections ----------------------------------------------------------------------------------

VA = {(LV, RV): "concordant", (RV, LV): "discordant", (RV, RV): "double_outlet_rv", (LV, LV): "double_outlet_lv"}


@pytest.mark.parametrize(("aorta", "pulmonary"), list(VA))
def test_each_pair_of_trunks_gives_its_connection(aorta: str, pulmonary: str) -> None:
    found = heart(None, COARSE, FINE, trunk("aorta", (aorta, None)), trunk("pulmonary_trunk", (pulmonary, None)))
    assert (found["va_connection"], found["origins"]["va_connection"]) == (VA[aorta, pulmonary], "evidence")


@given(st.integers(0, 100), st.integers(0, 100))
def test_roots_go_by_more_than_half(aorta: int, pulmonary: int) -> None:
    found = heart(
        None,
        COARSE,
        FINE,
        trunk("aorta", (RV, aorta), (LV, 100 - aorta)),
        trunk("pulmonary_trunk", (RV, pulmonary), (LV, 100 - pulmonary)),
    )
    if (aorta, pulmonary) == (50, 50):
        assert found["va_connection"] == "double_outlet_both"
    elif 50 in (aorta, pulmonary):
        assert found["va_connection"] is None
    else:
        assert found["va_connection"] == VA[RV if aorta > 50 else LV, RV if pulmonary > 50 else LV]


@pytest.mark.parametrize(
    ("share", "septum", "expected"),
    [(46, "perpendicular", "double_outlet_both"), (46, "none", "concordant"), (44, "perpendicular", "concordant")],
)
def test_about_a_half_counts_only_with_a_perpendicular_outlet_septum(share: int, septum: str, expected: str) -> None:
    # I21: the outlet septum crosses the crest at a right angle and both roots are shared about equally.
    tracts = {"id": "outflow_tracts", "type": "OutflowTracts", "outlet_septum_deviation": septum}
    found = heart(
        None,
        COARSE,
        FINE,
        tracts,
        trunk("aorta", (RV, share), (LV, 100 - share)),
        trunk("pulmonary_trunk", (RV, 100 - share), (LV, share)),
    )
    assert found["va_connection"] == expected


def test_four_single_outlets() -> None:
    common = {
        "id": "t",
        "type": "ArterialTrunk",
        "gives_coronary_arteries": "present",
        "gives_arch_branches": "present",
        "gives_pulmonary_arteries": "present",
    }
    assert heart(None, common)["va_connection"] == "single_outlet_common_trunk"
    solitary = {**common, "gives_pulmonary_arteries": "absent", "intrapericardial_pulmonary_arteries": "absent"}
    assert heart(None, solitary)["va_connection"] == "single_outlet_solitary_trunk"
    cord = {"trunk_calibre": "atretic", "cord_to_ventricle": "absent"}
    aorta, lung = trunk("aorta", (LV, None)), trunk("pulmonary_trunk", (RV, None))
    gone = {"id": "pulmonary_trunk", "type": "ArterialTrunk", "stated_trunk_identity": "pulmonary_trunk", **cord}
    assert heart(None, COARSE, FINE, aorta, gone)["va_connection"] == "single_outlet_pulmonary_atresia"
    gone = {"id": "aorta", "type": "ArterialTrunk", "stated_trunk_identity": "aorta", **cord}
    assert heart(None, COARSE, FINE, gone, lung)["va_connection"] == "single_outlet_aortic_atresia"


@pytest.mark.parametrize(
    ("cord", "expected"),
    [("present", "concordant"), ("absent", "single_outlet_pulmonary_atresia"), (None, None), ("not_assessable", None)],
)
def test_an_atretic_trunk_keeps_its_type_if_it_can_be_followed(cord: str | None, expected: str | None) -> None:
    lung = {
        "id": "pulmonary_trunk",
        "type": "ArterialTrunk",
        "stated_trunk_identity": "pulmonary_trunk",
        "trunk_calibre": "atretic",
    }
    if cord:
        lung["cord_to_ventricle"] = cord
    if cord == "present":
        lung["arises_from"] = [{"ventricle": RV}]  # type: ignore[assignment]  # the other values are words
    assert heart(None, COARSE, FINE, trunk("aorta", (LV, None)), lung)["va_connection"] == expected


def test_solitary_ventricle_gives_both_trunks() -> None:
    found = heart(None, ALONE, trunk("aorta", (SOLITARY, None)), trunk("pulmonary_trunk", (SOLITARY, None)))
    assert found["va_connection"] == "double_outlet_solitary"


def test_override_in_the_short_form_is_over_the_ventricle_that_is_not_its_own() -> None:
    def connection(**facts: Any) -> tuple[str | None, str | None]:
        found = derive(expand({"id": "x", "facts": facts})[0])
        return found["va_connection"], found["origins"].get("va_connection")

    assert connection(override={"aorta": 60, "pulmonary": 0}) == ("double_outlet_rv", "inferred")
    assert connection(override={"aorta": 0, "pulmonary": 60}) == ("double_outlet_lv", "inferred")
    assert connection(override={"aorta": 40, "pulmonary": 0}) == ("concordant", "inferred")
    assert connection(override={"aorta": 60}) == (None, None)
    assert connection(override={"aorta": 60}, va_connection="concordant") == ("double_outlet_rv", "inferred")
    assert connection(override={"pulmonary": 20}, va_connection="discordant") == ("discordant", "inferred")
    assert connection(override={"aorta": 50}, va_connection="concordant") == ("concordant", "stated")


# --- combinations -----------------------------------------------------------------------------------------------------

COMBINATIONS = {one["number"]: one for one in table("combinations")["combinations"]}
S = "stated"


def alone(**stated: str) -> dict[str, Any]:
    return {"id": "x", "parts": [{**ALONE, "stated_ventricular_identity": SOLITARY}], "stated": stated}


def with_part(stated: dict[str, Any], *parts: dict[str, Any]) -> dict[str, Any]:
    return {"id": "x", "parts": list(parts), "stated": stated}


SEPTUM = {"id": "ventricular_septum", "type": "VentricularSeptum", "septal_integrity": "intact"}
ATRIAL = {"id": "atrial_septum", "type": "AtrialSeptum", "septal_integrity": "intact"}
HOLE = {"id": "interventricular_communication", "type": "InterventricularCommunication"}
COMMON = {"id": "atrioventricular_junctions", "type": "AtrioventricularJunctions", "junction_pattern": "common"}


def valve(**features: Any) -> dict[str, Any]:
    return {"id": "v", "type": "AtrioventricularValve", **features}


def arterial(name: str, patency: str) -> dict[str, Any]:
    return {"id": f"{name}_valve", "type": "ArterialValve", "stated_arterial_valve": name, "valve_patency": patency}


FIRES = {
    1: with_part({"atrial_arrangement": "left_isomerism", "av_connection": "concordant"}),
    2: with_part({"atrial_arrangement": "usual", "av_connection": "mixed"}),
    3: alone(av_connection="concordant"),
    4: alone(va_connection="discordant"),
    5: alone(topology="right_hand"),
    6: {**alone(), "parts": [*alone()["parts"], HOLE]},
    7: with_part({"av_connection": "absent_right"}, valve(stated_valve_type="tricuspid")),
    8: with_part({"av_connection": "double_inlet_lv"}, {**COARSE, "completeness": "complete"}),
    9: with_part({"av_connection": "absent_left"}, valve(side="right_sided", straddling="present")),
    10: with_part({}, valve(straddling="present"), SEPTUM),
    11: with_part({}, COMMON, valve(stated_valve_type="mitral")),
    12: with_part({"av_connection": "absent_right"}, ATRIAL),
    13: with_part(
        {"va_connection": "single_outlet_solitary_trunk"}, arterial("aortic", "patent"), arterial("pulmonary", "patent")
    ),
    14: with_part({"va_connection": "single_outlet_common_trunk"}, arterial("pulmonary", "patent")),
    15: with_part(
        {"va_connection": "discordant"}, SEPTUM, ATRIAL, {"id": "d", "type": "ArterialDuct", "duct_patency": "closed"}
    ),
    19: with_part(
        {},
        {
            "id": "s",
            "type": "SystemicVeins",
            "left_superior_caval_vein_to": "roof_of_left_sided_atrium",
            "coronary_sinus": "absent",
        },
    ),
    20: with_part({}, SEPTUM, {**FINE, "ventricle_size": "hypoplastic"}, arterial("aortic", "imperforate")),
}
PASSES = {
    1: with_part({"atrial_arrangement": "left_isomerism", "av_connection": "mixed"}),
    2: with_part({"atrial_arrangement": "right_isomerism", "av_connection": "mixed"}),
    3: alone(av_connection="double_inlet_solitary"),
    4: alone(va_connection="double_outlet_solitary"),
    5: alone(),
    6: alone(),
    7: with_part({"av_connection": "absent_right"}, valve(stated_valve_type="left_atrioventricular")),
    8: with_part({"av_connection": "double_inlet_lv"}, {**COARSE, "completeness": "incomplete"}),
    9: with_part({"av_connection": "absent_left"}, valve(side="right_sided", straddling="absent")),
    10: with_part({}, valve(straddling="present"), {**SEPTUM, "septal_integrity": "deficient"}),
    11: with_part({}, COMMON, valve(stated_valve_type="common")),
    12: with_part({"av_connection": "absent_right"}, {**ATRIAL, "septal_integrity": "deficient"}),
    13: with_part(
        {"va_connection": "single_outlet_solitary_trunk"},
        arterial("aortic", "patent"),
        arterial("pulmonary", "imperforate"),
    ),
    14: with_part({"va_connection": "single_outlet_common_trunk"}, arterial("truncal", "patent")),
    15: with_part(
        {"va_connection": "discordant"}, SEPTUM, ATRIAL, {"id": "d", "type": "ArterialDuct", "duct_patency": "patent"}
    ),
    16: with_part({"atrial_arrangement": "right_isomerism", "av_connection": "mixed", "va_connection": "discordant"}),
    17: with_part({"atrial_arrangement": "left_isomerism", "av_connection": "mixed"}, COMMON),
    18: with_part(
        {"va_connection": "double_outlet_rv"},
        HOLE,
        {
            "id": "o",
            "type": "OutflowTracts",
            "outlet_septum_deviation": "anterior",
            "septoparietal_hypertrophy": "present",
        },
    ),
    19: with_part(
        {},
        {
            "id": "s",
            "type": "SystemicVeins",
            "left_superior_caval_vein_to": "roof_of_left_sided_atrium",
            "coronary_sinus": "unroofed",
        },
    ),
    20: with_part(
        {"va_connection": "concordant"},
        SEPTUM,
        {**FINE, "ventricle_size": "hypoplastic"},
        arterial("aortic", "imperforate"),
    ),
}


def test_all_twenty_combinations_are_there() -> None:
    assert sorted(COMBINATIONS) == list(range(1, 21))
    assert set(FIRES) | {16, 17, 18} == set(COMBINATIONS) == set(PASSES)
    assert {number for number, one in COMBINATIONS.items() if one["verdict"] == "possible"} == {16, 17, 18}


@pytest.mark.parametrize("number", sorted(FIRES))
def test_combination_that_cannot_be_or_needs_a_condition(number: int) -> None:
    found = {one["number"]: one["verdict"] for one in derive(FIRES[number])["combinations"]}
    assert found.get(number) == COMBINATIONS[number]["verdict"]


@pytest.mark.parametrize("number", sorted(PASSES))
def test_combination_that_may_be(number: int) -> None:
    assert number not in {one["number"] for one in derive(PASSES[number])["combinations"]}


def test_combination_18_names_both() -> None:
    terms = [one["term"] for one in derive(PASSES[18])["diagnoses"]]
    assert "tetralogy_of_fallot" in terms
    assert "double_outlet_right_ventricle" in terms


@pytest.mark.parametrize(
    ("stated", "number"),
    [
        ({"va_connection": "double_outlet_solitary", "av_connection": "concordant"}, 3),
        ({"av_connection": "double_inlet_solitary", "va_connection": "concordant"}, 4),
        ({"av_connection": "double_inlet_solitary", "topology": "left_hand"}, 5),
    ],
)
def test_a_stated_solitary_ventricle_counts_as_one(stated: dict[str, str], number: int) -> None:
    assert number in {one["number"] for one in derive({"id": "x", "stated": stated})["combinations"]}


def test_silence_never_makes_a_combination() -> None:
    assert derive({"id": "x"})["combinations"] == []


def test_every_row_names_its_source() -> None:
    for name in (
        "arrangement",
        "av_connection",
        "common_junction",
        "va_connection",
        "topology_expected",
        "av_expected",
        "conduction",
        "interruption",
    ):
        assert all(row.data["source"] and row.data["status"] in ("V", "M") for row in rows(name))
    assert all(one["source"] for one in COMBINATIONS.values())


# --- what the outlets and junctions are shared by ---------------------------------------------------------------------


def test_an_unidentified_trunk_is_no_silence() -> None:
    lone = {"id": "trunk", "type": "ArterialTrunk", "gives_coronary_arteries": "present"}
    found = heart("usual", COARSE, FINE, lone)
    why = next(one["why"] for one in found["undetermined"] if one["what"] == "va_connection")
    assert "trunk: its identity is not known" in why
    assert (
        "a ventriculoarterial connection that cannot be determined from what was recorded"
        in (found["statement"]["european"])
    )


def test_two_absent_junctions_are_said_to_be_one_too_many() -> None:
    both = [junction(side, state="absent") for side in ("right_sided", "left_sided")]
    found = heart("usual", COARSE, FINE, *both)
    assert found["av_connection"] is None
    assert [one["why"] for one in found["undetermined"] if one["what"] == "av_connection"] == [
        "both atrioventricular junctions are recorded as absent, and the heart needs one"
    ]


@pytest.mark.parametrize(
    ("share", "connection", "says"),
    [
        (0, "concordant", ""),
        (20, "concordant", "the aortic root overrides the ventricular septum"),
        (49, "concordant", "the aortic root overrides the ventricular septum"),
        (50, None, "the aortic root is shared equally between the ventricles"),
        (51, "double_outlet_rv", "the aortic root overrides the ventricular septum"),
        (80, "double_outlet_rv", "the aortic root overrides the ventricular septum"),
    ],
)
def test_an_overriding_root_is_said_whatever_the_type(share: float, connection: str | None, says: str) -> None:
    shares = [(LV, 100 - share), (RV, share)] if share else [(LV, None)]
    found = heart("usual", COARSE, FINE, trunk("aorta", *shares), trunk("pulmonary_trunk", (RV, None)))
    assert found["va_connection"] == connection
    assert ("overriding_aorta" in [one["term"] for one in found["diagnoses"]]) is bool(says)
    assert says in found["statement"]["european"]
    assert ("root" in found["statement"]["european"]) is bool(says)


@pytest.mark.parametrize(
    ("arrangement", "absent", "other", "term", "not_term"),
    [
        ("usual", "right_sided", LV, "tricuspid_atresia", "mitral_atresia"),
        ("usual", "right_sided", RV, None, "tricuspid_atresia"),
        ("usual", "left_sided", RV, "mitral_atresia", "tricuspid_atresia"),
        ("mirror_image", "left_sided", LV, "tricuspid_atresia", "mitral_atresia"),
        ("mirror_image", "right_sided", RV, "mitral_atresia", "tricuspid_atresia"),
        ("right_isomerism", "right_sided", LV, "tricuspid_atresia", "mitral_atresia"),
    ],
)
def test_an_absent_connection_is_atresia_of_the_valve_that_is_missing(
    arrangement: str, absent: str, other: str, term: str | None, not_term: str
) -> None:
    side = "left_sided" if absent == "right_sided" else "right_sided"
    found = heart(arrangement, COARSE, FINE, junction(absent, state="absent"), junction(side, (other, None)))
    named = [one["term"] for one in found["diagnoses"]]
    assert f"absent_{absent.removesuffix('_sided')}_atrioventricular_connection" in named
    assert term is None or term in named
    assert not_term not in named


def test_an_imperforate_valve_of_a_discordant_heart_is_named_by_what_it_is() -> None:
    valve = {"type": "AtrioventricularValve", "valve_patency": "imperforate", "side": "right_sided"}
    found = heart(
        "usual", COARSE, FINE,
        {"id": "atrioventricular_junctions", "type": "AtrioventricularJunctions", "junction_pattern": "separate"},
        junction("right_sided", (LV, None)), junction("left_sided", (RV, None)), {"id": "valve", **valve},
    )  # fmt: skip
    named = [one["term"] for one in found["diagnoses"]]
    assert {"imperforate_right_atrioventricular_valve", "mitral_atresia"} <= set(named)
    assert "tricuspid_atresia" not in named


# --- malformations that say their connections -------------------------------------------------------------------------


def test_a_named_malformation_says_what_it_is_by_definition() -> None:
    found = derive(expand({"id": "x", "facts": {"atrial_arrangement": "usual", "lesions": ["cctga"]}})[0])
    assert (found["av_connection"], found["va_connection"]) == ("discordant", "discordant")
    assert {found["origins"][name] for name in ("av_connection", "va_connection")} == {"stated"}
    assert found["premises"]["va_connection"] == ["stated.diagnoses = congenitally_corrected_transposition"]
    row = next(one for one in found["stated_against_derived"] if one["what"] == "diagnosis")
    assert (row["verdict"], row["because"]) == ("cannot_be_judged", "it follows from its own name alone")


def test_a_named_malformation_says_nothing_against_what_else_is_stated() -> None:
    facts = {"atrial_arrangement": "left_isomerism", "lesions": ["congenitally_corrected_transposition"]}
    found = derive(expand({"id": "x", "facts": facts})[0])
    assert (found["av_connection"], found["va_connection"]) == (None, None)
    two = {"lesions": ["double_outlet_right_ventricle", "double_outlet_left_ventricle"]}
    assert derive(expand({"id": "x", "facts": two})[0])["va_connection"] is None
    kept = {"va_connection": "concordant", "lesions": ["double_outlet_right_ventricle"]}
    assert derive(expand({"id": "x", "facts": kept})[0])["va_connection"] == "concordant"


def test_evidence_outranks_a_named_malformation() -> None:
    trunks = [trunk("aorta", (LV, None)), trunk("pulmonary_trunk", (RV, None))]
    found = heart("usual", COARSE, FINE, *trunks, stated={"diagnoses": ["double_outlet_right_ventricle"]})
    assert (found["va_connection"], found["origins"]["va_connection"]) == ("concordant", "evidence")
    verdicts = {one["what"]: one["verdict"] for one in found["stated_against_derived"]}
    assert (verdicts["va_connection"], verdicts["diagnosis"]) == ("contradicts", "contradicts")
