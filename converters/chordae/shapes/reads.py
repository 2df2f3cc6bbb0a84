"""What the rules look at: classes and slots by name, read off all shapes, so that nothing else need be shown to them.

::

    sh:targetClass model:Ventricle ; sh:not [ sh:path model:side ... ]   ->   classes Ventricle, slots side

A query may ask for whatever a part has; such a query finds its part by ``model:parts`` or ``model:observed``
(`chordae.shapes.lint` sees to that), so everything that stands of a part is shown.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from chordae.shapes.paths import SH
from chordae.shapes.shapes_graph import BOOK, MODEL, ShapesGraph, plain

if TYPE_CHECKING:
    from chordae.shapes.shapes_graph import Term

__all__ = ["Reads", "what_rules_read"]


@dataclass(frozen=True, slots=True)
class Reads:
    """Names of classes and slots, sorted.

    ``names`` are all that occur in a target, path, class or query. ``target_classes`` and ``target_slots`` are those
    that rules have as their targets.
    """

    names: tuple[str, ...]
    target_classes: tuple[str, ...]
    target_slots: tuple[str, ...]


def what_rules_read(graph: ShapesGraph) -> Reads:
    """Return the names that occur in shapes, those under ``book:about`` left out: these are for people."""
    triples = [one for shape in graph.shapes() for one in _inside(graph, shape)]
    names: set[str] = set()
    for predicate, term in triples:
        text = plain(term)
        if predicate == SH + "select":
            names.update(re.findall(r"\bmodel:([A-Za-z_]+)", text))
        elif text.startswith(MODEL):
            names.add(text.removeprefix(MODEL))
    classes, slots = (
        tuple(sorted({plain(term).removeprefix(MODEL) for predicate, term in triples if predicate == SH + target}))
        for target in ("targetClass", "targetSubjectsOf")
    )
    return Reads(tuple(sorted(names)), classes, slots)


def _inside(graph: ShapesGraph, shape: Term) -> Iterator[tuple[str, Term]]:
    queue, seen = [shape], {shape}
    while queue:
        for predicate, terms in graph.found.get(queue.pop(), {}).items():
            if predicate.startswith(BOOK):
                continue
            for term in terms:
                yield predicate, term
                if type(term).__name__ == "BlankNode" and term not in seen:
                    seen.add(term)
                    queue.append(term)
