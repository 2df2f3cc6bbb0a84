"""SKOS as Turtle: any concept scheme to a release of outside terms; our own published one to the terms it came from.

::

    term:heart a skos:Concept ; skos:prefLabel "heart"@en ; skos:broader term:organ .
        OutsideTerm("term:heart", "heart", parents=("term:organ",))
    the published vocabulary
        Term(slug="heart", kind="organ", european="heart", north_american="heart", ...)

Nodes of type ``skos:Concept`` = terms + issues ``I-OUT-06``. What the published form does not hold comes back empty:
``theme``; short forms stand among the synonyms; ``related`` is left out where one term is a kind of the other (SKOS
Reference, S27). Other languages than English are not read.

Source: SKOS Reference (W3C Recommendation, 2009), SKOS-XL.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import TYPE_CHECKING

from chordae.identifiers import BASE, contract, model_iri, term_iri
from chordae.issues import Issue, Location, issue
from chordae.rdf.parse import Statements, parse
from chordae.terms import Term
from chordae.vocabulary.outside import OutsideTerm, Release

if TYPE_CHECKING:
    from chordae.rdf.parse import Term as Node

__all__ = ["read", "read_published"]

_SKOS = "http://www.w3.org/2004/02/skos/core#"
_ISO_THES = "http://purl.org/iso25964/skos-thes#"
_XL = "http://www.w3.org/2008/05/skos-xl#"
_OWL = "http://www.w3.org/2002/07/owl#"
_DCTERMS = "http://purl.org/dc/terms/"
_TYPE = "http://www.w3.org/1999/02/22-rdf-syntax-ns#type"

Found = Mapping[str, Collection["Node"]]


def read(data: bytes, name: str, format: str = "skos") -> tuple[list[Release], list[Issue]]:
    """Read the concepts of a scheme as one release; an empty list, with an issue, if there are none."""
    statements, issues = parse(data, "turtle", name)
    where = Location(name)
    terms: dict[str, OutsideTerm] = {}
    version = ""
    for _, found in _nodes(statements, _SKOS + "ConceptScheme"):
        version = version or next(iter(_words(found, _OWL + "versionInfo")), "")
    for node, found in _nodes(statements, _SKOS + "Concept"):
        iri, labels = str(getattr(node, "value", "")), _english(found, _SKOS + "prefLabel")
        problem = "" if labels else "it has no preferred label in English"
        problem = problem if _is_named(node) else "it is a node without a name"
        if len(labels) > 1:
            problem = "it has more than one preferred label in English"
        if problem:
            issues.append(issue("I-OUT-06", location=where, value=iri, problem=problem))
            continue
        successor = next((contract(one) for one in _iris(found, _DCTERMS + "isReplacedBy")), None)
        parents = tuple(sorted({contract(one) for one in _iris(found, _SKOS + "broader")}))
        label = " ".join(labels[0].split())
        terms[contract(iri)] = OutsideTerm(contract(iri), label, _is_given_up(found), successor, parents)
    if not terms:
        issues.append(issue("I-OUT-05", location=where, problem="it holds no concept with a label"))
        return [], issues
    prefixes = sorted({one.partition(":")[0] for one in terms})
    source = prefixes[0] if len(prefixes) == 1 else name
    return [Release(source, version or "not stated", "mixed", terms, read_from=name)], issues


def read_published(data: bytes, name: str) -> tuple[list[Term], list[Issue]]:
    """Read the vocabulary as :func:`chordae.vocabulary.publish.publish` writes it; terms sorted by slug."""
    statements, issues = parse(data, "turtle", name)
    kinds: dict[str, str] = {}
    for node, found in _nodes(statements, _SKOS + "Collection"):
        kind = str(getattr(node, "value", "")).rpartition("/kind/")[2]
        kinds.update((member, kind) for member in _iris(found, _SKOS + "member"))
    terms: list[Term] = []
    for node, found in _nodes(statements, _SKOS + "Concept"):
        iri = str(getattr(node, "value", ""))
        slug = next(iter(_words(found, _DCTERMS + "identifier")), "")
        schools = _schools(statements, found)
        if not slug or iri != f"{BASE}term/{slug}" or len(schools) != 2:
            problem = "it is not written as the published vocabulary is"
            issues.append(issue("I-OUT-06", location=Location(name), value=iri, problem=problem))
            continue
        wholes = _slugs(found, _ISO_THES + "broaderPartitive")
        said = dict.fromkeys((*_english(found, _SKOS + "altLabel"), *_english(found, _SKOS + "prefLabel")))
        terms.append(
            Term(
                slug=slug,
                kind=kinds.get(iri, ""),
                theme="",
                european=schools["european"],
                north_american=schools["north_american"],
                plain=_first(found, model_iri("plain_label")),
                definition=_first(found, _SKOS + "definition"),
                source=_last(found, _DCTERMS + "source"),
                since=_first(found, model_iri("since")),
                scope_note=_first(found, _SKOS + "scopeNote"),
                synonyms=tuple(sorted(one for one in said if one not in schools.values())),
                broader=tuple(one for one in _slugs(found, _SKOS + "broader") if one not in wholes),
                part_of=wholes,
                related=_slugs(found, _SKOS + "related"),
                deprecated="yes" if _is_given_up(found) else "",
                replaced_by=_last(found, _DCTERMS + "isReplacedBy"),
            )
        )
    return sorted(terms, key=lambda one: one.slug), issues


def _schools(statements: Statements, found: Found) -> dict[str, str]:
    """School -> the label that it prefers, from the SKOS-XL labels."""
    labels: dict[str, str] = {}
    for predicate in (_XL + "prefLabel", _XL + "altLabel"):
        for item in found.get(predicate, ()):
            inner = statements.of(item)
            for school in ("european", "north_american"):
                if term_iri(f"{school}_school") in _iris(inner, model_iri("preferred_in")):
                    labels[school] = _first(inner, _XL + "literalForm")
    return labels


def _nodes(statements: Statements, kind: str) -> Iterator[tuple[Node, Found]]:
    for node, found in statements.by_subject.items():
        if kind in _iris(found, _TYPE):
            yield node, found


def _is_given_up(found: Found) -> bool:
    return any(one in ("true", "1") for one in _words(found, _OWL + "deprecated"))


def _is_named(node: Node) -> bool:
    return type(node).__name__ == "NamedNode"


def _iris(found: Found, predicate: str) -> list[str]:
    return [str(getattr(one, "value", "")) for one in found.get(predicate, ()) if _is_named(one)]


def _words(found: Found, predicate: str) -> list[str]:
    return [str(getattr(one, "value", "")) for one in found.get(predicate, ()) if type(one).__name__ == "Literal"]


def _english(found: Found, predicate: str) -> list[str]:
    """Return words in English, or without a language."""
    return [
        str(getattr(one, "value", ""))
        for one in found.get(predicate, ())
        if type(one).__name__ == "Literal" and (getattr(one, "language", None) or "en").split("-")[0] == "en"
    ]


def _first(found: Found, predicate: str) -> str:
    return next(iter(_words(found, predicate)), "")


def _last(found: Found, predicate: str) -> str:
    return next((one.rpartition("/")[2] for one in _iris(found, predicate)), "")


def _slugs(found: Found, predicate: str) -> tuple[str, ...]:
    return tuple(sorted(one.rpartition("/")[2] for one in _iris(found, predicate)))
