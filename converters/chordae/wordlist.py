"""From plain words (lower case, underscores) to the slugs of the terms that bear them, in either school.

The vocabulary itself is :mod:`chordae.terms`; this is the look-up that readers of short forms and crosswalks need.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from functools import cache

from chordae.terms import vocabulary

__all__ = ["is_term", "look_up", "term_words"]


@cache
def term_words() -> Mapping[str, tuple[str, ...]]:
    """Return plain words -> slugs of the terms that bear them as label, synonym or abbreviation."""
    found: defaultdict[str, dict[str, None]] = defaultdict(dict)
    for name, slug in vocabulary().names():
        found["_".join(re.findall(r"[^\W_]+", name.casefold()))].setdefault(slug)
    return {word: tuple(sorted(slugs)) for word, slugs in found.items() if word}


def look_up(word: str) -> tuple[str, ...]:
    """Return the slugs of the terms that bear a plain word as slug, label, synonym or abbreviation.

    Several slugs mean that the word stands for several things.

    Examples
    --------
    >>> look_up("tetralogy_of_fallot"), look_up("ivc")
    (('tetralogy_of_fallot',), ('inferior_caval_vein', 'interventricular_communication'))
    """
    return (word,) if is_term(word) else term_words().get(word, ())


def is_term(slug: str) -> bool:
    """Say whether the vocabulary has a term with this slug."""
    return slug in vocabulary()
