"""The vocabulary as FHIR R4 CodeSystem, ValueSets and ConceptMap.

::

    CodeSystem   every term, labels of both schools as designations, wider terms as property "parent", wholes "part_of"
    ValueSet     one a list of words of the schema, such as AtrialArrangementEnum
    ConceptMap   our terms to outside codes; negative rows and rows without a counterpart are left out or said as such

R4 ``equivalence`` says what the outside term is: exact -> equivalent, close -> relatedto, broad -> wider (the outside
term is wider), narrow -> narrower. A row that says *never* (predicate modifier Not) becomes ``disjoint``; a search
that found nothing becomes ``unmatched``. Neither may ever be read as a match.

Source: HL7 FHIR R4 (4.0.1), concept-map-equivalence.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from chordae import mapping, resources
from chordae.formats.fhir.pieces import TERM, Resource
from chordae.formats.settings import CAUTION
from chordae.model import tables
from chordae.resources import VERSION
from chordae.terms import Term, vocabulary

__all__ = ["code_system", "concept_map", "publish", "terminology", "value_sets"]

_EQUIVALENCE: Mapping[str, str] = {
    "exact": "equivalent",
    "close": "relatedto",
    "related": "relatedto",
    "broad": "wider",
    "narrow": "narrower",
}
_URL = "https://w3id.org/chordae/fhir/"
_ABOUT = {
    "status": "draft",
    "experimental": True,
    "version": VERSION,
    "publisher": "chordae",
    "copyright": "CC BY 4.0",
}
_PROPERTIES = (
    ("parent", "A wider term: what this is a kind of.", "code"),
    ("part_of", "A whole that everything of this kind is a part of; not a wider term.", "code"),
    ("source", "Where the definition comes from.", "string"),
)


def terminology() -> list[Resource]:
    """Every terminology resource, in a stable order."""
    return [code_system(), *value_sets(), concept_map()]


def publish() -> bytes:
    """Return a bundle of every terminology resource, the same bytes every time."""
    entries = [{"fullUrl": one["url"], "resource": one} for one in terminology()]
    bundle = {"resourceType": "Bundle", "id": "chordae-terminology", "type": "collection", "entry": entries}
    return (json.dumps(bundle, ensure_ascii=False, indent=1) + "\n").encode()


def code_system() -> Resource:
    """The vocabulary as a code system."""
    return {
        "resourceType": "CodeSystem",
        "id": "chordae-vocabulary",
        "url": TERM,
        "name": "ChordaeVocabulary",
        "title": "Vocabulary of chordae",
        **_ABOUT,
        "description": f"Terms of sequential segmental analysis in the words of two schools. {CAUTION}",
        "caseSensitive": True,
        "hierarchyMeaning": "is-a",
        "content": "complete",
        "count": len(vocabulary()),
        "property": [{"code": code, "description": words, "type": kind} for code, words, kind in _PROPERTIES]
        + [{"code": "inactive", "uri": "http://hl7.org/fhir/concept-properties#inactive", "type": "boolean"}],
        "concept": [_concept(term) for term in sorted(vocabulary(), key=lambda one: one.slug)],
    }


def value_sets() -> Iterator[Resource]:
    """One value set for each list of words of the schema."""
    for name, words in sorted(tables().enums.items()):
        codes = [str(one["iri"]).removeprefix(TERM) for one in words.values()]
        yield {
            "resourceType": "ValueSet",
            "id": name,
            "url": f"{_URL}ValueSet/{name}",
            "name": name,
            **_ABOUT,
            "compose": {"include": [{"system": TERM, "concept": [{"code": code} for code in codes]}]},
        }


def concept_map() -> Resource:
    """Our terms to the codes of outside vocabularies."""
    groups: dict[tuple[str, str], dict[str, list[Resource]]] = defaultdict(lambda: defaultdict(list))
    for term in sorted(vocabulary(), key=lambda one: one.slug):
        for code in mapping.codes_for(term.slug):
            groups[_system(code)][term.slug].append(_target(code, _EQUIVALENCE[code.predicate]))
        for code in mapping.never_for(term.slug):
            groups[_system(code)][term.slug].append(_target(code, "disjoint"))
    searched: dict[tuple[str, str], set[str]] = defaultdict(set)
    of_file = {one["file"]: one for one in mapping.sets()}
    systems = {code.source: _system(code) for term in vocabulary() for code in mapping.codes_for(term.slug)}
    for term in vocabulary():
        for one in mapping.searched_for(term.slug):
            if one.source in of_file and one.source in systems and term.slug not in groups[systems[one.source]]:
                searched[systems[one.source]].add(term.slug)
    return {
        "resourceType": "ConceptMap",
        "id": "chordae-open-terms",
        "url": f"{_URL}ConceptMap/chordae-open-terms",
        "name": "ChordaeOpenTerms",
        **_ABOUT,
        "description": f"Judged term by term; not yet reviewed by a morphologist where the comment says so. {CAUTION}",
        "group": [
            {
                "source": TERM,
                "target": system,
                "targetVersion": release,
                "element": [
                    {"code": slug, "target": rows} for slug, rows in sorted(groups[(system, release)].items()) if rows
                ]
                + [
                    {"code": slug, "target": [{"equivalence": "unmatched"}]}
                    for slug in sorted(searched[(system, release)])
                ],
            }
            for system, release in sorted(groups)
            if any(groups[(system, release)].values()) or searched[(system, release)]
        ],
    }


def _concept(term: Term) -> Resource:
    designations = [
        {"language": "en-GB", "use": _use("european"), "value": term.european},
        {"language": "en-US", "use": _use("north_american"), "value": term.north_american},
    ]
    designations += [{"language": "en", "use": _use("plain"), "value": term.plain}] if term.plain else []
    designations += [{"language": "en", "use": _use("synonym"), "value": other} for other in term.synonyms]
    properties: list[Resource] = [{"code": "parent", "valueCode": slug} for slug in term.broader]
    properties += [{"code": "part_of", "valueCode": slug} for slug in term.part_of]
    properties.append({"code": "source", "valueString": term.source})
    if term.deprecated:
        properties.append({"code": "inactive", "valueBoolean": True})
    return {
        "code": term.slug,
        "display": term.european,
        "definition": term.definition,
        "designation": designations,
        "property": properties,
    }


def _use(kind: str) -> Resource:
    return {"system": "https://w3id.org/chordae/model/", "code": kind}


def _system(code: mapping.Code) -> tuple[str, str]:
    return _systems()[code.curie.partition(":")[0]][0], code.release


@cache
def _systems() -> dict[str, tuple[str, str]]:
    lines = resources.read_text("mappings/fhir_systems.tsv").splitlines()
    rows = (line.split("\t") for line in lines if not line.startswith(("#", "prefix\t")))
    return {prefix: (system, manner) for prefix, system, manner in rows}


def _target(code: mapping.Code, equivalence: str) -> dict[str, Any]:
    prefix, _, local = code.curie.partition(":")
    own = code.curie if _systems()[prefix][1] == "curie" else local
    made: dict[str, Any] = {"code": own, "display": code.label, "equivalence": equivalence}
    notes = [code.comment] if code.comment else []
    if not code.reviewed:
        notes.append("Not yet reviewed by a morphologist.")
    return made | ({"comment": " ".join(notes)} if notes else {})
