"""Small faults put into the rules: which of them no case would notice.

::

    PYTHONPATH=converters:tests python tests/rule_mutants.py [RULE-ID ...]

A mutant is one rule with one change: a condition dropped, an alternative or a value of a list dropped, a value
exchanged for a word that occurs nowhere, a number moved by one, a constraint turned round or left out. It is killed if
any case of any rule then gets another verdict from that rule.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import pyoxigraph
from pyoxigraph import BlankNode, Literal, NamedNode, Triple

from chordae.errors import ShapesError
from chordae.shapes.engines import CompiledShapes, validate
from chordae.shapes.load import load_rules
from chordae.shapes.paths import RDF, SH
from chordae.shapes.shapes_graph import CONDITION, RULE, ShapesGraph, read_texts
from rule_cases import cases, graph_of

INTEGER = NamedNode("http://www.w3.org/2001/XMLSchema#integer")
NUMBERS = frozenset(SH + name for name in ("minExclusive", "maxExclusive", "minInclusive", "maxInclusive"))
NOWHERE = NamedNode("https://w3id.org/chordae/term/word_of_no_list")

Subject = NamedNode | BlankNode
Term = NamedNode | BlankNode | Literal | Triple


@dataclass(frozen=True)
class Mutant:
    """One change of one rule: the triples taken away and those put in."""

    what: str
    taken: frozenset[Triple]
    added: frozenset[Triple] = frozenset()


def mutants(graph: ShapesGraph, shape: NamedNode) -> Iterator[Mutant]:
    """Each mutant of a rule; not those of a condition that only spares the engine a query."""
    spared = _spared(graph, shape)
    for subject, predicate, term in graph.inside(shape):
        if not isinstance(subject, Subject) or subject in spared:
            continue
        here, name = frozenset({Triple(subject, NamedNode(predicate), term)}), predicate.removeprefix(SH)
        if name in {"property", "not", "node", "class", "sparql", "pattern"}:
            yield Mutant(f"drop {name}{'' if subject == shape else _inner(graph, term)}", here)
        if name == "not" and subject == shape:
            yield Mutant("turn round", here, frozenset({Triple(subject, NamedNode(SH + "node"), term)}))
        if name == "hasValue":
            yield Mutant(f"exchange {term}", here, frozenset({Triple(subject, NamedNode(predicate), NOWHERE)}))
        if predicate in NUMBERS and isinstance(term, Literal):
            for step in (-1, 1):
                moved = Literal(str(int(term.value) + step), datatype=INTEGER)
                yield Mutant(
                    f"{name} {term.value} -> {moved.value}",
                    here,
                    frozenset({Triple(subject, NamedNode(predicate), moved)}),
                )
        if name in {"in", "or", "and"} and not (subject == shape and spared):
            yield from _shorter(graph, subject, predicate, term, here)


def _spared(graph: ShapesGraph, shape: NamedNode) -> set[Term]:
    """Nodes under the alternatives of ``sh:or`` that stand before a query: if one holds, the query finds nothing."""
    ways = [member for term in graph.objects(shape, SH + "or") for member in graph.members(term)]
    if not any(graph.values(way, SH + "sparql") for way in ways):
        return set()
    return {node for way in ways if not graph.values(way, SH + "sparql") for node, _, _ in graph.inside(way)}


def _inner(graph: ShapesGraph, term: Term) -> str:
    words = sorted(one.rpartition("/")[2].rpartition("#")[2] for one in graph.found.get(term, {}))
    return f" ({', '.join(words) or term})"


def _shorter(
    graph: ShapesGraph, subject: Subject, predicate: str, start: Term, here: frozenset[Triple]
) -> Iterator[Mutant]:
    members = graph.members(start)
    for left_out in range(len(members)) if len(members) > 1 else ():
        rest = [member for position, member in enumerate(members) if position != left_out]
        cells: list[Subject] = [*(BlankNode() for _ in rest), NamedNode(RDF + "nil")]
        added = {Triple(subject, NamedNode(predicate), cells[0])}
        for position, member in enumerate(rest):
            added.add(Triple(cells[position], NamedNode(RDF + "first"), member))
            added.add(Triple(cells[position], NamedNode(RDF + "rest"), cells[position + 1]))
        yield Mutant(f"shorten {predicate.removeprefix(SH)} by {members[left_out]}", here, frozenset(added))


def triples_of(graph: ShapesGraph, shape: NamedNode) -> frozenset[Triple]:
    """The triples of a rule and of the conditions it uses."""
    found: set[Triple] = set()
    queue, seen = [shape], {shape}
    while queue:
        for subject, predicate, term in graph.inside(queue.pop()):
            found.add(Triple(subject, NamedNode(predicate), term))
            if isinstance(term, NamedNode) and term.value.startswith(CONDITION) and term not in seen:
                seen.add(term)
                queue.append(term)
    return frozenset(found)


def verdicts(triples: frozenset[Triple], data: str) -> list[tuple[str, str]] | None:
    """What a shapes graph says of the cases; ``None`` if the engine refuses it."""
    text = pyoxigraph.serialize(triples, format=pyoxigraph.RdfFormat.N_TRIPLES).decode()
    try:
        return sorted((found.focus, found.rule) for found in validate(data, CompiledShapes(text)))
    except ShapesError:
        return None


def survivors(wanted: Sequence[str] = ()) -> tuple[int, list[str]]:
    """The number of mutants of some rules (of all, if none is named), and those that live."""
    graph = ShapesGraph(read_texts())
    rules = load_rules().rules
    data = {rule: "".join(graph_of(case) for case in cases() if case.rule == rule) for rule in rules}
    everything = "".join(data.values())
    number, alive = 0, []
    for shape in graph.shapes():
        rule = shape.value.removeprefix(RULE)
        if rule not in (wanted or rules):
            continue
        base = triples_of(graph, shape)
        own, of_all = verdicts(base, data[rule]), None
        for mutant in mutants(graph, shape):
            number += 1
            changed = (base - mutant.taken) | mutant.added
            if verdicts(changed, data[rule]) != own:
                continue
            of_all = of_all or verdicts(base, everything)
            if verdicts(changed, everything) == of_all:
                alive.append(f"{rule}: {mutant.what}")
    return number, alive


def spared_queries() -> tuple[list[str], list[str]]:
    """Rules whose query stands behind a condition, and those whose verdicts would change without the condition."""
    graph = ShapesGraph(read_texts())
    data = "".join(graph_of(case) for case in cases())
    found, changed = [], []
    for shape in graph.shapes():
        if spared := _spared(graph, shape):
            base = triples_of(graph, shape)
            found.append(shape.value.removeprefix(RULE))
            for term in graph.objects(shape, SH + "or"):
                here = frozenset({Triple(shape, NamedNode(SH + "or"), term)})
                for mutant in _shorter(graph, shape, SH + "or", term, here):
                    gone = next(one for one in graph.members(term) if str(one) in mutant.what)
                    if gone in spared and verdicts((base - here) | mutant.added, data) != verdicts(base, data):
                        changed.append(f"{shape.value.removeprefix(RULE)}: {mutant.what}")
    return found, changed


def main(wanted: list[str]) -> None:
    start = time.perf_counter()
    number, alive = survivors(wanted)
    print("\n".join(alive))
    killed = number - len(alive)
    print(f"{number} mutants, {killed} killed ({100 * killed / number:.1f} %), {time.perf_counter() - start:.0f} s")


if __name__ == "__main__":
    main(sys.argv[1:])
