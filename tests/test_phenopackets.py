"""Phenopackets: accepted by the official package, absent as excluded, unseen not at all, and back as far as they go.

Published source: Phenopacket Schema v2 of the GA4GH (ISO 4454), by its own package ``phenopackets``.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.formats_data import BASE, STATES_RECORD, WHEN, example_records, there_and_back
from tests.generate_records import make_records

from chordae.canonical import canonical
from chordae.formats.losses import confirm
from chordae.formats.opening import open_bytes
from chordae.formats.phenopackets.packet import to_packet
from chordae.formats.table import FORMATS
from chordae.mapping import codes_for
from chordae.record import Record

pytest.importorskip("phenopackets.schema.v2", reason="extra formats-test")
FORMAT = FORMATS["phenopackets"]


def packet(record: Record) -> dict[str, Any]:
    return to_packet(record, BASE, WHEN)[0]


def read(value: object) -> tuple[list[Record], list[tuple[str, str]]]:
    readings, issues = open_bytes(json.dumps(value).encode(), "theirs.json", FORMAT)
    return [one.record for one in readings], [(one.rule, one.value or "") for one in issues]


def identifiers(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        if "id" in value and "label" in value:
            yield value["id"]
        for one in value.values():
            yield from identifiers(one)
    elif isinstance(value, list):
        for one in value:
            yield from identifiers(one)


def test_the_official_package_accepts_every_packet_and_rejects_a_broken_one() -> None:
    from google.protobuf.json_format import ParseDict, ParseError
    from phenopackets.schema.v2 import Phenopacket

    for record in example_records():
        message = ParseDict(packet(record), Phenopacket())
        assert message.id == record["id"] and message.meta_data.phenopacket_schema_version == "2.0"
    broken = packet(example_records()[0])
    broken["phenotypicFeatures"][0]["certainty"] = "probable"
    with pytest.raises(ParseError, match="certainty"):
        ParseDict(broken, Phenopacket())


def test_every_prefix_is_explained_by_a_resource() -> None:
    """The documentation of MetaData asks for one resource for each ontology used."""
    for record in example_records():
        made = packet(record)
        prefixes = {one.partition(":")[0] for one in identifiers(made)}
        explained = {one["namespacePrefix"] for one in made["metaData"]["resources"]}
        assert prefixes <= explained and all(one["version"] for one in made["metaData"]["resources"])


def test_absent_is_excluded_and_unseen_is_not_there() -> None:
    made = packet(canonical(STATES_RECORD))
    found = {
        (one["type"]["id"], one.get("excluded", False), one["modifiers"][0]["id"]) for one in made["phenotypicFeatures"]
    }
    assert found == {
        ("model:coronary_sinus", True, "part:systemic_veins"),
        ("model:septomarginal_trabeculation", True, "part:right_sided_ventricle"),
        ("term:coarse_apical_trabeculations", False, "part:right_sided_ventricle"),
        ("model:ArterialDuct", True, "part:arterial_duct"),
        ("model:coarctation", True, "part:aortic_arch"),
    }
    text = json.dumps(made)
    for word in ("moderator_band", "septal_surface", "terminal_crest", "not_", "transected", "damaged"):
        assert word not in text
    coarse = next(one for one in made["phenotypicFeatures"] if "coarse" in one["type"]["id"])
    assert [one["id"] for one in coarse["modifiers"]][-1] == "term:probable"


def test_a_diagnosis_has_the_code_of_the_phenotype_ontology_only_where_it_is_exactly_that() -> None:
    record: Record = {"id": "7", "stated": {"diagnoses": ["double_outlet_right_ventricle", "ebstein_malformation"]}}
    types = [one["type"] for one in packet(record)["phenotypicFeatures"]]
    for slug, found in zip(record["stated"]["diagnoses"], types, strict=True):
        exact = {one.curie: one.label for one in codes_for(slug) if one.predicate == "exact"}
        hpo = {curie: name for curie, name in exact.items() if curie.startswith("HP:")}
        assert (found["id"], found["label"]) in hpo.items() if hpo else found["id"] == f"term:{slug}"
    assert types[0]["id"] == "HP:0001719"


@settings(max_examples=40)
@given(st.integers(0, 10**6))
def test_generated_records_come_back_as_far_as_they_go(seed: int) -> None:
    record = canonical(next(iter(make_records(1, seed=seed)))[0])
    back, issues, carried = there_and_back(FORMAT, [record])
    assert issues == []
    mine = carried[record["id"]]
    assert confirm(record, mine, back[record["id"]]) == mine
    assert sum(one == "coded" for one in mine.values()) > 50


def test_a_foreign_packet_keeps_what_it_cannot_code_as_words() -> None:
    theirs = {
        "id": "case-1",
        "subject": {"id": "p", "sex": "FEMALE", "taxonomy": {"id": "NCBITaxon:9606", "label": "Homo sapiens"}},
        "phenotypicFeatures": [
            {"type": {"id": "HP:0001719", "label": "Double outlet right ventricle"}},
            {"type": {"id": "HP:0001629", "label": "Ventricular septal defect"}, "excluded": True},
            {"type": {"id": "HP:0001250", "label": "Seizure"}},
        ],
        "measurements": [
            {
                "assay": {"id": "LOINC:29463-7", "label": "Body weight"},
                "value": {"quantity": {"unit": {"id": "UCUM:g", "label": "gram"}, "value": 3100}},
            }
        ],
        "diseases": [{"term": {"id": "MONDO:0018089", "label": "double outlet right ventricle"}}],
        "metaData": {"created": WHEN, "createdBy": "someone", "phenopacketSchemaVersion": "2.0"},
    }
    records, issues = read(theirs)
    assert records == [
        {
            "id": "case-1",
            "specimen": {"sex": "female"},
            "stated": {"diagnoses": ["double_outlet_right_ventricle"]},
            "remarks": [
                {"text": "Ventricular septal defect: excluded", "place": "phenotypicFeatures"},
                {"text": "Seizure: found", "place": "phenotypicFeatures"},
                {"text": "Body weight: 3100.0 gram", "place": "measurements"},
                {"text": "double outlet right ventricle: as in the packet", "place": "diseases"},
            ],
        }
    ]
    assert {rule for rule, _ in issues} == {"I-PHE-02"} and len(issues) == 4


def test_cohorts_are_read_packet_by_packet() -> None:
    one, other = (packet(record) for record in example_records()[:2])
    records, issues = read({"id": "cohort", "members": [one, other, one]})
    assert [record["id"] for record in records] == [one["id"], other["id"]]
    assert issues == [("I-REC-01", one["id"])]


@pytest.mark.parametrize(
    ("value", "rule"),
    [
        ([], "I-PHE-01"),
        ({}, "I-REC-02"),
        ({"id": "a", "unknown": 1}, "I-PHE-01"),
        ({"id": 3}, "I-PHE-01"),
        ({"id": "a", "phenotypicFeatures": [{"excluded": "yes"}]}, "I-PHE-01"),
        ({"id": "a", "measurements": [{"value": {"quantity": {"value": "NaN"}}}]}, "I-PHE-02"),
        ({"resourceType": "Bundle"}, "I-PHE-01"),
    ],
    ids=str,
)
def test_what_is_no_phenopacket_is_an_issue(value: object, rule: str) -> None:
    assert [found for found, _ in read(value)[1]] == [rule]
