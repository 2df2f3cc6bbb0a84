"""The nearest names by products of sparse matrices (numpy, scipy): many phrases at once.

Common letter groups are left out when names are sought and counted in full when the names found are measured.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import numpy
from scipy.sparse import csr_matrix, diags_array

from chordae.match.letters import word_groups
from chordae.match.near import Near
from chordae.match.targets import Index

if TYPE_CHECKING:
    from chordae.match.likeness import Phrase

__all__ = ["Nearest"]

_BATCH = 512
_COMMON = 0.1


class Nearest:
    """Finds near names for many phrases; see :class:`chordae.match.near.Finder`."""

    def __init__(self, index: Index, keep: int) -> None:
        self._index, self._keep = index, keep
        self._letters = _Letters([name.text for name in index.texts])
        self._owner = numpy.array(index.owner, dtype=numpy.int64)
        self._word_ids = {word: at for at, word in enumerate(sorted({w for words in index.words for w in words}))}
        rows = [
            dict(zip(words, weights, strict=True)) for words, weights in zip(index.words, index.weights, strict=True)
        ]
        self._words = _unit(_matrix(rows, self._word_ids)).T.tocsr()

    def find(self, asked: Sequence[Sequence[Phrase]], also: Sequence[Collection[int]]) -> Iterator[Near]:
        """Yield the near names of each word asked, in their order.

        Parameters
        ----------
        asked
            The wordings of each word.
        also
            For each word, the owners that are looked at in any case.
        """
        start = end = size = 0
        for end, wordings in enumerate(asked, 1):
            size += len(wordings)
            if size >= _BATCH:
                yield from self._find(asked[start:end], also[start:end])
                start, size = end, 0
        if start < end:
            yield from self._find(asked[start:end], also[start:end])

    def _find(self, batch: Sequence[Sequence[Phrase]], also: Sequence[Collection[int]]) -> Iterator[Near]:
        phrases = [phrase for wordings in batch for phrase in wordings]
        groups = self._letters.vectors([phrase.text for phrase in phrases])
        by_letters = groups @ self._letters.rare
        by_words = _matrix([self._widened(phrase) for phrase in phrases], self._word_ids) @ self._words
        near: list[list[int]] = []
        start = 0
        for wordings, more in zip(batch, also, strict=True):
            rows = range(start, start + len(wordings))
            found = [_top(product, row, self._keep) for row in rows for product in (by_letters, by_words)]
            owners: list[int] = self._owner[numpy.concatenate(found)].tolist()
            near.append(sorted({*owners, *more}))
            start += len(wordings)
        yield from self._measured(batch, groups, near)

    def _measured(self, batch: Sequence[Sequence[Phrase]], groups: Any, near: Sequence[list[int]]) -> Iterator[Near]:
        names_of = self._index.names_of
        rows: list[int] = []
        names: list[int] = []
        row = 0
        for wordings, targets in zip(batch, near, strict=True):
            of_all = [at for target in targets for at in names_of[target]]
            for _ in wordings:
                rows.extend([row] * len(of_all))
                names.extend(of_all)
                row += 1
        cosines = _sums(groups[rows].multiply(self._letters.names[names])).tolist()
        letters: list[dict[int, float]] = [{} for _ in range(row)]
        for at, name, cosine in zip(rows, names, cosines, strict=True):
            letters[at][name] = cosine
        row = 0
        for wordings, targets in zip(batch, near, strict=True):
            yield Near(targets, letters[row : row + len(wordings)])
            row += len(wordings)

    def _widened(self, phrase: Phrase) -> dict[str, float]:
        """Return the words of a phrase and those that stand for them, weighted."""
        weight, learned = self._index.weight, self._index.equivalents or {}
        wide: dict[str, float] = {}
        for word in phrase.words:
            wide[word] = weight(word)
            for other, strength in learned.get(word, {}).items():
                wide[other] = max(wide.get(other, 0.0), strength * weight(other))
        return wide


class _Letters:
    """Texts as rows of weighted letter groups, as :class:`chordae.match.letters.Letters` but many at a time."""

    def __init__(self, texts: Sequence[str]) -> None:
        self._ids: dict[str, int] = {}
        self._known = False
        counted = self._counts(texts)
        self._known = True
        held = numpy.bincount(counted.indices, minlength=len(self._ids))
        weights = numpy.log((len(texts) + 1) / (held + 1)) + 1e-6
        self._weights = diags_array(weights.astype(numpy.float32)).tocsr()
        self.names = _unit(counted @ self._weights)
        self.names.sort_indices()
        rare = diags_array((held <= max(_COMMON * len(texts), 20)).astype(numpy.float32)).tocsr()
        self.rare = (self.names @ rare).T.tocsr()
        self.rare.eliminate_zeros()

    def vectors(self, texts: Sequence[str]) -> Any:
        """Return one row a text, scaled to length one."""
        found = _unit(self._counts(texts) @ self._weights)
        found.sort_indices()
        return found

    def _counts(self, texts: Sequence[str]) -> Any:
        """Return one plus the log of the count of each group in each text."""
        words: dict[str, int] = {}
        in_text = [[words.setdefault(word, len(words)) for word in text.casefold().split()] for text in texts]
        ids = self._ids
        in_word = [
            [ids[group] for group in word_groups(word) if group in ids]
            if self._known
            else [ids.setdefault(group, len(ids)) for group in word_groups(word)]
            for word in words
        ]
        found = _incidence(in_text, len(words)) @ _incidence(in_word, len(ids))
        found.data = 1 + numpy.log(found.data)
        return found


def _incidence(rows: Sequence[Sequence[int]], width: int) -> Any:
    ends = numpy.cumsum([0, *map(len, rows)])
    columns = numpy.fromiter((at for row in rows for at in row), dtype=numpy.int64, count=int(ends[-1]))
    ones = numpy.ones(len(columns), dtype=numpy.float32)
    return csr_matrix((ones, columns, ends), shape=(len(rows), width))  # an entry that stands twice is counted twice


def _matrix(rows: Sequence[Mapping[str, float]], ids: Mapping[str, int]) -> Any:
    data: list[float] = []
    columns: list[int] = []
    ends = [0]
    for row in rows:
        for word, value in row.items():
            if (at := ids.get(word)) is not None:
                columns.append(at)
                data.append(value)
        ends.append(len(columns))
    values = numpy.array(data, dtype=numpy.float32)
    return csr_matrix((values, numpy.array(columns, dtype=numpy.int64), ends), shape=(len(rows), len(ids)))


def _unit(matrix: Any) -> Any:
    """Scale every row to length one."""
    lengths = numpy.sqrt(_sums(matrix.multiply(matrix)))
    lengths[lengths == 0] = 1.0
    return (diags_array((1.0 / lengths).astype(numpy.float32)) @ matrix).tocsr()


def _top(product: Any, row: int, keep: int) -> Any:
    start, end = product.indptr[row], product.indptr[row + 1]
    values, columns = product.data[start:end], product.indices[start:end]
    if len(values) > keep:
        columns = columns[numpy.argpartition(-values, keep)[:keep]]
    return columns


def _sums(matrix: Any) -> Any:
    """Return the sum of each row, as one flat array."""
    return numpy.asarray(matrix.sum(axis=1)).ravel()
