"""The W3C validation report of a check: results of an engine in, Turtle out (sh:ValidationReport).

::

    <https://w3id.org/chordae/report> a sh:ValidationReport ;
        sh:conforms false ;
        sh:result <https://w3id.org/chordae/result/5f1c...> .
    <https://w3id.org/chordae/result/5f1c...> a sh:ValidationResult ;
        sh:focusNode ... ; sh:resultPath ... ; sh:value ... ; sh:sourceShape rule:R-AV-13 ;
        sh:sourceConstraintComponent sh:NotConstraintComponent ; sh:resultSeverity sh:Violation ;
        sh:resultMessage "..."@en .

It says what the rules say of the graph: before a profile, before confirmations, without structure and reading; these
are in the list of issues. As the Recommendation has it, any result makes the graph not conform, a warning too.
Results are written as they come, so a report of any size can be written; nodes have IRIs, only steps of a path of
several slots have none.

Source: W3C Recommendation SHACL (2017), section 3.6.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from functools import cache
from typing import TYPE_CHECKING

from chordae.shapes.load import RuleBase, load_rules
from chordae.shapes.paths import RDF, REPEATS, SH
from chordae.shapes.result import Result
from chordae.shapes.shapes_graph import BASE, RULE, ShapesGraph, plain, read_texts

if TYPE_CHECKING:
    from chordae.shapes.shapes_graph import Term

__all__ = ["REPORT", "ValidationReport", "write_validation_report"]

REPORT = BASE + "report"
RESULT = BASE + "result/"
_HEAD = f"@prefix sh: <{SH}> .\n@prefix rule: <{RULE}> .\n"


def write_validation_report(results: Iterable[Result], rules: RuleBase | None = None) -> str:
    """Return the report as Turtle; the same results in the same order give the same text.

    Parameters
    ----------
    results
        Findings of an engine (:func:`chordae.shapes.engines.validate`).
    rules
        The rules that were checked; by default those of the package.
    """
    report = ValidationReport(rules)
    return report.begin() + report.add(results) + report.end()


class ValidationReport:
    """A report that is written while results come: :meth:`begin`, then :meth:`add` again and again, then :meth:`end`.

    Only what tells equal results apart is remembered: 16 bytes for each.
    """

    def __init__(self, rules: RuleBase | None = None) -> None:
        self._rules = rules or load_rules()
        self._seen: dict[bytes, int] = {}
        self._told: set[str] = set()

    def begin(self) -> str:
        """The first lines."""
        return _HEAD

    def add(self, results: Iterable[Result]) -> str:
        """The lines of some results."""
        return "".join(map(self._one, results))

    def end(self) -> str:
        """The last lines: what is said of all results together."""
        return f"<{REPORT}> a sh:ValidationReport ; sh:conforms {'false' if self._seen else 'true'} .\n"

    def _one(self, result: Result) -> str:
        key = hashlib.sha256("\n".join(_fields(result)).encode()).digest()[:16]
        number = self._seen[key] = self._seen.get(key, 0) + 1
        name = f"<{RESULT}{key.hex()}{'' if number == 1 else f'-{number}'}>"
        return f"<{REPORT}> sh:result {name} .\n{name} {_told(result, self._rules)} .\n{self._path(result)}"

    def _path(self, result: Result) -> str:
        """What the node of a path means, the first time that it is used."""
        rule = self._rules.by_iri(result.rule).id
        if not result.path or rule in self._told or not _paths()[rule][1]:
            return ""
        self._told.add(rule)
        return " ".join(_paths()[rule]) + " .\n"


def _told(result: Result, rules: RuleBase) -> str:
    rule = rules.by_iri(result.rule)
    said = [
        "a sh:ValidationResult",
        f"sh:focusNode <{result.focus}>",
        f"sh:sourceShape rule:{rule.id}",
        f"sh:sourceConstraintComponent sh:{result.component}",
        f"sh:resultSeverity sh:{result.severity}",
        f"sh:resultMessage {_quote(rule.message)}@en",
    ]
    if result.path:
        said.append(f"sh:resultPath {_paths()[rule.id][0]}")
    if result.value:
        said.append(f"sh:value {result.value}")
    return " ;\n    ".join(said)


def _fields(result: Result) -> tuple[str, ...]:
    return result.focus, result.path, result.rule, result.value, result.severity, result.component


@cache
def _paths() -> dict[str, tuple[str, str]]:
    """The path of every rule that has one, in Turtle: its node, and what is said of it (nothing of a single slot)."""
    graph = ShapesGraph(read_texts())
    found = {}
    for shape in graph.shapes():
        for node in graph.objects(shape, SH + "path"):
            rule, path = shape.value.removeprefix(RULE), _path(graph, node)
            if path.startswith("<"):
                found[rule] = path, ""
            elif members := graph.members(node):
                rest = " ".join(_path(graph, one) for one in members[1:])
                found[rule] = f"_:{rule}", f"<{RDF}first> {_path(graph, members[0])} ; <{RDF}rest> ( {rest} )"
            else:
                found[rule] = f"_:{rule}", path[2:-2]
    return found


def _path(graph: ShapesGraph, node: Term) -> str:
    if members := graph.members(node):
        return "( " + " ".join(_path(graph, one) for one in members) + " )"
    for predicate in (SH + "inversePath", SH + "alternativePath", *REPEATS):
        for inner in graph.objects(node, predicate):
            return f"[ sh:{predicate.removeprefix(SH)} {_path(graph, inner)} ]"
    return f"<{plain(node)}>"


def _quote(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\r", "\\r")
    return f'"{escaped}"'
