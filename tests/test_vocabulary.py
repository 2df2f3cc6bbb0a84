"""The vocabulary as data: complete, sourced, free of circles, and never mixing the three ways of saying right and left.

Definitions are checked for circles with ``graphlib`` of the standard library. What a schema of the trade needs is
checked against the schema itself: every value that may be recorded is a term.
"""

from __future__ import annotations

import csv
import re
from collections import Counter, defaultdict
from graphlib import CycleError, TopologicalSorter
from pathlib import Path
from typing import Any

import pytest
import yaml

TOP = Path(__file__).parents[1]
VOCABULARY = TOP / "schema" / "vocabulary"
NOT_THEMES = {"kinds.yaml", "changes.yaml"}
SCHOOLS = ("european", "north_american")
PHRASES = {"common practice", "from memory"}


def load(path: Path) -> Any:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


THEMES = {path.name: load(path) for path in sorted(VOCABULARY.glob("*.yaml")) if path.name not in NOT_THEMES}
TERMS: dict[str, dict[str, Any]] = {slug: term for theme in THEMES.values() for slug, term in theme["terms"].items()}
KINDS = load(VOCABULARY / "kinds.yaml")
SOURCE_LINES = (TOP / "schema" / "sources.tsv").read_text(encoding="utf-8").splitlines()
SOURCES = {row["key"]: row for row in csv.DictReader(SOURCE_LINES, delimiter="\t", quoting=csv.QUOTE_NONE)}
MODEL = {path.name: load(path) for path in sorted((TOP / "schema").glob("*.yaml"))}


def meanings() -> list[tuple[str, str, str]]:
    return [
        (name, value, str(entry.get("meaning", "")))
        for theme in MODEL.values()
        for name, enum in (theme.get("enums") or {}).items()
        for value, entry in enum["permissible_values"].items()
    ]


def test_no_term_stands_in_two_themes() -> None:
    counted = Counter(slug for theme in THEMES.values() for slug in theme["terms"])
    assert [slug for slug, n in counted.items() if n > 1] == []
    assert len(TERMS) >= 450


def test_themes_are_of_readable_length() -> None:
    long = {path.name: n for path in VOCABULARY.glob("*.yaml") if (n := len(path.read_text().splitlines())) > 700}
    assert long == {}


def test_every_value_of_the_schema_is_a_term() -> None:
    found = meanings()
    assert len(found) > 300
    missing = [(enum, value, meaning) for enum, value, meaning in found if meaning.removeprefix("term:") not in TERMS]
    assert missing == []


def test_every_structure_named_by_the_schema_is_a_term() -> None:
    named = {
        meaning.removeprefix("term:")
        for theme in MODEL.values()
        for group in ("classes", "slots")
        for entry in (theme.get(group) or {}).values()
        for meaning in entry.get("related_mappings", ())
    }
    assert named and named <= TERMS.keys()


def test_every_diagnosis_that_can_be_derived_is_a_term() -> None:
    named = {row["term"] for row in load(TOP / "schema" / "diagnoses.yaml")["diagnoses"]}
    assert len(named) > 50
    assert named - TERMS.keys() == set()


def test_the_four_states_and_silence_are_five_terms() -> None:
    states = {"present", "absent", "not_assessable", "not_examined", "not_recorded"}
    assert {slug for slug, term in TERMS.items() if "state_of_recording" in term.get("broader", ())} == states


def test_the_twenty_steps_are_there_in_order() -> None:
    steps = [term["european"] for slug, term in TERMS.items() if term["kind"] == "segment"]
    assert [step.partition(":")[0] for step in steps] == [f"step {number}" for number in range(20)]


@pytest.mark.parametrize("key", ["kind", "european", "north_american", "plain", "definition", "source", "since"])
def test_every_term_fills(key: str) -> None:
    assert [slug for slug, term in TERMS.items() if not str(term.get(key, "")).strip()] == []


def test_slugs_are_full_words_of_the_trade() -> None:
    assert [slug for slug in TERMS if not re.fullmatch(r"[a-z][a-z0-9]*(_[a-z0-9]+)*", slug)] == []


def test_definitions_are_sentences() -> None:
    odd = [
        slug
        for slug, term in TERMS.items()
        if not re.fullmatch(r"[A-Z].*\.", term["definition"], re.DOTALL) or len(term["definition"].split()) < 3
    ]
    assert odd == []


def test_no_two_terms_share_a_definition() -> None:
    by_text = defaultdict(list)
    for slug, term in TERMS.items():
        by_text[term["definition"].casefold()].append(slug)
    assert [slugs for slugs in by_text.values() if len(slugs) > 1] == []


@pytest.mark.parametrize("school", SCHOOLS)
def test_preferred_labels_are_unique_in_a_school(school: str) -> None:
    by_label = defaultdict(list)
    for slug, term in TERMS.items():
        by_label[term[school].casefold()].append(slug)
    assert {label: slugs for label, slugs in by_label.items() if len(slugs) > 1} == {}


def test_kinds_are_declared_and_used() -> None:
    used = {term["kind"] for term in TERMS.values()}
    assert used == set(KINDS["kinds"])


def test_sources_are_listed_and_say_how_far_they_were_read() -> None:
    unknown = {term["source"] for term in TERMS.values()} - SOURCES.keys() - PHRASES
    assert unknown == set()
    assert {row["status"] for row in SOURCES.values()} == {"passage read", "from memory", "common practice"}
    assert [key for key, row in SOURCES.items() if not row["citation"] or not row["note"]] == []


def test_what_rests_on_memory_is_said_so() -> None:
    """A term may not lean on a source of which only numbers from memory are known."""
    leaning = {slug for slug, term in TERMS.items() if SOURCES.get(term["source"], {}).get("status") == "from memory"}
    assert leaning == set()


def test_links_lead_to_terms() -> None:
    loose = [
        (slug, other)
        for slug, term in TERMS.items()
        for other in [*term.get("broader", ()), *term.get("part_of", ()), *term.get("related", ())]
        if other not in TERMS or other == slug
    ]
    assert loose == []


def test_broader_has_no_circle() -> None:
    above = {slug: [*term.get("broader", ()), *term.get("part_of", ())] for slug, term in TERMS.items()}
    order = list(TopologicalSorter(above).static_order())
    assert len(order) == len(TERMS)


def test_a_whole_and_a_genus_are_two_things() -> None:
    """A part is not a kind of its whole (the ascending aorta is no aorta); wholes and parts are structures."""
    parts = {slug: term["part_of"] for slug, term in TERMS.items() if term.get("part_of")}
    assert len(parts) > 40
    assert [slug for slug, wholes in parts.items() if above(slug) & set(wholes)] == []
    named = {one for slug, wholes in parts.items() for one in (slug, *wholes)}
    assert {TERMS[one]["kind"] for one in named} <= {"structure", "landmark"}


# -- definitions -------------------------------------------------------------------------------------------------------

ENDINGS = {
    "artery": "arter(?:y|ies)",
    "bronchus": "bronch(?:us|i)",
    "septum": "sept(?:um|a|ums)",
    "atrium": "atri(?:um|a|ums)",
    "muscles": "muscles?",
    "cords": "cords?",
    "trabeculations": "trabeculations?",
}


def pattern(label: str) -> re.Pattern[str]:
    text = re.escape(label)
    for ending, plural in ENDINGS.items():
        if text.endswith(ending):
            text = text.removesuffix(ending) + plural
            break
    else:
        text += "(?:s|es)?"
    return re.compile(rf"(?<![\w-]){text}(?![\w-])", re.IGNORECASE)


LABELS = {
    slug: [pattern(label) for label in {term[school].casefold() for school in SCHOOLS} if len(label) > 2]
    for slug, term in TERMS.items()
}


def test_no_definition_uses_its_own_label() -> None:
    circular = [slug for slug, term in TERMS.items() if any(label.search(term["definition"]) for label in LABELS[slug])]
    assert circular == []


def test_definitions_do_not_go_in_circles() -> None:
    """Terms named in a definition, and in theirs, and so on, never come back: there is an order to learn them in."""
    named = {
        slug: {
            other
            for other, labels in LABELS.items()
            if other != slug and any(label.search(term["definition"]) for label in labels)
        }
        for slug, term in TERMS.items()
    }
    assert sum(map(len, named.values())) > 1000
    try:
        TopologicalSorter(named).prepare()
    except CycleError as circle:
        pytest.fail(f"definitions go in a circle: {circle.args[1]}")


def test_circle_finder_finds_a_circle() -> None:
    with pytest.raises(CycleError):
        TopologicalSorter({"a": {"b"}, "b": {"c"}, "c": {"a"}}).prepare()
    assert pattern("coronary artery").search("gives the coronary arteries")
    assert not pattern("vein").search("venous")


# -- right and left ----------------------------------------------------------------------------------------------------

BARE = re.compile(
    r"(?<!morphologically )\b(?:right|left) (?:atri(?:um|a|al)|ventric(?:le|les|ular)|appendages?)\b", re.I
)
MIXED = re.compile(
    r"morphologically (?:right|left)-sided|anatomic(?:al|ally)? (?:right|left)\b|"
    r"\b(?:right|left) sided\b|(?:right|left)-sided of|\b(?:right|left)wards?\b",
    re.I,
)


def faults_of_side(text: str) -> list[str]:
    rest = text
    for name in KINDS["fixed_names"]:
        rest = re.sub(re.escape(name), "", rest, flags=re.IGNORECASE)
    return BARE.findall(rest) + MIXED.findall(rest)


@pytest.mark.parametrize("key", ["european", "plain", "definition", "scope_note"])
def test_right_and_left_are_never_mixed(key: str) -> None:
    found = {slug: faults for slug, term in TERMS.items() if (faults := faults_of_side(term.get(key, "")))}
    assert found == {}


@pytest.mark.parametrize(
    ("text", "clean"),
    [
        ("Chamber opening into the morphologically right ventricle.", True),
        ("Chamber opening into the right ventricle.", False),
        ("Lying to the right of the left-sided atrium.", True),
        ("the morphologically right-sided atrium", False),
        ("shifted leftward", False),
        ("double inlet left ventricle", True),
    ],
)
def test_lint_of_sides(text: str, clean: bool) -> None:
    assert (faults_of_side(text) == []) is clean


def test_side_and_morphology_are_separate_terms() -> None:
    for side in ("right", "left"):
        for chamber in ("atrium", "ventricle"):
            by_form, by_side = TERMS[f"morphologically_{side}_{chamber}"], TERMS[f"{side}_sided_{chamber}"]
            assert by_form["kind"] == "structure"
            assert by_side["kind"] == "position"
            assert by_form["european"] != by_side["european"]


# -- what the trade would expect of the tree (sequential segmental analysis; common practice) ------------------------


def above(slug: str) -> set[str]:
    found: set[str] = set()
    waiting = [slug]
    while waiting:
        for one in TERMS[waiting.pop()].get("broader", ()):
            if one not in found:
                found.add(one)
                waiting.append(one)
    return found


@pytest.mark.parametrize(
    ("narrow", "wide"),
    [
        ("double_outlet_right_ventricle", "abnormal_ventriculoarterial_connection"),
        ("double_outlet_left_ventricle", "abnormal_ventriculoarterial_connection"),
        ("common_arterial_trunk", "single_outlet"),
        ("ostium_primum_defect", "atrioventricular_septal_defect"),
        ("congenitally_corrected_transposition", "discordant_atrioventricular_connections"),
        ("coarctation_of_aorta", "congenital_heart_malformation"),
        ("ebstein_malformation", "congenital_heart_malformation"),
        ("absent_right_atrioventricular_connection", "tricuspid_atresia"),
        ("imperforate_right_atrioventricular_valve", "tricuspid_atresia"),
        ("left_isomerism", "isomerism"),
    ],
)
def test_is_a_kind_of(narrow: str, wide: str) -> None:
    assert wide in above(narrow)


@pytest.mark.parametrize(
    ("narrow", "wide"),
    [
        ("double_outlet_right_ventricle", "ventricular_septal_defect"),
        ("tetralogy_of_fallot", "abnormal_ventriculoarterial_connection"),
        ("congenitally_corrected_transposition", "transposition"),
        ("sinus_venosus_defect", "atrial_septal_defect"),
        ("coronary_sinus_defect", "atrial_septal_defect"),
        ("patent_oval_foramen", "atrial_septal_defect"),
        ("ostium_primum_defect", "atrial_septal_defect"),
        ("situs_inversus_totalis", "right_sided_heart"),
        ("double_orifice_mitral_valve", "cleft_of_mitral_valve"),
        ("straddling_mitral_valve", "cleft_of_mitral_valve"),
        ("criss_cross_heart", "atrioventricular_connection"),
        ("ascending_aorta", "aorta"),
        ("left_bundle_branch", "conduction_system"),
        ("membranous_septum", "ventricular_septum"),
        ("septal_band", "septomarginal_trabeculation"),
        ("right_isomerism", "asplenia"),
    ],
)
def test_is_not_a_kind_of(narrow: str, wide: str) -> None:
    assert wide not in above(narrow)
