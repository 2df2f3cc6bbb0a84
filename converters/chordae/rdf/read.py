"""From RDF to records: any format, any order, any prefixes; inner nodes may be blank.

A record is a node of type ``model:Record``. Its id is the last segment of its IRI. Each inner node is read by the
class that the schema expects there, a part by its own type; words of an enum are read back from the IRIs of their
terms. What the schema does not know, or cannot hold, is named in an issue: statements in = statements out + issues.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any

from chordae.canonical import canonical
from chordae.issues import Issue, Location, issue
from chordae.model import Slot, class_slots, tables
from chordae.rdf.names import Names, last_segment
from chordae.rdf.parse import Statements, parse
from chordae.rdf.values import ValueFault, read_value
from chordae.record import Reading, Record

if TYPE_CHECKING:
    from chordae.rdf.parse import Term

__all__ = ["read_rdf"]

_RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_TYPE = _RDF + "type"
_MODEL = "https://w3id.org/chordae/model/"
_BESIDE = frozenset({_RDF + "Seq", "http://www.w3.org/ns/prov#Activity"})
"""Types of nodes that stand beside a record: sequences, and where it was read."""


def read_rdf(data: bytes | str, format: str, name: str | None = None) -> tuple[list[Reading], list[Issue]]:
    """Read the records in a document.

    Parameters
    ----------
    data
        The document.
    format
        ntriples, nquads, turtle, trig or jsonld. Named graphs are read together.
    name
        Name of the file, for the places of issues.

    Returns
    -------
    tuple[list[Reading], list[Issue]]
        Records in canonical order, sorted by id; check their structure as that of any other.

    Raises
    ------
    FormatError
        The format is not one of them.
    """
    statements, issues = parse(data.encode() if isinstance(data, str) else data, format, name)
    place = Location(name)
    records = [node for node, found in statements.by_subject.items() if _is(found, "Record")]
    if not records and not issues:
        issues.append(issue("I-RDF-05", location=place))
    work = _Reader(statements, place, issues)
    readings = [Reading(work.record(node), {"": place}) for node in sorted(records, key=str)]
    work.report_rest()
    return sorted(readings, key=lambda one: str(one.record["id"])), issues


class _Reader:
    """Reads nodes and ticks off what it has read."""

    def __init__(self, statements: Statements, place: Location, issues: list[Issue]) -> None:
        self._statements = statements
        self._place = place
        self._issues = issues
        self._read: set[Term] = set()
        self._sequences = _sequences(statements)
        self._record_id = ""
        self._rest: Counter[str] = Counter()
        self._remarks: list[dict[str, Any]] = []

    def record(self, node: Term) -> Record:
        self._record_id = last_segment(node)
        self._remarks = []
        self._names = Names(self._statements, node)
        found = {"id": self._record_id, **self._node(node, "Record")}
        if self._remarks:
            found["remarks"] = [*found.get("remarks", []), *self._remarks]
        return canonical(found)

    def report_rest(self) -> None:
        """Name what was not read: statements of nodes that belong to no record, and of predicates not known."""
        for subject, found in self._statements.by_subject.items():
            if subject not in self._read and not (_types(found) & _BESIDE):
                for predicate, values in found.items():
                    self._rest[predicate] += len(values)
        for predicate, count in sorted(self._rest.items()):
            shown = predicate.removeprefix(_MODEL)
            self._issues.append(issue("I-RDF-06", location=self._place, value=shown, count=count))

    def _node(self, node: Term, class_name: str) -> dict[str, Any]:
        if node in self._read:
            self._say("I-RDF-07", value=last_segment(node))
            return {}
        self._read.add(node)
        found = self._statements.of(node)
        by_iri = _slots_of(class_name)
        values: dict[str, Any] = {}
        for predicate, objects in found.items():
            slot = by_iri.get(predicate)
            if slot is None:
                if predicate != _TYPE:
                    self._rest[predicate] += len(objects)
                continue
            kept = self._values(node, slot, objects)
            if kept:
                values[slot.name] = self._in_order(node, slot, kept) if slot.multivalued else kept[0]
        return values

    def _values(self, node: Term, slot: Slot, objects: Collection[Term]) -> list[Any]:
        if slot.kind == "node":
            ordered = self._names.in_order(objects)
            if not slot.multivalued and len(ordered) > 1:
                self._say("I-RDF-08", key=slot.name, value=last_segment(ordered[1]))
                ordered = ordered[:1]
            return [one for one in (self._inner(one, slot) for one in ordered) if one is not None]
        values = []
        for one in objects:
            if language := getattr(one, "language", None):
                self._say("I-RDF-12", key=slot.name, value=last_segment(one), found=language)
            try:
                values.append(read_value(one, slot, self._names))
            except ValueFault as fault:
                self._say("I-RDF-09", key=slot.name, value=fault.text, problem=fault.problem)
                self._remarks.append({"text": fault.text, "place": f"{last_segment(node)}.{slot.name}"})
        values.sort(key=str)
        if not slot.multivalued and len(values) > 1:
            # RDF has no first and no second: taking one would make an absent thing present, or the reverse, by chance.
            for one in values:
                self._say("I-RDF-08", key=slot.name, value=one)
                self._remarks.append({"text": str(one), "place": f"{last_segment(node)}.{slot.name}"})
            return []
        return values

    def _inner(self, node: Term, slot: Slot) -> dict[str, Any] | None:
        if not _is_resource(node):
            self._say("I-RDF-09", key=slot.name, value=last_segment(node), problem="words stand where a node should")
            self._remarks.append({"text": last_segment(node), "place": slot.name})
            return None
        class_name = slot.range or ""
        identity: dict[str, Any] = {}
        if class_name == "Part":
            kinds = self._names.part_classes(node)
            if len(kinds) != 1:
                self._say("I-RDF-10", value=last_segment(node), found=" and ".join(kinds) or "none")
            class_name = kinds[0] if kinds else "Part"
            identity = {"id": self._names.of(node), **({"type": class_name} if kinds else {})}
        elif "id" in class_slots(class_name):
            identity = {"id": self._names.of(node)}
        return {**identity, **self._node(node, class_name)}

    def _in_order(self, node: Term, slot: Slot, values: list[Any]) -> list[Any]:
        if not slot.ordered or slot.kind == "node":
            return values
        sequence = self._sequences.get((node, slot.name))
        if sequence is None:
            return values
        ordered = [read_value(one, slot, self._names) for one in sequence]
        if set(map(str, ordered)) != set(map(str, values)):
            self._say("I-RDF-11", key=slot.name)
            return values
        return ordered

    def _say(self, rule: str, **fields: Any) -> None:
        self._issues.append(issue(rule, location=self._place, record=self._record_id, **fields))


def _sequences(statements: Statements) -> dict[tuple[Term, str], list[Term]]:
    """(part, slot) -> values in order, from the rdf:Seq that stands beside the part."""
    found: dict[tuple[Term, str], list[Term]] = {}
    for predicates in statements.by_subject.values():
        for part in predicates.get(_MODEL + "in_order_of", ()):
            members = sorted(
                (int(name.removeprefix(_RDF + "_")), value)
                for name, values in predicates.items()
                if name.startswith(_RDF + "_") and name.removeprefix(_RDF + "_").isdecimal()
                for value in list(values)[:1]
            )
            for slot in predicates.get(_MODEL + "feature", ()):
                found[part, str(getattr(slot, "value", ""))] = [value for _, value in members]
    return found


def _is(found: Mapping[str, Collection[Term]], class_name: str) -> bool:
    return _MODEL + class_name in _types(found)


def _types(found: Mapping[str, Collection[Term]]) -> set[str]:
    return {str(getattr(one, "value", "")) for one in found.get(_TYPE, ())}


def _is_resource(node: Term) -> bool:
    from pyoxigraph import BlankNode, NamedNode

    return isinstance(node, NamedNode | BlankNode)


@cache
def _slots_of(class_name: str) -> Mapping[str, Slot]:
    slots: Iterator[Slot] = (tables().slots[name] for name in class_slots(class_name))
    return {slot.iri: slot for slot in slots if slot.kind not in {"identifier", "type"}}
