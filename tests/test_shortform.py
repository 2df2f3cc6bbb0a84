"""The short form: each fact to its one place; other spellings read, free words kept, doubtful words asked about.

The facts of published cases are restated in our own words; each names its source. Values that a paper does not give
are left out, never taken as absent.
"""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from chordae.issues import Location
from chordae.record import Reading, Record, find_part
from chordae.shortform import expand, expand_reading, is_short
from chordae.shortwords import short_form
from chordae.structure import check_structure, has_shape
from generate_records import make_records

CONTRACT: dict[str, tuple[str, list[str]]] = {
    "atrial_arrangement": ("stated.atrial_arrangement", ["usual", "mirror_image", "right_isomerism", "left_isomerism"]),
    "cardiac_position": (
        "heart_position.cardiac_position",
        ["left_sided", "right_sided", "midline", "extrathoracic"],
    ),
    "apex": ("heart_position.apex", ["left", "right", "midline"]),
    "topology": ("stated.topology", ["right_hand", "left_hand", "undetermined"]),
    "av_connection": (
        "stated.av_connection",
        [
            "concordant",
            "discordant",
            "mixed",
            "double_inlet_lv",
            "double_inlet_rv",
            "double_inlet_solitary",
            "absent_right",
            "absent_left",
            "uniatrial_biventricular",
        ],
    ),
    "va_connection": (
        "stated.va_connection",
        [
            "concordant",
            "discordant",
            "double_outlet_rv",
            "double_outlet_lv",
            "double_outlet_both",
            "double_outlet_solitary",
            "single_outlet_common_trunk",
            "single_outlet_solitary_trunk",
            "single_outlet_pulmonary_atresia",
            "single_outlet_aortic_atresia",
        ],
    ),
    "aorta_relation": (
        "great_arteries.aorta_relation",
        [
            "normal",
            "mirror_normal",
            "right",
            "left",
            "anterior",
            "anterior_right",
            "anterior_left",
            "right_side_by_side",
            "left_side_by_side",
            "posterior",
        ],
    ),
    "ivc_commitment": (
        "interventricular_communication.commitment",
        ["subaortic", "subpulmonary", "doubly_committed", "non_committed"],
    ),
    "infundibulum": (
        "outflow_tracts.infundibulum",
        ["subaortic_only", "subpulmonary_only", "bilateral", "bilaterally_absent"],
    ),
}


def value_at(record: Record, place: str) -> Any:
    owner, _, slot = place.partition(".")
    node = record.get(owner) if owner in {"stated", "description", "specimen"} else find_part(record, owner)
    return None if node is None else node.get(slot)


def facts(**values: Any) -> Record:
    return {"id": "C", "facts": values}


def rules(issues: list[Any]) -> list[str]:
    return [one.rule for one in issues]


@pytest.mark.parametrize(("key", "value"), [(key, one) for key, (_, values) in CONTRACT.items() for one in values])
def test_every_value_of_the_contract_goes_to_its_place_without_a_word(key: str, value: str) -> None:
    record, issues = expand(facts(**{key: value}))
    assert (value_at(record, CONTRACT[key][0]), issues) == (value, [])
    assert check_structure(Reading(record)) == []


@pytest.mark.parametrize("key", [*CONTRACT, "lesions", "notation", "override"])
@pytest.mark.parametrize("nothing", [None, "?", "", "not_seen", "not seen", "Unknown", []])
def test_nothing_recorded_sets_nothing(key: str, nothing: Any) -> None:
    assert expand(facts(**{key: nothing})) == ({"id": "C"}, [])


@pytest.mark.parametrize("state", ["not_assessable", "not_examined"])
def test_the_states_are_values(state: str) -> None:
    record, issues = expand(facts(topology=state, apex=state))
    assert (value_at(record, "stated.topology"), value_at(record, "heart_position.apex"), issues) == (state, state, [])


def test_an_intact_septum_is_stated_of_the_septum() -> None:
    record, issues = expand(facts(ivc_commitment="intact_septum"))
    assert issues == []
    assert record["parts"] == [{"id": "ventricular_septum", "type": "VentricularSeptum", "septal_integrity": "intact"}]


def test_override_goes_to_trunks_and_valves_in_per_cent() -> None:
    shares = {"aorta": 0, "pulmonary": 50, "right_av_valve": 12.5, "left_av_valve": 100}
    record, issues = expand(facts(override=shares))
    assert issues == []
    places = {
        "aorta": "aorta",
        "pulmonary": "pulmonary_trunk",
        "right_av_valve": "right_sided_atrioventricular_valve",
        "left_av_valve": "left_sided_atrioventricular_valve",
    }
    assert {key: value_at(record, f"{part}.override_per_cent") for key, part in places.items()} == shares


@pytest.mark.parametrize("share", [101, -1, "most of it", float("nan"), [50], "1e400"])
def test_a_share_that_is_none_is_kept_as_a_remark(share: Any) -> None:
    record, issues = expand(facts(override={"aorta": share}))
    assert rules(issues) == ["I-SHO-07"]
    assert record["remarks"][0]["place"] == "override.aorta"
    assert value_at(record, "aorta.override_per_cent") is None


@pytest.mark.parametrize(
    ("key", "words", "place", "value"),
    [
        ("atrial_arrangement", "Mirror-imaged", "stated.atrial_arrangement", "mirror_image"),
        ("atrial_arrangement", "situs solitus", "stated.atrial_arrangement", "usual"),
        ("Atrial situs", "solitus", "stated.atrial_arrangement", "usual"),
        ("cardiac_position", "levocardia", "heart_position.cardiac_position", "left_sided"),
        ("cardiac_position", "dextroversion", "heart_position.cardiac_position", "right_sided"),
        ("cardiac_position", "mesocardia", "heart_position.cardiac_position", "midline"),
        ("topology", "D-loop", "stated.topology", "right_hand"),
        ("topology", "ventricular inversion", "stated.topology", "left_hand"),
        ("topology", "right-hand", "stated.topology", "right_hand"),
        ("av_connection", "ambiguous", "stated.av_connection", "mixed"),
        ("va_connection", "double_outlet_both_ventricles", "stated.va_connection", "double_outlet_both"),
        ("va_connection", "DORV", "stated.va_connection", "double_outlet_rv"),
        ("va_connection", "common arterial trunk", "stated.va_connection", "single_outlet_common_trunk"),
        ("aorta_relation", "right and anterior", "great_arteries.aorta_relation", None),
        ("aorta_relation", "right anterior", "great_arteries.aorta_relation", "anterior_right"),
        ("ivc_commitment", "remote", "interventricular_communication.commitment", "non_committed"),
        ("infundibulum", "bilateral conus", "outflow_tracts.infundibulum", "bilateral"),
        ("crisscross", "yes", "ventricular_mass.twisting", "present"),
        ("lsvc", "persistent", "systemic_veins.left_superior_caval_vein", "present"),
        ("arch_side", "right aortic arch", "aortic_arch.stated_arch_side", "right"),
        ("rv", "small", "morphologically_right_ventricle.ventricle_size", "hypoplastic"),
        ("apex", "not assessable", "heart_position.apex", "not_assessable"),
    ],
)
def test_other_spellings_are_read_and_said(key: str, words: str, place: str, value: str | None) -> None:
    record, issues = expand(facts(**{key: words}))
    assert value_at(record, place) == value
    assert rules(issues) == (["I-SHO-01"] if value else ["I-SHO-02"])
    assert all(one.severity == ("info" if value else "violation") for one in issues)


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("atrial_arrangement", "situs ambiguus"),
        ("atrial_arrangement", "asplenia"),
        ("situs", "solitus"),
        ("va_connection", "malposition"),
        ("va_connection", "single outlet"),
        ("av_connection", "tricuspid atresia"),
        ("av_connection", "single ventricle"),
        ("ivc", "small"),
        ("appendage_juxtaposition", True),
        ("lesions", "TA"),
        ("lesions", "single ventricle"),
        ("lesions", "D-TGA"),
        ("apical_trabeculation", "coarse"),
    ],
)
def test_words_of_two_meanings_are_asked_about_and_kept(key: str, words: Any) -> None:
    record, issues = expand(facts(**{key: words}))
    assert [(one.rule, one.severity) for one in issues] == [("I-SHO-05", "warning")]
    assert issues[0].message.count(str(words).lower()) or str(words) in issues[0].message
    assert "stated" not in record and "parts" not in record
    assert [one["place"] for one in record["remarks"]] == [key]


@pytest.mark.parametrize(
    ("key", "words", "near"),
    [
        ("topology", "rigth_hand", "right_hand"),
        ("va_connection", "discordnat", "discordant"),
        ("atrial_arrangement", "usuall", "usual"),
        ("infundibulum", "subaortic_olny", "subaortic_only"),
    ],
)
def test_a_wrong_value_gets_the_nearest_and_is_kept(key: str, words: str, near: str) -> None:
    record, issues = expand(facts(**{key: words}))
    assert [(one.rule, one.severity) for one in issues] == [("I-SHO-02", "violation")]
    assert f'Did you mean "{near}"?' in issues[0].message
    assert record["remarks"] == [{"text": words, "place": key}]


def test_malformations_are_terms_by_any_name() -> None:
    words = ["tetralogy_of_fallot", "Fallot's tetralogy", "Ebstein malformation", "coarctation", "no such lesion"]
    record, issues = expand(facts(lesions=words))
    assert record["stated"]["diagnoses"] == ["tetralogy_of_fallot", "ebstein_malformation", "coarctation_of_aorta"]
    assert rules(issues) == ["I-SHO-01", "I-SHO-01", "I-SHO-01", "I-SHO-11"]
    assert record["remarks"] == [{"text": "no such lesion", "place": "lesions"}]


def test_notation_is_kept_as_written_even_without_quotes() -> None:
    assert expand(facts(notation="TGA {S,D,D}"))[0]["stated"]["notation"] == "TGA {S,D,D}"
    assert expand(facts(notation={"S": None, "D": None, "S ": None}))[0]["stated"]["notation"] == "{S,D,S }"


def test_slots_of_the_schema_are_keys_too() -> None:
    record, issues = expand(
        facts(
            **{
                "geography": "inlet",
                "aortic_valve.leaflet_count": 2,
                "observer": "Reader B",
                "atrial_septum": {"septal_integrity": "intact", "colour": "red"},
                "left_sided_atrium": {"appendage_shape": "tubular"},
            }
        )
    )
    assert value_at(record, "interventricular_communication.geography") == "inlet"
    assert value_at(record, "aortic_valve.leaflet_count") == 2
    assert value_at(record, "description.observer") == "Reader B"
    assert value_at(record, "atrial_septum.septal_integrity") == "intact"
    assert value_at(record, "left_sided_atrium.appendage_shape") == "tubular"
    assert rules(issues) == ["I-SHO-03"]
    assert record["remarks"] == [{"text": "red", "place": "atrial_septum.colour"}]


def test_two_facts_for_one_place_keep_the_first() -> None:
    record, issues = expand(facts(topology="right_hand", loop="L"))
    assert value_at(record, "stated.topology") == "right_hand"
    assert rules(issues) == ["I-SHO-06", "I-SHO-01"]
    assert record["remarks"] == [{"text": "L", "place": "topology"}]


def test_facts_are_added_to_a_full_record_and_contradict_it_aloud() -> None:
    record = {
        "id": "C",
        "stated": {"topology": "left_hand"},
        "parts": [{"id": "heart_position", "type": "HeartPosition", "apex": "left"}],
        "facts": {"topology": "right_hand", "cardiac_position": "left_sided"},
    }
    full, issues = expand(record)
    assert full["stated"] == {"topology": "left_hand"}
    assert full["parts"][0] == {
        "id": "heart_position",
        "type": "HeartPosition",
        "apex": "left",
        "cardiac_position": "left_sided",
    }
    assert rules(issues) == ["I-SHO-06"]


def test_a_full_record_comes_back_as_it_is() -> None:
    record, _ = next(make_records(1))
    full, issues = expand(record)
    assert full is record and issues == [] and not is_short(record)


def test_the_record_that_came_is_not_changed() -> None:
    record = {"id": "C", "parts": [], "facts": {"apex": "left"}}
    before = copy.deepcopy(record)
    expand(record)
    assert record == before


def test_places_follow_the_values() -> None:
    places = {"": Location("c", 1), "/facts/apex": Location("c", 5), "/facts/lesions/1": Location("c", 8)}
    record = facts(apex="left", lesions=["tetralogy_of_fallot", "nonsense"])
    full, issues = expand_reading(Reading(record, places))
    assert full.place("/parts/0/apex").line == 5
    assert full.place("/remarks/0").line == 8
    assert [one.location.line for one in issues] == [8]


CASES: dict[str, tuple[dict[str, Any], dict[str, Any], list[str]]] = {
    # Van Praagh R et al. 1975: double outlet right ventricle with the aorta to the left.
    "VP75": (
        {
            "va_connection": "double_outlet_rv",
            "aorta_relation": "anterior_left",
            "pulmonary_stenosis": "infundibular and valvar",
            "fibrous_continuity": "none",
        },
        {
            "stated.va_connection": "double_outlet_rv",
            "great_arteries.aorta_relation": "anterior_left",
            "pulmonary_outflow_tract.obstruction": ["subvalvar", "valvar"],
            "pulmonary_outflow_tract.note": "infundibular and valvar",
            "aortic_outflow_tract.arterial_atrioventricular_continuity": "none",
            "pulmonary_outflow_tract.arterial_atrioventricular_continuity": "none",
        },
        [],
    ),
    # Paul MH et al. 1970: double outlet left ventricle with an intact ventricular septum.
    "P70": (
        {
            "ventricular_septum": "intact",
            "fibrous_continuity": ["aortic-mitral", "pulmonary-mitral"],
            "infundibulum": "atretic, related to RV only; none under the trunks",
            "left_coronary_orifice": "absent",
            "coronary_fistula": "RV apex to anterior descending artery",
        },
        {
            "ventricular_septum.septal_integrity": "intact",
            "aortic_outflow_tract.arterial_atrioventricular_continuity": "mitral",
            "pulmonary_outflow_tract.arterial_atrioventricular_continuity": "mitral",
            "outflow_tracts.infundibulum": "bilaterally_absent",
            "coronary_arteries.left_coronary_origin": "absent",
            "coronary_arteries.coronary_fistula": "present",
            "coronary_arteries.note": "RV apex to anterior descending artery",
        },
        [],
    ),
    # Song MK et al. 2022: concordant connections with left-hand topology.
    "SO22": (
        {
            "ventricular_relation": "LV superior, RV inferior",
            "appendage_juxtaposition": "right",
            "great_arteries": "far_posterior",
        },
        {
            "ventricular_mass.right_ventricle_vertical": "inferior",
            "left_sided_atrium.appendage_position": "juxtaposed",
            "stated.diagnoses": ["right_juxtaposition"],
            "great_arteries.aorta_relation": None,
        },
        ["great_arteries"],
    ),
    # Caruso E et al. 2022: a heart called D-transposition with left-hand topology.
    "CA22": (
        {
            "cardiac_position": "dextroversion",
            "label": "D-transposition",
            "lsvc": "to coronary sinus",
            "ivc_communication": "multiple",
            "av_connection": None,
            "topology": "left_hand",
        },
        {
            "heart_position.cardiac_position": "right_sided",
            "stated.topology": "left_hand",
            "stated.av_connection": None,
            "stated.statement": "D-transposition",
            "systemic_veins.left_superior_caval_vein": "present",
            "systemic_veins.left_superior_caval_vein_to": "coronary_sinus",
            "ventricular_septum.septal_integrity": "deficient",
        },
        [],
    ),
    # Sohns JM et al. 2014: mirror-imaged arrangement with discordant connections.
    "SO14": (
        {"right_atrium_valve": "mitral", "left_atrium_valve": "tricuspid"},
        {
            "mitral_valve.junction": "junction_of_right_atrium",
            "junction_of_right_atrium.atrium": "morphologically_right_atrium",
            "tricuspid_valve.junction": "junction_of_left_atrium",
        },
        [],
    ),
    # Double outlet of both ventricles, case report, Cardiology in the Young.
    "DBV": (
        {
            "outlet_septum": "perpendicular to the muscular ventricular septum",
            "pulmonary_trunk_relation": "left of aorta, side by side",
            "override": {"aorta": 50, "pulmonary": 50},
        },
        {
            "outflow_tracts.outlet_septum_deviation": "perpendicular",
            "great_arteries.aorta_relation": "right_side_by_side",
            "aorta.override_per_cent": 50,
            "pulmonary_trunk.override_per_cent": 50,
        },
        [],
    ),
    # Dogan V et al. 2016: criss-cross heart with double inlet.
    "DG16": (
        {
            "cardiac_position": "levocardia",
            "crisscross": True,
            "rv": "hypoplastic",
            "ivc_communication": "restrictive_small",
            "pulmonary_stenosis": "severe",
            "lsvc": "persistent",
        },
        {
            "ventricular_mass.twisting": "present",
            "morphologically_right_ventricle.ventricle_size": "hypoplastic",
            "interventricular_communication.restrictive": "present",
            "pulmonary_outflow_tract.observed": [{"feature": "obstruction", "state": "present"}],
            "pulmonary_outflow_tract.obstruction": None,
        },
        [],
    ),
    # Two cases of concordant connections with parallel trunks, poster.
    "CMH": (
        {
            "infundibulum": "subaortic elongated; subpulmonary absent",
            "fibrous_continuity": ["pulmonary-tricuspid"],
            "arch_side": "left",
            "ivc": "muscular",
        },
        {
            "outflow_tracts.infundibulum": "subaortic_only",
            "pulmonary_outflow_tract.arterial_atrioventricular_continuity": "tricuspid",
            "aortic_arch.stated_arch_side": "left",
            "interventricular_communication.stated_border_category": "muscular",
        },
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_published_cases_go_to_their_places(case: str) -> None:
    given_facts, places, kept = CASES[case]
    record, issues = expand({"id": case, "facts": given_facts})
    assert {place: value_at(record, place) for place in places} == places
    assert [one["place"] for one in record.get("remarks", [])] == kept
    assert all(one.severity != "violation" for one in issues)
    assert check_structure(Reading(record)) == []


def test_several_cases_in_one_record_are_told_apart_by_nobody() -> None:
    record, issues = expand(facts(case1={"topology": "right_hand"}, case2={"topology": "left_hand"}))
    assert rules(issues) == ["I-SHO-10", "I-SHO-10"]
    assert len(record["remarks"]) == 2


@pytest.mark.parametrize("wrong", ["words", 4, ["topology"], None])
def test_facts_that_are_no_keys_with_values(wrong: Any) -> None:
    record, issues = expand({"id": "C", "facts": wrong})
    assert rules(issues) == ["I-SHO-08"]
    assert record["id"] == "C"


WORDS = st.one_of(st.none(), st.booleans(), st.integers(-5, 200), st.floats(), st.text(max_size=12))
OTHERS = [
    "aorta.cut_level",
    "aorta.override_per_cent",
    "aortic_valve.leaflet_count",
    "hinge_offset_mm",
    "acquired",
    "description.described_on",
    "leiden_code",
    "observer",
    "heart_position",
    "material_states",
]
KEYS = st.one_of(st.sampled_from(sorted(short_form()["spelled"])), st.text(max_size=8), st.sampled_from(OTHERS))
VALUES = st.recursive(
    st.one_of(
        WORDS, st.sampled_from(["present", "absent", "mitral", "left", "bilateral", "none", "restrictive inlet"])
    ),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=6), inner, max_size=3)),
    max_leaves=5,
)


@settings(max_examples=300)
@given(values=st.dictionaries(KEYS, VALUES, max_size=6))
def test_any_facts_give_a_record_with_the_shape_and_lose_nothing(values: dict[str, Any]) -> None:
    record, issues = expand({"id": "C", "facts": values})
    assert has_shape(record), [one.message for one in check_structure(Reading(record))]
    kept = len(record.get("remarks", []))
    assert kept <= len(issues)
    for one in issues:
        assert one.message and one.path is not None and one.path.startswith("/facts")


@settings(max_examples=100)
@given(
    record=st.dictionaries(st.sampled_from(["parts", "stated", "remarks", "specimen", "x", "id"]), VALUES, max_size=4)
)
def test_a_broken_record_around_facts_does_not_break_the_expansion(record: dict[str, Any]) -> None:
    full, _ = expand({**record, "facts": {"apex": "left", "topology": "x y", "lesions": ["nonsense"]}})
    assert value_at(full, "heart_position.apex") == "left"
    assert "facts" not in full


@pytest.mark.parametrize(
    ("key", "words", "place"),
    [
        ("ivc_communication", "not membranous", "interventricular_communication.stated_border_category"),
        ("ivc_communication", "membranous or muscular", "interventricular_communication.stated_border_category"),
        ("outlet_septum", "possibly deviated anteriorly", "outflow_tracts.outlet_septum_deviation"),
        ("av_connection", "concordant (not seen in one heart)", "stated.av_connection"),
        ("pulmonary_stenosis", "infundibular? valvar", "pulmonary_outflow_tract.obstruction"),
    ],
)
def test_free_words_that_deny_or_doubt_are_not_read(key: str, words: str, place: str) -> None:
    record, issues = expand(facts(**{key: words}))
    assert rules(issues) == ["I-SHO-05"]
    assert value_at(record, place) is None
    assert record["remarks"] == [{"text": words, "place": key}]


def test_words_in_brackets_are_kept_beside_the_value() -> None:
    record, issues = expand(facts(av_connection="concordant (criss-cross)", apex="left (rotated)"))
    assert value_at(record, "stated.av_connection") == "concordant"
    assert record["remarks"] == [{"text": "concordant (criss-cross)", "place": "av_connection"}]
    assert value_at(record, "heart_position.note") == "left (rotated)"
    assert rules(issues) == ["I-SHO-04", "I-SHO-04"]


@pytest.mark.parametrize(
    ("key", "value", "diagnosis"),
    [
        ("hypoplastic_left_heart_syndrome", True, "hypoplastic_left_heart_syndrome"),
        ("Ebstein malformation", "present", "ebstein_malformation"),
        ("single ventricle", True, None),
        ("hypoplastic_left_heart_syndrome", False, None),
    ],
)
def test_a_malformation_may_be_a_key(key: str, value: Any, diagnosis: str | None) -> None:
    record, issues = expand(facts(**{key: value}))
    assert record.get("stated", {}).get("diagnoses") == ([diagnosis] if diagnosis else None)
    assert all(one.severity != "violation" for one in issues)
    assert bool(record.get("remarks")) == (diagnosis is None)
