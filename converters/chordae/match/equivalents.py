"""From pairs of names of one thing to words that stand for each other, with a strength from 0 to 1.

::

    ("Cardiac enlargement", "Enlarged heart") ...   ->   heart ~ cardiac 0.8,  enlargement ~ enlarged 0.7

A vocabulary teaches its own words: whatever it gives as two names of one term is a pair. Nothing is shipped.

Method: word translation probabilities by expectation maximisation, as model 1 of Brown PF, Della Pietra SA,
Della Pietra VJ, Mercer RL. The mathematics of statistical machine translation. Computational Linguistics
1993;19:263-311; both directions are joined by their geometric mean.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from chordae.match.words import content

__all__ = ["Equivalents", "learn"]

Equivalents = Mapping[str, Mapping[str, float]]
"""word -> other word -> strength (0 to 1); words are content words of :mod:`chordae.match.words`."""

_NULL = ""
_ROUNDS = 6
_FLOOR = 0.01
_SMOOTHING = 0.5


def learn(terms: Iterable[Sequence[str]]) -> Equivalents:
    """Learn which words stand for each other.

    Parameters
    ----------
    terms
        One sequence a term: all its names, shape ``(n_names,)``.

    Returns
    -------
    Equivalents
        Only pairs of different words with a strength of at least 0.05.
    """
    pairs = [
        (one, other)
        for names in terms
        for one in {content(name) for name in names}
        for other in {content(name) for name in names}
        if one != other and one and other
    ]
    pairs.sort()
    forward = _translate(pairs)
    found: dict[str, dict[str, float]] = {}
    for word, others in forward.items():
        for other, there in others.items():
            if word in (other, _NULL):
                continue
            back = forward.get(other, {}).get(word, 0.0)
            strength = min(0.95, 2.2 * math.sqrt(there * back)) if back else 0.8 * there
            for left, right in ((word, other), (other, word)):
                row = found.setdefault(left, {})
                if strength >= 0.05 and strength > row.get(right, 0.0):
                    row[right] = strength
    return found


def _translate(pairs: Sequence[tuple[Sequence[str], Sequence[str]]]) -> dict[str, dict[str, float]]:
    seen: dict[str, set[str]] = defaultdict(set)
    for source, target in pairs:
        for word in (*source, _NULL):
            seen[word].update(target)
    table = {word: dict.fromkeys(others, 1.0 / len(others)) for word, others in seen.items()}
    for _ in range(_ROUNDS):
        counts: dict[str, dict[str, float]] = defaultdict(lambda: defaultdict(float))
        for source, target in pairs:
            words = (*source, _NULL)
            for word in target:
                shares = [table[one].get(word, 0.0) for one in words]
                whole = sum(shares)
                if whole:
                    for one, share in zip(words, shares, strict=True):
                        counts[one][word] += share / whole
        table = {}
        for one, row in counts.items():
            whole = sum(row.values()) + _SMOOTHING
            table[one] = {word: n / whole for word, n in row.items() if n / whole > _FLOOR}
        for word in seen:
            table.setdefault(word, {})
    return table
