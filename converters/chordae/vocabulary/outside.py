"""Releases of outside vocabularies: a table, or an OBO file, in; terms with labels and parents out.

::

    # source: MONDO          who, which release, under what licence, what the parents mean
    # release: v2026-05-05
    id             label                         obsolete  replaced_by  parents
    MONDO:0018089  double outlet right ventricle                        MONDO:0002070|MONDO:0016581

The tables of ``mappings/outside`` hold the terms that the mappings name and everything above them, in the release that
the mappings were judged by. Parents are of three kinds: ``kind`` (is a), ``mixed`` (is a, and part of) and ``code``
(by the code, as in a classification); ``none`` where no hierarchy was read.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Literal, cast, get_args

from chordae import resources
from chordae.errors import VocabularyError
from chordae.files import read_input

__all__ = ["Hierarchy", "OutsideTerm", "Release", "parse_obo", "pinned", "read_obo", "read_table", "write_table"]

Hierarchy = Literal["kind", "mixed", "code", "none"]
FOLDER = "mappings/outside"
_COLUMNS = ("id", "label", "obsolete", "replaced_by", "parents")
_VERSION = re.compile(r"\d{4}-\d{2}-\d{2}")
_ID = re.compile(r"^id: ([A-Za-z][A-Za-z0-9.]*):", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class OutsideTerm:
    """One term of an outside vocabulary."""

    id: str
    label: str
    obsolete: bool = False
    replaced_by: str | None = None
    parents: tuple[str, ...] = ()


@dataclass(frozen=True)
class Release:
    """One release of one outside vocabulary, or the part of it that is needed."""

    source: str
    version: str
    hierarchy: Hierarchy
    terms: Mapping[str, OutsideTerm]
    licence: str = ""
    read_from: str = ""
    _above: dict[str, frozenset[str]] = field(default_factory=dict, compare=False, repr=False)

    def ancestors(self, term: str) -> frozenset[str]:
        """Return every term above one, itself left out; a circle in the hierarchy does no harm."""
        if term not in self._above:
            found: set[str] = set()
            todo = [term]
            while todo:
                known = self.terms.get(todo.pop())
                fresh = [one for one in known.parents if one not in found] if known else []
                found.update(fresh)
                todo.extend(fresh)
            self._above[term] = frozenset(found - {term})
        return self._above[term]

    def label(self, term: str) -> str:
        """Return the label of a term, or its id if it is not there."""
        return self.terms[term].label if term in self.terms else term

    def around(self, ids: Iterable[str]) -> Release:
        """Return the same release with these terms, all above them, and the successors of obsolete ones."""
        keep: set[str] = set()
        todo = [one for one in ids if one in self.terms]
        while todo:
            one = todo.pop()
            if one in keep:
                continue
            keep |= {one} | (self.ancestors(one) & set(self.terms))
            successor = self.terms[one].replaced_by
            if successor in self.terms and successor not in keep:
                todo.append(cast(str, successor))
        terms = {one: self.terms[one] for one in sorted(keep)}
        return Release(self.source, self.version, self.hierarchy, terms, self.licence, self.read_from)


def read_table(text: str, name: str) -> Release:
    """Read a table of ``mappings/outside``.

    Raises
    ------
    VocabularyError
        The table is not as this module writes it.
    """
    lines = text.splitlines()
    head = dict(line[2:].split(": ", 1) for line in lines if line.startswith("# ") and ": " in line)
    rows = [line.split("\t") for line in lines if not line.startswith("#")]
    if {"source", "release", "parents"} - set(head) or not rows or tuple(rows[0]) != _COLUMNS:
        raise VocabularyError(f"{name} is no table of outside terms.", "Write it again with schema/build_outside.py.")
    if head["parents"] not in get_args(Hierarchy) or any(len(row) != len(_COLUMNS) for row in rows):
        raise VocabularyError(f"{name} has a row or a heading that is not as it must be.")
    terms: dict[str, OutsideTerm] = {}
    for id, label, obsolete, successor, parents in rows[1:]:
        if id in terms:
            raise VocabularyError(f"{name} holds {id[:80]} twice.")
        terms[id] = OutsideTerm(
            id, label, obsolete == "yes", successor or None, tuple(filter(None, parents.split("|")))
        )
    hierarchy = cast(Hierarchy, head["parents"])
    return Release(
        head["source"], head["release"], hierarchy, terms, head.get("licence", ""), head.get("read from", "")
    )


def write_table(release: Release) -> str:
    """Return the table of a release, one term a line, sorted by id."""
    lines = [
        f"# source: {release.source}",
        f"# release: {release.version}",
        f"# parents: {release.hierarchy}",
        f"# licence: {release.licence}",
        f"# read from: {release.read_from}",
        "\t".join(_COLUMNS),
    ]
    for term in sorted(release.terms.values(), key=lambda one: one.id):
        obsolete = "yes" if term.obsolete else ""
        cells = (term.id, term.label, obsolete, term.replaced_by or "", "|".join(sorted(term.parents)))
        lines.append("\t".join(" ".join(cell.split()) for cell in cells))
    return "\n".join(lines) + "\n"


def read_obo(path: str | Path, source: str) -> Release:
    """Read the terms of one vocabulary from an OBO file (OBO format 1.4): names, is_a, obsolescence, successor.

    Parameters
    ----------
    path
        The file.
    source
        Prefix of the ids to keep, such as ``HP``.

    Raises
    ------
    InputError
        The file cannot be read.
    VocabularyError
        It is no UTF-8 text, holds a term twice, or none with that prefix.
    """
    return parse_obo(read_input(path), Path(path).name, source)


def parse_obo(data: bytes, name: str, source: str = "") -> Release:
    """Read what was read from an OBO file already; without a source, the terms with the prefix that most have.

    Raises
    ------
    VocabularyError
        It is no UTF-8 text, holds a term twice, or none with that prefix.
    """
    try:
        head, *stanzas = re.split(r"^\[", data.decode("utf-8-sig"), flags=re.MULTILINE)
    except UnicodeDecodeError:
        raise VocabularyError(f"{name} is not UTF-8 text.", "Save it as UTF-8.") from None
    version = _VERSION.search(next((one for one in head.splitlines() if one.startswith("data-version")), ""))
    if not source:
        prefixes = Counter(one[1] for one in map(_ID.search, stanzas) if one)
        source = max(sorted(prefixes), key=lambda prefix: prefixes[prefix], default="")
    terms: dict[str, OutsideTerm] = {}
    for term in _obo_terms(stanzas, f"{source}:"):
        if term.id in terms:
            raise VocabularyError(f"{name} holds {term.id[:80]} twice.")
        terms[term.id] = term
    if not terms:
        raise VocabularyError(f"{name} holds no term of {source or 'any source'}.", "Name an OBO file of a vocabulary.")
    return Release(source, version[0] if version else "not stated", "kind", terms, read_from=name)


@cache
def pinned(source: str) -> Release:
    """Return the release that our mappings to a source were judged by, from ``mappings/outside``.

    Raises
    ------
    ResourceError
        There is no table of that source.
    """
    name = f"{FOLDER}/{source.lower().replace('.', '_')}.tsv"
    return read_table(resources.read_text(name), name)


def _obo_terms(stanzas: Iterable[str], prefix: str) -> Iterator[OutsideTerm]:
    for stanza in stanzas:
        if not stanza.startswith("Term]"):
            continue
        tags: dict[str, list[str]] = {}
        for line in stanza.splitlines():
            tag, colon, value = line.partition(": ")
            if colon:
                tags.setdefault(tag, []).append(value.split(" ! ")[0].split(" {")[0].strip())
        name = tags.get("id", [""])[0]
        if name.startswith(prefix):
            yield OutsideTerm(
                name,
                tags.get("name", [""])[0],
                tags.get("is_obsolete") == ["true"],
                next(iter(tags.get("replaced_by", [])), None),
                tuple(one for one in tags.get("is_a", []) if one.startswith(prefix)),
            )
