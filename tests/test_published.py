"""The published validation report: the same graph as pySHACL's, for every failing case of every rule.

Outside references: pySHACL's own report graph; the W3C Recommendation SHACL (2017), section 3.6, whose properties of a
report are checked with pySHACL against shapes written after it here.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pyshacl
import pytest
from pyshacl.graph_abstraction import DataGraph
from rdflib import RDF, BNode, Graph, Literal, URIRef
from rdflib.compare import isomorphic
from rdflib.term import Node

from chordae.cli import main
from chordae.shapes.engines import CompiledShapes, validate
from chordae.shapes.load import load_rules
from chordae.shapes.paths import SH
from chordae.shapes.published import write_validation_report
from chordae.shapes.reference import graph_with_parsed_queries, literals_as_written
from chordae.shapes.shapes_graph import read_texts
from rule_cases import cases, graph_of

TOP = Path(__file__).resolve().parents[1]
AFTER_THE_RECOMMENDATION = """
@prefix sh: <http://www.w3.org/ns/shacl#> . @prefix ex: <http://ex/> .
@prefix xsd: <http://www.w3.org/2001/XMLSchema#> .
ex:Report a sh:NodeShape ; sh:targetClass sh:ValidationReport ;
    sh:property [ sh:path sh:conforms ; sh:minCount 1 ; sh:maxCount 1 ; sh:datatype xsd:boolean ] ;
    sh:property [ sh:path sh:result ; sh:class sh:ValidationResult ] .
ex:Result a sh:NodeShape ; sh:targetClass sh:ValidationResult ;
    sh:property [ sh:path sh:focusNode ; sh:minCount 1 ; sh:maxCount 1 ] ;
    sh:property [ sh:path sh:resultPath ; sh:maxCount 1 ; sh:nodeKind sh:BlankNodeOrIRI ] ;
    sh:property [ sh:path sh:value ; sh:maxCount 1 ] ;
    sh:property [ sh:path sh:sourceShape ; sh:maxCount 1 ] ;
    sh:property [ sh:path sh:sourceConstraintComponent ; sh:minCount 1 ; sh:maxCount 1 ; sh:nodeKind sh:IRI ] ;
    sh:property [ sh:path sh:resultSeverity ; sh:minCount 1 ; sh:maxCount 1 ; sh:nodeKind sh:IRI ] ;
    sh:property [ sh:path sh:resultMessage ; sh:or ( [ sh:datatype xsd:string ] [ sh:datatype
        <http://www.w3.org/1999/02/22-rdf-syntax-ns#langString> ] ) ] .
"""


@cache
def shapes_of(file: str) -> CompiledShapes:
    """The rules of one file with the conditions that they share."""
    texts = read_texts()
    return CompiledShapes(texts["conditions.ttl"] + "\n" + texts[file])


def pyshacl_report(data: str, shapes: CompiledShapes) -> Graph:
    """The report graph of pySHACL, over a graph that parses each query once."""
    with literals_as_written():
        graph = DataGraph.from_rdflib(graph_with_parsed_queries()().parse(data=data, format="nt"))
        _, report, _ = pyshacl.validate(graph, shacl_graph=shapes.graph, inference="none")
    assert isinstance(report, Graph)
    return report


def read(text: str) -> Graph:
    """A report as a graph, literals as written."""
    with literals_as_written():
        return Graph().parse(data=text, format="turtle")


def without_names(graph: Graph) -> Graph:
    """The graph with a blank node in place of every name of a report or result, as pySHACL has them."""
    named = {node: BNode() for kind in ("ValidationReport", "ValidationResult")
             for node in graph.subjects(RDF.type, URIRef(SH + kind))}  # fmt: skip

    def of(node: Node) -> Node:
        return named.get(node, node)

    found = Graph()
    for one in graph:
        found.add((of(one[0]), one[1], of(one[2])))
    return found


@pytest.mark.parametrize("file", [name for name in read_texts() if name != "conditions.ttl"])
def test_the_report_is_the_graph_that_pyshacl_makes(file: str) -> None:
    rules = load_rules().rules
    data = "".join(graph_of(case) for case in cases() if rules[case.rule].file == file and case.kind == "failing")
    ours = read(write_validation_report(validate(data, shapes_of(file))))
    theirs = pyshacl_report(data, shapes_of(file))
    assert len(ours) > 50
    assert isomorphic(without_names(ours), without_names(theirs))


def test_a_graph_that_conforms() -> None:
    ours = read(write_validation_report([]))
    theirs = pyshacl_report("", shapes_of("septum.ttl"))
    assert isomorphic(without_names(ours), without_names(theirs))
    assert [str(one) for one in ours.objects(None, URIRef(SH + "conforms"))] == ["true"]


def test_the_report_has_the_properties_that_the_recommendation_asks_for() -> None:
    data = "".join(graph_of(case) for case in cases()[::25])
    report = read(write_validation_report(validate(data, load_rules().shapes)))
    conforms, _, text = pyshacl.validate(report, shacl_graph=Graph().parse(data=AFTER_THE_RECOMMENDATION))
    assert conforms, text
    report.remove((None, URIRef(SH + "focusNode"), None))
    report.add((BNode(), RDF.type, URIRef(SH + "ValidationReport")))
    report.add((BNode(), URIRef(SH + "conforms"), Literal(True)))
    assert not pyshacl.validate(report, shacl_graph=Graph().parse(data=AFTER_THE_RECOMMENDATION))[0]


def test_the_same_results_give_the_same_text_and_two_equal_ones_two_nodes() -> None:
    results = validate(graph_of(next(one for one in cases() if one.kind == "failing")), load_rules().shapes)
    assert results
    assert write_validation_report(results) == write_validation_report(list(results))
    report = read(write_validation_report([results[0], results[0]]))
    assert len(set(report.objects(None, URIRef(SH + "result")))) == 2


def test_focus_nodes_are_those_of_the_collection(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Under the base IRI of a deposit, or the one that is given; each node stands in the RDF of the deposit."""
    out = tmp_path / "deposit"
    assert main(["exchange", str(TOP / "examples/veyhaven"), "--out", str(out), "--fail-on", "never"]) == 0
    report = tmp_path / "report.ttl"
    main(["check", str(out), "--validation-report", str(report)])
    nodes = {str(one) for one in read(report.read_text(encoding="utf-8")).objects(None, URIRef(SH + "focusNode"))}
    graph = (out / "data/records.nq").read_text(encoding="utf-8")
    assert nodes and all(f"<{node}>" in graph for node in nodes)
    main(["check", str(out), "--validation-report", str(report), "--base", "https://example.org/other/"])
    capsys.readouterr()
    assert "<https://example.org/other/0088/part/" in report.read_text(encoding="utf-8")


def test_the_command_writes_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    hearts, out = tmp_path / "h.yaml", tmp_path / "report.ttl"
    hearts.write_text(
        "- {id: a, facts: {atrial_arrangement: usual, av_connection: mixed}}\n"
        "- {id: b, facts: {atrial_arrangement: usual, av_connection: concordant}}\n",
        encoding="utf-8",
    )
    assert main(["check", str(hearts), "--validation-report", str(out)]) == 1
    capsys.readouterr()
    report = read(out.read_text(encoding="utf-8"))
    shapes = {str(one).rpartition("/")[2] for one in report.objects(None, URIRef(SH + "sourceShape"))}
    assert "R-AV-02" in shapes
    assert {str(one) for one in report.objects(None, URIRef(SH + "focusNode"))} >= {
        "https://example.org/chordae/record/a"
    }
