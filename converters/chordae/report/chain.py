"""From a record and what was derived from it to the chain of segments: atria, ventricles, trunks, and what joins them.

::

    Chain   nodes    Node(key, row, place, identity, kind, firmness, ...)   row 0 atria, 1 ventricles, 2 trunks
            joins    Join(upper, lower, ground, share, closed)              place 0 right side ... 1 left side
            unknown  rows whose sides are not recorded

Recorded chambers, trunks and commitments come first; where there are none, `chordae.report.named` puts in what
the name of an arrangement or of a connection says.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import yaml

from chordae import resources
from chordae.record import Record

__all__ = ["PLACES", "ROWS", "UNSEEN", "Chain", "Join", "Node", "drawing_table", "recorded_chain", "settle"]

ROWS = ("Atrium", "Ventricle", "ArterialTrunk")
PLACES: Mapping[str, float] = {"right_sided": 0.0, "left_sided": 1.0}
UNSEEN = frozenset({None, "", "not_assessable", "not_examined", "undetermined"})
_STATED = ("stated_atrial_identity", "stated_ventricular_identity", "stated_trunk_identity")


@dataclass(frozen=True, slots=True)
class Node:
    """One chamber or trunk.

    ``place`` runs from 0 (right side of the body) to 1 (left side). ``firmness`` is a confidence of the
    derivation (``decided``, ``supported``, ``undetermined``, ``conflict``), ``derived`` or ``stated`` for a
    chamber known by the name of a conclusion only, and ``""`` where nothing names it. ``note`` is one word.
    """

    key: str
    row: int
    place: float | None
    identity: str | None
    firmness: str
    small: bool = False
    note: str = ""

    @property
    def kind(self) -> str:
        """``right``, ``left`` or ``neither``: the morphology, by which the box is shaded."""
        return str(drawing_table()["kinds"].get(self.identity, "neither"))


@dataclass(frozen=True, slots=True)
class Join:
    """One way for the blood; ``share`` in per cent, ``ground`` is ``recorded``, ``derived`` or ``stated``.

    An end that the name of a connection leaves open is ``None``.
    """

    upper: str | None
    lower: str | None
    ground: str
    share: float | None = None
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Chain:
    """What is drawn of one heart."""

    nodes: tuple[Node, ...]
    joins: tuple[Join, ...]
    unknown: tuple[int, ...] = ()

    def row(self, row: int) -> list[Node]:
        """The nodes of one row."""
        return [node for node in self.nodes if node.row == row]


@cache
def drawing_table() -> Mapping[str, Any]:
    """Return ``schema/drawing.yaml``."""
    loaded: Mapping[str, Any] = yaml.safe_load(resources.read_text("schema/drawing.yaml"))
    return loaded


def recorded_chain(record: Record, derived: Mapping[str, Any]) -> Chain:
    """Return the chambers and trunks that are parts of the record, and their recorded commitments."""
    parts = [part for part in record.get("parts") or () if isinstance(part, dict)]
    names = {one.get("part"): one for one in derived.get("identities") or ()}
    nodes = tuple(_node(part, names) for part in parts if part.get("type") in ROWS)
    lateral = next(
        (part.get("right_ventricle_lateral") for part in parts if part.get("type") == "VentricularMass"), None
    )
    if lateral in PLACES:
        nodes = tuple(_beside(node, PLACES[str(lateral)]) for node in nodes)
    return Chain(nodes, tuple(_joins(parts, nodes)))


def settle(chain: Chain, record: Record) -> Chain:
    """Give every node a place: trunks by their recorded relation, the rest apart from each other."""
    parts = record.get("parts") or ()
    relation = next((part.get("aorta_relation") for part in parts if part.get("type") == "GreatArteries"), None)
    side = drawing_table()["aorta_side"].get(relation)
    trunks = {} if side is None else {"aorta": PLACES[side], "pulmonary_trunk": 1.0 - PLACES[side]}
    nodes: list[Node] = []
    unknown = set(chain.unknown)
    for row in range(3):
        here = chain.row(row)
        if row == 2:
            here = [replace(node, place=trunks.get(str(node.identity))) for node in here]
            if len(here) > 1 and any(node.place is None for node in here):
                unknown.add(row)
                here.sort(key=lambda node: _above(chain, nodes, node))
        elif len(here) > 1 and any(node.place is None for node in here):
            unknown.add(row)
        nodes += _apart(here)
    return Chain(tuple(nodes), chain.joins, tuple(sorted(unknown)))


def _node(part: Mapping[str, Any], names: Mapping[Any, Mapping[str, Any]]) -> Node:
    row = ROWS.index(str(part["type"]))
    found = names.get(part.get("id"), {})
    identity, firmness = found.get("identity"), str(found.get("confidence") or "")
    if identity in UNSEEN and firmness != "conflict":
        stated = part.get(_STATED[row])
        identity, firmness = (None, firmness) if stated in UNSEEN else (stated, "stated")
    sides = [part.get("side"), *(part.get("ventricle_position") or ())]
    place = next((PLACES[side] for side in sides if side in PLACES), None)
    calibre = str(part.get("trunk_calibre") or "")
    note = "absent" if part.get("state") == "absent" else calibre if calibre not in UNSEEN | {"normal"} else ""
    if part.get("completeness") == "incomplete":
        note = "incomplete"
    small = note in ("incomplete", "hypoplastic", "atretic") or part.get("ventricle_size") == "hypoplastic"
    return Node(str(part.get("id")), row, place, None if identity in UNSEEN else identity, firmness, small, note)


def _beside(node: Node, right_ventricle: float) -> Node:
    """Give a ventricle that has no side of its own the side on which it lies to the other one."""
    if node.row != 1 or node.place is not None or node.kind == "neither":
        return node
    return replace(node, place=right_ventricle if node.kind == "right" else 1.0 - right_ventricle)


def _joins(parts: list[dict[str, Any]], nodes: tuple[Node, ...]) -> Iterator[Join]:
    keys = {node.key for node in nodes}
    shut = {
        place
        for part in parts
        if part.get("type") == "AtrioventricularValve" and part.get("valve_patency") == "imperforate"
        for place in (part.get("junction"), part.get("side"))
        if place
    }
    for part in parts:
        if part.get("type") == "AtrioventricularJunction":
            closed = bool({part.get("id"), part.get("side")} & shut)
            for upper in _atria_of(part, nodes):
                for one in part.get("opens_into") or ():
                    if one.get("ventricle") in keys:
                        yield Join(upper, one["ventricle"], "recorded", one.get("per_cent"), closed)
        elif part.get("type") == "ArterialTrunk":
            for one in part.get("arises_from") or ():
                if one.get("ventricle") in keys:
                    closed = part.get("trunk_calibre") == "atretic"
                    yield Join(one["ventricle"], str(part.get("id")), "recorded", one.get("per_cent"), closed)


def _atria_of(junction: Mapping[str, Any], nodes: tuple[Node, ...]) -> list[str]:
    atria = [node for node in nodes if node.row == 0]
    named = [node.key for node in atria if node.key == junction.get("atrium")]
    side = junction.get("side")
    if named or side not in ("common", *PLACES):
        return named
    return [node.key for node in atria if side == "common" or node.place == PLACES[str(side)]]


def _above(chain: Chain, nodes: list[Node], trunk: Node) -> float:
    """Where the ventricles of a trunk lie, weighed by their shares: a trunk without a side is drawn below them."""
    places = {node.key: node.place for node in nodes}
    ways = [(places.get(join.upper or ""), join.share or 50.0) for join in chain.joins if join.lower == trunk.key]
    known = [(place, share) for place, share in ways if place is not None]
    return sum(place * share for place, share in known) / (sum(share for _, share in known) or 1.0) if known else 0.5


def _apart(here: list[Node]) -> list[Node]:
    if len(here) == 1:
        return [replace(here[0], place=0.5 if here[0].place is None else here[0].place)]
    if len({node.place for node in here}) == len(here) and None not in {node.place for node in here}:
        return here
    if len(here) == 2 and sum(node.place is None for node in here) == 1:
        taken = next(node.place for node in here if node.place is not None)
        return [replace(node, place=1.0 - taken) if node.place is None else node for node in here]
    return [replace(node, place=index / (len(here) - 1)) for index, node in enumerate(here)]
