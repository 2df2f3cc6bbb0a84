"""A release of outside terms as OBO Graph JSON, to ids, labels and what is above each; nothing is fetched.

::

    {"graphs": [{"id": ".../hp.json", "meta": {"version": ".../2025-11-24/hp.json"},
      "nodes": [{"id": "http://purl.obolibrary.org/obo/HP_0001719", "type": "CLASS", "lbl": "Double outlet ...",
                 "meta": {"deprecated": true,
                          "basicPropertyValues": [{"pred": ".../IAO_0100001", "val": ".../HP_0011580"}]}}],
      "edges": [{"sub": "...HP_0001719", "pred": "is_a", "obj": "...HP_0011580"}]}]}

Nodes = terms + issues ``I-OUT-06``; a property or an individual is no term and is passed over. Of the edges those that
say *is a* are taken; synonyms, definitions and other relations have no place in a release (:mod:`chordae.match` reads
them for matching).

Source: OBO Graphs (https://github.com/geneontology/obographs), structure from memory; held against pronto.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from chordae.formats.json_input import listed, mapped, read_json
from chordae.identifiers import contract
from chordae.issues import Issue, Location, issue
from chordae.vocabulary.outside import OutsideTerm, Release

__all__ = ["read_obograph"]

_OBO = re.compile(r"https?://purl\.obolibrary\.org/obo/([A-Za-z]+)_([0-9A-Za-z]+)")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_IS_A = ("is_a", "http://www.w3.org/2000/01/rdf-schema#subClassOf")
_SUCCESSOR = "http://purl.obolibrary.org/obo/IAO_0100001"


def read_obograph(data: bytes, name: str, source: str = "") -> tuple[Release, list[Issue]]:
    """Read a release.

    Parameters
    ----------
    data
        The file, UTF-8.
    name
        Its name for the places of issues.
    source
        Prefix of the ids to keep, such as ``HP``; by default the one that most terms have.

    Raises
    ------
    InputError
        The file is empty, or is not text.
    """
    value, issues = read_json(data, name)
    where = Location(name)
    graphs = mapped(value).get("graphs")
    if not isinstance(graphs, list) or not all(isinstance(one, Mapping) for one in graphs):
        if value is not None or not issues:
            issues.append(issue("I-OUT-05", location=where, problem='it has no list "graphs"'))
        return Release(source, "not stated", "kind", {}, read_from=name), issues
    above, nodes = _parents(graphs), [one for graph in graphs for one in _list(graph.get("nodes"))]
    terms: dict[str, OutsideTerm] = {}
    for node in nodes:
        term, problem = _term(node, above, terms)
        if problem:
            shown = node.get("id") if isinstance(node, Mapping) else node
            issues.append(issue("I-OUT-06", location=where, value=shown, problem=problem))
        elif term is not None:
            terms[term.id] = term
    source = source or _commonest(terms)
    kept = {one: terms[one] for one in sorted(terms) if one.partition(":")[0] == source}
    if not kept:
        issues.append(issue("I-OUT-05", location=where, problem=f"it holds no term of {source or 'any source'}"))
    return Release(source, _version(graphs), "kind", kept, read_from=name), issues


def _term(node: Any, above: Mapping[str, list[str]], met: Mapping[str, Any]) -> tuple[OutsideTerm | None, str]:
    if not isinstance(node, Mapping) or not isinstance(node.get("id"), str):
        return None, "it has no identifier"
    if node.get("type") not in (None, "CLASS"):
        return None, ""
    meta = mapped(node.get("meta"))
    label = node.get("lbl")
    own = _short(node["id"])
    if own in met:
        return None, "its identifier stands twice"
    obsolete = meta.get("deprecated", False)
    if not isinstance(obsolete, bool):
        return None, '"deprecated" is neither true nor false'
    if not isinstance(label, str) or not label.strip():
        # A term of another source that is only pointed at has no label, and is none of this release.
        return None, "" if label is None and not meta else "it has no label"
    successor = next(
        (
            one.get("val")
            for one in listed(meta.get("basicPropertyValues"))
            if one.get("pred") == _SUCCESSOR and isinstance(one.get("val"), str)
        ),
        None,
    )
    parents = tuple(sorted(set(above.get(own, ()))))
    return OutsideTerm(own, " ".join(label.split()), obsolete, _short(successor) if successor else None, parents), ""


def _parents(graphs: list[Any]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for graph in graphs:
        for edge in listed(graph.get("edges")):
            sub, obj = edge.get("sub"), edge.get("obj")
            if edge.get("pred") in _IS_A and isinstance(sub, str) and isinstance(obj, str):
                found.setdefault(_short(sub), []).append(_short(obj))
    return found


def _short(iri: str) -> str:
    known = contract(iri)
    if known == iri and (found := _OBO.fullmatch(iri)):
        return f"{found[1]}:{found[2]}"
    return known


def _commonest(terms: Mapping[str, OutsideTerm]) -> str:
    counts: dict[str, int] = {}
    for one in terms:
        prefix = one.partition(":")[0]
        counts[prefix] = counts.get(prefix, 0) + 1
    return max(sorted(counts), key=lambda prefix: counts[prefix]) if counts else ""


def _version(graphs: list[Any]) -> str:
    for graph in graphs:
        version = mapped(graph.get("meta")).get("version")
        if isinstance(version, str) and version:
            found = _DATE.search(version)
            return found[0] if found else version[:80]
    return "not stated"


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []
