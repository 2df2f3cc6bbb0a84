"""Silence is never a finding: whatever is taken out of a description, nothing new follows from the rest.

Every feature of every valid example heart is left out in turn, recorded as not assessable, and as not examined. What
followed before may then stay or be left open; a conclusion, a letter, a malformation or an identity that was not there
before must not appear, nor a sentence begin to say that something is normal, intact or absent. The three ways of not
knowing give the same conclusions. Sources: HD01 (3 of 46 wrongly dissected hearts could no longer be diagnosed), BO93
(11 of 44 common trunks could not be classified, because the pulmonary arteries had been dissected away).
"""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from chordae.derive import derive
from chordae.derive.diagnoses import ancestors
from chordae.intake.document import read_document
from chordae.model import tables
from chordae.record import Record
from chordae.shortform import expand

VALID = Path(__file__).resolve().parents[1] / "examples" / "valid"
CONCLUSIONS = ("arrangement", "topology", "av_connection", "va_connection")
OPEN = (None, "undetermined")
NO_FINDING = ("id", "type", "state", "state_reason", "side", "observed", "note")
"""What places a part, or takes it out as a whole."""
CALM = {
    "normal",
    "normally",
    "usual",
    "intact",
    "no",
    "none",
    "absent",
    "without",
    "concordant",
    "concordance",
    "patent",
}
RV, LV = "morphologically_right_ventricle", "morphologically_left_ventricle"
STATES = ("not_assessable", "not_examined")
HEARTS = {reading.record["id"]: reading.record for path in VALID.glob("*.yaml") for reading in read_document(path)[0]}


def silenced(record: Record, number: int, feature: str, state: str | None) -> Record:
    """The record without one feature, or with the feature in a state in which it was not seen."""
    found = copy.deepcopy(record)
    part = found["parts"][number]
    slot = tables().slots[feature]
    del part[feature]
    part["observed"] = [one for one in part.get("observed", []) if one["feature"] != feature]
    if state in slot.values:
        part[feature] = [state] if slot.multivalued else state
    elif state is not None:
        part["observed"].append({"feature": feature, "state": state})
    return expand(found)[0]


def features(record: Record) -> Iterator[tuple[int, str]]:
    for number, part in enumerate(record["parts"]):
        for feature, value in part.items():
            if feature not in NO_FINDING and value not in STATES:
                yield number, feature


def words(text: str) -> set[str]:
    return set(re.findall(r"[a-z-]+", text.lower()))


def news(before: dict[str, Any], after: dict[str, Any]) -> list[str]:
    """What was not said before."""
    found = [name for name in CONCLUSIONS if after[name] not in (before[name], *OPEN)]
    letters = set(re.findall(r"[A-Z]+", after["notation"])) - set(re.findall(r"[A-Z]+", before["notation"]))
    known = {wider for one in before["diagnoses"] for wider in (one["term"], *ancestors(one["term"]))}
    found += [*letters, *({one["term"] for one in after["diagnoses"]} - known)]
    identities = {one["part"]: one["identity"] for one in before["identities"]}
    for one in after["identities"]:
        if one["identity"] not in (identities.get(one["part"]), *OPEN):
            found.append(f"{one['part']} = {one['identity']}")
    for school, text in after["statement"].items():
        found += (words(text) - words(before["statement"][school])) & CALM
    return found


@pytest.mark.parametrize("heart", sorted(HEARTS))
def test_nothing_new_follows_from_silence(heart: str) -> None:
    record = expand(HEARTS[heart])[0]
    record.pop("derived", None)
    before = derive(record)
    for number, feature in features(record):
        after = [derive(silenced(record, number, feature, state)) for state in (None, *STATES)]
        place = f"{record['parts'][number]['id']}.{feature}"
        assert [news(before, one) for one in after] == [[], [], []], place
        assert all(one[name] == after[0][name] for one in after for name in (*CONCLUSIONS, "notation")), place


def trunks(aorta: dict[str, Any], pulmonary: dict[str, Any], **stated: Any) -> dict[str, Any]:
    parts = [
        {"id": RV, "type": "Ventricle", "apical_trabeculation": "coarse"},
        {"id": LV, "type": "Ventricle", "apical_trabeculation": "fine"},
        {"id": "aorta", "type": "ArterialTrunk", "stated_trunk_identity": "aorta", **aorta},
        {"id": "pulmonary_trunk", "type": "ArterialTrunk", "stated_trunk_identity": "pulmonary_trunk", **pulmonary},
    ]
    found = derive({"id": "x", "parts": parts, "stated": stated})
    return {"connection": found["va_connection"], "origin": found["origins"].get("va_connection")}


def test_a_statement_that_was_refuted_fills_no_gap() -> None:
    # The pulmonary trunk was seen to arise from the left ventricle; nothing is recorded of the aorta. The observer
    # calls the connections concordant: that cannot be, and does not stand, but no double outlet follows from it either.
    seen = {"arises_from": [{"ventricle": LV, "per_cent": 100}]}
    assert trunks({}, seen, va_connection="concordant") == {"connection": None, "origin": None}
    assert trunks({}, seen, va_connection="discordant") == {"connection": "discordant", "origin": "inferred"}
    assert trunks({}, seen) == {"connection": None, "origin": None}


@pytest.mark.parametrize(("share", "origin"), [(20, "stated"), (49, "stated"), (50, "stated"), (80, "inferred")])
def test_a_share_over_the_other_ventricle_does_not_refute_a_stated_double_outlet(share: int, origin: str) -> None:
    seen = {"arises_from": [{"ventricle": RV, "per_cent": 100}]}
    found = trunks({"override_per_cent": share}, seen, va_connection="double_outlet_rv")
    assert found == {"connection": "double_outlet_rv", "origin": origin}
    seen = {"arises_from": [{"ventricle": LV, "per_cent": 100}]}
    found = trunks(seen, {"override_per_cent": share}, va_connection="double_outlet_lv")
    assert found == {"connection": "double_outlet_lv", "origin": origin}


@pytest.mark.parametrize(
    ("pulmonary_arteries", "second", "expected"),
    [
        ("absent", False, ("aorta", "decided")),
        ("present", False, ("common_arterial_trunk", "decided")),
        ("not_assessable", False, (None, "undetermined")),
        ("not_examined", False, (None, "undetermined")),
        (None, False, (None, "undetermined")),
        (None, True, ("aorta", "decided")),
        ("not_assessable", True, ("aorta", "decided")),
    ],
)
def test_a_lone_trunk_whose_pulmonary_arteries_were_cut_away_is_not_an_aorta(
    pulmonary_arteries: str | None, second: bool, expected: tuple[str | None, str]
) -> None:
    trunk = {"id": "t", "type": "ArterialTrunk", "gives_coronary_arteries": "present", "gives_arch_branches": "present"}
    if pulmonary_arteries is not None:
        trunk["gives_pulmonary_arteries"] = pulmonary_arteries
    other = {"id": "u", "type": "ArterialTrunk", "gives_pulmonary_arteries": "present", "gives_arch_branches": "absent"}
    found = derive({"id": "x", "parts": [trunk, other] if second else [trunk]})["identities"][0]
    assert (found["identity"], found["confidence"]) == expected
