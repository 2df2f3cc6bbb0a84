"""What a shape asks and compares with: slots and words that can be there, conditions, numbers, patterns.

::

    sh:targetClass model:Atrium ; ... sh:path model:side      asked of an atrium: must be a slot of it
    sh:path model:septal_leaflet ; sh:hasValue term:aorta     aorta is no value of septal_leaflet
    sh:node cond:isomersm                                     there is no condition isomersm
    sh:minExclusive "fifty"                                   is no number
    sh:pattern "^(R|L"                                        is no pattern

An engine takes each of these without a word, and the rule is then silent for ever.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from chordae.model import enum_of, tables
from chordae.shapes.paths import SH
from chordae.shapes.shapes_graph import CONDITION, MODEL, TERM, ShapesGraph, plain

if TYPE_CHECKING:
    from chordae.shapes.shapes_graph import Term

__all__ = ["lint_values"]

WHOLE = frozenset(SH + name for name in ("minCount", "maxCount", "qualifiedMinCount", "qualifiedMaxCount"))
NUMBERS = WHOLE | {SH + name for name in ("minExclusive", "maxExclusive", "minInclusive", "maxInclusive")}
SAME_VALUE = frozenset(SH + name for name in ("qualifiedValueShape", "not", "or", "and", "xone", "node"))
"""Words behind which the same value is looked at further."""


def lint_values(graph: ShapesGraph, shape: Term) -> Iterator[str]:
    """Yield the faults of a shape in what it compares with, each as the end of a sentence."""
    yield from _foreign(graph, shape)
    for subject, predicate, term in graph.inside(shape):
        text = plain(term)
        if predicate in NUMBERS and not re.fullmatch(r"\d+" if predicate in WHOLE else r"-?\d+(\.\d+)?", text):
            yield f'{predicate.removeprefix(SH)} "{text}" is no number.'
        elif predicate == SH + "pattern":
            try:
                re.compile(text)
            except re.error as error:
                yield f'"{text}" is no pattern: {error}.'
        elif text.startswith(CONDITION) and term not in graph.found:
            yield f"there is no condition {text.removeprefix(CONDITION)}."
        elif predicate == SH + "path":
            yield from _words(graph, subject, term)


def _foreign(graph: ShapesGraph, shape: Term) -> Iterator[str]:
    """Slots that are asked of the node itself, and that no node of the target classes can have."""
    targets = {name.removeprefix(MODEL) for name in graph.values(shape, SH + "targetClass")}
    if not targets or graph.objects(shape, SH + "targetSubjectsOf"):
        return
    classes = [one for one in tables().classes.values() if targets & set(one.ancestors)]
    slots = {slot for one in classes for slot in one.slots}
    for path in _asked(graph, shape):
        for slot in sorted(_ends(graph, path)) if not graph.members(path) else ():
            if classes and slot not in slots:
                yield f"{slot} is no slot of {' or '.join(sorted(targets))}."


def _asked(graph: ShapesGraph, shape: Term) -> Iterator[Term]:
    """The paths that start at the node that a shape is about."""
    if paths := graph.objects(shape, SH + "path"):
        yield from paths
        return
    for word in SAME_VALUE - {SH + "qualifiedValueShape"} | {SH + "property"}:
        for term in graph.objects(shape, word):
            for inner in graph.members(term) or [term]:
                yield from () if plain(inner).startswith(CONDITION) else _asked(graph, inner)


def _words(graph: ShapesGraph, shape: Term, path: Term) -> Iterator[str]:
    ends = sorted(_ends(graph, path))
    values = [enum_of(slot) for slot in ends]
    if not values or not all(values):
        return
    known = {iri for one in values if one for iri in one.values()}
    for text in _compared(graph, shape):
        if text.startswith(TERM) and text not in known:
            yield f"{text.removeprefix(TERM)} is no value of {' or '.join(ends)}."


def _ends(graph: ShapesGraph, path: Term) -> set[str]:
    """The slots whose values a path reaches; none where it ends backwards."""
    if members := graph.members(path):
        return _ends(graph, members[-1])
    for choice in graph.objects(path, SH + "alternativePath"):
        return {slot for member in graph.members(choice) for slot in _ends(graph, member)}
    return {plain(path).removeprefix(MODEL)} if plain(path).startswith(MODEL) else set()


def _compared(graph: ShapesGraph, shape: Term) -> Iterator[str]:
    yield from graph.values(shape, SH + "hasValue")
    for start in graph.objects(shape, SH + "in"):
        yield from map(plain, graph.members(start))
    for word in SAME_VALUE:
        for term in graph.objects(shape, word):
            for inner in graph.members(term) or [term]:
                if not graph.objects(inner, SH + "path") and not plain(inner).startswith(CONDITION):
                    yield from _compared(graph, inner)
