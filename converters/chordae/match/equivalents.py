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
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from importlib.util import find_spec

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
    forward = _translate(_pairs(terms))
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


def _pairs(terms: Iterable[Sequence[str]]) -> list[tuple[Sequence[str], Sequence[str]]]:
    pairs: list[tuple[Sequence[str], Sequence[str]]] = []
    for names in terms:
        some = {words for words in map(content, names) if words}
        pairs += [(one, other) for one in some for other in some if one != other]
    pairs.sort()
    return pairs


def _translate(pairs: Sequence[tuple[Sequence[str], Sequence[str]]]) -> dict[str, dict[str, float]]:
    """Return how likely each word stands for each other: word -> other -> share.

    A *cell* is a pair of words; a *group* is one word of one phrase with all words of the phrase beside it.
    """
    cells: dict[tuple[str, str], int] = {}
    cell_of: list[int] = []
    group_of: list[int] = []
    groups = 0
    for source, target in pairs:
        words = (*source, _NULL)
        for word in target:
            for one in words:
                cell_of.append(cells.setdefault((one, word), len(cells)))
                group_of.append(groups)
            groups += 1
    rows: dict[str, int] = {}
    row_of = [rows.setdefault(one, len(rows)) for one, _ in cells]
    shares = _maximise(cell_of, group_of, row_of, groups, len(rows))
    table: dict[str, dict[str, float]] = {}
    for (one, word), share in zip(cells, shares, strict=True):
        if share:
            table.setdefault(one, {})[word] = share
    return table


def _maximise(
    cell_of: Sequence[int], group_of: Sequence[int], row_of: Sequence[int], groups: int, rows: int
) -> list[float]:
    """Return the share of each cell after some rounds; by numpy where it is installed, which is much faster."""
    size = Counter(row_of)
    shares = [1.0 / size[row] for row in row_of]
    if find_spec("numpy") is not None:
        return _maximise_many(cell_of, group_of, row_of, groups, rows, shares)
    for _ in range(_ROUNDS):
        wholes = [0.0] * groups
        for cell, group in zip(cell_of, group_of, strict=True):
            wholes[group] += shares[cell]
        counts = [0.0] * len(shares)
        for cell, group in zip(cell_of, group_of, strict=True):
            if wholes[group]:
                counts[cell] += shares[cell] / wholes[group]
        totals = [_SMOOTHING] * rows
        for row, n in zip(row_of, counts, strict=True):
            totals[row] += n
        shares = [n / totals[row] for row, n in zip(row_of, counts, strict=True)]
        shares = [share if share > _FLOOR else 0.0 for share in shares]
    return shares


def _maximise_many(
    cell_of: Sequence[int],
    group_of: Sequence[int],
    row_of: Sequence[int],
    groups: int,
    rows: int,
    start: Sequence[float],
) -> list[float]:
    import numpy

    cell, group, row = (numpy.array(one, dtype=numpy.int64) for one in (cell_of, group_of, row_of))
    shares = numpy.array(start)
    for _ in range(_ROUNDS):
        wholes = numpy.bincount(group, shares[cell], minlength=groups)
        wholes[wholes == 0] = 1.0
        counts = numpy.bincount(cell, shares[cell] / wholes[group], minlength=len(shares))
        shares = counts / (numpy.bincount(row, counts, minlength=rows) + _SMOOTHING)[row]
        shares[shares <= _FLOOR] = 0.0
    found: list[float] = shares.tolist()
    return found
