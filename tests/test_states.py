"""Where a state may be written: with the feature, among the observations, with the material; and that all are heard."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from chordae.derive import derive
from chordae.issues import Location
from chordae.model import tables
from chordae.record import Reading, Record, feature_state
from chordae.shapes.checker import Checker
from chordae.shortform import expand_reading
from chordae.states import fill_states
from strategies import records

TOP = Path(__file__).resolve().parents[1]
DAMAGED = {"state": "not_assessable", "state_reason": "damaged"}


def valve(**features: Any) -> dict[str, Any]:
    return {"id": "tricuspid_valve", "type": "AtrioventricularValve", "stated_valve_type": "tricuspid", **features}


def record(part: dict[str, Any], *material: dict[str, Any]) -> Record:
    description = {"observer": "Reader A", "described_on": "2026-05", "school": "european"}
    specimen = {"specimen": {"accession": "7", "material_states": list(material)}} if material else {}
    return {"id": "7", "description": description, "parts": [part], **specimen}


def spoke(found: Record) -> list[str]:
    """The rules of the septal cords and of what is gone that speak."""
    full, _ = expand_reading(Reading(found))
    rules = {issue.rule for issue in Checker().check_one(full).issues}
    return sorted(rule for rule in rules if rule.startswith(("R-AV-13", "R-ASS-01")))


def observed(feature: str, **said: str) -> list[dict[str, str]]:
    return [{"feature": feature, **said}]


CORDS, LEAFLET = "septal_chordal_attachment", "septal_leaflet"


@pytest.mark.parametrize(
    ("part", "material", "rules"),
    [
        (valve(septal_leaflet="normal", septal_chordal_attachment="absent"), (), ["R-AV-13"]),
        (valve(septal_leaflet="normal", observed=observed(CORDS, state="absent")), (), ["R-AV-13"]),
        (valve(septal_leaflet="normal", observed=observed(CORDS, **DAMAGED)), (), []),
        (valve(septal_leaflet="normal"), ({"structure": f"tricuspid_valve.{CORDS}", **DAMAGED},), []),
        (valve(septal_leaflet="normal"), ({"structure": "tricuspid_valve", **DAMAGED},), []),
        (valve(septal_chordal_attachment="absent", observed=observed(LEAFLET, **DAMAGED)), (), []),
        (valve(septal_chordal_attachment="absent"), ({"structure": f"tricuspid_valve.{LEAFLET}", **DAMAGED},), []),
        (valve(observed=observed(LEAFLET, state="not_examined")), (), []),
        (valve(observed=observed(LEAFLET, certainty="certain")), (), ["R-AV-13S"]),
        (valve(), ({"structure": "mitral_valve", **DAMAGED},), ["R-AV-13S"]),
        (valve(septal_leaflet="normal"), ({"structure": "tricuspid_valve", "state": "present"},), ["R-AV-13S"]),
    ],
)
def test_the_septal_cords_wherever_their_state_stands(
    part: dict[str, Any], material: tuple[dict[str, Any], ...], rules: list[str]
) -> None:
    assert spoke(record(part, *material)) == rules


def test_a_value_is_never_overwritten_and_words_that_the_slot_does_not_know_stay_where_they_are() -> None:
    said = [*observed("cleft", state="absent"), *observed("leaflet_count", state="not_assessable")]
    part = valve(cleft="present", observed=said)
    assert fill_states(Reading(record(part))).record == record(part)


def test_a_filled_state_points_to_the_place_where_it_was_written() -> None:
    part = valve(observed=observed("cleft", state="not_examined"))
    place = Location("a.yaml", 7, 3)
    filled = fill_states(Reading(record(part), {"/parts/0/observed/0/state": place}))
    assert filled.place("/parts/0/cleft") == place


@pytest.mark.parametrize(
    "parts", [None, {}, "x", [None, 3, "x"], [{"id": [1], "type": {}}], [{"type": "Atrium", "observed": [3, {}]}]]
)
def test_records_of_any_shape_pass(parts: object) -> None:
    odd: Record = {
        "id": "7",
        "parts": parts,
        "specimen": {"material_states": [3, {"structure": 4}, {"structure": "."}]},
    }
    assert fill_states(Reading(odd)).record is odd


@given(records())
@settings(max_examples=60, deadline=None)
def test_filling_changes_no_state_and_happens_once(found: Record) -> None:
    filled = fill_states(Reading(found))
    assert fill_states(filled) is filled
    for before, after in zip(found.get("parts", []), filled.record.get("parts", []), strict=True):
        assert before.items() <= after.items()
        for feature in set(after) - set(before):
            assert feature_state(before, feature, found).state == feature_state(after, feature).state
    assert derive(found)["notation"] == derive(filled.record)["notation"]


def test_the_rule_of_removed_structures_knows_every_word_for_absent() -> None:
    text = (TOP / "schema/shapes/specimen.ttl").read_text(encoding="utf-8")
    rule = text[text.index("rule:R-ASS-01 a") : text.index("rule:R-ASS-02 a")]
    listed = set(re.findall(r"term:(\w+)", rule[rule.rindex("FILTER (?value IN") :]))
    words = [word for slot in tables().slots.values() for word in slot.values.items() if word[0] in ("absent", "none")]
    assert listed == {iri.rpartition("/")[2] for _, iri in words}
