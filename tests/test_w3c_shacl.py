"""Both engines, through our own ``validate``, on the W3C test suite of SHACL: core and SPARQL.

Source: test suite of the W3C Recommendation *Shapes Constraint Language (SHACL)*, 20 July 2017 (tests/data/w3c_shacl).
Results are compared as a whole, in focus, path, value, severity, component and shape. What an engine does not pass is
named here, so that another version of it is noticed at once.
"""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import version
from pathlib import Path

import pyoxigraph
import pytest
from rdflib import RDF, Graph, Namespace, URIRef

from chordae.errors import ShapesError
from chordae.shapes import reference
from chordae.shapes.engines import ENGINES, CompiledShapes, Engine, validate
from chordae.shapes.lint import CONSTRAINTS, OTHER, TARGETS
from chordae.shapes.result import Result
from chordae.shapes.shapes_graph import read_texts

SUITE = Path(__file__).parent / "data" / "w3c_shacl"
FILES = sorted(SUITE.rglob("*.ttl"))
MF = Namespace("http://www.w3.org/2001/sw/DataAccess/tests/test-manifest#")
SHT = Namespace("http://www.w3.org/ns/shacl-test#")

_PYSHACL = {
    "core/property/uniqueLang-002": "reads another spelling of the boolean true otherwise",
    "sparql/node/prefixes-001": "does not collect prefixes that owl:imports declares",
    "sparql/pre-binding/shapesGraph-001": "does not offer the shapes graph to a query",
}
REFUSAL = "sparql/pre-binding/unsupported-sparql-004"
REPORT = frozenset(
    {"ValidationReport", "ValidationResult", "conforms", "result", "focusNode", "resultPath", "resultSeverity", "value"}
    | {"sourceConstraint", "sourceShape", "resultMessage", "detail"}
)
"""Words of reports: a file of the suite holds the expected one beside the shapes."""
NOT_PASSED: dict[Engine, dict[str, str]] = {
    "fast": {REFUSAL: "does not refuse a query that SHACL forbids"},
    "reference": _PYSHACL,
    "reference_cached": _PYSHACL,
}


def text_of(path: Path) -> str:
    """The file with the base that its relative names need."""
    return f"@base <http://www.w3.org/suite/{path.relative_to(SUITE).as_posix()}> .\n" + path.read_text(
        encoding="utf-8"
    )


def is_test(path: Path) -> bool:
    return "sht:Validate" in path.read_text(encoding="utf-8")


TESTS = [path for path in FILES if is_test(path)]


def parts(path: Path) -> tuple[str, str, Graph, list[Result] | None]:
    """Data as N-Triples, shapes as Turtle, the graph of the test, the results expected (``None``: a failure)."""
    with reference.literals_as_written():
        graph = Graph().parse(data=text_of(path), format="turtle")
    (test,) = graph.subjects(RDF.type, SHT.Validate)
    action, result = graph.value(test, MF.action), graph.value(test, MF.result)
    files = {name: graph.value(action, SHT[name]) for name in ("dataGraph", "shapesGraph")}
    texts = {name: text_of(SUITE / str(iri).removeprefix("http://www.w3.org/suite/")) for name, iri in files.items()}
    data = pyoxigraph.serialize(
        pyoxigraph.parse(texts["dataGraph"], format=pyoxigraph.RdfFormat.TURTLE), format=pyoxigraph.RdfFormat.N_TRIPLES
    ).decode()
    if result == SHT.Failure:
        return data, texts["shapesGraph"], graph, None
    wanted = set(graph.objects(result, URIRef("http://www.w3.org/ns/shacl#result")))
    for other in set(graph.subjects(RDF.type, URIRef("http://www.w3.org/ns/shacl#ValidationResult"))) - wanted:
        graph.remove((other, None, None))
    return data, texts["shapesGraph"], graph, sorted(reference.read_report(graph, reference.named_ancestors(graph)))


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("path", TESTS, ids=lambda path: path.relative_to(SUITE).as_posix()[:-4])
def test_engine_passes(path: Path, engine: Engine) -> None:
    name = path.relative_to(SUITE).as_posix()[:-4]
    data, shapes, _, wanted = parts(path)
    try:
        found: list[Result] | None = validate(data, CompiledShapes(shapes), engine)
    except ShapesError:
        found = None
    assert (found == wanted) == (name not in NOT_PASSED[engine]), (found, wanted)


def test_the_whole_suite_was_run() -> None:
    assert len([path for path in TESTS if "core" in path.parts]) == 98
    assert len([path for path in TESTS if "sparql" in path.parts]) == 23
    assert all((SUITE / f"{name}.ttl") in TESTS for names in NOT_PASSED.values() for name in names)


def test_the_engine_is_the_one_that_was_looked_at() -> None:
    project = tomllib.loads((SUITE.parents[2] / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    (pin,) = [one for one in project["dependencies"] if one.startswith("shacl==")]
    assert version("shacl") == "0.3.4" == pin.split(";")[0].strip().removeprefix("shacl==")


def words(text: str) -> set[str]:
    """Words of SHACL in a file that an engine acts on: not those of reports, nor names of components."""
    found = set(re.findall(r"\bsh:(\w+)", text))
    return {word for word in found - REPORT if not word.endswith("Component")}


def test_the_suite_covers_what_our_rules_use_and_both_engines_pass_that_part() -> None:
    used = set().union(*map(words, read_texts().values()))
    ours = {path for path in TESTS if words(parts(path)[1]) <= used | {"targetNode"}}
    assert len(ours) >= 50
    failed = {SUITE / f"{name}.ttl" for names in NOT_PASSED.values() for name in names}
    assert ours & failed <= {SUITE / f"{REFUSAL}.ttl"}, "the lint refuses such a query"
    assert used - set().union(*(words(text_of(path)) for path in FILES)) <= {"name", "description", "message", "Info"}
    may = {path for path in TESTS if words(parts(path)[1]) <= CONSTRAINTS | TARGETS | OTHER | {"targetNode"}}
    assert len(may) >= 88 and may & {SUITE / f"{name}.ttl" for name in NOT_PASSED["fast"]} == {SUITE / f"{REFUSAL}.ttl"}
