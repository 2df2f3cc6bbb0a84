"""Read the rules: ``schema/shapes/*.ttl`` in, a table of rules and the compiled shapes out.

One shape is one rule, and the IRI of the shape is the IRI of the rule::

    rule:R-AV-13 a sh:NodeShape ;
        sh:targetClass model:AtrioventricularValve ; what it looks at
        sh:not [ ... ] ;                             the one constraint
        sh:severity sh:Violation ;
        sh:name "..." ; sh:description "..." ;       label; the rule as a sentence
        sh:message "..." ;                           what was found, readable without any filling in
        book:template "... {leaflet_count} ..." ;    the same with slots filled in (optional)
        book:remedy "..." ;                          what to do
        book:about model:septal_chordal_attachment ; the slots an issue points to
        skos:scopeNote "..." ;                       why the rule holds
        book:exception "..." ;                       hearts to which it does not apply (optional)
        dcterms:source src:EMED ; book:school "both" ; book:since "0.1.0" .

A *condition* (``cond:isomerism``) is a shape without target that rules share. It reports nothing by itself.

The files are linted before anything is checked (`chordae.shapes.lint`): a misspelt word in a shape would
otherwise make it pass everything in silence.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from chordae.errors import ShapesError
from chordae.issues import Severity
from chordae.shapes.engines import CompiledShapes
from chordae.shapes.paths import SH
from chordae.shapes.shapes_graph import (
    BOOK,
    CONDITION,
    DCTERMS,
    MODEL,
    RULE,
    SKOS,
    SOURCE,
    ShapesGraph,
    plain,
    read_texts,
)

if TYPE_CHECKING:
    from chordae.shapes.shapes_graph import Term

__all__ = ["PAIRS", "RULE_ID", "SEVERITIES", "Rule", "RuleBase", "load_rules", "read_rules"]

SEVERITIES: Mapping[str, Severity] = {
    SH + "Violation": "violation",
    SH + "Warning": "warning",
    SH + "Info": "info",
}
PAIRS = frozenset(SH + name for name in ("equals", "disjoint", "lessThan", "lessThanOrEquals"))
RULE_ID = re.compile(r"R-[A-Z]{2,5}-\d{2}[A-Z]?")


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of morphology, as its shape tells it.

    ``message`` reads without any filling in; ``template`` may hold ``{slot}`` places. ``about`` are the slots an
    issue points to, first the one whose value it shows. ``targets`` are classes of the schema and ``target_slots``
    slots: the rule looks at every node of such a class or with such a slot. ``reads`` are the slots that the
    constraint looks at. ``sources`` are keys of ``schema/sources.tsv``, which says how far each was read
    (``from_memory`` and ``common_practice`` are keys of it). ``school`` is ``both``, ``european`` or
    ``north_american``.
    """

    id: str
    label: str
    statement: str
    message: str
    template: str
    remedy: str
    severity: Severity
    sources: tuple[str, ...]
    why: str
    exceptions: tuple[str, ...]
    school: str
    since: str
    about: tuple[str, ...]
    targets: tuple[str, ...]
    target_slots: tuple[str, ...]
    reads: tuple[str, ...]
    file: str

    @property
    def iri(self) -> str:
        """The IRI of the rule, which is the IRI of its shape."""
        return RULE + self.id

    @property
    def silence(self) -> bool:
        """Whether the rule speaks of something not recorded, rather than of a contradiction."""
        return self.id.endswith("S")


@dataclass(frozen=True)
class RuleBase:
    """All rules, and the shapes compiled for the engines; ``rules`` is sorted by id."""

    rules: Mapping[str, Rule]
    shapes: CompiledShapes

    def by_iri(self, iri: str) -> Rule:
        """The rule whose shape has this IRI.

        Raises
        ------
        ShapesError
            There is none.
        """
        try:
            return self.rules[iri.removeprefix(RULE)]
        except KeyError:
            raise ShapesError(f"A shape reported a finding under {iri}, which is no rule.") from None


@cache
def load_rules() -> RuleBase:
    """Read, lint and compile the rules of the package; once in a process.

    Returns
    -------
    RuleBase
        The table of rules and the compiled shapes.

    Raises
    ------
    ShapesError
        A rule file cannot be used; the message lists every fault of every file.
    """
    from chordae.shapes.lint import Names, lint

    texts = read_texts()
    graph = ShapesGraph(texts)
    if faults := lint(graph, Names.of_the_package()):
        raise ShapesError(f"The rule files have {len(faults)} faults:\n" + "\n".join(faults))
    return RuleBase(read_rules(graph), CompiledShapes("\n".join(graph.texts.values())))


def read_rules(graph: ShapesGraph) -> dict[str, Rule]:
    """The table of rules of a shapes graph that has been linted, sorted by id."""
    rules = {}
    for shape in graph.shapes():
        if not shape.value.startswith(RULE):
            continue
        name = shape.value.removeprefix(RULE)
        message = graph.value(shape, SH + "message")
        rules[name] = Rule(
            id=name,
            label=graph.value(shape, SH + "name"),
            statement=graph.value(shape, SH + "description"),
            message=message,
            template=graph.value(shape, BOOK + "template") or message,
            remedy=graph.value(shape, BOOK + "remedy"),
            severity=SEVERITIES[graph.value(shape, SH + "severity")],
            sources=tuple(one.removeprefix(SOURCE) for one in graph.values(shape, DCTERMS + "source")),
            why=graph.value(shape, SKOS + "scopeNote"),
            exceptions=tuple(graph.values(shape, BOOK + "exception")),
            school=graph.value(shape, BOOK + "school"),
            since=graph.value(shape, BOOK + "since"),
            about=_slots(graph, shape),
            targets=tuple(one.removeprefix(MODEL) for one in graph.values(shape, SH + "targetClass")),
            target_slots=tuple(one.removeprefix(MODEL) for one in graph.values(shape, SH + "targetSubjectsOf")),
            reads=tuple(sorted(set(_read_slots(graph, shape)))),
            file=min(graph.files[shape]),
        )
    return rules


def _slots(graph: ShapesGraph, shape: Term) -> tuple[str, ...]:
    listed = graph.objects(shape, BOOK + "about")
    found = [member for node in listed for member in (graph.members(node) or [node])]
    if not found:
        for path in graph.objects(shape, SH + "path"):
            choice = graph.objects(path, SH + "alternativePath")
            found += [member for node in choice for member in graph.members(node)] or [path]
    return tuple(plain(term).removeprefix(MODEL) for term in found if plain(term).startswith(MODEL))


def _read_slots(graph: ShapesGraph, shape: Term, seen: frozenset[Term] = frozenset()) -> Iterator[str]:
    for subject, predicate, term in graph.inside(shape):
        text = plain(term)
        if predicate == SH + "select":
            yield from re.findall(r"\bmodel:([a-z][a-z_]*)", text)
        elif text.startswith(CONDITION) and term not in seen:
            yield from _read_slots(graph, term, seen | {term})
        elif text.startswith(MODEL) and predicate not in {SH + "class", SH + "targetClass", BOOK + "about"}:
            if subject == shape and predicate not in {SH + "path", *PAIRS}:
                continue
            yield text.removeprefix(MODEL)
