"""The vocabulary of chordae as targets, and as a bridge: other words for what a phrase says.

::

    rephrase("DORV with subaortic VSD")
        -> "double outlet right ventricle with subaortic ventricular septal defect"     because DORV, VSD stand for ...
    rephrase("ductus arteriosus")
        -> "arterial duct"                                                              because both name one term
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from chordae import resources
from chordae.match.opposites import clash
from chordae.match.targets import Name, Target
from chordae.match.words import key
from chordae.terms import SCHOOLS, Term, vocabulary

__all__ = ["Rephrasing", "names_of", "own_targets", "rephrase"]

_WORD = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:[-/][A-Za-z0-9]+)*/?")
_MOST = 12


@dataclass(frozen=True, slots=True)
class Rephrasing:
    """Other words for a phrase, and why they may stand for it."""

    text: str
    why: str

    def clashes(self, name: str) -> bool:
        """Whether a name says the opposite of these words."""
        return clash(self.text, name) is not None


def names_of(term: Term) -> tuple[Name, ...]:
    """All names of a term: labels and abbreviations of both schools, plain label, synonyms."""
    names = [Name(term.european, "label", "european"), Name(term.north_american, "label", "north_american")]
    for school in SCHOOLS:
        names += [Name(short, "abbreviation", school) for short in term.abbreviations(school)]
    names += [Name(other) for other in term.synonyms]
    if term.plain:
        names.append(Name(term.plain))
    return tuple(dict.fromkeys(names))


@cache
def own_targets() -> tuple[Target, ...]:
    """Every term that is not deprecated, as a target."""
    return tuple(
        Target(term.slug, term.european, names_of(term), term.definition, "chordae")
        for term in vocabulary()
        if not term.deprecated
    )


def rephrase(text: str) -> list[Rephrasing]:
    """Say a phrase in other words of the trade.

    Parameters
    ----------
    text
        A local word or phrase.

    Returns
    -------
    list of Rephrasing
        At most twelve, without the phrase itself. An abbreviation of several meanings is not written out.
    """
    found: dict[str, Rephrasing] = {}
    own = key(text)
    for slug in _by_key().get(own, ())[:2] if own else ():
        term = vocabulary()[slug]
        for name in names_of(term):
            if name.kind != "abbreviation" and key(name.text) != own:
                found.setdefault(key(name.text), Rephrasing(name.text, f"'{text}' names {term.european}"))
    for school in SCHOOLS:
        written, why = _written_out(text, school)
        if why and key(written) != own:
            found.setdefault(key(written), Rephrasing(written, why))
    return list(found.values())[:_MOST]


def _written_out(text: str, school: str) -> tuple[str, str]:
    reasons: list[str] = []

    def instead(match: re.Match[str]) -> str:
        if word := _short_words().get(match[0].casefold()):
            reasons.append(f"{match[0]} is short for {word}")
            return word
        slugs = _abbreviations().get(match[0], ())
        if len(slugs) != 1:
            return match[0]
        term = vocabulary()[slugs[0]]
        label = term.european if school == "european" else term.north_american
        reasons.append(f"{match[0]} stands for {label}")
        return label

    return _WORD.sub(instead, text), "; ".join(reasons)


@cache
def _by_key() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for target in own_targets():
        for name in target.names:
            found[key(name.text)][target.id] = None
    return {one: tuple(slugs) for one, slugs in found.items()}


@cache
def _abbreviations() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for target in own_targets():
        for name in target.names:
            if name.kind == "abbreviation" and len(name.text) > 1:
                found[name.text][target.id] = None
    return {short: tuple(slugs) for short, slugs in found.items()}


@cache
def _short_words() -> Mapping[str, str]:
    rows = (line.split("\t") for line in resources.read_text("mappings/short_words.tsv").splitlines())
    return {row[0].casefold().rstrip("."): row[1] for row in rows if len(row) == 2 and row[0] != "short"}
