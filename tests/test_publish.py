"""The published vocabulary keeps the rules of SKOS, is consistent OWL, and is read the same by other readers.

Outside checks: integrity conditions of the SKOS Reference as SHACL through pySHACL, ``skosify`` 2.3.0 on a copy (it
repairs what it finds), ``owlrl`` for OWL 2 RL, ``pronto`` and ``pyoxigraph`` as independent readers.
"""

from __future__ import annotations

import csv
import io
import json
import logging
import os
import re
import subprocess
import sys
import warnings
from collections.abc import Iterator
from functools import cache
from html import escape
from html.parser import HTMLParser
from pathlib import Path
from typing import Any, cast

import pyoxigraph
import pytest
from pyshacl import validate
from rdflib import OWL, RDF, RDFS, SKOS, BNode, Graph, Literal, URIRef

from chordae.cli import main
from chordae.commands.write import VOCABULARY
from chordae.errors import FormatError
from chordae.friends import all_friends
from chordae.identifiers import model_iri, slug_of, term_iri
from chordae.mapping import codes_for, never_for
from chordae.terms import vocabulary
from chordae.vocabulary.owl import disjoint_groups, owl_graph
from chordae.vocabulary.publish import FORMS, publish
from chordae.vocabulary.skos import ISO_THES, SCHEME, SKOSXL, skos_graph

SHAPES = Path(__file__).parent / "data" / "skos_integrity.ttl"
HEART, ATRIUM = URIRef(term_iri("heart")), URIRef(term_iri("atrium"))
RIGHT = URIRef(term_iri("morphologically_right_atrium"))
OUTSIDE = URIRef("http://purl.obolibrary.org/obo/UBERON_0000948")


@cache
def whole() -> Graph:
    return skos_graph(vocabulary(), codes_for)


def part(*slugs: str) -> Graph:
    """Return the statements about a few terms."""
    nodes = {URIRef(term_iri(slug)) for slug in slugs}
    small = Graph()
    for subject, predicate, value in whole():
        owner = URIRef(str(subject).split("/label/")[0])
        if owner in nodes and (
            not isinstance(value, URIRef) or predicate not in (SKOS.broader, SKOS.narrower) or value in nodes
        ):
            small.add((subject, predicate, value))
    return small


def broken(graph: Graph) -> list[str]:
    """Return the messages of the shapes that a graph does not meet."""
    _, report, _ = validate(graph, shacl_graph=str(SHAPES), inference="none")
    message = URIRef("http://www.w3.org/ns/shacl#resultMessage")
    return sorted({str(one) for one in report.objects(None, message)})


def test_the_whole_vocabulary_keeps_the_integrity_conditions() -> None:
    assert broken(whole()) == []


FAULTS = [
    ("S9", (HEART, RDF.type, SKOS.ConceptScheme)),
    ("S13", (HEART, SKOS.altLabel, Literal("heart", "en"))),
    ("S13", (HEART, SKOS.hiddenLabel, Literal("heart", "en"))),
    ("S14", (HEART, SKOS.prefLabel, Literal("organ of the chest", "en"))),
    ("S27", (RIGHT, SKOS.related, ATRIUM)),
    ("S37", (HEART, RDF.type, SKOS.Collection)),
    ("S46", (HEART, SKOS.broadMatch, OUTSIDE)),
    ("S46", (HEART, SKOS.relatedMatch, OUTSIDE)),
    ("S55", (URIRef(f"{HEART}/label/european"), SKOSXL.literalForm, Literal("another", "en"))),
    ("Ours: at most", (HEART, SKOS.exactMatch, URIRef("https://example.org/heart"))),
    ("Ours: a search", (HEART, SKOS.closeMatch, URIRef("https://w3id.org/sssom/NoTermFound"))),
]


@pytest.mark.parametrize(("condition", "fault"), FAULTS, ids=[f"{name}-{n}" for n, (name, _) in enumerate(FAULTS)])
def test_a_planted_fault_is_noticed(condition: str, fault: tuple[Any, Any, Any]) -> None:
    graph = part("heart", "atrium", "morphologically_right_atrium")
    assert broken(graph) == []
    graph.add(fault)
    assert any(one.startswith(condition) for one in broken(graph))


def skosify_checks(graph: Graph, caplog: pytest.LogCaptureFixture) -> list[str]:
    """Return the warnings of skosify about labels, cycles and relations, on a copy that it may repair."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        check = pytest.importorskip("skosify.check", reason="skosify is in the extra 'test'")
    copy = Graph()
    for triple in graph:
        copy.add(triple)
    caplog.clear()
    with caplog.at_level(logging.WARNING):
        check.hierarchy_cycles(copy, fix=True)
        check.disjoint_relations(copy, fix=True)
        check.preflabel_uniqueness(copy, policy="shortest")
        check.label_overlap(copy, fix=True)
    assert (set(copy) == set(graph)) == (caplog.messages == [])
    return list(caplog.messages)


def test_skosify_finds_nothing_to_repair(caplog: pytest.LogCaptureFixture) -> None:
    assert skosify_checks(whole(), caplog) == []


@pytest.mark.parametrize(
    "fault",
    [
        (HEART, SKOS.altLabel, Literal("heart", "en")),
        (HEART, SKOS.prefLabel, Literal("organ of the chest", "en")),
        (RIGHT, SKOS.related, ATRIUM),
        (ATRIUM, SKOS.broader, RIGHT),
    ],
    ids=["label-overlap", "two-preferred", "related-and-broader", "cycle"],
)
def test_skosify_notices_planted_faults(fault: tuple[Any, Any, Any], caplog: pytest.LogCaptureFixture) -> None:
    graph = part("heart", "atrium", "morphologically_right_atrium")
    graph.add(fault)
    assert skosify_checks(graph, caplog) != []


def test_both_schools_keep_their_preferred_label() -> None:
    node = URIRef(term_iri("left_hand_topology"))
    term = vocabulary()["left_hand_topology"]
    preferred = URIRef("https://w3id.org/chordae/model/preferred_in")
    said = {
        str(school).rpartition("/")[2]: str(whole().value(label, SKOSXL.literalForm))
        for role in (SKOSXL.prefLabel, SKOSXL.altLabel)
        for label in whole().objects(node, role)
        for school in whole().objects(label, preferred)
    }
    assert said == {"european_school": term.european, "north_american_school": term.north_american}
    for school in said:
        assert school in vocabulary()


def test_no_negative_row_is_exported_as_a_match() -> None:
    for term in vocabulary():
        for code in never_for(term.slug):
            for match in ("exactMatch", "closeMatch", "broadMatch", "narrowMatch", "relatedMatch"):
                assert (URIRef(term.iri), SKOS[match], URIRef(code.iri)) not in whole()
    exported = sum(1 for match in ("exactMatch", "closeMatch", "broadMatch", "narrowMatch", "relatedMatch")
                   for _ in whole().subject_objects(SKOS[match]))  # fmt: skip
    assert exported == sum(len(codes_for(term.slug)) for term in vocabulary())


def test_every_term_is_a_concept_with_definition_source_and_place_in_the_tree() -> None:
    for term in vocabulary():
        node = URIRef(term.iri)
        assert (node, SKOS.inScheme, SCHEME) in whole()
        assert whole().value(node, SKOS.definition)
        top = (node, SKOS.topConceptOf, SCHEME) in whole()
        assert top != bool(list(whole().objects(node, SKOS.broader)))


def test_no_form_has_blank_nodes() -> None:
    for graph in (whole(), owl_graph(vocabulary(), codes_for)):
        assert not any(isinstance(part_, BNode) for triple in graph for part_ in triple)


def test_turtle_and_jsonld_and_rdfxml_are_read_back_the_same() -> None:
    assert set(Graph().parse(publish("skos"), format="turtle")) == set(whole())
    assert set(Graph().parse(publish("jsonld"), format="json-ld")) == set(whole())
    assert set(Graph().parse(publish("owl"), format="xml")) == set(owl_graph(vocabulary(), codes_for))


@pytest.mark.parametrize(
    ("form", "syntax"),
    [
        ("skos", pyoxigraph.RdfFormat.TURTLE),
        ("jsonld", pyoxigraph.RdfFormat.JSON_LD),
        ("owl", pyoxigraph.RdfFormat.RDF_XML),
    ],
)
def test_an_independent_reader_sees_as_many_statements(form: str, syntax: Any) -> None:
    expected = owl_graph(vocabulary(), codes_for) if form == "owl" else whole()
    assert len(set(pyoxigraph.parse(publish(form), format=syntax))) == len(expected)


def test_the_jsonld_brings_its_context_along() -> None:
    document = json.loads(publish("jsonld"))
    assert all(isinstance(space, str) for space in document["@context"].values())
    assert len(document["@graph"]) > len(vocabulary())


def test_pronto_reads_the_ontology(tmp_path: Path) -> None:
    pronto = pytest.importorskip("pronto", reason="pronto is in the extra 'test'")
    path = tmp_path / "vocabulary.owl"
    path.write_bytes(publish("owl"))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        ontology = pronto.Ontology(str(path), encoding="utf-8")
    classes = [term for term in vocabulary() if term.kind != "relation"]
    assert len(ontology.terms()) == len(classes)
    assert len(ontology.relationships()) == len(vocabulary()) - len(classes)
    found = ontology[term_iri("straddling_mitral_valve")]
    above = {one.id for one in found.superclasses(with_self=False)}
    assert above == {term_iri(slug) for slug in vocabulary().ancestors("straddling_mitral_valve")}


def reasoned(extra: tuple[Any, Any, Any] | None = None) -> Graph:
    """Return the closure of classes and disjointness under OWL 2 RL, with one example of every class."""
    owlrl = pytest.importorskip("owlrl", reason="owlrl comes with pySHACL")
    graph = Graph()
    for triple in owl_graph(vocabulary(), codes_for):
        if triple[1] in (RDFS.subClassOf, OWL.disjointWith) or triple[1:] == (RDF.type, OWL.Class):
            graph.add(triple)
    if extra is not None:
        small = {extra[0], extra[2], *graph.transitive_objects(extra[0], RDFS.subClassOf)}
        small |= {*graph.transitive_objects(extra[2], RDFS.subClassOf)}
        keep = [one for one in graph if one[0] in small and (one[2] in small or one[2] == OWL.Class)]
        graph = Graph()
        for triple in (*keep, extra):
            graph.add(triple)
    for one in list(graph.subjects(RDF.type, OWL.Class)):
        graph.add((URIRef(f"{one}#example"), RDF.type, one))
    owlrl.DeductiveClosure(owlrl.OWLRL_Semantics).expand(graph)
    return graph


def errors(graph: Graph) -> list[str]:
    name = URIRef("http://www.daml.org/2002/03/agents/agent-ont#error")
    return [str(one) for one in graph.objects(None, name)]


def test_the_ontology_is_consistent_and_no_class_is_empty_by_definition() -> None:
    graph = reasoned()
    assert errors(graph) == []
    example = URIRef(f"{term_iri('straddling_mitral_valve')}#example")
    assert (example, RDF.type, URIRef(term_iri("congenital_heart_malformation"))) in graph


def test_the_reasoner_notices_a_class_in_two_disjoint_ones() -> None:
    fault = (URIRef(term_iri("right_isomerism")), RDFS.subClassOf, URIRef(term_iri("left_isomerism")))
    assert errors(reasoned(fault)) != []


def test_disjoint_groups_name_terms() -> None:
    assert len(disjoint_groups()) > 5
    assert all(len(slugs) > 1 for slugs in disjoint_groups().values())
    assert [slug for slugs in disjoint_groups().values() for slug in slugs if slug not in vocabulary()] == []


def test_the_table_has_one_line_a_term() -> None:
    rows = list(csv.DictReader(io.StringIO(publish("csv").decode())))
    assert [row["slug"] for row in rows] == sorted(term.slug for term in vocabulary())
    found = next(row for row in rows if row["slug"] == "double_outlet_right_ventricle")
    assert found["exact_codes"] == "HP:0001719"
    assert "MONDO:0018089" in found["close_codes"].split("|")


class _Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.articles: list[str] = []
        self.links: list[str] = []
        self.fetched: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        known = dict(attrs)
        if tag == "article":
            self.articles.append(known["id"] or "")
        if tag == "a":
            self.links.append(known["href"] or "")
        self.fetched += [f"{tag} {name}" for name in known if name in ("src", "srcset", "data", "action", "poster")]
        self.fetched += ["link"] if tag in ("link", "iframe", "object", "embed", "base") else []


def test_the_page_holds_every_term_and_fetches_nothing() -> None:
    text = publish("html").decode()
    page = _Page()
    page.feed(text)
    words = [f"word-{slug_of(friend.word)}" for friend in all_friends()]
    assert sorted(page.articles) == sorted([term.slug for term in vocabulary()] + words)
    assert len(set(page.articles)) == len(page.articles)
    assert page.fetched == []
    assert {link.removeprefix("#") for link in page.links} <= set(page.articles)
    assert not re.search(r"url\(|@import|fetch\(|XMLHttpRequest|import\(", text)
    assert "not for diagnosis" in text
    assert "not yet signed by a morphologist" in text
    for friend in all_friends():
        assert f"<dt>Ask</dt><dd><strong>{escape(friend.ask)}</strong>" in text
    assert "ICD-11 for mortality and morbidity statistics: " in text


def test_the_page_escapes_what_it_is_given(monkeypatch: pytest.MonkeyPatch) -> None:
    from dataclasses import replace

    from chordae.vocabulary import page

    bad = '<script>alert("x")</script>'
    terms = [replace(vocabulary()["heart"], european=bad, plain=bad, definition=bad, synonyms=(bad,))]

    class Small:
        version = "0.1.0"

        def __iter__(self) -> Iterator[Any]:
            return iter(terms)

        def narrower(self, slug: str) -> tuple[str, ...]:
            return ()

        def parts(self, slug: str) -> tuple[str, ...]:
            return ()

        def get(self, slug: str) -> None:
            return None

        def source(self, key: str) -> None:
            return None

    text = page.render_page(cast(Any, Small()), lambda slug: [], lambda slug: [], lambda slug: [])
    assert bad not in text
    assert "&lt;script&gt;" in text


def test_a_part_is_no_kind_of_its_whole() -> None:
    """In OWL a part is no subclass; in SKOS a whole stands above it and is called one (ISO 25964: partitive)."""
    arch, aorta = URIRef(vocabulary()["aortic_arch"].iri), URIRef(vocabulary()["aorta"].iri)
    owl, skos = Graph(), Graph()
    owl.parse(data=publish("owl"), format="xml")
    skos.parse(data=publish("skos"), format="turtle")
    assert not list(owl.objects(arch, RDFS.subClassOf))
    assert list(owl.objects(arch, URIRef(model_iri("part_of")))) == [aorta]
    assert list(skos.objects(arch, SKOS.broader)) == [aorta]
    assert list(skos.objects(arch, ISO_THES.broaderPartitive)) == [aorta]
    assert aorta not in set(skos.objects(arch, SKOS.related))
    partitive = set(skos.subject_objects(ISO_THES.broaderPartitive))
    assert len(partitive) == sum(len(term.part_of) for term in vocabulary()) > 40
    assert partitive <= set(skos.subject_objects(SKOS.broader))


@pytest.mark.parametrize("form", FORMS)
def test_the_same_bytes_under_every_hash_seed(form: str) -> None:
    code = f"import sys; from chordae.vocabulary.publish import publish; sys.stdout.buffer.write(publish({form!r}))"
    path = os.pathsep.join(sys.path)
    seen = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": path},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("0", "1")
    }
    assert len(seen) == 1


def test_the_command_writes_each_form(tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert set(VOCABULARY) == set(FORMS)
    out = tmp_path / "terms.csv"
    assert main(["write", "--vocabulary", "--to", "csv", "--out", str(out)]) == 0
    assert out.read_bytes() == publish("csv")
    assert main(["write", "--vocabulary"]) == 0
    assert capfdbinary.readouterr().out == publish("skos")


def test_an_unknown_form_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(FormatError):
        publish("pdf")
    assert main(["write", "--vocabulary", "--to", "ndjson"]) == 2
    assert "not written as ndjson" in capsys.readouterr().err
