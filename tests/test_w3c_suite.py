"""The W3C test suite of SHACL, through our own engine function, with both engines.

Outside reference: *SHACL Test Suite*, W3C RDF Data Shapes Working Group, 2017 (core and SPARQL; the suite of the
Recommendation of 20 July 2017). ``data/w3c_shacl_suite.zip`` holds its 121 tests, file for file as they are in
``test/resources/sht_tests`` of the source package of pySHACL 0.40.1 on PyPI (Apache-2.0); the suite itself is published
by the W3C under its document and software licence (name of the licence from memory). To make it again::

    pip download --no-deps --no-binary :all: pyshacl==0.40.1

Every test is run. Those that use no more of SHACL than our rules do have to pass with both engines; of the rest, the
ones that fail are written down here with what is different, and no other may fail.
"""

from __future__ import annotations

import re
import tomllib
import zipfile
from collections import Counter
from dataclasses import dataclass
from functools import cache
from importlib.metadata import version
from pathlib import Path

import pytest
from rdflib import RDF, Graph, URIRef
from rdflib.term import Node

from chordae.errors import ShapesError
from chordae.shapes.engines import CompiledShapes, Engine, literals_as_written, validate
from chordae.shapes.lint import CONSTRAINTS, OTHER, TARGETS
from chordae.shapes.load import ShapesGraph, read_texts
from chordae.shapes.paths import SH, format_path

TOP = Path(__file__).resolve().parents[1]
SUITE = TOP / "tests/data/w3c_shacl_suite.zip"
BASE = "https://example.org/suite/"
MF = "http://www.w3.org/2001/sw/DataAccess/tests/test-manifest#"
SHT = "http://www.w3.org/ns/shacl-test#"
REPORT = frozenset(
    {"ValidationReport", "ValidationResult", "conforms", "result", "focusNode", "resultPath", "resultSeverity", "value"}
    | {"sourceConstraint", "sourceConstraintComponent", "sourceShape", "resultMessage", "detail"}
)
"""Words of reports; a test file holds the expected one beside the shapes."""
TARGETED = frozenset({"targetNode"})
"""How the suite points its shapes at nodes; ours have classes and slots for that."""

REFUSAL = "sparql/pre-binding/unsupported-sparql-004"
OURS = 50
"""At least so many tests use no more words of SHACL than our rules do."""
ALLOWED = 88
"""At least so many use no more words of SHACL than the lint lets a rule use."""
KNOWN: dict[Engine, dict[str, str]] = {
    "fast": {
        REFUSAL: "checks a query with a part that does not hand on $this, instead of "
        "refusing it; the lint of our rules sees to it that $this is asked for",
    },
    "reference": {
        "core/property/uniqueLang-002": "counts uniqueLang once for the integer 1 as well as for true",
        "sparql/node/prefixes-001": "does not find prefixes declared on an imported ontology",
        "sparql/pre-binding/shapesGraph-001": "does not offer $shapesGraph",
    },
}
KNOWN["reference_cached"] = KNOWN["reference"]


@dataclass(frozen=True)
class SuiteTest:
    """One test: name, file, files of data and shapes, and what has to be found; ``None`` if the shapes are faulty."""

    name: str
    data: str
    shapes: str
    expected: Counter[tuple[str, ...]] | None
    words: frozenset[str]


def read(name: str) -> str:
    """One file of the suite."""
    with zipfile.ZipFile(SUITE) as archive:
        return archive.read(name).decode("utf-8")


def graph(name: str) -> Graph:
    """One file of the suite as a graph, literals as they are written."""
    with literals_as_written():
        return Graph(bind_namespaces="none").parse(data=read(name), format="turtle", publicID=BASE + name)


def term(value: object) -> str:
    """A node or literal in the spelling of our results."""
    if value is None:
        return ""
    if isinstance(value, URIRef):
        return f"<{value}>"
    text = value.n3() if hasattr(value, "n3") else str(value)
    return "_:" if text.startswith("_:") else re.sub(r"@[A-Za-z-]+$", lambda tag: tag[0].lower(), text)


def local(iri: str) -> str:
    """The last part of an IRI; severities and components of their own have one of their own."""
    return re.split(r"[/#]", iri)[-1]


def results(file: Graph, node: Node | None) -> Counter[tuple[str, ...]]:
    """Focus, path, value, severity and component of every expected result."""

    def one(result: Node, name: str) -> Node | None:
        return file.value(result, URIRef(SH + name))

    found = []
    for result in file.objects(node, URIRef(SH + "result")):
        focus, path = term(one(result, "focusNode")), one(result, "resultPath")
        found.append(
            (
                focus[1:-1] if focus.startswith("<") else focus,
                "" if path is None else format_path(file, path),
                term(one(result, "value")),
                local(str(one(result, "resultSeverity"))),
                local(str(one(result, "sourceConstraintComponent"))),
            )
        )
    return Counter(found)


@cache
def suite() -> tuple[SuiteTest, ...]:
    """Every test of the suite, by name."""
    found = []
    with zipfile.ZipFile(SUITE) as archive:
        names = sorted(archive.namelist())
    for name in names:
        file = graph(name)
        for entry in file.subjects(RDF.type, URIRef(SHT + "Validate")):
            action, result = (file.value(entry, URIRef(MF + key)) for key in ("action", "result"))
            data, shapes = (
                str(file.value(action, URIRef(SHT + key))).removeprefix(BASE) for key in ("dataGraph", "shapesGraph")
            )
            failure = result == URIRef(SHT + "Failure")
            words = {word for word in re.findall(r"\bsh:(\w+)", read(shapes)) if not word.endswith("Component")}
            expected = None if failure else results(file, result)
            found.append(SuiteTest(name.removesuffix(".ttl"), data, shapes, expected, frozenset(words - REPORT)))
    return tuple(sorted(found, key=lambda one: one.name))


@cache
def our_words() -> frozenset[str]:
    """The words of SHACL that our rules use."""
    used = ShapesGraph(read_texts())
    return frozenset(
        iri.removeprefix(SH)
        for predicates in used.found.values()
        for predicate, objects in predicates.items()
        for iri in (predicate, *(str(getattr(one, "value", one)) for one in objects))
        if iri.startswith(SH)
    )


def found_by(test: SuiteTest, engine: Engine) -> Counter[tuple[str, ...]] | None:
    """What an engine finds; ``None`` if it refuses the shapes."""
    shapes = CompiledShapes(f"@base <{BASE}{test.shapes}> .\n{read(test.shapes)}")
    try:
        found = validate(graph(test.data).serialize(format="nt"), shapes, engine)
    except ShapesError:
        return None
    return Counter((one.focus, one.path, one.value, local(one.severity), local(one.component)) for one in found)


def test_the_whole_suite_is_there() -> None:
    assert Counter(one.name.split("/")[0] for one in suite()) == {"core": 98, "sparql": 23}
    assert sum(one.expected is None for one in suite()) == 7
    assert sum(sum(one.expected.values()) for one in suite() if one.expected) == 235


@pytest.mark.parametrize("engine", ["fast", "reference"])
@pytest.mark.parametrize("test", suite(), ids=lambda test: test.name)
def test_an_engine_finds_what_the_suite_demands(test: SuiteTest, engine: Engine) -> None:
    if test.name in KNOWN[engine]:
        assert found_by(test, engine) != test.expected, "written down as failing, and passes now: take it off the list"
    else:
        assert found_by(test, engine) == test.expected


def test_engine_with_parsed_queries_passes_the_sparql_part_as_well() -> None:
    for test in suite():
        if test.name.startswith("sparql") and test.name not in KNOWN["reference_cached"]:
            assert found_by(test, "reference_cached") == test.expected, test.name


def test_what_our_rules_use_is_covered_and_nothing_of_it_is_among_the_failures() -> None:
    ours = {test.name for test in suite() if test.words <= our_words() | TARGETED}
    assert len(ours) >= OURS
    assert ours & {name for known in KNOWN.values() for name in known} == {REFUSAL}
    covered = frozenset().union(*(test.words for test in suite()))
    assert our_words() - covered <= {"description", "name", "message", "Info"}, "words that decide nothing"


def test_what_rules_may_use_is_passed_by_the_fast_engine() -> None:
    may = {test.name for test in suite() if test.words <= CONSTRAINTS | TARGETS | OTHER | TARGETED}
    assert len(may) >= ALLOWED
    assert may & KNOWN["fast"].keys() == {REFUSAL}


def test_the_engine_that_passed_is_pinned() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    (pin,) = [one for one in project["dependencies"] if one.startswith("shacl==")]
    assert pin.split(";")[0].strip() == f"shacl=={version('shacl')}"
