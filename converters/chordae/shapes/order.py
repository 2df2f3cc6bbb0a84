"""Cheap questions first: a shapes graph in, one that means the same and is faster to check out.

A shape with several constraints holds if all of them hold, so it may be written as ``sh:and`` of shapes with one
constraint each. The fast engine stops at the first member of ``sh:and`` that fails, but asks all constraints of a
plain shape; so nested shapes are rewritten, with the cheap constraints in front::

    sh:not [ A ; B ; C ]   ->   sh:not [ sh:and ( [ B ] [ C ] [ A ] ) ]

Only shapes that are nested or are conditions change; what a rule reports (its focus, value, component) does not.
Labels, messages and sources are left out: the engine copies all it holds for every graph. The reference engine gets
the rules as they were written, so each comparison of the engines checks this step as well.

What a question costs is estimated: steps of the path, times what each node found is asked. A record has many parts
and few of anything else.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from chordae.shapes.paths import RDF, REPEATS, SH

if TYPE_CHECKING:
    from pyoxigraph import BlankNode, Literal, NamedNode, Triple

    Term = NamedNode | BlankNode | Literal | Triple

__all__ = ["cheap_first"]

MODEL = "https://w3id.org/chordae/model/"
FAN = {MODEL + "parts": 20.0, MODEL + "measurements": 4.0, MODEL + "observed": 2.0}
"""How many nodes one step of a path usually finds, where it is more than one."""
LISTS = frozenset({SH + "and", SH + "or", SH + "xone"})
NESTED = frozenset({SH + "not", SH + "node", SH + "qualifiedValueShape", SH + "property"})
SPLIT = LISTS | {SH + "not", SH + "node", SH + "property", SH + "class", SH + "hasValue", SH + "nodeKind", SH + "in"}
"""Constraints that stand for themselves; ``sh:pattern`` with its flags and the counted ones do not."""
QUERY = 200.0
NOTES = ("http://purl.org/dc/terms/", "http://www.w3.org/2004/02/skos/core#", "https://w3id.org/chordae/rulebook/")
WORDS = frozenset(SH + name for name in ("name", "description", "message"))


def cheap_first(turtle: str) -> str:
    """Rewrite a shapes graph.

    Parameters
    ----------
    turtle
        The shapes graph as Turtle.

    Returns
    -------
    str
        The rewritten graph as N-Triples, sorted, so that it does not depend on the order of the text.

    Raises
    ------
    SyntaxError
        The text is not Turtle.
    """
    import pyoxigraph

    found: dict[Term, list[tuple[str, Term]]] = {}
    for triple in pyoxigraph.parse(turtle, format=pyoxigraph.RdfFormat.TURTLE):
        name = triple.predicate.value
        if name not in WORDS and not name.startswith(NOTES):
            found.setdefault(triple.subject, []).append((name, triple.object))
    graph = _Graph(found)
    for shape in graph.inner_shapes():
        graph.split(shape)
    lines = sorted(
        f"{subject} <{predicate}> {term} ." for subject, pairs in graph.found.items() for predicate, term in pairs
    )
    return "\n".join(lines) + "\n"


class _Graph:
    def __init__(self, found: dict[Term, list[tuple[str, Term]]]) -> None:
        self.found = found
        self.costs: dict[Term, float] = {}
        self.made = 0

    def values(self, subject: Term, predicate: str) -> list[Term]:
        return [term for name, term in self.found.get(subject, ()) if name == predicate]

    def members(self, node: Term) -> list[Term]:
        members = []
        while first := self.values(node, RDF + "first"):
            members.append(first[0])
            node = self.values(node, RDF + "rest")[0]
        return members

    def inner_shapes(self) -> list[Term]:
        """Shapes that other shapes use; none of them reports anything by itself. In the order of the text."""
        used: dict[Term, None] = {}
        for pairs in list(self.found.values()):
            for predicate, term in pairs:
                if predicate in NESTED and predicate != SH + "property":
                    used[term] = None
                elif predicate in LISTS:
                    used.update(dict.fromkeys(self.members(term)))
        return [shape for shape in used if not self.values(shape, SH + "path")]

    def split(self, shape: Term) -> None:
        pairs = self.found.get(shape, [])
        parts = [pair for pair in pairs if pair[0] in SPLIT]
        rest = [pair for pair in pairs if pair[0] not in SPLIT]
        if any(name.startswith(SH) for name, _ in rest) or len(parts) < 2:
            return
        ordered = sorted(parts, key=lambda pair: self.cost_of(*pair))
        cells = []
        for pair in ordered:
            cell = self.node()
            self.found[cell] = [pair]
            cells.append(cell)
        self.found[shape] = [*rest, (SH + "and", self.listed(cells))]

    def listed(self, members: Iterable[Term]) -> Term:
        import pyoxigraph

        node: Term = pyoxigraph.NamedNode(RDF + "nil")
        for member in reversed(list(members)):
            cell = self.node()
            self.found[cell] = [(RDF + "first", member), (RDF + "rest", node)]
            node = cell
        return node

    def node(self) -> Term:
        import pyoxigraph

        self.made += 1
        return pyoxigraph.BlankNode(f"cheap{self.made}")

    def cost_of(self, predicate: str, term: Term) -> float:
        """What one constraint of a shape costs, roughly, for one node."""
        if predicate in LISTS:
            return sum(self.cost(member) for member in self.members(term))
        if predicate in NESTED:
            return self.cost(term)
        return QUERY if predicate == SH + "sparql" else 1.0

    def cost(self, shape: Term) -> float:
        """What a shape costs for one node."""
        if shape not in self.costs:
            self.costs[shape] = 1.0
            inner = sum(self.cost_of(*pair) for pair in self.found.get(shape, ()) if pair[0].startswith(SH))
            path = self.values(shape, SH + "path")
            steps, nodes = self.steps(path[0]) if path else (0.0, 1.0)
            self.costs[shape] = steps + nodes * max(inner, 1.0)
        return self.costs[shape]

    def steps(self, path: Term) -> tuple[float, float]:
        """What walking a path costs, and how many nodes it finds."""
        if members := self.members(path):
            cost, nodes = 0.0, 1.0
            for member in members:
                step, more = self.steps(member)
                cost, nodes = cost + nodes * step, nodes * more
            return cost, nodes
        for choice in self.values(path, SH + "alternativePath"):
            ways = [self.steps(member) for member in self.members(choice)]
            return sum(cost for cost, _ in ways), sum(nodes for _, nodes in ways)
        if self.values(path, SH + "inversePath"):
            return 1.0, 1.0
        if any(self.values(path, name) for name in REPEATS):
            return 4.0, 4.0
        return 1.0, FAN.get(str(getattr(path, "value", "")), 1.0)
