"""From a line of the ledger to PROV-O: who handed in what, when, what was made of it, by what software, after what.

::

    version  a reg:Version, prov:Entity     = the named graph
      prov:wasGeneratedBy  <.../line/7>     a prov:Activity with times, prov:used the deposit
      prov:wasRevisionOf   the version before
      prov:wasAttributedTo the custodian    reg:digest, reg:graphDigest, reg:collection, reg:records, reg:outcome
    collection  a reg:Collection  reg:current version  (only in the graph of heads)
    version     reg:counted <version>/counted          (there too; see chordae.registry.counted)

Lines are added to one graph, ``LEDGER``, and never taken out; which version is current stands in ``HEADS``, which
follows from the lines.

References
----------
W3C PROV-O: The PROV Ontology, Recommendation of 30 April 2013.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any
from urllib.parse import quote

from chordae.rdf.terms import literal
from chordae.registry.entry import Entry

__all__ = [
    "HEADS",
    "LEDGER",
    "REG",
    "VOCABULARY",
    "collection_iri",
    "counted_iri",
    "head_lines",
    "provenance",
    "version_iri",
]

REG = "https://w3id.org/chordae/registry/"
"""Where the words of the registry stand."""
LEDGER = REG + "ledger"
HEADS = REG + "heads"
VOCABULARY = REG + "vocabulary"
"""Graph of the terms and their outside codes, as the registry uses them now."""
_PROV = "http://www.w3.org/ns/prov#"
_RDFS = "http://www.w3.org/2000/01/rdf-schema#"
_DCT = "http://purl.org/dc/terms/"
_XSD = "http://www.w3.org/2001/XMLSchema#"
_TYPE = "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type>"


def version_iri(base: str, deposit: str) -> str:
    """Return the IRI of the named graph of a version."""
    return f"{base}version/{deposit}"


def counted_iri(graph: str) -> str:
    """Return the IRI of the graph with what was counted of a version."""
    return f"{graph}/counted"


def collection_iri(collection: str) -> str:
    """Return the IRI of a collection; the same in every registry, so that they can be asked together."""
    return f"{REG}collection/{quote(collection, safe='')}"


def provenance(entry: Entry, base: str) -> list[str]:
    """Return the N-Triples of a line, sorted; empty for a deposit that was refused: that is told to its owner only."""
    return sorted(set(_lines(entry, base))) if entry.accepted else []


def head_lines(heads: Mapping[str, str]) -> list[str]:
    """Return the N-Triples that say which version of each collection is current, and where it is counted."""
    current = [f"<{collection_iri(name)}> <{REG}current> <{graph}> ." for name, graph in heads.items()]
    return sorted([*current, *(f"<{one}> <{REG}counted> <{counted_iri(one)}> ." for one in heads.values())])


def _lines(entry: Entry, base: str) -> Iterator[str]:
    body = entry.body
    line = f"<{base}line/{entry.number}>"
    version = f"<{entry.graph}>"
    deposit = f"<{REG}deposit/{entry.deposit}>"
    collection = f"<{collection_iri(entry.collection)}>"
    software = f"<{REG}software/chordae/{quote(str(body.get('software', '')), safe='.')}>"
    agent = f"<{base}agent/{quote(str(body.get('agent') or 'unknown'), safe='')}>"
    yield from _types(line, f"{_PROV}Activity", f"{REG}{entry.kind.capitalize()}")
    yield f"{line} <{_PROV}endedAtTime> {_time(body['at'])} ."
    if body.get("begun"):
        yield f"{line} <{_PROV}startedAtTime> {_time(body['begun'])} ."
    yield f"{line} <{_PROV}wasAssociatedWith> {agent} ."
    yield f"{line} <{_PROV}wasAssociatedWith> {software} ."
    yield f"{line} <{REG}number> {_typed(entry.number, 'integer')} ."
    yield f"{line} <{REG}digest> {literal(entry.digest)} ."
    yield from _types(agent, f"{_PROV}Agent")
    yield f"{agent} <{_RDFS}label> {literal(str(body.get('agent') or 'not recorded'))} ."
    yield from _types(software, f"{_PROV}SoftwareAgent")
    yield f"{software} <{_RDFS}label> {literal('chordae ' + str(body.get('software', '')))} ."
    if entry.kind == "resolution":
        yield f"{line} <{_PROV}used> {version} ."
        return
    yield f"{line} <{_PROV}used> {deposit} ."
    yield from _types(deposit, f"{_PROV}Entity", f"{REG}Deposit")
    yield f"{deposit} <{REG}digest> {literal(entry.deposit)} ."
    yield from _types(version, f"{_PROV}Entity", f"{REG}Version")
    yield f"{version} <{_PROV}wasGeneratedBy> {line} ."
    yield f"{version} <{_PROV}wasDerivedFrom> {deposit} ."
    yield f"{version} <{_PROV}generatedAtTime> {_time(body['at'])} ."
    yield f"{version} <{REG}collection> {collection} ."
    yield f"{version} <{REG}digest> {literal(entry.deposit)} ."
    yield f"{version} <{REG}graphDigest> {literal(str(body['made'].get('graph.nt.gz', '')))} ."
    yield f"{version} <{REG}outcome> {literal(entry.outcome)} ."
    for name in ("records", "violation", "warning", "info"):
        yield f"{version} <{REG}{name}> {_typed(body['counts'].get(name, 0), 'integer')} ."
    for what, one in (body.get("versions") or {}).items():
        if isinstance(one, Mapping) and one.get("version"):
            said = f"{what} {one['version']} {one.get('sha256') or ''}".strip()
            yield f"{version} <{REG}madeWith> {literal(said)} ."
    if body.get("supersedes"):
        yield f"{version} <{_PROV}wasRevisionOf> <{body['supersedes']}> ."
    if body.get("aside"):
        yield f"{version} <{REG}besides> <{body['aside']}> ."
    if isinstance(body.get("origin"), Mapping):
        yield f"{line} <{REG}takenOverFrom> {literal(str(body['origin'].get('name') or body['origin']['registry']))} ."
    yield from _types(collection, f"{REG}Collection")
    for key, iri in (("name", f"{_RDFS}label"), ("licence", f"{_DCT}license"), ("custodian", f"{_DCT}rightsHolder")):
        if body.get(key):
            yield f"{version} <{iri}> {literal(str(body[key]))} ."


def _types(node: str, *kinds: str) -> Iterator[str]:
    yield from (f"{node} {_TYPE} <{kind}> ." for kind in kinds)


def _time(at: Any) -> str:
    return _typed(at, "dateTime")


def _typed(value: Any, kind: str) -> str:
    return f'"{value}"^^<{_XSD}{kind}>'
