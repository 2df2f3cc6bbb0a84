"""The two engines say the same of every form of shape that the rules use.

Outside reference: pySHACL, an independent implementation of the W3C Recommendation *Shapes Constraint
Language* (2017).
"""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
import rdflib

from chordae.errors import InputError, ShapesError
from chordae.shapes.engines import ENGINES, KNOWN_DIFFERENCES, CompiledShapes, Engine, validate
from chordae.shapes.result import Result

PREFIXES = """@prefix sh: <http://www.w3.org/ns/shacl#> .
@prefix xsd: <http://www.w3.org/2001/XMLSchema#> .
@prefix ex: <http://ex/> .
"""
VALVE = """<http://ex/v> <http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <http://ex/Valve> .
<http://ex/h> <http://ex/part> <http://ex/v> .
<http://ex/v> <http://ex/leaflets> "03"^^<http://www.w3.org/2001/XMLSchema#integer> .
<http://ex/v> <http://ex/note> "Zweites \\"Segel\\"\\nfehlt"@DE .
<http://ex/v> <http://ex/state> <http://ex/absent> .
"""

SHAPES = {
    "property": "ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ; sh:path ex:state ; sh:in (ex:present) .",
    "not": "ex:R a sh:NodeShape ; sh:targetClass ex:Valve ; sh:severity sh:Warning ;"
    " sh:not [ sh:property [ sh:path ex:state ; sh:hasValue ex:absent ] ] .",
    "or": "ex:R a sh:NodeShape ; sh:targetClass ex:Valve ; sh:or ("
    " [ sh:property [ sh:path ex:state ; sh:hasValue ex:present ] ] [ sh:nodeKind sh:Literal ] ) .",
    "xone": "ex:R a sh:NodeShape ; sh:targetClass ex:Valve ; sh:xone ([ sh:class ex:Valve ] [ sh:nodeKind sh:IRI ]) .",
    "inverse": "ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ; sh:path [ sh:inversePath ex:part ] ;"
    " sh:minCount 2 .",
    "sequence": "ex:R a sh:PropertyShape ; sh:targetSubjectsOf ex:part ; sh:path ( ex:part ex:leaflets ) ;"
    " sh:minInclusive 4 .",
    "alternative": "ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ;"
    " sh:minCount 1 ;"
    " sh:path [ sh:alternativePath ( ex:stated ( ex:derived [ sh:zeroOrMorePath ex:state ] ) ) ] .",
    "literal": "ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ; sh:path ex:note ; sh:maxLength 3 .",
    "qualified": "ex:R a sh:PropertyShape ; sh:targetSubjectsOf ex:part ; sh:path ex:part ;"
    " sh:qualifiedValueShape [ sh:class ex:Valve ] ; sh:qualifiedMinCount 2 .",
    "sparql": "ex:R a sh:NodeShape ; sh:targetClass ex:Valve ;"
    " sh:severity sh:Info ; sh:sparql [ sh:message 'm' ;"
    " sh:select 'SELECT $this ?value WHERE { $this <http://ex/leaflets> ?value . FILTER(?value > 2) }' ] .",
    "nested": "ex:R a sh:NodeShape ; sh:targetClass ex:Valve ;"
    " sh:property [ sh:path ex:note ; sh:datatype xsd:string ] .",
}
COMPONENTS = {
    "property": ("InConstraintComponent", "<http://ex/absent>"),
    "not": ("NotConstraintComponent", "<http://ex/v>"),
    "or": ("OrConstraintComponent", "<http://ex/v>"),
    "xone": ("XoneConstraintComponent", "<http://ex/v>"),
    "inverse": ("MinCountConstraintComponent", ""),
    "sequence": (
        "MinInclusiveConstraintComponent",
        '"03"^^<http://www.w3.org/2001/XMLSchema#integer>',
    ),
    "alternative": ("MinCountConstraintComponent", ""),
    "literal": ("MaxLengthConstraintComponent", '"Zweites \\"Segel\\"\\nfehlt"@de'),
    "qualified": ("QualifiedMinCountConstraintComponent", ""),
    "sparql": (
        "SPARQLConstraintComponent",
        '"03"^^<http://www.w3.org/2001/XMLSchema#integer>',
    ),
    "nested": ("DatatypeConstraintComponent", '"Zweites \\"Segel\\"\\nfehlt"@de'),
}


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("form", SHAPES)
def test_each_form_of_shape_gives_one_result(form: str, engine: Engine) -> None:
    found = validate(VALVE, CompiledShapes(PREFIXES + SHAPES[form]), engine)
    assert [(one.rule, one.component, one.value) for one in found] == [("http://ex/R", *COMPONENTS[form])]


@pytest.mark.parametrize("form", SHAPES)
def test_engines_agree_in_all_six_fields(form: str) -> None:
    shapes = CompiledShapes(PREFIXES + SHAPES[form])
    fast, *others = (validate(VALVE, shapes, engine) for engine in ENGINES)
    assert all(other == fast for other in others)


def test_all_shapes_together_agree() -> None:
    text = PREFIXES + "\n".join(body.replace("ex:R ", f"ex:R-{form} ") for form, body in SHAPES.items())
    shapes = CompiledShapes(text)
    fast, *others = (validate(VALVE, shapes, engine) for engine in ENGINES)
    assert len(fast) == len(SHAPES)
    assert all(other == fast for other in others)


def test_a_clean_graph_gives_nothing() -> None:
    shapes = CompiledShapes(PREFIXES + SHAPES["property"])
    clean = VALVE.replace("http://ex/absent", "http://ex/present")
    assert [validate(clean, shapes, engine) for engine in ENGINES] == [[], [], []]


@pytest.mark.parametrize("engine", ENGINES)
def test_broken_graph_and_broken_shapes_are_errors_with_words(engine: Engine) -> None:
    with pytest.raises(InputError, match="not N-Triples"):
        validate("<http://ex/v> <http://ex/p> .\n", CompiledShapes(PREFIXES + SHAPES["not"]), engine)
    with pytest.raises(ShapesError):
        validate(VALVE, CompiledShapes("this is not Turtle"), engine)


def test_an_empty_shapes_graph_is_refused_rather_than_passed() -> None:
    with pytest.raises(ShapesError, match="nothing would be checked"):
        validate(VALVE, CompiledShapes(PREFIXES))


def test_known_difference_blank_node_order() -> None:
    shapes = CompiledShapes(
        PREFIXES + "ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ; sh:path ex:a ; sh:lessThanOrEquals ex:b ."
    )
    graph = VALVE + '_:x <http://ex/p> "1" .\n<http://ex/v> <http://ex/a> _:x .\n<http://ex/v> <http://ex/b> _:x .\n'
    assert [one.value for one in validate(graph, shapes, "fast")] == ["_:"]
    with pytest.raises(ShapesError, match="reference engine stopped"):
        validate(graph, shapes, "reference")


@pytest.mark.parametrize("value", ['"true"^^xsd:boolean', '"2020-01-01"^^xsd:date', '"NaN"^^xsd:double'])
def test_known_difference_incomparable(value: str) -> None:
    shapes = CompiledShapes(
        PREFIXES + "ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ; sh:path ex:a ; sh:maxInclusive 0 ."
    )
    lexical, kind = value.split("^^xsd:")
    graph = VALVE + f"<http://ex/v> <http://ex/a> {lexical}^^<http://www.w3.org/2001/XMLSchema#{kind}> .\n"
    assert [one.component for one in validate(graph, shapes, "fast")] == ["MaxInclusiveConstraintComponent"]
    assert validate(graph, shapes, "reference") == []


def test_known_difference_nan_and_decimal() -> None:
    shapes = CompiledShapes(
        PREFIXES + "ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ; sh:path ex:a ; sh:minExclusive 1.5 ."
    )
    graph = VALVE + '<http://ex/v> <http://ex/a> "NaN"^^<http://www.w3.org/2001/XMLSchema#double> .\n'
    assert len(validate(graph, shapes, "fast")) == 1
    with pytest.raises(ShapesError, match="reference engine stopped"):
        validate(graph, shapes, "reference")


def test_known_difference_computed_value() -> None:
    query = "SELECT DISTINCT $this ?value WHERE { $this <http://ex/leaflets> ?n . BIND (?n + 1 AS ?value) }"
    shapes = CompiledShapes(
        PREFIXES
        + f"ex:R a sh:NodeShape ; sh:targetClass ex:Valve ; sh:sparql [ sh:message 'm' ; sh:select '{query}' ] ."
    )
    assert [one.value for one in validate(VALVE, shapes, "fast")] == [""]
    assert [one.value for one in validate(VALVE, shapes, "reference")] == [
        '"4"^^<http://www.w3.org/2001/XMLSchema#integer>'
    ]


def test_known_difference_repeated_solution() -> None:
    query = "SELECT $this WHERE { $this ?any ?thing }"
    text = PREFIXES + "ex:R a sh:NodeShape ; sh:targetClass ex:Valve ; sh:sparql [ sh:message 'm' ; sh:select '%s' ] ."
    shapes, distinct = (CompiledShapes(text % one) for one in (query, query.replace("SELECT", "SELECT DISTINCT")))
    assert [len(validate(VALVE, shapes, engine)) for engine in ENGINES] == [4, 1, 1]
    assert [len(validate(VALVE, distinct, engine)) for engine in ENGINES] == [1, 1, 1]


def test_every_known_difference_has_a_test() -> None:
    names = {
        name.removeprefix("test_known_difference_").replace("_", "-") for name in globals() if "_known_diff" in name
    }
    assert names >= set(KNOWN_DIFFERENCES)


def test_literal_setting_of_rdflib_is_put_back() -> None:
    before = rdflib.NORMALIZE_LITERALS
    validate(VALVE, CompiledShapes(PREFIXES + SHAPES["not"]), "reference")
    assert rdflib.NORMALIZE_LITERALS is before


def test_threads_share_one_set_of_shapes() -> None:
    shapes = CompiledShapes(
        PREFIXES
        + "\n".join(SHAPES[form] for form in ("property", "sparql")).replace(
            "ex:R a sh:NodeShape", "ex:S a sh:NodeShape"
        )
    )
    alone: list[Result] = validate(VALVE, shapes)
    with ThreadPoolExecutor(4) as pool:
        assert set(map(tuple, pool.map(lambda _: validate(VALVE, shapes), range(200)))) == {tuple(alone)}
