"""From the name of an arrangement or a connection to chambers, trunks and joins, where the record has none of its own.

What a name says is data: ``schema/drawing.yaml``. Nothing is put in that the name does not say: the connection
*absent right* does not tell the ventricle of the other atrium, so that end stays open.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.record import Record
from chordae.report.chain import PLACES, UNSEEN, Chain, Join, Node, drawing_table, recorded_chain, settle
from chordae.report.words import derived_value

__all__ = ["make_chain"]

_UNKNOWN = "unknown"


def make_chain(record: Record, derived: Mapping[str, Any]) -> Chain:
    """Put together what can be drawn of one heart.

    Parameters
    ----------
    record
        A full record; nothing in it is required.
    derived
        The derived object of the same record, or an empty mapping.

    Returns
    -------
    Chain
        With a place for every node; empty if nothing is known of the heart.
    """
    chain = recorded_chain(record, derived)
    chain = _by_side(chain, 0, "atria", *_conclusion(record, derived, "atrial_arrangement"))
    chain = _by_side(chain, 1, "ventricles", *_conclusion(record, derived, "topology"))
    for upper, name in ((0, "av_connection"), (1, "va_connection")):
        rows = {node.key: node.row for node in chain.nodes}
        if not any(rows.get(join.upper or "", upper) == upper and join.lower in rows for join in chain.joins):
            chain = _by_connection(chain, upper, name, *_conclusion(record, derived, name))
    return settle(chain, record)


def _conclusion(record: Record, derived: Mapping[str, Any], name: str) -> tuple[str, str]:
    value, origin = derived_value(derived, name)
    if value is not None and value not in UNSEEN:
        return value, "stated" if origin == "stated" else "derived"
    return str((record.get("stated") or {}).get(name)), "stated"


def _by_side(chain: Chain, row: int, table: str, value: str, ground: str) -> Chain:
    sides = drawing_table()[table].get(value)
    if chain.row(row) or sides is None:
        return chain
    new = tuple(Node(f"{table}/{side}", row, PLACES[side], name, ground) for side, name in sides.items())
    return Chain(chain.nodes + new, chain.joins, chain.unknown)


def _by_connection(chain: Chain, upper: int, name: str, value: str, ground: str) -> Chain:
    pairs = drawing_table()[name].get(value, ())
    for row, end in ((upper, 0), (upper + 1, 1)):
        wanted = dict.fromkeys(pair[end] for pair in pairs)
        if wanted and not chain.row(row):
            chain = _filled(chain, row, [one for one in wanted if one != _UNKNOWN], ground)
    joins = [
        Join(ends[0], ends[1], ground)
        for pair in pairs
        if any(ends := [_find(chain, upper + end, pair[end]) for end in (0, 1)])
    ]
    return Chain(chain.nodes, chain.joins + tuple(joins), chain.unknown)


def _filled(chain: Chain, row: int, wanted: list[str], ground: str) -> Chain:
    """Add the chambers or trunks that the name of a connection speaks of, without saying on which side they lie."""
    pair = drawing_table()["ventricles_without_topology"]
    if row == 1 and set(wanted) & set(pair.values()):
        new = [Node(f"named/{name}", row, PLACES[side], name, ground) for side, name in pair.items()]
        return Chain(chain.nodes + tuple(new), chain.joins, (*chain.unknown, row))
    new = [
        Node(f"named/{name}", row, PLACES[name], None, "")
        if name in PLACES
        else Node(f"named/{name}", row, None, name, ground)
        for name in wanted
    ]
    return Chain(chain.nodes + tuple(new), chain.joins, chain.unknown)


def _find(chain: Chain, row: int, name: str) -> str | None:
    for node in chain.row(row):
        if node.identity == name or (name in PLACES and node.place == PLACES[name]):
            return node.key
    return None
