"""Mapping sets as RDF (Turtle): each row an annotated axiom, never a bare statement that a match holds; and back.

::

    <https://.../chordae-hpo> a sssom:MappingSet ; dcterms:license <...> ; sssom:mappings _:row1 , _:row2 .
    _:row1 a owl:Axiom ; owl:annotatedSource term:heart ; owl:annotatedProperty skos:exactMatch ;
        owl:annotatedTarget UBERON:0000948 ; sssom:mapping_justification semapv:ManualMappingCuration .
    _:row2 a owl:Axiom ; ... sssom:predicate_modifier sssom:NegatedPredicate .

A row that says *not this one* or *no such term* is an axiom like the others, so that no reader who looks for
``skos:exactMatch`` statements takes it for a match. Nodes of ``sssom:mappings`` = rows + issues ``I-MAP-03``. Several
values of one cell have no order in RDF; they are read back sorted. An identifier whose prefix is not known is kept as
words.

Source: SSSOM 1.1; the form as the library ``sssom`` writes and reads it (held against it in the tests).
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from chordae.identifiers import is_safe_iri, prefixes
from chordae.issues import Issue, Location, issue
from chordae.rdf.parse import Statements, parse
from chordae.sssom import COLUMNS, MappingSet, Row, row_problem, sort_rows
from chordae.sssom_header import SET_SLOTS, header_of
from chordae.sssom_slots import Slot, by_property, join_values, slots, split_values

if TYPE_CHECKING:
    from pyoxigraph import Literal, NamedNode, Triple

    from chordae.rdf.parse import Term

__all__ = ["read_graph_sets", "write_graph_sets"]

_TYPE = "http://www.w3.org/1999/02/22-rdf-syntax-ns#type"
_XSD = "http://www.w3.org/2001/XMLSchema#"
_SET = "https://w3id.org/sssom/MappingSet"
_ROWS = "https://w3id.org/sssom/mappings"
_AXIOM = "http://www.w3.org/2002/07/owl#Axiom"
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_NUMBER = re.compile(r"[-+]?\d+(\.\d+)?([eE][-+]?\d+)?")


def write_graph_sets(sets: Iterable[MappingSet]) -> bytes:
    """Return sets as Turtle; the prefixes of the document are those of the sets."""
    import pyoxigraph

    listed = list(sets)
    known: dict[str, str] = {}
    for one in listed:
        for prefix, iri in one.prefixes.items():
            if is_safe_iri(iri) and _is_prefix(prefix):
                known.setdefault(prefix, iri)
    triples = [triple for number, one in enumerate(listed, 1) for triple in _set(one, number)]
    text = pyoxigraph.serialize(triples, format=pyoxigraph.RdfFormat.TURTLE, prefixes=known) or b""
    # The library writes the prefixes in another order each time.
    lines = text.splitlines(keepends=True)
    return b"".join(sorted(lines[: len(known)]) + lines[len(known) :])


def read_graph_sets(data: bytes, name: str, format: str = "turtle") -> tuple[list[MappingSet], list[Issue]]:
    """Read every set of a document strictly; nothing is fetched."""
    statements, issues = parse(data, format, name)
    where = Location(name)
    nodes = sorted((node for node, found in statements.by_subject.items() if _SET in _types(found)), key=str)
    if not nodes and not issues:
        issues.append(issue("I-MAP-01", location=where, problem="it holds no mapping set"))
    work = _Reader(statements, where, issues)
    sets = [work.mapping_set(node, name) for node in nodes]
    work.report_rest()
    return sets, issues


def _set(mappings: MappingSet, number: int) -> Iterator[Triple]:
    from pyoxigraph import BlankNode, NamedNode, Triple

    own = str(mappings.header.get("mapping_set_id") or "")
    node: Any = NamedNode(own) if is_safe_iri(own) else BlankNode(f"set{number}")
    known = {**prefixes(), **mappings.prefixes}
    yield Triple(node, NamedNode(_TYPE), NamedNode(_SET))
    for name in SET_SLOTS:
        slot = slots()[name]
        if name in mappings.header and slot.kind != "prefixes" and not (name == "mapping_set_id" and own == _iri(node)):
            value = mappings.header[name]
            for one in value if isinstance(value, list) else [value]:
                yield Triple(node, NamedNode(slot.property), _term(str(one), slot, known))
    taken: set[str] = set()
    for at, row in enumerate(sort_rows(mappings.rows), 1):
        called = _expand(row["record_id"], known) if row["record_id"] else None
        inner: Any = BlankNode(f"set{number}row{at}")
        if called is not None and called not in taken:
            inner = NamedNode(called)
            taken.add(called)
        yield Triple(node, NamedNode(_ROWS), inner)
        yield Triple(inner, NamedNode(_TYPE), NamedNode(_AXIOM))
        for name in COLUMNS:
            if row[name] and not (name == "record_id" and _iri(inner)):
                slot = slots()[name]
                for one in dict.fromkeys(split_values(row[name])) if slot.several else [row[name]]:
                    yield Triple(inner, NamedNode(slot.property), _term(one, slot, known))


def _term(text: str, slot: Slot, known: Mapping[str, str]) -> NamedNode | Literal:
    from pyoxigraph import Literal, NamedNode

    if slot.kind == "reference" and (iri := _expand(text, known)):
        return NamedNode(iri)
    if slot.kind == "iri" and is_safe_iri(text):
        return NamedNode(text)
    if text in slot.words:
        return NamedNode(slot.words[text])
    if slot.kind == "date" and _DATE.fullmatch(text):
        return Literal(text, datatype=NamedNode(_XSD + "date"))
    if slot.kind == "number" and _NUMBER.fullmatch(text):
        return Literal(text, datatype=NamedNode(_XSD + "double"))
    return Literal(text)


def _expand(curie: str, known: Mapping[str, str]) -> str | None:
    """Return the IRI of a CURIE if the CURIE comes out of it again."""
    prefix, colon, local = curie.partition(":")
    iri = known.get(prefix, "") + local
    return iri if colon and local and prefix in known and is_safe_iri(iri) and _curie(iri, known) == curie else None


def _curie(iri: str, known: Mapping[str, str]) -> str:
    fits = [(len(start), prefix) for prefix, start in known.items() if start and iri.startswith(start) and iri != start]
    if not fits:
        return iri
    length, prefix = max(fits)
    return f"{prefix}:{iri[length:]}"


class _Reader:
    """Reads sets and ticks off what it has read."""

    def __init__(self, statements: Statements, where: Location, issues: list[Issue]) -> None:
        self._statements = statements
        self._where = where
        self._issues = issues
        self._read: set[Term] = set()
        self._declared = dict(sorted(statements.prefixes.items()))
        self._known = {**prefixes(), **self._declared}

    def mapping_set(self, node: Term, name: str) -> MappingSet:
        self._read.add(node)
        found: dict[str, Any] = {}
        nodes: Collection[Term] = ()
        if iri := _iri(node):
            found["mapping_set_id"] = iri
        for predicate, values in self._statements.of(node).items():
            slot = by_property().get(predicate)
            if predicate == _ROWS:
                nodes = values
            elif slot is None or not slot.of_set:
                if predicate != _TYPE:
                    self._say("I-MAP-02", value=predicate, kind="property of the set")
            else:
                try:
                    texts = sorted(self._text(one, slot) for one in values)
                except ValueError as error:
                    self._say("I-MAP-01", problem=f"{slot.name} of its header: {error}")
                    continue
                found[slot.name] = texts if slot.several or len(texts) > 1 else texts[0]
        prefixed = {"curie_map": self._declared} if self._declared else {}
        header = header_of({**found, **prefixed}, self._where, self._issues)
        rows = [row for row in (self._row(one) for one in nodes) if row is not None]
        return MappingSet(name, header, tuple(sort_rows(rows)))

    def report_rest(self) -> None:
        """Name the statements that belong to no set, such as bare statements that a match holds."""
        rest: dict[str, int] = {}
        for subject, found in self._statements.by_subject.items():
            if subject not in self._read:
                for predicate, values in found.items():
                    rest[predicate] = rest.get(predicate, 0) + len(values)
        for predicate, count in sorted(rest.items()):
            self._say("I-MAP-12", value=_curie(predicate, self._known), count=count)

    def _row(self, node: Term) -> Row | None:
        if node in self._read:
            self._say("I-MAP-03", problem="it stands in two sets; it was read in the first")
            return None
        self._read.add(node)
        cells: dict[str, str] = {}
        if iri := _iri(node):
            cells["record_id"] = _curie(iri, self._known)
        problem = "" if self._statements.of(node) else "nothing is said of it"
        for predicate, values in self._statements.of(node).items():
            slot = by_property().get(predicate)
            if slot is None or not slot.of_row:
                if predicate != _TYPE:
                    self._say("I-MAP-02", value=predicate, kind="property of a row")
                continue
            try:
                texts = sorted(self._text(one, slot) for one in values)
                if len(texts) > 1 and not slot.several:
                    raise ValueError(f"it holds {len(texts)} values, and one was expected")
                cells[slot.name] = join_values(texts) if slot.several else texts[0]
            except ValueError as error:
                problem = problem or f"{slot.name}: {error}"
        problem = problem or row_problem(cells)
        if problem:
            self._say("I-MAP-03", problem=problem, value=cells.get("subject_id"))
            return None
        return Row({name: cells[name] for name in COLUMNS if cells.get(name)})

    def _text(self, value: Term, slot: Slot) -> str:
        kind = type(value).__name__
        text = str(getattr(value, "value", value))
        if kind == "NamedNode":
            word = next((word for word, iri in slot.words.items() if iri == text), None)
            return word or (_curie(text, self._known) if slot.kind == "reference" else text)
        if kind != "Literal":
            raise ValueError("a node without a name stands where words should")
        if language := getattr(value, "language", None):
            self._say("I-RDF-12", key=slot.name, value=text, found=language)
        return text

    def _say(self, rule: str, **fields: Any) -> None:
        self._issues.append(issue(rule, location=self._where, **fields))


def _types(found: Mapping[str, Collection[Term]]) -> Iterator[str]:
    return (str(getattr(one, "value", "")) for one in found.get(_TYPE, ()))


def _iri(node: Term) -> str:
    return str(getattr(node, "value", "")) if type(node).__name__ == "NamedNode" else ""


def _is_prefix(text: str) -> bool:
    return re.fullmatch(r"[A-Za-z]([A-Za-z0-9._-]*[A-Za-z0-9_-])?", text) is not None
