"""A rule file with a fault is refused, with file, rule and fault; the rule files of the package have none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from chordae.errors import ShapesError
from chordae.shapes.lint import Names, fields, lint
from chordae.shapes.load import load_rules, read_rules
from chordae.shapes.shapes_graph import ShapesGraph, read_texts

NAMES = Names(
    classes=frozenset({"Record", "AtrioventricularValve"}),
    slots=frozenset({"parts", "leaflet_count", "stated_valve_type", "note"}),
    terms=frozenset({"tricuspid_valve", "absent"}),
    sources=frozenset({"EMED"}),
)
PREFIXES = """@prefix book: <https://w3id.org/chordae/rulebook/> .
@prefix cond: <https://w3id.org/chordae/condition/> .
@prefix dcterms: <http://purl.org/dc/terms/> .
@prefix model: <https://w3id.org/chordae/model/> .
@prefix rule: <https://w3id.org/chordae/rule/> .
@prefix sh: <http://www.w3.org/ns/shacl#> .
@prefix skos: <http://www.w3.org/2004/02/skos/core#> .
@prefix src: <https://w3id.org/chordae/source/> .
@prefix term: <https://w3id.org/chordae/term/> .
"""
GOOD = """rule:R-AV-90 a sh:NodeShape ;
    sh:targetClass model:AtrioventricularValve ;
    sh:name "Leaflets"@en ;
    sh:description "A tricuspid valve has leaflets."@en ;
    sh:not [ sh:property [ sh:path model:leaflet_count ; sh:hasValue 0 ] ] ;
    sh:severity sh:Violation ;
    sh:message "No leaflet is recorded."@en ;
    book:template "{leaflet_count} leaflets are recorded."@en ;
    book:remedy "Count again."@en ;
    book:about model:leaflet_count ;
    skos:scopeNote "A valve without leaflets closes nothing."@en ;
    dcterms:source src:EMED ; book:school "both" ; book:since "0.1.0" .
"""
QUERY = 'sh:sparql [ sh:select "SELECT DISTINCT $this WHERE { $this <https://w3id.org/chordae/model/note> ?n }" ]'

FAULTS = {
    "a misspelt word of SHACL": (("sh:hasValue 0", "sh:hasvalue 0"), "hasvalue is no word of SHACL"),
    "a word of SHACL that rules do not use": (
        ("sh:severity", "sh:deactivated true ; sh:severity"),
        "deactivated is no",
    ),
    "an unknown target": (("model:AtrioventricularValve", "model:AtrioventricularValv"), "AtrioventricularValv is no"),
    "an unknown slot in a path": (
        ("sh:path model:leaflet_count", "sh:path model:leaflets"),
        "leaflets is no class or slot",
    ),
    "a path over a foreign property": (("sh:path model:leaflet_count", "sh:path src:EMED"), "a path goes over"),
    "an unknown term": (("sh:hasValue 0", "sh:hasValue term:absnt"), "absnt is no term"),
    "an unknown source": (("src:EMED", "src:NOBODY"), "NOBODY is no source"),
    "no message": (('    sh:message "No leaflet is recorded."@en ;\n', ""), "needs one message, has 0"),
    "two messages": (("sh:severity", 'sh:message "Another."@en ; sh:severity'), "needs one message, has 2"),
    "no remedy": (('    book:remedy "Count again."@en ;\n', ""), "needs one remedy, has 0"),
    "no severity": (("    sh:severity sh:Violation ;\n", ""), "needs one severity, has 0"),
    "no source": (("dcterms:source src:EMED ; ", ""), "needs a source"),
    "no reason": (('    skos:scopeNote "A valve without leaflets closes nothing."@en ;\n', ""), "needs one reason"),
    "no label": (('    sh:name "Leaflets"@en ;\n', ""), "needs one label"),
    "no school": (('book:school "both" ; ', ""), "needs one school"),
    "an unknown school": (('book:school "both"', 'book:school "swiss"'), "the school is neither"),
    "no version": ((' ; book:since "0.1.0"', ""), "needs one version"),
    "no slot to point to": (("    book:about model:leaflet_count ;\n", ""), "which slot an issue points to"),
    "no target": (("    sh:targetClass model:AtrioventricularValve ;\n", ""), "has no target"),
    "no constraint": (
        ("    sh:not [ sh:property [ sh:path model:leaflet_count ; sh:hasValue 0 ] ] ;\n", ""),
        "has 0: none",
    ),
    "a query for any slot of whatever it is": (
        (
            "sh:not [ sh:property [ sh:path model:leaflet_count ; sh:hasValue 0 ] ]",
            'sh:sparql [ sh:select "SELECT DISTINCT $this WHERE { $this ?slot ?value . }" ]',
        ),
        "asks for any slot of a node that is no part",
    ),
    "two constraints": (("sh:severity", "sh:nodeKind sh:IRI ; sh:severity"), "has 2: nodeKind, not"),
    "a property shape without a name": (
        ("sh:not [ sh:property", "sh:property [ sh:node"),
        "give the rule itself the path",
    ),
    "a message that is no sentence": (('"No leaflet is recorded."', '"no leaflet"'), "the message is no sentence"),
    "a place to fill in the message": (
        ('"No leaflet is recorded."', '"No {leaflet_count}."'),
        "holds a place to fill in",
    ),
    "an id in the message": (('"No leaflet is recorded."', '"See R-AV-13."'), "or a rule id"),
    "a template with an unknown place": (("{leaflet_count} leaflets", "{leaflets} leaflets"), "asks for {leaflets}"),
    "an id of another form": (("rule:R-AV-90", "rule:AV90"), "does not have the form"),
    "a shape outside the rules": (("rule:R-AV-90", "src:EMED"), "neither a rule nor a condition"),
    "a query that does not parse": (
        ("sh:not [ sh:property [ sh:path model:leaflet_count ; sh:hasValue 0 ] ]", QUERY.replace("WHERE", "WERE")),
        "does not parse",
    ),
    "a query that repeats solutions": (
        ("sh:not [ sh:property [ sh:path model:leaflet_count ; sh:hasValue 0 ] ]", QUERY.replace("DISTINCT ", "")),
        "must begin with SELECT DISTINCT $this",
    ),
    "a word that is no value of the slot": (
        ("sh:path model:leaflet_count ; sh:hasValue 0", "sh:path model:septal_leaflet ; sh:hasValue term:aorta"),
        "aorta is no value of septal_leaflet",
    ),
    "a word in a list that is no value of either slot": (
        (
            "sh:path model:leaflet_count ; sh:hasValue 0",
            "sh:path [ sh:alternativePath ( model:septal_leaflet model:mural_leaflet ) ] ; sh:qualifiedMinCount 1 ; "
            "sh:qualifiedValueShape [ sh:not [ sh:in ( term:normal_leaflet term:aorta ) ] ]",
        ),
        "aorta is no value of mural_leaflet or septal_leaflet",
    ),
    "a slot of another class": (
        ("sh:path model:leaflet_count ; sh:hasValue 0", 'sh:path model:leiden_code ; sh:hasValue "1R"'),
        "leiden_code is no slot of AtrioventricularValve",
    ),
    "a condition that does not exist": (
        ("sh:not [ sh:property [", "sh:not [ sh:node cond:isomersm ; sh:property ["),
        "there is no condition isomersm",
    ),
    "a limit that is no number": (("sh:hasValue 0", 'sh:minExclusive "fifty"'), '"fifty" is no number'),
    "a count that is no number": (("sh:hasValue 0", "sh:minCount 1.5"), '"1.5" is no number'),
    "a pattern that cannot be read": (("sh:hasValue 0", 'sh:pattern "^(R|L"'), "is no pattern"),
    "a condition that nothing uses": (
        ("rule:R-AV-90", 'cond:idle a sh:NodeShape ; sh:name "idle"@en ; sh:nodeKind sh:IRI .\nrule:R-AV-90'),
        "no rule uses this condition",
    ),
}


def faults(text: str) -> list[str]:
    return lint(ShapesGraph({"valves.ttl": PREFIXES + text}), NAMES)


def test_a_good_rule_has_no_fault() -> None:
    assert faults(GOOD) == []
    assert faults(GOOD.replace("sh:not [ sh:property [ sh:path model:leaflet_count ; sh:hasValue 0 ] ]", QUERY)) == []


@pytest.mark.parametrize("name", FAULTS)
def test_each_fault_is_told_with_file_and_rule(name: str) -> None:
    (old, new), told = FAULTS[name]
    assert old in GOOD
    found = faults(GOOD.replace(old, new))
    assert any(told in fault for fault in found), found
    assert all(fault.startswith("valves.ttl") for fault in found if "written" not in fault)


def test_an_id_given_twice() -> None:
    assert any("R-AV-90: written 2 times" in fault for fault in faults(GOOD + GOOD))


def test_an_id_given_twice_in_two_files() -> None:
    graph = ShapesGraph({"a.ttl": PREFIXES + GOOD, "b.ttl": PREFIXES + GOOD})
    assert any("written 2 times" in fault for fault in lint(graph, NAMES))


def test_a_shape_without_a_name_that_stands_by_itself() -> None:
    loose = "[] a sh:NodeShape ; sh:targetClass model:Record ; sh:nodeKind sh:IRI .\n"
    found = faults(GOOD + loose)
    assert any("stands by itself" in fault for fault in found)
    assert any("has a target of its own" in fault for fault in found)


def test_a_rule_without_cases() -> None:
    graph = ShapesGraph({"valves.ttl": PREFIXES + GOOD})
    assert any("has no cases" in fault for fault in lint(graph, replace(NAMES, cases=frozenset({"R-AV-13"}))))
    assert lint(graph, replace(NAMES, cases=frozenset({"R-AV-90"}))) == []


def test_all_faults_of_all_files_are_told_at_once() -> None:
    text = GOOD.replace("sh:hasValue 0", "sh:hasvalue 0").replace("src:EMED", "src:NOBODY")
    assert len(faults(text)) >= 2


def test_a_file_that_is_no_turtle_is_named_with_its_line() -> None:
    with pytest.raises(ShapesError, match=r"valves\.ttl.*line 3"):
        ShapesGraph({"valves.ttl": "\n\nthis is no Turtle"})


def test_the_rule_files_of_the_package_have_no_fault() -> None:
    assert lint(ShapesGraph(read_texts()), Names.of_the_package()) == []


def test_the_table_of_rules_tells_what_the_shape_says() -> None:
    (rule,) = read_rules(ShapesGraph({"valves.ttl": PREFIXES + GOOD})).values()
    assert (rule.id, rule.severity, rule.sources, rule.school) == ("R-AV-90", "violation", ("EMED",), "both")
    assert rule.targets == ("AtrioventricularValve",)
    assert rule.reads == rule.about == ("leaflet_count",)
    assert rule.template == "{leaflet_count} leaflets are recorded."


def test_rules_of_the_package_know_what_they_read() -> None:
    rule = load_rules().rules["R-AV-13"]
    assert rule.reads == ("septal_chordal_attachment", "septal_leaflet", "stated_valve_type")
    assert {"atrial_arrangement", "av_connection", "stated", "derived"} <= set(load_rules().rules["R-AV-01"].reads)


def test_fields_of_a_template() -> None:
    assert fields("{a} and {stated.b}, {") == ["{a} and {stated.b}, {"]
    assert fields("{a} and {stated.b}") == ["a", "stated.b"]
