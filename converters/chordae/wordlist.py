"""From a word as written to the terms of the vocabulary that bear it as a label or a synonym, in either school."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache

from chordae import resources

__all__ = ["is_term", "look_up", "term_words"]

_DATA = "_generated/words.json"


@cache
def term_words() -> Mapping[str, tuple[str, ...]]:
    """Return plain words (lower case, underscores) -> slugs of the terms that bear them, abbreviations last."""
    found = json.loads(resources.read_text(_DATA))
    return {word: tuple(slugs) for word, slugs in {**found["abbreviations"], **found["words"]}.items()}


@cache
def _slugs() -> frozenset[str]:
    return frozenset(json.loads(resources.read_text(_DATA))["slugs"])


def look_up(word: str) -> tuple[str, ...]:
    """Return the slugs of the terms that bear a plain word as slug, label, synonym or abbreviation.

    Several slugs mean that the word stands for several things.

    Examples
    --------
    >>> look_up("tetralogy_of_fallot")
    ('tetralogy_of_fallot',)
    """
    return (word,) if word in _slugs() else term_words().get(word, ())


def is_term(slug: str) -> bool:
    """Say whether the vocabulary has a term with this slug."""
    return slug in _slugs()
