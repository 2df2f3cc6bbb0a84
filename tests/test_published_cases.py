"""Published hearts, sets and series: what the literature reports must come out, and its traps must not be fallen into.

The facts are those of the papers, restated in the short form (tests/data/published_cases.yaml), with the key of the
citation in schema/sources.tsv beside each.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from chordae import notation
from chordae.derive import derive
from chordae.shortform import expand

TOP = Path(__file__).resolve().parents[1]
DATA: dict[str, Any] = yaml.safe_load((TOP / "tests/data/published_cases.yaml").read_text(encoding="utf-8"))
CASES: list[dict[str, Any]] = DATA["cases"]
SETS: list[dict[str, Any]] = DATA["sets"]
SERIES: list[dict[str, Any]] = DATA["series"]


@cache
def citations() -> dict[str, str]:
    with (TOP / "schema/sources.tsv").open(encoding="utf-8", newline="") as file:
        return {row["key"]: row["citation"] for row in csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE)}


def derived(facts: dict[str, Any], name: str = "case") -> dict[str, Any]:
    record, _ = expand({"id": name, "facts": facts})
    return derive(record)


def terms(found: dict[str, Any]) -> list[str]:
    return [one["term"] for one in found["diagnoses"]]


@pytest.mark.parametrize("case", CASES, ids=[f"{one['id']}-{one['source']}" for one in CASES])
def test_published_heart(case: dict[str, Any]) -> None:
    expect, found = case["expect"], derived(case["facts"], case["id"])
    why = f"{citations()[case['source']]}: {case['trap']}"
    for name in ("notation", "av_connection", "va_connection", "topology", "topology_expected"):
        if name in expect:
            assert found[name] == expect[name], why
    if "diagnosis" in expect:
        assert expect["diagnosis"] in terms(found), why
    if "not_diagnosis" in expect:
        assert expect["not_diagnosis"] not in terms(found), why
    if "av_origin" in expect:
        assert found["origins"]["av_connection"] == expect["av_origin"], why
    if "european" in expect:
        assert expect["european"] in found["statement"]["european"], why
    if "impossible" in expect:
        assert [one for one in found["combinations"] if one["verdict"] == "impossible"] == expect["impossible"], why
    if expect.get("disharmony"):
        row = next(one for one in found["stated_against_derived"] if one["what"] == "topology")
        assert row["verdict"] == "cannot_be_judged", why
        assert (row["expected"], row["disharmony"]) == (expect["topology_expected"], "not_recorded"), why


@pytest.mark.parametrize("row", SETS, ids=[f"{one['set']}-{one['source']}-{number}" for number, one in enumerate(SETS)])
def test_published_set(row: dict[str, Any]) -> None:
    found = derived(row["facts"])
    assert found["notation"] == row["set"], citations().get(row["source"], row["source"])


@pytest.mark.parametrize("row", SETS, ids=[f"{one['set']}-{number}" for number, one in enumerate(SETS)])
def test_published_set_is_read_back(row: dict[str, Any]) -> None:
    written, issues = notation.parse(row["set"])
    assert written is not None
    assert [one.rule for one in issues if one.severity == "violation"] == []
    record, _ = expand({"id": "set", "facts": {"notation": row["set"]}})
    found, facts = derive(record), row["facts"]
    lost = {one["what"] for one in derived(facts)["notation_lost"]}
    for short, name in (
        ("atrial_arrangement", "arrangement"),
        ("topology", "topology"),
        ("va_connection", "va_connection"),
    ):
        if short in facts and short not in lost:
            assert found[name] == facts[short]
            assert found["origins"][name] == "stated"
    assert found["notation"] == row["set"]


def test_the_same_braces_are_three_connections() -> None:
    braces = [(one["set"].partition("{")[0].strip(), one["set"].partition("{")[2]) for one in SETS]
    assert {prefix for prefix, letters in braces if letters == "S,D,L}"} >= {"TGA", "ACM", "DORV", "DOLV"}


@pytest.mark.parametrize("series", SERIES, ids=[f"{one['id']}-{one['source']}" for one in SERIES])
def test_series_add_up(series: dict[str, Any]) -> None:
    assert [sum(axis) for axis in series["axes"]] == [series["total"]] * len(series["axes"]), citations()[
        series["source"]
    ]


def test_every_citation_is_listed() -> None:
    keys = {one["source"] for group in (CASES, SETS, SERIES) for one in group}
    assert keys - set(citations()) == set()


# --- what single papers say of a feature ------------------------------------------------------------------------------


def atria(right: str, left: str) -> dict[str, Any]:
    part = {"type": "Atrium", "appendage_morphology": "not_examined"}
    return derive(
        {
            "id": "atria",
            "parts": [
                {**part, "id": "right_sided_atrium", "side": "right_sided", "pectinate_extent": right},
                {**part, "id": "left_sided_atrium", "side": "left_sided", "pectinate_extent": left},
            ],
        }
    )


def test_u95_pectinate_muscles_tell_isomerism() -> None:
    # U95: to the crux on both sides in 125 of 125 with right, confined on both sides in 58 of 58 with left isomerism.
    assert atria("to_crux", "to_crux")["arrangement"] == "right_isomerism"
    assert atria("confined_to_appendage", "confined_to_appendage")["arrangement"] == "left_isomerism"


def test_p88_the_spleen_tells_no_isomerism() -> None:
    # P88: one heart with right isomerism had a normal spleen, seven had several spleens without isomerism.
    for spleen in ("absent", "multiple", "left_sided", "right_sided"):
        record = {"id": "p88", "parts": [{"id": "abdominal_organs", "type": "AbdominalOrgans", "spleen": spleen}]}
        assert derive(record)["arrangement"] is None


def hole(**features: str) -> dict[str, Any]:
    part = {"id": "interventricular_communication", "type": "InterventricularCommunication", **features}
    found: dict[str, Any] = derive({"id": "hole", "parts": [part]})["septal_defects"][0]
    return found


def test_t19_aortic_to_tricuspid_continuity_is_not_needed() -> None:
    # T19: continuity of the atrioventricular valves in 365 of 365, aortic to tricuspid continuity in 298 only.
    for continuity in ("present", "absent", "not_assessable"):
        found = hole(tricuspid_mitral_continuity="present", aortic_tricuspid_continuity=continuity)
        assert (found["borders"], found["borders_confidence"]) == ("perimembranous", "decided")
    assert hole(aortic_tricuspid_continuity="present")["borders_confidence"] == "supported"


def test_t19_muscular_bar_beside_valvar_continuity_stays_perimembranous() -> None:
    found = hole(tricuspid_mitral_continuity="present", posteroinferior_rim="muscular")
    assert (found["borders"], found["borders_confidence"]) == ("perimembranous", "decided")


@pytest.mark.parametrize("relation", ["posterior", "normal", "anterior", "anterior_right", "left", None])
def test_ay24_w75_an_anterior_aorta_is_not_required(relation: str | None) -> None:
    # AY24: the aorta was posterior in 11 of 192 hearts with transposition; W75 describes seven such hearts.
    facts = {"atrial_arrangement": "usual", "av_connection": "concordant", "va_connection": "discordant"}
    found = derived({**facts, "aorta_relation": relation} if relation else facts)
    assert "transposition" in terms(found)
    assert ("posterior_transposition" in terms(found)) is (relation in ("posterior", "normal"))


@pytest.mark.parametrize("infundibulum", ["subaortic_only", "subpulmonary_only", "bilateral", "bilaterally_absent"])
@pytest.mark.parametrize("relation", ["anterior_left", "right", "normal"])
def test_be07_a17_neither_infundibulum_nor_relation_sets_the_connection(infundibulum: str, relation: str) -> None:
    # BE07: parallel trunks with concordant connections; infundibulums bilateral 4, subpulmonary 3, absent 1 of 8.
    facts = {"atrial_arrangement": "usual", "infundibulum": infundibulum, "aorta_relation": relation}
    assert derived(facts)["va_connection"] is None
    assert derived({**facts, "va_connection": "concordant"})["va_connection"] == "concordant"


def test_a17_fallots_own_heart_both_names_are_true() -> None:
    # A17: double outlet by connection and tetralogy by phenotype in one heart.
    record = {
        "id": "both",
        "parts": [
            {"id": "outflow_tracts", "type": "OutflowTracts", "outlet_septum_deviation": "anterior"},
            {
                "id": "pulmonary_outflow_tract",
                "type": "OutflowTract",
                "outflow_of": "pulmonary",
                "obstruction": ["subvalvar"],
            },
            {
                "id": "interventricular_communication",
                "type": "InterventricularCommunication",
                "commitment": "subaortic",
            },
        ],
        "stated": {"atrial_arrangement": "usual", "av_connection": "concordant", "va_connection": "double_outlet_rv"},
    }
    found = derive(record)
    assert {"double_outlet_right_ventricle", "tetralogy_of_fallot"} <= set(terms(found))
    assert not [one for one in found["combinations"] if one["verdict"] == "impossible"]


@pytest.mark.parametrize("arrangement", ["right_isomerism", "left_isomerism"])
def test_pad16_complete_and_corrected_need_lateralised_atria(arrangement: str) -> None:
    found = derived({"atrial_arrangement": arrangement, "topology": "right_hand", "va_connection": "discordant"})
    assert not {"transposition", "congenitally_corrected_transposition"} & set(terms(found))
    assert "discordant_ventriculoarterial_connections" in terms(found)


def test_bo93_pulmonary_origin_that_could_not_be_told_is_not_absent() -> None:
    # BO93: in 11 of 44 specimens the pattern could not be identified after dissection.
    trunk = {
        "id": "common_arterial_trunk",
        "type": "ArterialTrunk",
        "gives_coronary_arteries": "present",
        "gives_arch_branches": "present",
        "gives_pulmonary_arteries": "not_assessable",
        "pulmonary_origin_pattern": "not_assessable",
    }
    found = derive({"id": "bo93", "parts": [trunk]})
    assert "solitary_arterial_trunk" not in terms(found)


def test_ba83_holmes_heart() -> None:
    # BA83: double inlet left ventricle with concordant trunks, seven hearts; node anterolateral.
    facts = {"atrial_arrangement": "usual", "av_connection": "double_inlet_lv", "va_connection": "concordant"}
    record, _ = expand({"id": "ba83", "facts": {**facts, "ivc_communication": "present"}})
    found = derive(record)
    assert "holmes_heart" in terms(found)
    assert found["septal_defects"][0]["conduction"]["expected"] == "anterolateral_node"


def test_sh15_vp17_trunks_of_stated_tetralogy_are_written_as_normally_related() -> None:
    # SH15: tetralogy in mirror image, {I,L,I}. VP17: with tetralogy the relation of the trunks is almost normal.
    facts = {"atrial_arrangement": "mirror_image", "av_connection": "concordant", "lesions": ["tetralogy_of_fallot"]}
    found = derived(facts)
    assert found["notation"] == "{I,L,I}"
    assert [one["what"] for one in found["notation_inferred"]] == ["relation"]
    assert (found["va_connection"], found["aorta_relation"]) == (None, None)
    assert derived({**facts, "va_connection": "double_outlet_rv"})["notation"] == "DORV {I,L,?}"


def test_pe94_solitary_trunk() -> None:
    # PE94: one trunk, no pulmonary arteries or remnant within the pericardium.
    facts = {"outlet": "single", "intrapericardial_pulmonary_arteries": "none", "pulmonary_supply": "collaterals"}
    assert derived(facts)["va_connection"] == "single_outlet_solitary_trunk"


@pytest.mark.parametrize(
    "facts",
    [
        {"av_connection": "absent_left", "right_av_valve": "opens to both ventricles"},
        {"left_av_connection": "absent", "right_av_valve": "straddling and overriding"},
        {"av_connection": "absent_left", "straddling": "right"},
        {"av_connection": "absent_left", "override": {"right_av_valve": 50}},
        {"av_connection": "uniatrial_biventricular"},
    ],
)
def test_ubc20_uniatrial_but_biventricular(facts: dict[str, Any]) -> None:
    found = derived({"atrial_arrangement": "usual", **facts})
    assert found["av_connection"] == "uniatrial_biventricular"
    assert "uniatrial_biventricular_connection" in terms(found)


def test_par_parallel_trunks_are_no_isolated_inversion() -> None:
    # PAR: mirror image, discordant and concordant connections, parallel trunks; KO91: trunks normally related.
    facts = {"atrial_arrangement": "mirror_image", "av_connection": "discordant", "va_connection": "concordant"}
    assert "isolated_ventricular_inversion" in terms(derived(facts))
    parallel = terms(derived({**facts, "aorta_relation": "anterior_left"}))
    assert "isolated_ventricular_inversion" not in parallel
    assert "parallel_trunks_with_concordant_connections" in parallel
