"""FHIR as files: bundles of several records, one resource a line, references as others write them, and bad resources.

Published source: HL7 FHIR R4 (4.0.1), by ``fhir.resources`` and, where it is there, HL7's own JSON schema.
"""

from __future__ import annotations

import copy
import json
import os
from importlib import import_module
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.formats_data import RECORDS, example_records, there_and_back, written

from chordae.canonical import canonical
from chordae.formats.fhir.pieces import MODEL, TERM
from chordae.formats.fhir.reading import from_bundle
from chordae.formats.fhir.terminology import publish
from chordae.formats.opening import open_bytes
from chordae.formats.same import differences
from chordae.formats.table import FORMATS
from chordae.issues import Issue
from chordae.model import tables
from chordae.record import Record

BUNDLE, LINES = FORMATS["fhir"], FORMATS["fhir-ndjson"]


def read(value: object) -> tuple[list[Record], list[Issue]]:
    readings, issues = open_bytes(json.dumps(value).encode(), "theirs.json", BUNDLE)
    return [one.record for one in readings], issues


def lines() -> list[dict[str, Any]]:
    return [json.loads(line) for line in written(LINES, list(example_records()))[0].splitlines()]


def test_many_records_share_a_bundle_and_none_takes_from_another() -> None:
    back, issues, _ = there_and_back(BUNDLE, list(example_records()))
    assert issues == [] and back.keys() == RECORDS.keys()
    for name, record in RECORDS.items():
        assert differences({k: v for k, v in record.items() if k != "derived"}, back[name]) == [], name
    bundle = json.loads(written(BUNDLE, list(example_records()))[0])
    urls = [one["fullUrl"] for one in bundle["entry"]]
    assert len(urls) == len(set(urls)) and bundle["type"] == "collection"


def test_lines_name_type_and_id_and_every_reference_can_be_followed() -> None:
    pytest.importorskip("fhir.resources", reason="extra formats-test")
    found = lines()
    known = {f"{one['resourceType']}/{one['id']}" for one in found}
    assert len(known) == len(found)

    def references(value: Any) -> list[str]:
        if isinstance(value, dict):
            own = [value["reference"]] if isinstance(value.get("reference"), str) else []
            return own + [one for inner in value.values() for one in references(inner)]
        return [one for inner in value for one in references(inner)] if isinstance(value, list) else []

    assert set(references(found)) <= known
    for one in found:
        name = one["resourceType"]
        assert getattr(import_module(f"fhir.resources.R4B.{name.lower()}"), name).model_validate(one)


def test_lines_are_accepted_by_the_schema_of_hl7() -> None:
    path = os.environ.get("CHORDAE_FHIR_SCHEMA")
    if not path:
        pytest.skip("HL7's R4 JSON schema is not here; .ci/run fetches it and sets CHORDAE_FHIR_SCHEMA")
    schema = json.loads(Path(path).read_text(encoding="utf-8"))
    schema["definitions"].setdefault("Resource", schema["definitions"]["ResourceList"])
    schema["definitions"].setdefault("integer64", {"type": "string"})
    hl7 = jsonschema_rs.validator_for(schema)
    wrong = [error.message for one in lines() for error in hl7.iter_errors(one)]
    assert wrong == []
    assert list(hl7.iter_errors(json.loads(publish()))) == []


SPECIMEN = {"resourceType": "Specimen", "id": "s1", "accessionIdentifier": {"value": "0007"}}
ATRIUM = {
    "resourceType": "BodyStructure",
    "id": "b1",
    "identifier": [{"system": f"{MODEL}id", "value": "right_sided_atrium"}],
    "location": {"coding": [{"system": MODEL, "code": "Atrium"}]},
}


def observation(codes: list[tuple[str, str]], **more: Any) -> dict[str, Any]:
    coding = [{"system": system, "code": code} for system, code in codes]
    place = {"specimen": {"reference": "Specimen/s1"}, "focus": [{"reference": "BodyStructure/b1"}]}
    return {"resourceType": "Observation", "id": "o", "status": "final", "code": {"coding": coding}, **place, **more}


def bundle(*resources: dict[str, Any]) -> dict[str, Any]:
    entries = [
        {"fullUrl": f"https://server.example.org/fhir/{one['resourceType']}/{one['id']}", "resource": one}
        for one in (SPECIMEN, ATRIUM, *resources)
    ]
    return copy.deepcopy({"resourceType": "Bundle", "type": "searchset", "entry": entries})


PECTINATE = [(MODEL, "pectinate_extent")]
CREST = [(MODEL, "terminal_crest")]
TO_CRUX = [(TERM, "pectinate_muscles_to_crux"), *PECTINATE]


@pytest.mark.parametrize(
    ("one", "part"),
    [
        (observation(TO_CRUX, valueBoolean=True), {"pectinate_extent": "to_crux"}),
        (observation(CREST, valueBoolean=True), {"terminal_crest": "present"}),
        (observation(CREST, valueBoolean=False), {"terminal_crest": "absent"}),
        (
            observation(CREST, dataAbsentReason={"coding": [{"system": TERM, "code": "not_examined"}]}),
            {"terminal_crest": "not_examined"},
        ),
    ],
    ids=["finding", "present", "absent", "not-examined"],
)
def test_relative_references_are_followed_inside_a_bundle(one: dict[str, Any], part: dict[str, Any]) -> None:
    records, issues = read(bundle(one))
    assert issues == []
    assert records[0]["parts"] == [{"id": "right_sided_atrium", "type": "Atrium", **part}]


@pytest.mark.parametrize(
    "one",
    [
        observation(TO_CRUX, valueBoolean=False),  # not that finding: says nothing of the others
        observation(CREST, dataAbsentReason={"coding": [{"code": "unknown"}]}),  # which of our two states, nobody knows
        observation(CREST),
        observation([("http://loinc.org", "1-8"), (MODEL, "terminal_crest")], valueBoolean="yes"),
        observation([(TERM, "mitral_valve"), (MODEL, "terminal_crest")], valueBoolean=True),
        observation([("http://loinc.org", "1-8")], valueQuantity={"value": 3, "unit": "mm"}),
        observation(CREST, valueBoolean=True, focus=[{"reference": "BodyStructure/none"}]),
    ],
    ids=["excluded", "unknown", "no-value", "no-boolean", "other-term", "other-code", "no-part"],
)
def test_what_cannot_be_read_as_a_finding_is_kept_as_words_with_an_issue(one: dict[str, Any]) -> None:
    records, issues = read(bundle(one))
    # A body structure that nothing speaks of is not dropped in silence.
    assert [found.rule for found in issues if found.rule != "I-FHIR-05"] == ["I-FHIR-02"]
    assert len(records[0]["remarks"]) == 1 and records[0].get("parts", [{}])[0].keys() <= {"id", "type"}


CHANGED = [{"url": "https://example.org/negated", "valueBoolean": True}]


@pytest.mark.parametrize(
    "more",
    [{"status": "entered-in-error"}, {"status": "cancelled"}, {"modifierExtension": CHANGED}],
    ids=["error", "cancelled", "modifier"],
)
def test_what_was_withdrawn_or_means_something_else_is_no_finding(more: dict[str, Any]) -> None:
    """FHIR R4, 2.4.0.1: a resource with a modifier that is not understood may not be processed."""
    records, issues = read(bundle(observation(CREST, valueBoolean=True, **more)))
    assert [found.rule for found in issues if found.rule != "I-FHIR-05"] == ["I-FHIR-06"]
    assert "terminal_crest" in records[0]["remarks"][0]["text"]
    assert records[0].get("parts", [{}])[0].keys() <= {"id", "type"}


def test_a_part_or_picture_that_was_withdrawn_is_not_read() -> None:
    gone = bundle(observation(CREST, valueBoolean=True))
    body = next(one["resource"] for one in gone["entry"] if one["resource"]["resourceType"] == "BodyStructure")
    body["active"] = False
    records, issues = read(gone)
    assert [found.rule for found in issues] == ["I-FHIR-06", "I-FHIR-02"]
    assert "parts" not in records[0] and len(records[0]["remarks"]) == 1
    body["active"] = True
    gone["entry"][0]["resource"] |= {"status": "entered-in-error"}
    records, issues = read(gone)
    assert records == [] and "I-FHIR-06" in {found.rule for found in issues}


def test_codes_of_other_systems_are_not_taken_for_ours() -> None:
    """The same letters in another system mean another thing."""
    theirs = observation(CREST, dataAbsentReason={"coding": [{"system": "https://e.org", "code": "not_assessable"}]})
    made = bundle(theirs)
    body = next(one["resource"] for one in made["entry"] if one["resource"]["resourceType"] == "BodyStructure")
    side = tables().slots["side"].values["left_sided"].removeprefix(TERM)
    body["locationQualifier"] = [{"coding": [{"system": "https://e.org", "code": side}]}]
    records, issues = read(made)
    assert [found.rule for found in issues] == ["I-FHIR-02"]
    assert records[0]["parts"][0].keys() <= {"id", "type"}


@pytest.mark.parametrize(
    ("data", "rule"),
    [
        (b'{"resourceType": "Patient"}', "I-FHIR-03"),
        (b"[]", "I-FHIR-03"),
        (b'{"resourceType": "Bundle"}', "I-FHIR-01"),
        (b'{"resourceType": "Bundle", "entry": [3, {"resource": 4}]}', "I-FHIR-01"),
        (b"{", "I-DOC-01"),
        (b"[" * 200_000, "I-DOC-04"),
        (b'{"a":' * 60 + b"1" + b"}" * 60, "I-DOC-04"),
        (b"", "I-FMT-01"),
        (b"\xff\xfe\xff", "I-FMT-01"),
    ],
    ids=["patient", "list", "empty-bundle", "no-resources", "broken", "brackets", "deep", "empty", "bytes"],
)
def test_what_is_no_bundle_is_refused_with_an_issue(data: bytes, rule: str) -> None:
    readings, issues = open_bytes(data, "theirs.json", BUNDLE)
    assert readings == [] and [one.rule for one in issues if one.rule != "I-FHIR-05"] == [rule]


def test_a_broken_line_costs_that_line_only() -> None:
    found = written(LINES, list(example_records())[:1])[0].splitlines()
    data = b"\n".join([b"{", *found, b"", b"7", b'{"resourceType":"Bundle","entry":null}'])
    readings, issues = open_bytes(data, "theirs.ndjson", LINES)
    assert [canonical(one.record)["id"] for one in readings] == [example_records()[0]["id"]]
    assert [(one.rule, one.location.line) for one in issues] == [("I-DOC-01", 1), ("I-FHIR-03", len(found) + 3)]


def test_notes_on_features_without_a_value_come_back() -> None:
    """Also on one whose name the schema does not know: the observer may note what there is no slot for."""
    record: Record = {
        "id": "7",
        "parts": [
            {
                "id": "aorta",
                "type": "ArterialTrunk",
                "observed": [
                    {"feature": "colour_of_the_wall", "state_reason": "damaged", "note": "pale"},
                    {"feature": "trunk_course"},
                ],
            }
        ],
    }
    back, issues, carried = there_and_back(BUNDLE, [canonical(record)])
    assert issues == [] and back["7"] == canonical(record)
    assert set(carried["7"].values()) == {"coded"}


_KEYS = st.sampled_from(
    ["resourceType", "id", "entry", "resource", "fullUrl", "code", "coding", "system", "value", "extension", "url",
     "identifier", "subject", "specimen", "focus", "category", "component", "note", "text", "location", "processing",
     "procedure", "content", "attachment", "valueBoolean", "valueQuantity", "dataAbsentReason", "derivedFrom",
     "accessionIdentifier", "reference"]
)  # fmt: skip
_WORDS = st.sampled_from(
    ["Bundle", "Basic", "Specimen", "Observation", "BodyStructure", "DocumentReference", MODEL, TERM, f"{MODEL}id",
     "Record", "Atrium", "opens_into", "parts", f"{MODEL}parts", "terminal_crest", "stated", "measured", "derived", "x"]
)  # fmt: skip
_ANY = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | _WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_KEYS, inner, max_size=5),
    max_leaves=25,
)


@settings(max_examples=300)
@given(st.lists(st.dictionaries(_KEYS, _ANY, max_size=8), max_size=6))
def test_no_shape_of_resources_breaks_the_reader(resources: list[dict[str, Any]]) -> None:
    entries = [{"fullUrl": f"urn:uuid:{number}", "resource": one} for number, one in enumerate(resources)]
    records, _ = from_bundle({"resourceType": "Bundle", "entry": entries})
    assert all(isinstance(one.record["id"], str) for one in records)


def test_lists_within_lists_are_put_in_order_too() -> None:
    """Found by fuzzing with atheris: an extension of ours may hold anything where a word should stand."""
    inner = {"url": f"{MODEL}examination", "extension": [{"url": f"{MODEL}examination", "valueCode": "probe"}]}
    word = {"url": f"{MODEL}examination", "valueList": ["probe"]}
    made = bundle()
    basic = {
        "resourceType": "Basic", "id": "r", "code": {"coding": [{"system": MODEL, "code": "Record"}]},
        "identifier": [{"system": f"{MODEL}id", "value": "7"}], "subject": {"reference": "Specimen/s1"},
        "extension": [{"url": f"{MODEL}description", "extension": [inner, word, inner]}],
    }  # fmt: skip
    made["entry"].append({"fullUrl": "urn:uuid:r", "resource": basic})
    records, _ = read(made)
    assert [one["id"] for one in records] == ["7"]
    spoilt = canonical({"id": "a", "parts": [3, {"id": ["x"], "type": {"a": 1}}, None, {"id": "aorta"}]})
    assert spoilt["parts"][-1] == 3
