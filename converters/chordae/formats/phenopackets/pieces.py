"""The small pieces of a phenopacket: ontology classes with our prefixes, and the resources that explain the prefixes.

::

    term:coarse_apical_trabeculations     a term of the vocabulary
    model:apical_trabeculation            a slot or class of the schema
    part:right_sided_ventricle            a part of this record
    evidence:plate_1                      a piece of evidence of this record
    HP:0001719                            a term of the Human Phenotype Ontology, where ours is exactly that

Source: Phenopacket Schema v2 of the GA4GH (ISO 4454).
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any

from chordae.mapping import Code, codes_for, sets
from chordae.model import part_type, tables
from chordae.rdf.terms import TERM
from chordae.record import say
from chordae.resources import VERSION
from chordae.terms import vocabulary

__all__ = [
    "MODEL",
    "Piece",
    "class_class",
    "class_of_part",
    "part_class",
    "phenotype_of",
    "resources",
    "slot_class",
    "term_class",
    "word_class",
]

Piece = dict[str, Any]
MODEL = "https://w3id.org/chordae/model/"
_HP = {
    "id": "hp",
    "name": "Human Phenotype Ontology",
    "url": "http://purl.obolibrary.org/obo/hp.owl",
    "namespacePrefix": "HP",
    "iriPrefix": "http://purl.obolibrary.org/obo/HP_",
}


def term_class(slug: str) -> Piece:
    """Return a term of the vocabulary, with the label of the European school."""
    known = vocabulary().get(slug)
    return {"id": f"term:{slug}", "label": known.european if known else slug.replace("_", " ")}


def word_class(slot: str, word: str) -> Piece:
    """Return the term that a word of a slot means."""
    return term_class(tables().slots[slot].values[word].removeprefix(TERM))


def slot_class(slot: str) -> Piece:
    """Return a slot of the schema."""
    return {"id": f"model:{slot}", "label": slot.replace("_", " ")}


def class_class(name: str) -> Piece:
    """Return a class of the schema."""
    return {"id": f"model:{name}", "label": say({"type": name})}


def part_class(part_id: str, type_name: str) -> Piece:
    """Return a part of the record."""
    return {"id": f"part:{part_id}", "label": say({"id": part_id, "type": type_name})}


def class_of_part(part_id: str, slot: str) -> str | None:
    """Return the class of a part of which only the name and one slot are known; ``None`` if that is not enough."""
    kind = part_type(part_id)
    if kind is not None and slot in tables().classes[kind].slots:
        return kind
    owners = [name for name, one in tables().classes.items() if slot in one.slots and "Part" in one.ancestors]
    return owners[0] if len(owners) == 1 else None


@cache
def phenotype_of(slug: str) -> Code | None:
    """Return the term of the Human Phenotype Ontology that is exactly a term of ours."""
    found = (one for one in codes_for(slug) if one.predicate == "exact" and one.curie.startswith("HP:"))
    return next(found, None)


def resources(iri: str, used: Iterable[str]) -> list[Piece]:
    """Return the resources for the prefixes of the identifiers that were used.

    Parameters
    ----------
    iri
        IRI of the record.
    used
        Identifiers such as ``term:tricuspid_valve``.
    """
    ours = {
        "term": ("Vocabulary of chordae", TERM),
        "model": ("Schema of chordae", MODEL),
        "part": ("Parts of this description", f"{iri}/part/"),
        "evidence": ("Evidence of this description", f"{iri}/evidence/"),
    }
    prefixes = {one.partition(":")[0] for one in used}
    made = [
        {"id": key, "name": name, "url": space, "version": VERSION, "namespacePrefix": key, "iriPrefix": space}
        for key, (name, space) in ours.items()
        if key in prefixes
    ]
    if "UCUM" in prefixes:
        made.append(
            {
                "id": "ucum",
                "name": "Unified Code for Units of Measure",
                "url": "https://ucum.org",
                "version": "2.1",
                "namespacePrefix": "UCUM",
                "iriPrefix": "https://ucum.org/",
            }
        )
    if "HP" in prefixes:
        release = next(str(one["release"]) for one in sets() if one["file"] == "chordae-hpo.sssom.tsv")
        made.append(_HP | {"version": release})
    return made
