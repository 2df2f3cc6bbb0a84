"""From many phrases to the targets worth a closer look: the nearest names by letters and by words.

With numpy and scipy (extra ``match``) two sparse matrices are multiplied, so that ten thousand phrases against twenty
thousand targets take seconds. Without them every target is kept, up to :data:`SMALL` names.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from importlib.util import find_spec
from typing import Any

from chordae.errors import MissingExtra
from chordae.match.likeness import Phrase
from chordae.match.targets import Index

__all__ = ["SMALL", "Finder"]

SMALL = 6000
"""Most names that are compared one by one when numpy and scipy are not installed."""

_BATCH = 512


class Finder:
    """Finds the targets nearest to a phrase.

    Parameters
    ----------
    index
        The targets.
    keep
        How many names are kept from each of the two ways of looking.

    Raises
    ------
    MissingExtra
        More than :data:`SMALL` names, and numpy or scipy is not installed.
    """

    def __init__(self, index: Index, keep: int = 25) -> None:
        self.index, self.keep = index, keep
        self._small = len(index.texts) <= SMALL and not _has_matrices()
        if not self._small:
            if not _has_matrices():
                raise MissingExtra("match")
            self._group_ids = _number(index.groups)
            rows = [dict.fromkeys(words, 0.0) | {w: index.weight(w) for w in words} for words in index.words]
            self._word_ids = _number(rows)
            self._groups = _matrix(index.groups, self._group_ids, scale=False)
            self._words = _matrix(rows, self._word_ids, scale=True)

    def find(self, phrases: Sequence[Phrase]) -> Iterator[list[int]]:
        """Give the positions of the near targets for each phrase, in the order of the phrases."""
        if self._small:
            everything = list(range(len(self.index.targets)))
            yield from (everything for _ in phrases)
            return
        for start in range(0, len(phrases), _BATCH):
            batch = phrases[start : start + _BATCH]
            by_group = _matrix([p.groups for p in batch], self._group_ids, scale=False) @ self._groups.T
            by_word = _matrix([self._widened(p) for p in batch], self._word_ids, scale=False) @ self._words.T
            for row in range(len(batch)):
                owners = {self.index.owner[at] for near in (by_group, by_word) for at in _top(near, row, self.keep)}
                yield sorted(owners)

    def _widened(self, phrase: Phrase) -> dict[str, float]:
        wide: dict[str, float] = {}
        for word in phrase.words:
            wide[word] = self.index.weight(word)
            for other, strength in (self.index.equivalents or {}).get(word, {}).items():
                wide[other] = max(wide.get(other, 0.0), strength * self.index.weight(other))
        return wide


def _has_matrices() -> bool:
    return find_spec("numpy") is not None and find_spec("scipy") is not None


def _number(rows: Sequence[Mapping[str, float]]) -> dict[str, int]:
    return {name: at for at, name in enumerate(sorted({one for row in rows for one in row}))}


def _matrix(rows: Sequence[Mapping[str, float]], ids: Mapping[str, int], scale: bool) -> Any:
    import numpy
    from scipy.sparse import csr_matrix

    data: list[float] = []
    columns: list[int] = []
    ends = [0]
    for row in rows:
        known = [(ids[name], value) for name, value in row.items() if name in ids]
        length = sum(value * value for _, value in known) ** 0.5 if scale else 1.0
        columns.extend(at for at, _ in known)
        data.extend(value / (length or 1.0) for _, value in known)
        ends.append(len(columns))
    shape = (len(rows), len(ids))
    return csr_matrix(
        (numpy.array(data, dtype=numpy.float32), numpy.array(columns, dtype=numpy.int64), ends), shape=shape
    )


def _top(product: Any, row: int, keep: int) -> list[int]:
    import numpy

    start, end = product.indptr[row], product.indptr[row + 1]
    values, columns = product.data[start:end], product.indices[start:end]
    if len(values) > keep:
        chosen = numpy.argpartition(-values, keep)[:keep]
        columns = columns[chosen]
    return [int(at) for at in columns]
