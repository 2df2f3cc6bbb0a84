"""What a term, a change and a source are: three read-only records, filled by :mod:`chordae.terms`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from chordae.identifiers import term_iri

__all__ = ["SCHOOLS", "Change", "School", "Source", "Term"]

School = Literal["european", "north_american"]
SCHOOLS: tuple[School, ...] = ("european", "north_american")


@dataclass(frozen=True, slots=True)
class Term:
    """One concept. ``european`` and ``north_american`` are the preferred labels, ``plain`` the one for laypeople.

    ``broader`` are what the term is a kind of, ``part_of`` wholes that every such thing belongs to.
    ``source`` is a key of ``schema/sources.tsv``, "common practice" or "from memory"; ``since`` the version the
    term came with; ``deprecated`` the version it was given up in, or empty; ``replaced_by`` its successor, or empty.
    """

    slug: str
    kind: str
    theme: str
    european: str
    north_american: str
    plain: str
    definition: str
    source: str
    since: str
    scope_note: str = ""
    european_abbreviations: tuple[str, ...] = ()
    north_american_abbreviations: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()
    broader: tuple[str, ...] = ()
    part_of: tuple[str, ...] = ()
    related: tuple[str, ...] = ()
    deprecated: str = ""
    replaced_by: str = ""

    @property
    def iri(self) -> str:
        """IRI of the term."""
        return term_iri(self.slug)

    def label(self, school: School = "european") -> str:
        """Preferred label of one school."""
        return self.european if school == "european" else self.north_american

    def abbreviations(self, school: School) -> tuple[str, ...]:
        """Abbreviations of one school."""
        return self.european_abbreviations if school == "european" else self.north_american_abbreviations


@dataclass(frozen=True, slots=True)
class Change:
    """What happened to a term in a version: added, relabelled, redefined or deprecated (then with a successor)."""

    version: str
    slug: str
    change: str
    successor: str
    note: str


@dataclass(frozen=True, slots=True)
class Source:
    """A source and how far it was read: passage read, from memory, or common practice."""

    key: str
    citation: str
    identifier: str
    status: str
    note: str
