"""Ontologies from files and packages: the same terms from every format, nothing fetched, nothing obsolete.

Checks from outside: the formats are read by pronto (OBO, OBO Graph JSON) and pyoxigraph (OWL, SKOS); the packaged
releases of UBERON and Mondo where their package is installed (extra ``ontologies``).
"""

from __future__ import annotations

import json
from importlib.util import find_spec
from pathlib import Path

import pytest

from chordae.errors import ChordaeError, FormatError, InputError, MissingExtra
from chordae.match.ontology import load_ontology
from chordae.match.propose import Matcher
from chordae.match.targets import Target

OBO = """\
format-version: 1.4
ontology: test
synonymtypedef: abbreviation "abbreviation" EXACT
import: http://example.org/nowhere.obo

[Term]
id: UBERON:0000001
name: wall of a chamber
def: "Muscle around a chamber." [test:1]
synonym: "chamber wall" EXACT []
synonym: "wall" BROAD []
synonym: "CW" EXACT abbreviation [test:2]

[Term]
id: UBERON:0000002
name: obsolete thing
is_obsolete: true

[Term]
id: UBERON:0000003
name: roof of a chamber
synonym: "roofing" RELATED []

[Typedef]
id: part_of
name: part of
"""

GRAPH = {
    "graphs": [
        {
            "id": "http://example.org/test.json",
            "nodes": [
                {
                    "id": "http://purl.obolibrary.org/obo/UBERON_0000001",
                    "lbl": "wall of a chamber",
                    "type": "CLASS",
                    "meta": {
                        "definition": {"val": "Muscle around a chamber.", "xrefs": []},
                        "synonyms": [
                            {"pred": "hasExactSynonym", "val": "chamber wall", "xrefs": []},
                            {"pred": "hasBroadSynonym", "val": "wall", "xrefs": []},
                        ],
                    },
                },
                {
                    "id": "http://purl.obolibrary.org/obo/UBERON_0000002",
                    "lbl": "obsolete thing",
                    "type": "CLASS",
                    "meta": {"deprecated": True},
                },
                {"id": "http://purl.obolibrary.org/obo/UBERON_0000003", "lbl": "roof of a chamber", "type": "CLASS"},
            ],
            "edges": [],
        }
    ]
}

OWL = """\
<?xml version="1.0"?>
<rdf:RDF xmlns="http://example.org/test#" xmlns:owl="http://www.w3.org/2002/07/owl#"
  xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#" xmlns:rdfs="http://www.w3.org/2000/01/rdf-schema#"
  xmlns:obo="http://purl.obolibrary.org/obo/" xmlns:oio="http://www.geneontology.org/formats/oboInOwl#">
  <owl:Ontology rdf:about="http://example.org/test"><owl:imports rdf:resource="http://example.org/nowhere.owl"/></owl:Ontology>
  <owl:Class rdf:about="http://purl.obolibrary.org/obo/UBERON_0000001">
    <rdfs:label>wall of a chamber</rdfs:label>
    <obo:IAO_0000115>Muscle around a chamber.</obo:IAO_0000115>
    <oio:hasExactSynonym>chamber wall</oio:hasExactSynonym>
    <oio:hasBroadSynonym>wall</oio:hasBroadSynonym>
    <oio:hasExactSynonym>CW</oio:hasExactSynonym>
  </owl:Class>
  <owl:Axiom>
    <owl:annotatedSource rdf:resource="http://purl.obolibrary.org/obo/UBERON_0000001"/>
    <owl:annotatedProperty rdf:resource="http://www.geneontology.org/formats/oboInOwl#hasExactSynonym"/>
    <owl:annotatedTarget>CW</owl:annotatedTarget>
    <oio:hasSynonymType rdf:resource="http://purl.obolibrary.org/obo/OMO_abbreviation"/>
  </owl:Axiom>
  <owl:Class rdf:about="http://purl.obolibrary.org/obo/UBERON_0000002">
    <rdfs:label>obsolete thing</rdfs:label>
    <owl:deprecated rdf:datatype="http://www.w3.org/2001/XMLSchema#boolean">true</owl:deprecated>
  </owl:Class>
  <owl:Class rdf:about="http://purl.obolibrary.org/obo/UBERON_0000003">
    <rdfs:label>roof of a chamber</rdfs:label>
    <oio:hasRelatedSynonym>roofing</oio:hasRelatedSynonym>
  </owl:Class>
  <owl:ObjectProperty rdf:about="http://example.org/partOf"><rdfs:label>part of</rdfs:label></owl:ObjectProperty>
</rdf:RDF>
"""

SKOS = """\
@prefix skos: <http://www.w3.org/2004/02/skos/core#> .
@prefix owl: <http://www.w3.org/2002/07/owl#> .
@prefix x: <http://purl.obolibrary.org/obo/UBERON_> .
x:0000001 a skos:Concept ; skos:prefLabel "paroi"@fr , "wall of a chamber"@en ; skos:altLabel "chamber wall"@en ;
  skos:definition "Muscle around a chamber."@en .
x:0000002 a skos:Concept ; skos:prefLabel "obsolete thing"@en ; owl:deprecated true .
x:0000003 a skos:Concept ; skos:prefLabel "roof of a chamber" .
"""

needs_pronto = pytest.mark.skipif(find_spec("pronto") is None, reason="needs pronto (extra ontologies-read)")


def load(folder: Path, name: str, text: str) -> tuple[Target, ...]:
    (folder / name).write_text(text, encoding="utf-8")
    return load_ontology(str(folder / name))


@pytest.mark.parametrize(
    ("name", "text"),
    [
        pytest.param("t.obo", OBO, marks=needs_pronto),
        pytest.param("t.json", json.dumps(GRAPH), marks=needs_pronto),
        ("t.owl", OWL),
        ("t.rdf", OWL),
        ("t.ttl", SKOS),
    ],
)
def test_every_format_gives_the_same_terms(tmp_path: Path, name: str, text: str) -> None:
    found = load(tmp_path, name, text)
    assert [(one.id, one.label, one.source) for one in found] == [
        ("UBERON:0000001", "wall of a chamber", "UBERON"),
        ("UBERON:0000003", "roof of a chamber", "UBERON"),
    ]
    assert found[0].definition == "Muscle around a chamber."
    assert {(one.text, one.scope) for one in found[0].names} >= {
        ("wall of a chamber", "exact"),
        ("chamber wall", "exact"),
    }


@pytest.mark.parametrize(
    ("name", "text"), [pytest.param("t.obo", OBO, marks=needs_pronto), ("t.owl", OWL)], ids=["obo", "owl"]
)
def test_scopes_and_abbreviations_are_kept(tmp_path: Path, name: str, text: str) -> None:
    names = {one.text: one for one in load(tmp_path, name, text)[0].names}
    assert (names["wall"].scope, names["CW"].kind) == ("broad", "abbreviation")


def test_labels_in_other_languages_are_names_too(tmp_path: Path) -> None:
    found = load(tmp_path, "t.ttl", SKOS)
    assert found[0].label == "wall of a chamber"
    assert "paroi" in [one.text for one in found[0].names]


def test_owl_in_turtle_by_the_ending_owl(tmp_path: Path) -> None:
    assert len(load(tmp_path, "t.owl", SKOS)) == 2


def test_a_local_word_finds_the_term_of_an_ontology(tmp_path: Path) -> None:
    (proposal,) = Matcher(load(tmp_path, "t.owl", OWL)).propose(["Chamber walls"])
    assert (proposal.candidates[0].target, proposal.sure) == ("UBERON:0000001", True)
    (broad,) = Matcher(load(tmp_path, "t.owl", OWL)).propose(["wall"])
    assert not broad.sure


@pytest.mark.parametrize(
    ("name", "text"),
    [
        pytest.param("bad.obo", "[Term]\nid UBERON\n\x00", marks=needs_pronto),
        pytest.param("bad.json", '{"graphs": 3}', marks=needs_pronto),
        pytest.param("bad2.json", "{", marks=needs_pronto),
        ("bad.owl", "<rdf:RDF><a"),
        ("bad.ttl", "@prefix x <"),
        ("empty.ttl", ""),
        ("remote.jsonld", '{"@context": "http://example.org/c.jsonld", "@id": "http://x/1"}'),
        ("bomb.owl", '<!DOCTYPE r [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><r>&b;</r>'),
    ],
)
def test_what_is_no_ontology_is_refused_in_words(tmp_path: Path, name: str, text: str) -> None:
    with pytest.raises(ChordaeError) as caught:
        load(tmp_path, name, text)
    assert name in str(caught.value)


def test_an_unknown_ending_and_a_missing_file_are_refused(tmp_path: Path) -> None:
    with pytest.raises(FormatError, match="no ontology"):
        load_ontology(str(tmp_path / "x.docx"))
    with pytest.raises(InputError):
        load_ontology(str(tmp_path / "x.ttl"))


def test_a_missing_reader_names_its_extra(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "pronto.ontology", None)
    with pytest.raises(MissingExtra, match="ontologies-read"):
        load(tmp_path, "t.obo", OBO)


@pytest.mark.skipif(find_spec("cellxgene_ontology_guide") is None, reason="needs the extra ontologies")
@pytest.mark.parametrize(
    ("name", "term", "label"),
    [("uberon", "UBERON:0000948", "heart"), ("mondo", "MONDO:0018089", "double outlet right ventricle")],
)
def test_packaged_ontologies_are_loaded_by_name(name: str, term: str, label: str) -> None:
    found = {one.id: one for one in load_ontology(name)}
    assert found[term].label == label
    assert not any(one.label.startswith("obsolete ") for one in found.values())
    # The package does not say what scope a synonym has, so that no synonym is ever an exact name.
    assert {one.scope for target in found.values() for one in target.names[1:]} == {"unstated"}
