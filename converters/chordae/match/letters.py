"""From texts to how alike they are in their letters: groups of two to four letters within words, rare ones weigh more.

::

    "arch"  ->  " a" "ar" "rc" "ch" "h " " ar" "arc" "rch" "ch " " arc" "arch" "rch "      ends of words are marked

The likeness of two texts is the cosine of their weighted groups, 0 to 1.
Source: tf-idf weights, Salton G, Buckley C. Inf Process Manag 1988;24:513-523 (from memory).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

__all__ = ["Letters", "letter_groups", "rarity", "scaled", "word_groups"]


class Letters:
    """Weights of letter groups over many texts.

    Parameters
    ----------
    texts
        The names of all targets, shape ``(n_names,)``.
    """

    def __init__(self, texts: Sequence[str]) -> None:
        self.weights = rarity([letter_groups(text) for text in texts])

    def vector(self, text: str) -> dict[str, float]:
        """Return the weighted groups of a text, scaled to length one; groups that no text has are left out."""
        weights = self.weights
        return scaled({one: n * weights[one] for one, n in letter_groups(text).items() if one in weights})


@lru_cache(maxsize=100_000)
def word_groups(word: str) -> tuple[str, ...]:
    """Return the groups of two to four letters of one word, its ends marked by a space.

    Examples
    --------
    >>> word_groups("av")
    (' a', 'av', 'v ', ' av', 'av ', ' av ')
    """
    padded = f" {word} "
    return tuple(padded[at : at + size] for size in (2, 3, 4) for at in range(len(padded) - size + 1))


def letter_groups(text: str) -> dict[str, float]:
    """Return each group with one plus the log of its count."""
    words = text.casefold().split()
    if len(words) == 1:
        counts = Counter(word_groups(words[0]))
    else:
        counts = Counter([group for word in words for group in word_groups(word)])
    return {group: 1.0 if n == 1 else 1.0 + math.log(n) for group, n in counts.items()}


def rarity(rows: Iterable[Iterable[str]]) -> dict[str, float]:
    """Return the weight of each entry: log of the number of rows by those that hold it (each plus one)."""
    seen: Counter[str] = Counter()
    n_rows = 0
    for row in rows:
        seen.update(row.keys() if isinstance(row, Mapping) else set(row))
        n_rows += 1
    by_count = {n: math.log((n_rows + 1) / (n + 1)) + 1e-6 for n in set(seen.values())}
    return {one: by_count[n] for one, n in seen.items()}


def scaled(row: dict[str, float]) -> dict[str, float]:
    """Scale to length one; an empty row stays empty."""
    length = math.sqrt(sum(value * value for value in row.values()))
    return {one: value / length for one, value in row.items()} if length else {}
