"""Coronary codes: read, written, from orifices, and the same from both views (LEI18, LEI22, AY24)."""

from __future__ import annotations

import doctest
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae import leiden
from chordae.derive import derive
from chordae.leiden import ARTERIES, Code, Origin, number_sinuses, parse


def test_examples_of_the_module() -> None:
    assert doctest.testmod(leiden).failed == 0


@st.composite
def codes(draw: st.DrawFn) -> Code:
    places = draw(st.lists(st.sampled_from(["1", "2", "non-facing", None]), min_size=3, max_size=3))
    groups = {place: tuple(a for a, p in zip(ARTERIES, places, strict=True) if p == place) for place in places if place}
    order = draw(st.permutations(sorted(groups)))
    return Code(tuple(Origin(place, groups[place]) for place in order))


@given(codes())
def test_what_is_written_is_read_again(code: Code) -> None:
    if code.origins:
        read, issues = parse(leiden.format(code))
        assert read == code
        assert {one.rule for one in issues} <= {"I-COR-04"}


@pytest.mark.parametrize(
    ("text", "written", "rules"),
    [
        ("1R-2LCx", "1R-2LCx", []),  # LEI18: the usual pattern
        ("1LCx-2R", "1LCx-2R", []),
        ("1LRCA2Cx", "1RL-2Cx", ["I-COR-02"]),  # AY24: printed without a hyphen
        ("1RCA-2LCA", "1R-2LCx", ["I-COR-02"]),
        ("1R, 2L, 2Cx", "1R-2LCx", ["I-COR-02"]),
        ("1R-2R", "1R-2R", ["I-COR-03", "I-COR-04"]),
        ("2RLCx", "2RLCx", []),
        ("non-facing R-2LCx", "non-facing R-2LCx", []),
        ("1R", "1R", ["I-COR-04"]),
        ("3R-2LCx", None, ["I-COR-01"]),
        ("usual", None, ["I-COR-01"]),
        ("", None, ["I-COR-01"]),
        ("1", None, ["I-COR-01"]),
    ],
)
def test_codes_as_printed(text: str, written: str | None, rules: list[str]) -> None:
    code, issues = parse(text)
    assert (leiden.format(code) if code else None) == written
    assert [one.rule for one in issues] == rules


@given(st.text(max_size=40))
def test_any_text_gives_a_code_or_an_issue(text: str) -> None:
    code, issues = parse(text)
    assert code is not None or issues


ANGLES = st.floats(0, 359, allow_nan=False)


@given(ANGLES, st.floats(20, 100), st.floats(20, 100))
def test_both_views_number_the_sinuses_alike(pulmonary: float, clockwise: float, counter: float) -> None:
    # LEI22: seen from the ventricle the picture is the mirror image of the surgical one, and the code is the same.
    surgical = {"a": pulmonary - clockwise, "b": pulmonary + counter, "c": pulmonary + 180}
    mirrored = {name: 360 - angle for name, angle in surgical.items()}
    numbers = number_sinuses(surgical, pulmonary, "surgical")
    assert numbers == {"a": "1", "b": "2", "c": "non-facing"}
    assert number_sinuses(mirrored, 360 - pulmonary, "imaging") == numbers


def test_two_sinuses_cannot_be_numbered() -> None:
    with pytest.raises(ValueError, match="three sinuses"):
        number_sinuses({"a": 0, "b": 180}, 90, "surgical")


def coronary(va: str | None = None, **features: str) -> dict[str, Any] | None:
    part = {"id": "coronary_arteries", "type": "CoronaryArteries", **features}
    found: dict[str, Any] | None = derive(
        {"id": "x", "parts": [part], "stated": {"va_connection": va} if va else {}}
    ).get("coronary")
    return found


USUAL = {"right_coronary_origin": "sinus_1", "left_coronary_origin": "sinus_2", "circumflex_origin": "sinus_2"}


def test_code_from_orifices() -> None:
    assert coronary(**USUAL) == {"code": "1R-2LCx", "origin": "evidence"}
    assert coronary("concordant", **USUAL) == {
        "code": "1R-2LCx",
        "origin": "evidence",
        "pattern": "usual_for_concordant",
    }
    assert coronary("discordant", **USUAL) == {"code": "1R-2LCx", "origin": "evidence"}


def test_code_as_stated_beside_orifices() -> None:
    assert coronary(leiden_code="1R-2LCx", right_coronary_origin="sinus_1") == {
        "code": "1R-2LCx",
        "origin": "stated",
        "agrees": True,
    }
    assert coronary(leiden_code="1R-2LCx", right_coronary_origin="sinus_2") == {
        "code": "1R-2LCx",
        "origin": "stated",
        "agrees": False,
    }
    assert coronary("discordant", leiden_code="1LCx2R", viewing_convention="surgical") == {
        "code": "1LCx-2R", "origin": "stated", "view": "surgical", "pattern": "usual_for_discordant",
    }  # fmt: skip


def test_silence_gives_no_code() -> None:
    assert coronary() is None
    assert coronary(right_coronary_origin="not_assessable") is None
