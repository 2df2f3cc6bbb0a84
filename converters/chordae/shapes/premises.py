"""The facts on which a finding rests, and their digest: what a confirmation stands for, and with what it ends.

A rule reads some slots, forwards or backwards. The premises of its finding are all statements of the record's graph
that are met on a walk from the node found, over these slots only::

    rule R-AV-05 at .../part/tricuspid_valve

    tricuspid_valve  state, side, valve_patency, leaflet_count        its own features, as far as the rule reads them
                     junction -> right_sided_junction  state          nodes that the rule goes on to
                     <- parts    the record  stated -> av_connection  conclusions, stated and derived
    node             class, where the rule asks for it

What the rule does not read changes nothing: a remark, a photograph, another feature. The digest does not depend on the
IRI of the record, on the order of the record, or on the machine.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from chordae.shapes.lint_paths import ANY_SLOT
from chordae.shapes.load import PAIRS
from chordae.shapes.paths import RDF, SH
from chordae.shapes.shapes_graph import BOOK, CONDITION, MODEL, RULE, ShapesGraph, plain, read_texts

if TYPE_CHECKING:
    from chordae.shapes.shapes_graph import Term

__all__ = ["premises", "premises_digest"]

_LINE = re.compile(r"^<([^>]*)> <([^>]*)> (.*) \.$", re.MULTILINE)
_TYPE = RDF + "type"
_LENGTH = 32
_WAIVER = "/waiver/"
"""Confirmations are no premises: they come after."""
_PLACE = re.compile(re.escape(RDF) + "_[0-9]+")
"""A place in a list whose order means something."""


@dataclass(frozen=True, slots=True)
class _Reads:
    """Slots that a rule follows forwards and backwards, and classes that it asks for; ``any``: every slot of a node."""

    forwards: frozenset[str]
    backwards: frozenset[str]
    classes: frozenset[str]
    any: bool


def premises_digest(graph: str, focus: str, rule: str, record_iri: str) -> str:
    """Return the digest of the premises of a finding: 32 hexadecimal digits of SHA-256 over the sorted statements.

    Parameters
    ----------
    graph
        N-Triples of the record with what was derived from it.
    focus
        IRI of the node that was found.
    rule
        Id of the rule.
    record_iri
        IRI of the record.
    """
    lines = "\n".join(premises(graph, focus, rule, record_iri))
    return hashlib.sha256(lines.encode()).hexdigest()[:_LENGTH]


def premises(graph: str, focus: str, rule: str, record_iri: str) -> list[str]:
    """Return the statements on which a finding rests, sorted, with IRIs of the record relative to it.

    Parameters
    ----------
    graph, focus, rule, record_iri
        As for :func:`premises_digest`.

    Returns
    -------
    list[str]
        For example ``"</part/aorta> side <https://w3id.org/chordae/term/left_sided>"``.

    Raises
    ------
    KeyError
        There is no such rule.
    """
    reads = _reads()[rule]
    subjects: dict[str, list[tuple[str, str]]] = {}
    objects: dict[str, list[tuple[str, str]]] = {}
    for subject, predicate, value in _LINE.findall(graph):
        if subject.startswith(record_iri + _WAIVER) or value.startswith(f"<{record_iri}{_WAIVER}"):
            continue
        subjects.setdefault(subject, []).append((predicate, value))
        objects.setdefault(value, []).append((subject, predicate))
    found: set[str] = set()
    queue, seen = [focus], {focus}
    while queue:
        node = queue.pop()
        met = [
            (node, predicate, value) for predicate, value in subjects.get(node, ()) if _forward(reads, predicate, value)
        ]
        met += [
            (subject, predicate, f"<{node}>")
            for subject, predicate in objects.get(f"<{node}>", ())
            if predicate.removeprefix(MODEL) in reads.backwards
        ]
        for subject, predicate, value in met:
            found.add(_told(subject, predicate, value, record_iri))
            for other in (subject, value[1:-1] if value.startswith("<") else ""):
                if other not in seen and _within(other, record_iri):
                    seen.add(other)
                    queue.append(other)
    return sorted(found)


def _forward(reads: _Reads, predicate: str, value: str) -> bool:
    if predicate == _TYPE:
        return value[1:-1].removeprefix(MODEL) in reads.classes
    return reads.any or predicate.removeprefix(MODEL) in reads.forwards


def _within(iri: str, record_iri: str) -> bool:
    return iri == record_iri or iri.startswith(record_iri + "/")


def _told(subject: str, predicate: str, value: str, record_iri: str) -> str:
    name = "class" if predicate == _TYPE else predicate.removeprefix(MODEL)
    if value.startswith("<") and _within(value[1:-1], record_iri):
        value = f"<{value[1:-1].removeprefix(record_iri)}>"
    return f"<{subject.removeprefix(record_iri)}> {name} {value}"


@cache
def _reads() -> Mapping[str, _Reads]:
    """What each rule reads, by its id."""
    graph = ShapesGraph(read_texts())
    found = {}
    for shape in graph.shapes():
        if not shape.value.startswith(RULE):
            continue
        steps = set(_steps(graph, shape, frozenset()))
        found[shape.value.removeprefix(RULE)] = _Reads(
            forwards=frozenset(name for name, how in steps if how != "backwards"),
            backwards=frozenset(name for name, how in steps if how != "forwards"),
            classes=frozenset(_classes(graph, shape, frozenset())),
            any=any(
                ANY_SLOT.search(plain(term)) for _, predicate, term in graph.inside(shape) if predicate == SH + "select"
            ),
        )
    return found


def _steps(graph: ShapesGraph, shape: Term, seen: frozenset[Term]) -> Iterator[tuple[str, str]]:
    """Each slot with the direction in which it is followed; ``either`` where only a query tells."""
    turned = {
        node
        for _, predicate, start in graph.inside(shape)
        if predicate == SH + "inversePath"
        for node in [start, *(subject for subject, _, _ in graph.inside(start))]
    }
    for subject, predicate, term in graph.inside(shape):
        text = plain(term)
        if predicate == SH + "select":
            yield from ((name, "either") for name in re.findall(r"\bmodel:([a-z][a-z_]*)", text))
            yield from ((RDF + name, "either") for name in re.findall(r"\brdf:(_[0-9]+)", text))
        elif _PLACE.fullmatch(text):
            yield text, "backwards" if predicate == SH + "inversePath" or subject in turned else "forwards"
        elif text.startswith(CONDITION) and term not in seen:
            yield from _steps(graph, term, seen | {term})
        elif text.startswith(MODEL) and predicate not in {SH + "class", SH + "targetClass", BOOK + "about"}:
            if subject == shape and predicate not in {SH + "path", SH + "targetSubjectsOf", *PAIRS}:
                continue
            way = "either" if subject in turned else "backwards" if predicate == SH + "inversePath" else "forwards"
            yield text.removeprefix(MODEL), way


def _classes(graph: ShapesGraph, shape: Term, seen: frozenset[Term]) -> Iterator[str]:
    for _, predicate, term in graph.inside(shape):
        text = plain(term)
        if predicate == SH + "class":
            yield text.removeprefix(MODEL)
        elif predicate == SH + "select":
            yield from re.findall(r"\bmodel:([A-Z][A-Za-z]*)", text)
        elif text.startswith(CONDITION) and term not in seen:
            yield from _classes(graph, term, seen | {term})
