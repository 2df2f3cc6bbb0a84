"""From the IRI of a node in a record's graph back to the place in the record that it came from.

::

    <base><id>                              ""                                the record
    <base><id>/part/aorta                   /parts/4                          part "aorta"
    <base><id>/part/aorta/arises_from/2     /parts/4/arises_from/1            part "aorta"
    <base><id>/stated/conclusion_basis/1    /stated/conclusion_basis/0
    <base><id>/derived                      /derived                          (not in the record: worked out)

The emitter names inner nodes by the schema (``chordae.rdf.emit``); this reads the same tables the other way round.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from chordae.model import Slot, tables
from chordae.rdf.terms import keyed, name
from chordae.record import pointer

__all__ = ["Focus", "locate"]


@dataclass(frozen=True, slots=True)
class Focus:
    """A node of a record: its JSON pointer, what stands there, and the part it is or belongs to (or ``None``)."""

    path: str
    node: Mapping[str, Any]
    part: Mapping[str, Any] | None = None


def locate(record: Mapping[str, Any], record_iri: str, iri: str, derived: Mapping[str, Any] | None = None) -> Focus:
    """Find the node of a record that has an IRI in its graph.

    Parameters
    ----------
    record
        The record as it was emitted.
    record_iri
        Its IRI.
    iri
        The IRI of a node.
    derived
        What was derived from it, as the schema has it, if the graph holds that too.

    Returns
    -------
    Focus
        The nearest node around it if the record has nothing under that IRI.

    Examples
    --------
    >>> heart = {"id": "7", "parts": [{"id": "aorta", "type": "ArterialTrunk", "arises_from": [{}, {"per_cent": 40}]}]}
    >>> locate(heart, "https://x.org/7", "https://x.org/7/part/aorta/arises_from/2").path
    '/parts/0/arises_from/1'
    """
    here = Focus("", record)
    segments = iri.removeprefix(record_iri).strip("/").split("/") if iri.startswith(record_iri) else []
    while segments and segments[0]:
        if not here.path and segments[0] == "derived":
            here = Focus("/derived", derived if derived is not None else record.get("derived") or {})
            segments = segments[1:]
            continue
        step = _step(here, segments)
        if step is None:
            break
        here, segments = step
    return here


def _step(here: Focus, segments: Sequence[str]) -> tuple[Focus, list[str]] | None:
    for slot in _nodes().get(segments[0], ()):
        value = here.node.get(slot.name)
        if isinstance(value, Mapping):
            return Focus(here.path + pointer(slot.name), value, here.part), list(segments[1:])
        if isinstance(value, list) and len(segments) > 1:
            for position, (last, node) in enumerate(_named(slot, value)):
                if last == segments[1]:
                    part = node if slot.name == "parts" else here.part
                    return Focus(here.path + pointer(slot.name, position), node, part), list(segments[2:])
    return None


def _named(slot: Slot, nodes: Sequence[Any]) -> list[tuple[str, Mapping[str, Any]]]:
    found = [node if isinstance(node, Mapping) else {} for node in nodes]
    if slot.key == "id":
        return [(name(str(node.get("id", ""))), node) for node in found]
    if slot.key:
        return list(keyed(found, slot.key))
    return [(str(number), node) for number, node in enumerate(found, 1)]


@cache
def _nodes() -> dict[str, list[Slot]]:
    found: dict[str, list[Slot]] = {}
    for slot in tables().slots.values():
        if slot.kind == "node":
            found.setdefault(slot.segment or slot.name, []).append(slot)
    return found
