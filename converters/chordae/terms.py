"""The vocabulary as a read-only table: terms by slug, by label of either school, upwards and downwards.

::

    vocabulary().get("tricuspid_valve")            Term or None
    vocabulary().by_label("L-loop ventricles")     (Term left_hand_topology,)
    vocabulary().is_a("straddling_mitral_valve", "straddling_atrioventricular_valve")   True
    vocabulary().nearest("tricuspit valve", 3)     the likeliest terms, best first
    vocabulary().changes_since("0.1.0")            what a record of that version should know

Written by ``schema/build_vocabulary.py`` from ``schema/vocabulary/*.yaml``; read from one compiled file.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, cached_property
from typing import Any

import orjson

from chordae import resources
from chordae.errors import ResourceError, VocabularyError
from chordae.nearness import NEAR, Nearness, key_of
from chordae.term import SCHOOLS, Change, School, Source, Term

__all__ = ["COMPILED", "SCHOOLS", "Change", "School", "Source", "Term", "Vocabulary", "key_of", "vocabulary"]

COMPILED = "_generated/terms.json"


class Vocabulary:
    """All terms; :func:`vocabulary` gives the one of this package.

    Parameters
    ----------
    compiled
        The content of the compiled table.
    version
        Version of the vocabulary, three numbers.
    """

    def __init__(self, compiled: Mapping[str, Any], version: str) -> None:
        self.version = version
        self._raw: Mapping[str, Mapping[str, Any]] = compiled["terms"]
        self._made: dict[str, Term] = {}
        self._compiled = compiled

    def __len__(self) -> int:
        return len(self._raw)

    def __iter__(self) -> Iterator[Term]:
        return (self._term(slug) for slug in self._raw)

    def __contains__(self, slug: object) -> bool:
        return slug in self._raw

    @property
    def slugs(self) -> frozenset[str]:
        """Slugs of all terms."""
        return frozenset(self._raw)

    def get(self, slug: str) -> Term | None:
        """Return a term by its slug, or None."""
        return self._term(slug) if slug in self._raw else None

    def __getitem__(self, slug: str) -> Term:
        """Return a term by its slug.

        Raises
        ------
        VocabularyError
            There is no such term; the hint names the nearest.
        """
        if slug not in self._raw:
            near = ", ".join(term.slug for term in self.nearest(slug.replace("_", " "), 3))
            raise VocabularyError(f"There is no term '{slug[:80]}'.", f"Nearest: {near}." if near else "")
        return self._term(slug)

    @property
    def kinds(self) -> Mapping[str, str]:
        """Kinds of terms with the meaning of each."""
        kinds: Mapping[str, str] = self._compiled["kinds"]
        return kinds

    @property
    def themes(self) -> Mapping[str, Mapping[str, str]]:
        """Themes with title and description."""
        themes: Mapping[str, Mapping[str, str]] = self._compiled["themes"]
        return themes

    @property
    def friends(self) -> list[dict[str, Any]]:
        """Words of several meanings, as compiled; :mod:`chordae.friends` gives them shape."""
        friends: list[dict[str, Any]] = self._compiled["friends"]
        return friends

    def source(self, key: str) -> Source | None:
        """Return a source by its key; None for a phrase and for an unknown key."""
        found = self._compiled["sources"].get(key)
        return Source(key, *found) if found else None

    def by_label(self, text: str, school: School | None = None) -> tuple[Term, ...]:
        """Return the terms that a text names: preferred labels first, then synonyms, then abbreviations.

        Case, hyphens and spaces do not matter. A text may name several terms (``IVC``), so several may come back.

        Parameters
        ----------
        text
            A label, synonym or abbreviation.
        school
            Only names of this school; synonyms belong to both.
        """
        found: dict[str, None] = {}
        for rank in range(3):
            for slug, place, whose, _ in self._names.get(key_of(text), ()):
                if place == rank and (school is None or whose in ("", school)):
                    found.setdefault(slug)
        return tuple(self._term(slug) for slug in found)

    def names(self) -> Iterator[tuple[str, str]]:
        """Every name of every term, as written, with the slug: labels, synonyms, abbreviations."""
        for slug, raw in self._raw.items():
            for name, _, _ in _names_of(raw):
                yield name, slug

    def ancestors(self, slug: str) -> frozenset[str]:
        """Slugs of all that a term is a kind of, near and far, without the term itself."""
        return _closure(slug, lambda one: self._raw[one].get("broader", ()) if one in self._raw else ())

    def above(self, slug: str) -> frozenset[str]:
        """Slugs of all that a term is a kind of or a part of, near and far, in any order of the two."""
        return _closure(slug, lambda one: (*self[one].broader, *self[one].part_of) if one in self._raw else ())

    def parts(self, slug: str) -> tuple[str, ...]:
        """Slugs of the terms that are parts of a term, the nearest only, sorted."""
        return tuple(sorted(one for one, raw in self._raw.items() if slug in raw.get("part_of", ())))

    def narrower(self, slug: str) -> tuple[str, ...]:
        """Slugs of the terms directly below, sorted."""
        return self._below.get(slug, ())

    def descendants(self, slug: str) -> frozenset[str]:
        """Slugs of all narrower terms, near and far, without the term itself."""
        return _closure(slug, lambda one: self._below.get(one, ()))

    def is_a(self, slug: str, other: str) -> bool:
        """Whether a term is another one or a kind of it."""
        return slug in self._raw and (slug == other or other in self.ancestors(slug))

    def nearest(self, text: str, n: int = 5) -> list[Term]:
        """Return at most ``n`` terms whose names look most like a text, best first; words may be in another order.

        A text of one word also finds longer names that hold such a word. Names that look much less like the text than
        the best are left out.
        """
        return [term for term, _ in self.nearest_names(text, n)]

    def nearest_names(self, text: str, n: int = 5) -> list[tuple[Term, str]]:
        """Return the same terms as :meth:`nearest`, each with the name of it that looks most like the text."""
        wanted = key_of(text)[:120]
        if not wanted:
            return []
        nearness = Nearness(wanted)
        best: dict[str, tuple[float, int, str]] = {}
        for name, entries in self._names.items():
            score = nearness.of(name)
            if score >= NEAR:
                for slug, _, _, written in entries:
                    best[slug] = max(best.get(slug, (0.0, 0, "")), (score, -len(name), written))
        least = max((score for score, _, _ in best.values()), default=0.0) - _SPREAD
        near = (slug for slug, (score, _, _) in best.items() if score >= least)
        ranked = sorted(near, key=lambda slug: (-best[slug][0], -best[slug][1], slug))
        return [(self._term(slug), best[slug][2]) for slug in ranked[:n]]

    def changes_since(self, version: str, used: Iterable[str] | None = None) -> list[Change]:
        """Return what changed after a version, oldest first.

        Parameters
        ----------
        version
            The ``vocabulary_version`` of a record, three numbers.
        used
            Only changes of these terms, for example those that a record uses.

        Raises
        ------
        VocabularyError
            The version is not three numbers, or is newer than this vocabulary.
        """
        then = _version(version)
        if then > _version(self.version):
            raise VocabularyError(
                f"The record was written with vocabulary {version}; this is {self.version}.",
                "Install a newer chordae to read it with all its terms.",
            )
        wanted = None if used is None else set(used)
        changes = [Change(**entry) for entry in self._compiled["changes"]]
        return [one for one in changes if _version(one.version) > then and (wanted is None or one.slug in wanted)]

    def successor(self, slug: str) -> Term | None:
        """Return the term to use in place of a deprecated one, following successors; the term itself if it is not
        deprecated; None if there is no such term or no successor."""
        seen: set[str] = set()
        while slug in self._raw and slug not in seen:
            seen.add(slug)
            raw = self._raw[slug]
            if "deprecated" not in raw:
                return self._term(slug)
            slug = raw.get("replaced_by", "")
        return None

    def _term(self, slug: str) -> Term:
        if slug not in self._made:
            raw = self._raw[slug]
            short = raw.get("abbreviations", {})
            self._made[slug] = Term(
                slug=slug,
                kind=raw["kind"],
                theme=raw["theme"],
                european=raw["european"],
                north_american=raw["north_american"],
                plain=raw["plain"],
                definition=raw["definition"],
                source=raw["source"],
                since=raw["since"],
                scope_note=raw.get("scope_note", ""),
                european_abbreviations=tuple(short.get("european", ())),
                north_american_abbreviations=tuple(short.get("north_american", ())),
                synonyms=tuple(raw.get("synonyms", ())),
                broader=tuple(raw.get("broader", ())),
                part_of=tuple(raw.get("part_of", ())),
                related=tuple(raw.get("related", ())),
                deprecated=raw.get("deprecated", ""),
                replaced_by=raw.get("replaced_by", ""),
            )
        return self._made[slug]

    @cached_property
    def _names(self) -> Mapping[str, list[tuple[str, int, str, str]]]:
        names: dict[str, list[tuple[str, int, str, str]]] = defaultdict(list)
        for slug, raw in self._raw.items():
            for name, rank, school in _names_of(raw):
                names[key_of(name)].append((slug, rank, school, name))
        return dict(names)

    @cached_property
    def _below(self) -> Mapping[str, tuple[str, ...]]:
        below: dict[str, list[str]] = defaultdict(list)
        for slug, raw in self._raw.items():
            for above in raw.get("broader", ()):
                below[above].append(slug)
        return {slug: tuple(sorted(found)) for slug, found in below.items()}


@cache
def vocabulary() -> Vocabulary:
    """Return the vocabulary of this package; read once.

    Raises
    ------
    ResourceError
        The compiled table is missing or broken.
    """
    try:
        compiled = orjson.loads(resources.read_bytes(COMPILED))
    except orjson.JSONDecodeError:
        raise ResourceError(f"{COMPILED} is broken.", "Run: python schema/generate.py") from None
    return Vocabulary(compiled, resources.VERSION)


_SPREAD = 0.12
"""How much less than the best a name may look like a text and still be told."""


def _names_of(raw: Mapping[str, Any]) -> Iterator[tuple[str, int, str]]:
    for school in SCHOOLS:
        yield raw[school], 0, school
    for synonym in raw.get("synonyms", ()):
        yield synonym, 1, ""
    for school, short in raw.get("abbreviations", {}).items():
        for one in short:
            yield one, 2, school


def _closure(slug: str, step: Any) -> frozenset[str]:
    seen: set[str] = set()
    waiting = list(step(slug))
    while waiting:
        one = waiting.pop()
        if one not in seen:
            seen.add(one)
            waiting.extend(step(one))
    return frozenset(seen)


def _version(text: str) -> tuple[int, ...]:
    if not re.fullmatch(r"[0-9]{1,6}(\.[0-9]{1,6}){2}", text):
        raise VocabularyError(
            f"'{text[:40]}' is not a version of the vocabulary.", "Write three numbers, for example 0.1.0."
        )
    return tuple(int(part) for part in text.split("."))
