"""The formats that are read and written, in one table: a name in, what knows the format out.

::

    name          holds      several files  read  written  module
    yaml          records    no             yes   yes      chordae.formats.documents
    fhir          records    no             yes   yes      chordae.formats.fhir.format
    webvtt        records    yes            no    yes      chordae.formats.webvtt
    sssom-json    mappings   no             yes   yes      chordae.formats.sssom_forms

A further format is one more row and one module (how-to in DEVELOPERS.md). The module is loaded when it is used, so a
library that only one format needs may be an extra. What a module offers, by what its row says:

=====================  ==========================================================================
written, one file      ``write(items, settings) -> Iterator[bytes]``
written, several       ``write_files(items, settings) -> Iterator[tuple[str, bytes]]``, names first
read, one file         ``read(data, name, format) -> tuple[list[Reading], list[Issue]]``
read, several          ``read_files(files, name, format) -> tuple[list[Reading], list[Issue]]``
=====================  ==========================================================================

``items`` are pairs of a record in canonical order and what was derived from it, or ``None``; ``settings`` are
:class:`chordae.formats.settings.Settings`. A writer calls ``settings.note(record, carried)`` once a record. In the rows
for mappings, terms and the vocabulary the functions have the same names and take or return what the row holds.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib import import_module
from types import MappingProxyType
from typing import Any, Literal

from chordae.errors import FormatError, MissingExtra

__all__ = ["FORMATS", "Format", "Holds", "format_named", "format_of_name", "names"]

Holds = Literal["records", "mappings", "terms", "vocabulary"]
"""What a file of the format holds; a file of one sort is never written as one of another."""


@dataclass(frozen=True, slots=True)
class Format:
    """One row of the table.

    ``suffixes`` are endings of file names that stand for the format when a file is read. ``several`` says that it is a
    folder, or a zip of one. ``lossless`` says that it holds whatever a record holds. ``extra`` is the optional part of
    the installation that it needs, ``needs`` the library of that part.
    """

    name: str
    label: str
    module: str
    suffixes: tuple[str, ...] = ()
    holds: Holds = "records"
    reads: bool = True
    writes: bool = True
    several: bool = False
    lossless: bool = False
    extra: str | None = None
    needs: str | None = None

    def load(self) -> Any:
        """Return the module.

        Raises
        ------
        MissingExtra
            The library that it needs is not installed.
        """
        if self.needs is not None:
            try:
                import_module(self.needs)
            except ImportError:
                raise MissingExtra(self.extra or self.needs, f"the format {self.name}") from None
        return import_module(f"chordae.formats.{self.module}")


def format_named(name: str, *, to: Literal["read", "write"], holds: Holds = "records") -> Format:
    """Return the row of a name.

    Raises
    ------
    FormatError
        There is no such format, or it is not read (not written), or it holds something else.
    """
    found = FORMATS.get(name)
    known = ", ".join(names(to=to, holds=holds))
    if found is None:
        raise FormatError(f"There is no format {name!r}.", f"Use one of: {known}.")
    label = found.label[:1].upper() + found.label[1:]
    if found.holds != holds:
        raise FormatError(f"{label} holds {found.holds}, not {holds}.", f"For {holds} use one of: {known}.")
    if not (found.reads if to == "read" else found.writes):
        done = "read" if to == "read" else "written"
        raise FormatError(f"{label} is not {done}.", f"For {holds} use one of: {known}.")
    return found


def format_of_name(path: str) -> Format | None:
    """Return the format that the ending of a file name stands for, ``None`` if it stands for none.

    Examples
    --------
    >>> [found and found.name for found in map(format_of_name, ("a.ttl", "b.fhir.json", "c.json", "d.odt"))]
    ['turtle', 'fhir', 'json', None]
    """
    lowered = path.lower()
    fitting = [
        (len(suffix), one)
        for one in FORMATS.values()
        for suffix in one.suffixes
        if one.reads and lowered.endswith(suffix)
    ]
    return max(fitting, key=lambda pair: pair[0])[1] if fitting else None


def names(*, to: Literal["read", "write"], holds: Holds | None = None) -> Iterator[str]:
    """Yield the names of formats that are read, or written, in the order of the table."""
    for one in FORMATS.values():
        if (one.reads if to == "read" else one.writes) and holds in (None, one.holds):
            yield one.name


def _rows() -> Iterator[Format]:
    documents = {"yaml": (".yaml", ".yml"), "json": (".json",), "ndjson": (".ndjson", ".jsonl")}
    for name, suffixes in documents.items():
        yield Format(name, name.upper(), "documents", suffixes, lossless=True)
    graphs = {
        "turtle": ("Turtle", ".ttl"),
        "ntriples": ("N-Triples", ".nt"),
        "nquads": ("N-Quads", ".nq"),
        "trig": ("TriG", ".trig"),
        "jsonld": ("JSON-LD", ".jsonld"),
    }
    for name, (label, suffix) in graphs.items():
        yield Format(name, label, "graphs", (suffix,), lossless=True)
    yield Format("fhir", "a FHIR R4 bundle", "fhir.format", (".fhir.json",))
    yield Format("fhir-ndjson", "FHIR R4 resources, one a line", "fhir.format", (".fhir.ndjson",))
    yield Format(
        "phenopackets",
        "GA4GH Phenopackets v2",
        "phenopackets.format",
        (".phenopacket.json",),
        several=True,
        extra="phenopackets",
        needs="phenopackets.schema.v2",
    )
    yield Format("annotations", "W3C Web Annotations", "evidence.annotations", (".annotations.jsonld", ".anno.json"))
    yield Format("iiif", "IIIF Presentation 3 manifests", "evidence.iiif", reads=False, several=True)
    yield Format("webvtt", "WebVTT chapters and subtitles", "evidence.webvtt", reads=False, several=True)
    yield Format("dwca", "a Darwin Core Archive", "dwca.format", (".dwca.zip",), several=True)
    yield Format("csv", "a set of CSV tables", "csvset.format", several=True)
    yield Format("xlsx", "a workbook of the template", "xlsx.format")
    yield Format("sssom", "an SSSOM table", "sssom_forms", (".sssom.tsv",), holds="mappings")
    yield Format("sssom-json", "SSSOM/JSON", "sssom_forms", (".sssom.json",), holds="mappings")
    yield Format("sssom-rdf", "SSSOM as RDF", "sssom_forms", (".sssom.ttl",), holds="mappings")
    yield Format("outside-table", "a table of outside terms", "releases", (".outside.tsv",), holds="terms")
    yield Format("obo", "an OBO file", "releases", (".obo",), holds="terms", writes=False)
    yield Format("skos", "a SKOS scheme", "skos_terms", (".skos.ttl",), holds="terms", writes=False)
    yield Format("obograph", "OBO Graph JSON", "releases", (".obograph.json",), holds="terms", writes=False)
    yield Format(
        "fhir-terminology", "FHIR R4 terminology", "fhir.terminology", holds="vocabulary", reads=False
    )  # read by terminology servers


FORMATS: Mapping[str, Format] = MappingProxyType({one.name: one for one in _rows()})
"""Name -> row."""
