"""Segmental notation: every combination of symbols comes back, published sets read as published, losses are said."""

from __future__ import annotations

import doctest
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae import notation, segments
from chordae.derive import heart
from chordae.knowledge import table
from chordae.notation import CONCLUSIONS, Notation, from_conclusions, parse, read_conclusions

SYMBOLS = table("notation")
LETTERS = {place: sorted(symbols) for place, symbols in SYMBOLS["letters"].items()}
PREFIXES = ["", *SYMBOLS["prefixes"]]

ARRANGEMENTS = ["usual", "mirror_image", "right_isomerism", "left_isomerism", None]
TOPOLOGIES = ["right_hand", "left_hand", "undetermined", None]
RELATIONS = [
    "normal", "mirror_normal", "right", "left", "anterior", "anterior_right", "anterior_left", "right_side_by_side",
    "left_side_by_side", "posterior", None,
]  # fmt: skip
AV = [
    "concordant", "discordant", "mixed", "double_inlet_lv", "double_inlet_rv", "double_inlet_solitary", "absent_right",
    "absent_left", "uniatrial_biventricular", None,
]  # fmt: skip
VA = [
    "concordant", "discordant", "double_outlet_rv", "double_outlet_lv", "double_outlet_both", "double_outlet_solitary",
    "single_outlet_common_trunk", "single_outlet_solitary_trunk", "single_outlet_pulmonary_atresia",
    "single_outlet_aortic_atresia", None,
]  # fmt: skip


def test_examples_of_the_module() -> None:
    for module in (notation, segments, heart):
        result = doctest.testmod(module)
        assert (result.failed, result.attempted > 0) == (0, True)


@given(
    st.sampled_from(LETTERS["arrangement"]),
    st.sampled_from(LETTERS["topology"]),
    st.sampled_from(LETTERS["relation"]),
    st.sampled_from(PREFIXES),
    st.from_regex(r"\A[A-Za-z0-9]{0,6}\Z"),
)
def test_what_is_written_is_read_again(first: str, second: str, third: str, prefix: str, qualifier: str) -> None:
    written = Notation(first, second, third, prefix, qualifier)
    read, issues = parse(notation.format(written))
    assert read == written
    assert not [one for one in issues if one.rule in ("I-NOT-01", "I-NOT-02", "I-NOT-03", "I-NOT-04")]


def test_every_combination_of_conclusions_comes_back_or_its_loss_is_said() -> None:
    seen = 0
    for values in product(ARRANGEMENTS, TOPOLOGIES, RELATIONS, AV, VA):
        given_values = dict(
            zip(
                ("atrial_arrangement", "topology", "aorta_relation", "av_connection", "va_connection"),
                values,
                strict=True,
            )
        )
        found = from_conclusions(given_values)
        written, lost = found.notation, found.lost
        again, _ = parse(notation.format(written))
        assert again == written
        meaning = read_conclusions(written)
        back = {**meaning.implied, **meaning.said}
        losses = {one.what for one in lost}
        for name in CONCLUSIONS:
            if given_values[name] is not None and name not in losses:
                assert back[name] == given_values[name], (given_values, notation.format(written))
        seen += 1
    assert seen == 5 * 4 * 11 * 10 * 11


@given(st.text(max_size=60))
def test_any_text_gives_a_notation_or_an_issue(text: str) -> None:
    found, issues = parse(text)
    assert found is not None or issues


@pytest.mark.parametrize("isomerism", ["right_isomerism", "left_isomerism"])
def test_isomerism_is_written_a_and_never_read_back(isomerism: str) -> None:
    found = from_conclusions({"atrial_arrangement": isomerism, "topology": "left_hand"})
    written, lost = found.notation, found.lost
    assert written.arrangement == "A"
    assert [one.what for one in lost] == ["atrial_arrangement"]
    meaning = read_conclusions(written)
    assert "atrial_arrangement" not in meaning.said
    assert meaning.one_of["atrial_arrangement"] == ("right_isomerism", "left_isomerism")


def test_a_letter_that_rests_on_the_connection_alone_is_said_to_be_inferred() -> None:
    known = {"topology": "left_hand", "va_connection": "concordant"}
    for arrangement, letter in (("usual", "S"), ("left_isomerism", "S"), ("mirror_image", "I")):
        found = from_conclusions({**known, "atrial_arrangement": arrangement})
        assert found.notation.relation == letter
        assert [one.what for one in found.inferred] == ["relation"]
    assert from_conclusions(known).notation.relation == "?"
    parallel = {**known, "atrial_arrangement": "usual", "trunk_course": "parallel"}
    assert from_conclusions(parallel).notation.relation == "?"
    recorded = {**known, "atrial_arrangement": "usual", "aorta_relation": "normal"}
    assert from_conclusions(recorded).inferred == ()


@pytest.mark.parametrize(
    ("text", "va"),
    [
        ("ACM {S,D,L}", "concordant"),
        ("DORV {S,D,L}", "double_outlet_rv"),
        ("TGA {S,D,L}", "discordant"),
        ("{S,D,L}", None),
    ],
)
def test_the_same_braces_mean_another_connection_with_another_prefix(text: str, va: str | None) -> None:
    # K72, VP75, VPbk (see test_published_cases.py): the alignment prefix is part of the meaning.
    found, _ = parse(text)
    assert found is not None
    meaning = read_conclusions(found)
    assert meaning.said.get("va_connection") == va
    assert meaning.said["aorta_relation"] == "left"
    assert bool([one for one in meaning.lost if one.what == "va_connection"]) is (va is None)


@pytest.mark.parametrize(
    ("text", "rules"),
    [
        ("TGA {S,D,D}", []),
        ("{S,D,S}", []),
        ("tga (s, d, d)", ["I-NOT-04"]),
        ("D-TGA {S,D,D}", ["I-NOT-04", "I-NOT-06"]),
        ("ccTGA {S,L,L}", ["I-NOT-04", "I-NOT-06"]),
        ("{S,D,D} TGA", ["I-NOT-04"]),
        ("(S,D,D) DOLV", ["I-NOT-04"]),
        ("DORV, {S,D,L}", ["I-NOT-04"]),
        ("dTGA {S,D,D}", ["I-NOT-04", "I-NOT-06"]),
        ("{A,D,S}", ["I-NOT-06"]),
        ("{S,D,N}", ["I-NOT-06", "I-NOT-06"]),
        ("{S,D,S} with a small hole", ["I-NOT-04", "I-NOT-05"]),
        ("TA {S,D,S}", ["I-NOT-06"]),
        ("ABC {S,D,S}", ["I-NOT-03"]),
        ("{S,S,S}", ["I-NOT-02"]),
        ("{S,D}", ["I-NOT-01"]),
        ("SDS", ["I-NOT-01"]),
        ("", ["I-NOT-01"]),
    ],
)
def test_dialects_and_faults_are_reported(text: str, rules: list[str]) -> None:
    assert [one.rule for one in parse(text)[1]] == rules


def test_every_symbol_names_its_source() -> None:
    entries = [one for place in SYMBOLS["letters"].values() for one in place.values()] + list(
        SYMBOLS["prefixes"].values()
    )
    assert all(one["source"] and one["status"] in ("V", "M") and one["say"] for one in entries)


@pytest.mark.parametrize(("text", "written"), [("(S,D,D) DOLV", "DOLV {S,D,D}"), ("{S,D,L} with DORV", "{S,D,L}")])
def test_a_prefix_behind_the_letters_is_one_only_at_once(text: str, written: str) -> None:
    # LI23 prints its sets so; further on in the words it may belong to another heart.
    found = parse(text)[0]
    assert found is not None
    assert notation.format(found) == written
