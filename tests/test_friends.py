"""Words of several meanings, and the crosswalk between the schools that they guard.

The set is read by ``sssom-pydantic``, an independent reader of SSSOM (https://mapping-commons.github.io/sssom/).
"""

from __future__ import annotations

import csv
from collections import defaultdict
from pathlib import Path
from typing import Any

import pytest
import sssom_pydantic
import yaml

from chordae import friends, terms
from chordae.identifiers import slug_of

TOP = Path(__file__).parents[1]
SET = TOP / "mappings" / "european-north_american.sssom.tsv"
ROWS = list(
    csv.DictReader(
        [line for line in SET.read_text(encoding="utf-8").splitlines() if not line.startswith("#")], delimiter="\t"
    )
)

# How each of the 84 pairs of words stands: = same, ~ close, > the European word is wider, < it is narrower,
# ! false friend. Mostly from memory; keys in the comments of the rows say what was read.
JUDGED = "==!!!!!!~!~=!~~=!===~!~~!=!~!<<<~==!~~~~=!>!!~!=~!~=~=~!==!=~=!~>=~~!=~~=!!!===~==~="
EXPECTED = dict(enumerate(JUDGED, start=1))
PREDICATES = {
    "=": "skos:exactMatch",
    "~": "skos:closeMatch",
    "!": "skos:closeMatch",
    ">": "skos:narrowMatch",
    "<": "skos:broadMatch",
}


def number(row: dict[str, str]) -> int:
    return int(row["other"].partition("|")[0].removeprefix("row="))


BY_NUMBER: dict[int, list[dict[str, str]]] = defaultdict(list)
for one in ROWS:
    BY_NUMBER[number(one)].append(one)


def meanings(word: str) -> list[str]:
    return [one.term for friend in friends.ask(word) for one in friend.meanings]


# -- the crosswalk ----------------------------------------------------------------------------------------------------


def test_another_reader_reads_every_row() -> None:
    mappings, _, found, errors = sssom_pydantic.read(SET, return_errors=True)
    assert errors == []
    assert len(mappings) == len(ROWS)
    assert "reviewed: no" in (found.comment or "")
    assert str(found.license) == "https://creativecommons.org/licenses/by/4.0/"
    assert found.version == "0.1.0"


def test_all_eighty_four_pairs_are_there() -> None:
    assert sorted(BY_NUMBER) == sorted(EXPECTED) == list(range(1, 85))


@pytest.mark.parametrize("row", sorted(EXPECTED))
def test_first_judgement_of_each_pair_is_kept(row: int) -> None:
    """Every pair holds its predicate; a word of the pair may be judged apart only if its comment says why."""
    wanted = PREDICATES[EXPECTED[row]]
    assert any(one["predicate_id"] == wanted for one in BY_NUMBER[row])
    assert all(one["comment"] for one in BY_NUMBER[row] if one["predicate_id"] != wanted)


@pytest.mark.parametrize(
    ("narrower", "wider"),
    [
        ("absent right atrioventricular connection", "tricuspid atresia"),
        ("absent left atrioventricular connection", "mitral atresia"),
        ("imperforate atrioventricular valve", "atrioventricular valve atresia"),
        ("transposition of the great arteries", "discordant ventriculoarterial connections"),
        ("septal band", "septomarginal trabeculation"),
        ("moderator band", "septomarginal trabeculation"),
        ("{S,L,S}", "discordant atrioventricular and concordant ventriculoarterial connections"),
    ],
)
def test_read_aloud_in_the_right_direction(narrower: str, wider: str) -> None:
    """broadMatch: the object is wider than the subject; narrowMatch: it is narrower (SKOS Reference, section 10)."""
    said = {
        (one["subject_label"], one["object_label"])
        if one["predicate_id"] == "skos:broadMatch"
        else (one["object_label"], one["subject_label"])
        for one in ROWS
        if one["predicate_id"] in ("skos:broadMatch", "skos:narrowMatch")
    }
    assert (narrower, wider) in said
    assert (wider, narrower) not in said


def test_every_broad_or_narrow_row_is_read_aloud() -> None:
    assert sum(one["predicate_id"] in ("skos:broadMatch", "skos:narrowMatch") for one in ROWS) == 7


def test_words_have_their_own_addresses() -> None:
    for one in ROWS:
        assert one["subject_id"] == f"european:{slug_of(one['subject_label'])}"
        if one["object_id"] != "sssom:NoTermFound":
            assert one["object_id"] == f"north_american:{slug_of(one['object_label'])}"
    by_id = {one["subject_id"]: one["subject_label"] for one in ROWS}
    assert len(by_id) == len({one["subject_label"] for one in ROWS})


def test_no_exact_match_chains_two_european_words_together() -> None:
    """exactMatch is transitive: two European words exact to one North American word would be one."""
    by_object = defaultdict(set)
    for one in ROWS:
        if one["predicate_id"] == "skos:exactMatch":
            by_object[one["object_id"]].add(one["subject_id"])
    assert {word: found for word, found in by_object.items() if len(found) > 1} == {}


def test_a_word_without_counterpart_is_a_row() -> None:
    assert {one["subject_label"] for one in ROWS if one["object_id"] == "sssom:NoTermFound"} == {
        "isomeric atriums",
        "single outlet of the heart",
    }


def test_every_word_is_known_to_the_vocabulary() -> None:
    table = terms.vocabulary()
    words = {one["subject_label"] for one in ROWS} | {one["object_label"] for one in ROWS if one["object_label"]}
    unknown = {
        part
        for word in words
        if not friends.ask(word) and not table.by_label(word)
        for part in word.split(", ")
        if not table.by_label(part)
    }
    assert unknown == set()


def test_exact_words_of_the_schools_are_labels_of_one_term() -> None:
    """A pair called the same must meet in at least one term of the vocabulary."""
    table = terms.vocabulary()
    apart = [
        (one["subject_label"], one["object_label"])
        for one in ROWS
        if one["predicate_id"] == "skos:exactMatch"
        and not {term.slug for term in table.by_label(one["subject_label"])}
        & {term.slug for term in table.by_label(one["object_label"])}
    ]
    assert apart == [
        ("mirror-imaged arrangement", "I (first letter)"),
        ("usual atrial arrangement", "S (first letter)"),
    ]


@pytest.mark.parametrize("row", [number for number, sign in EXPECTED.items() if sign == "!"])
def test_every_false_friend_is_flagged(row: int) -> None:
    guarding = [friend for friend in friends.all_friends() if row in friend.rows]
    assert guarding
    flagged = [one for one in BY_NUMBER[row] if one["comment"].startswith("False friend")]
    assert flagged
    if any(one["object_label"] for one in flagged):
        words = {terms.key_of(word) for friend in guarding for word in (friend.word, *friend.also)}
        assert words & {terms.key_of(one["object_label"]) for one in flagged}


# -- the words -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("IVC", {"inferior_caval_vein", "interventricular_communication"}),
        ("TA", {"tricuspid_atresia", "common_arterial_trunk"}),
        ("SV", {"functionally_univentricular_heart", "double_inlet_left_ventricle"}),
        ("AVC", {"atrioventricular_septal_defect", "embryonic_atrioventricular_canal"}),
        ("PA", {"pulmonary_artery", "pulmonary_atresia"}),
        ("AA", {"aortic_arch", "aortic_atresia"}),
        ("RAA", {"morphologically_right_atrial_appendage", "right_aortic_arch"}),
        ("MA", {"mitral_atresia", "mitral_valve_annulus"}),
        ("DORV", {"double_outlet_right_ventricle"}),
        ("DOVR", {"double_outlet_right_ventricle"}),
        ("D", {"letter_second_d", "letter_third_d"}),
        ("L", {"letter_second_l", "letter_third_l"}),
        ("LI", {"left_isomerism"}),
        ("RI", {"right_isomerism"}),
        ("PT", {"pulmonary_trunk"}),
        ("RA", {"morphologically_right_atrium", "right_sided_atrium"}),
    ],
)
def test_traps_of_abbreviation(word: str, expected: set[str]) -> None:
    assert expected <= set(meanings(word))


def test_l_tga_never_implies_loop_or_side() -> None:
    friend = friends.ask("l-tga")[0]
    assert friend.word == "L-TGA"
    assert {"left_hand_topology", "aorta_to_the_left"} <= set(friend.never_implies)
    assert "atria join the ventricles" in friend.ask
    assert friend.rows == (44,)


def test_the_letter_a_cannot_be_turned_back() -> None:
    friend = friends.ask("situs ambiguus")[0]
    assert {"right_isomerism", "left_isomerism"} <= set(friend.never_implies)


@pytest.mark.parametrize(
    "word", ["congenitally corrected transposition", "right isomerism", "tricuspid valve", "zone of apposition", ""]
)
def test_plain_words_of_the_trade_are_no_traps(word: str) -> None:
    assert not friends.is_ambiguous(word)


@pytest.mark.parametrize("word", ["L-TGA", "asplenia", "single ventricle", "IVC", "malposition", "situs"])
def test_traps_are_traps(word: str) -> None:
    assert friends.is_ambiguous(word)


def test_a_trap_of_one_context_is_none_elsewhere() -> None:
    assert friends.ask("VSD")[0].context == "in a heart with double outlet"
    assert not friends.is_ambiguous("VSD")


def test_every_friend_is_whole() -> None:
    table = terms.vocabulary()
    for friend in friends.all_friends():
        assert friend.ask.rstrip().endswith(("?", ".")) and len(friend.ask.split()) > 3
        assert len({(one.term, one.school) for one in friend.meanings}) == len(friend.meanings) >= 2
        assert all(one.term in table and one.gloss for one in friend.meanings)
        assert friend.never_implies and all(slug in table for slug in friend.never_implies)
        assert table.source(friend.source) or friend.source in ("common practice", "from memory")
        assert all(1 <= row <= 84 for row in friend.rows)


def test_no_two_friends_have_the_same_word() -> None:
    words = [terms.key_of(friend.word) for friend in friends.all_friends()]
    assert len(words) == len(set(words))


def test_abbreviations_of_several_terms_are_friends() -> None:
    """An abbreviation that the vocabulary itself gives to several terms must be among the false friends."""
    by_short: dict[str, set[str]] = defaultdict(set)
    for term in terms.vocabulary():
        for short in (*term.european_abbreviations, *term.north_american_abbreviations):
            by_short[short].add(term.slug)
    several: dict[str, Any] = {short: slugs for short, slugs in by_short.items() if len(slugs) > 1}
    assert {short for short in several if not friends.ask(short)} == set()


def test_file_and_compiled_table_agree() -> None:
    written = yaml.safe_load((TOP / "schema" / "false_friends.yaml").read_text(encoding="utf-8"))["friends"]
    assert sorted(one["word"] for one in written) == sorted(friend.word for friend in friends.all_friends())
