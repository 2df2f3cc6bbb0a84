"""From two phrases to the words in which they exclude each other: left against right, with against without.

Source of the pairs: ``mappings/opposites.tsv`` (common practice).
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from functools import cache

from chordae import resources
from chordae.match.words import all_words

__all__ = ["clash", "clash_of_words"]


def clash(one: str, other: str) -> str | None:
    """Say in which words two phrases exclude each other.

    Parameters
    ----------
    one, other
        Phrases of any length. Words that both hold do not count.

    Returns
    -------
    str or None
        For example ``left / right``; None if they do not clash.

    Examples
    --------
    >>> clash("absent left atrioventricular connection", "Absent right sided atrioventricular connection")
    'left / right'
    >>> clash("left atrium and right atrium", "right atrium") is None
    True
    """
    return clash_of_words(frozenset(all_words(one)), frozenset(all_words(other)))


def clash_of_words(mine: Set[str], theirs: Set[str]) -> str | None:
    """Do the same for the words of two phrases."""
    table, negations = _table()
    apart = mine ^ theirs
    if apart.isdisjoint(table.keys()) and apart.isdisjoint(negations):
        return None
    for word in sorted(apart & mine):
        for against in table.get(word, ()):
            if against in apart and against in theirs:
                return f"{word} / {against}"
    for word in sorted(apart & negations):
        return f"{word} in one only"
    return None


@cache
def _table() -> tuple[Mapping[str, tuple[str, ...]], frozenset[str]]:
    pairs: dict[str, set[str]] = {}
    negations = set()
    for line in resources.read_text("mappings/opposites.tsv").splitlines():
        if line.startswith(("#", "word\t")) or not line:
            continue
        one, other, kind = line.split("\t")
        if kind == "negation":
            negations.add(all_words(one)[0])
            continue
        # Hyphenated pairs share their second word (left-sided / right-sided): only the first word differs.
        left, right = all_words(one)[0], all_words(other)[0]
        if left != right:
            pairs.setdefault(left, set()).add(right)
            pairs.setdefault(right, set()).add(left)
    return {word: tuple(sorted(others)) for word, others in pairs.items()}, frozenset(negations)
