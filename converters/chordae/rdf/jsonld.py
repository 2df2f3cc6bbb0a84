"""From a record to a JSON-LD node that says the same triples as :mod:`chordae.rdf.emit`, in the words of the record.

::

    {"@context": [<the shipped context>, {"@base": "https://example.org/collection/"}],
     "@graph": [{"id": "0012", "type": ["Record"],
                 "parts": [{"id": "0012/part/aorta", "type": ["ArterialTrunk", "Part"],
                            "stated_trunk_identity": "aorta"}]}]}

Keys and words are those of the record; only ``id`` and references are IRIs, and decimals and dates say their type.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.model import Slot, tables
from chordae.rdf.derived import as_node
from chordae.rdf.emit import check_base
from chordae.rdf.terms import date_type, is_iri, is_slug, keyed, many, name, number_text

__all__ = ["as_jsonld", "context_for"]


def context_for(base: str | None, shipped: Mapping[str, Any]) -> list[Any]:
    """Return the value of ``@context``: the shipped one, written out, and the base of the collection."""
    return [dict(shipped), {"@base": check_base(base)}]


def as_jsonld(
    record: Mapping[str, Any],
    derived: Mapping[str, Any] | None = None,
    base: str | None = None,
) -> list[dict[str, Any]]:
    """Return the nodes of a record for ``@graph``: the record, and the sequences that stand beside it.

    Parameters
    ----------
    record, derived, base
        As for :func:`chordae.rdf.emit.emit`.
    """
    root = name(str(record["id"]))
    base = check_base(base)
    # A relative reference that a parser would resolve otherwise is written in full.
    top = root if base.endswith("/") and not root.startswith(".") else base + root
    if derived is not None:
        record = {**record, "derived": as_node(derived)}
    work = _Nodes(top)
    return [work.node(record, "Record", top), *work.beside]


class _Nodes:
    def __init__(self, top: str) -> None:
        self._top = top
        self.beside: list[dict[str, Any]] = []

    def node(self, node: Mapping[str, Any], class_name: str, iri: str) -> dict[str, Any]:
        one = tables().classes[class_name]
        found: dict[str, Any] = {"id": iri, "type": list(one.ancestors)}
        for slot_name in one.slots:
            slot = tables().slots[slot_name]
            value = node.get(slot_name)
            if slot.kind in {"identifier", "type"} or value is None:
                continue
            if slot.kind == "node":
                inner = self._inner(slot, value, iri)
                if inner:
                    found[slot_name] = inner if slot.multivalued else inner[0]
            elif slot.multivalued:
                values = [self._value(slot, one) for one in many(value)]
                if values:
                    found[slot_name] = values
                    if slot.ordered:
                        self._sequence(slot, values, iri)
            else:
                found[slot_name] = self._value(slot, value)
        return found

    def _inner(self, slot: Slot, value: Any, iri: str) -> list[dict[str, Any]]:
        target, segment = slot.range or "", f"{iri}/{slot.segment}"
        if not slot.multivalued:
            return [self.node(value, target, segment)]
        nodes = many(value)
        pairs = keyed(nodes, slot.key) if slot.key else ((str(n), one) for n, one in enumerate(nodes, 1))
        return [
            self.node(one, str(one["type"]) if target == "Part" else target, f"{segment}/{last}") for last, one in pairs
        ]

    def _value(self, slot: Slot, value: Any) -> Any:
        if slot.kind == "enum":
            return value if value in slot.values else {"@value": str(value)}
        if slot.kind == "reference":
            return f"{self._top}/{'evidence' if slot.range == 'Evidence' else 'part'}/{name(value)}"
        if slot.kind == "term":
            return f"terms:{value}" if is_slug(str(value)) else {"@value": str(value)}
        if slot.kind == "integer":
            digits = number_text(int(value) if isinstance(value, float) and value.is_integer() else value)
            return int(digits) if digits.lstrip("-").isdecimal() else {"@value": digits, "@type": "xsd:decimal"}
        if slot.kind == "decimal":
            return number_text(value)
        if slot.kind == "uri":
            return str(value) if is_iri(str(value)) else {"@value": str(value)}
        words = value if isinstance(value, str) else str(value)
        if slot.kind == "date" and (kind := date_type(words)):
            return {"@value": words, "@type": f"xsd:{kind}"}
        return words

    def _sequence(self, slot: Slot, values: list[Any], iri: str) -> None:
        members = {
            f"rdf:_{number}": {"@id": slot.values[value]} if isinstance(value, str) else value
            for number, value in enumerate(values, 1)
        }
        self.beside.append(
            {"id": f"{iri}/{slot.name}", "type": ["rdf:Seq"], "in_order_of": iri, "feature": slot.name, **members}
        )
