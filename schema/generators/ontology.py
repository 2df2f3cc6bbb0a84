"""The classes and properties of the model as a small OWL ontology in Turtle: names, definitions, hierarchy.

No domains, ranges or closures: structure is said once, in the JSON Schema and in the structural shapes, and an
ontology that repeats it makes a reasoner draw conclusions from faults instead of finding them.
"""

from __future__ import annotations

from typing import Any

__all__ = ["make_ontology"]

_HEAD = """@prefix dcterms: <http://purl.org/dc/terms/> .
@prefix model: <https://w3id.org/chordae/model/> .
@prefix owl: <http://www.w3.org/2002/07/owl#> .
@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .
@prefix skos: <http://www.w3.org/2004/02/skos/core#> .
@prefix src: <https://w3id.org/chordae/source/> .
@prefix term: <https://w3id.org/chordae/term/> .

<https://w3id.org/chordae/model/> a owl:Ontology ;
    rdfs:label "Model of the description of a heart"@en ;
    owl:versionInfo "{version}" ;
    dcterms:license <https://creativecommons.org/licenses/by/4.0/> .
"""


_MODEL = "https://w3id.org/chordae/model/"


def make_ontology(tables: dict[str, Any]) -> str:
    """Return the ontology as Turtle."""
    blocks = [_HEAD.replace("{version}", tables["version"])]
    for name, one in tables["classes"].items():
        extra = [f"rdfs:subClassOf model:{parent}" for parent in one["ancestors"][1:2]]
        extra += [f"skos:relatedMatch term:{slug}" for slug in one.get("related", [])]
        blocks.append(_block(name, "owl:Class", one, extra))
    properties: dict[str, list[str]] = {}
    for name, slot in tables["slots"].items():
        # Properties of another ontology (PROV-O) are defined there.
        if slot["kind"] not in {"identifier", "type"} and slot["iri"].startswith(_MODEL):
            properties.setdefault(slot["iri"].removeprefix(_MODEL), []).append(name)
    for name, slots in sorted(properties.items()):
        slot = tables["slots"][name if name in slots else slots[0]]
        objects = slot["kind"] in {"enum", "reference", "node", "term", "uri"}
        blocks.append(_block(name, "owl:ObjectProperty" if objects else "owl:DatatypeProperty", slot, []))
    order = {
        "description": "The part whose feature a sequence gives in order; the members are rdf:_1, rdf:_2, ...",
        "source": "common_practice",
    }
    blocks.append(_block("in_order_of", "owl:ObjectProperty", order, []))
    return "\n".join(blocks)


def _block(name: str, kind: str, one: dict[str, Any], extra: list[str]) -> str:
    lines = [
        f"model:{name} a {kind}",
        *extra,
        f"rdfs:label {_text(_label(name))}@en",
        f"skos:definition {_text(one['description'])}@en",
        f"dcterms:source src:{one['source']}",
        "rdfs:isDefinedBy <https://w3id.org/chordae/model/>",
    ]
    return " ;\n    ".join(lines) + " .\n"


def _label(name: str) -> str:
    words = "".join(f" {one.lower()}" if one.isupper() else one for one in name).strip()
    return words.replace("_", " ")


def _text(words: str) -> str:
    return '"' + words.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'
