"""From two phrases to the words in which they exclude each other: left against right, with against without.

Source of the pairs: ``mappings/opposites.tsv`` (common practice).
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from chordae import resources
from chordae.match.words import all_words

__all__ = ["clash"]


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
    mine, theirs = set(all_words(one)), set(all_words(other))
    table = _table()
    for word in sorted(mine - theirs):
        for against in table.get(word, ()):
            if against in theirs - mine:
                return f"{word} / {against}"
    for word in sorted(_negations()):
        if (word in mine) != (word in theirs):
            return f"{word} in one only"
    return None


@cache
def _table() -> Mapping[str, tuple[str, ...]]:
    pairs: dict[str, list[str]] = {}
    for line in resources.read_text("mappings/opposites.tsv").splitlines():
        if line.startswith(("#", "word\t")) or not line:
            continue
        one, other, kind = line.split("\t")
        if kind == "negation":
            continue
        for left, right in ((one, other), (other, one)):
            key, value = all_words(left), all_words(right)
            pairs.setdefault(key[0], []).append(value[0])
    # Hyphenated pairs share their second word (left-sided / right-sided): only the first word differs.
    return {word: tuple(sorted(set(others) - {word})) for word, others in pairs.items()}


@cache
def _negations() -> frozenset[str]:
    rows = (line.split("\t") for line in resources.read_text("mappings/opposites.tsv").splitlines())
    return frozenset(row[0] for row in rows if row[-1] == "negation")
