"""From many phrases to the targets worth a closer look: the nearest names by letters and by words.

::

    phrases x letter groups  @  letter groups x names     -> the names nearest in their letters
    phrases x words          @  words x names             -> the names nearest in their words

With numpy and scipy (extra ``match``) these are products of sparse matrices, so that ten thousand phrases against
twenty thousand targets take seconds. Without them every target is kept, up to :data:`SMALL` names.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from typing import TYPE_CHECKING, Protocol

from chordae.errors import MissingExtra
from chordae.match.letters import Letters
from chordae.match.targets import Index

if TYPE_CHECKING:
    from chordae.match.likeness import Phrase

__all__ = ["SMALL", "Finder", "Near"]

SMALL = 6000
"""Most names that are compared one by one when numpy and scipy are not installed."""


@dataclass(frozen=True, slots=True)
class Near:
    """Targets near to one phrase, sorted; for each of its wordings how alike each of their names is in its letters."""

    targets: Sequence[int]
    letters: Sequence[dict[int, float]]


class _Looks(Protocol):
    def find(self, asked: Sequence[Sequence[Phrase]], also: Sequence[Collection[int]]) -> Iterator[Near]: ...


class Finder:
    """Finds the targets nearest to a phrase.

    Parameters
    ----------
    index
        The targets.
    keep
        How many names are kept from each of the two ways of looking.
    matrices
        Whether to use numpy and scipy; if not given, when they are installed.

    Raises
    ------
    MissingExtra
        More than :data:`SMALL` names, and numpy or scipy is not installed.
    """

    def __init__(self, index: Index, keep: int = 25, matrices: bool | None = None) -> None:
        self._looks: _Looks
        if _has_matrices() if matrices is None else matrices:
            from chordae.match.matrices import Nearest

            self._looks = Nearest(index, keep)
        elif len(index.texts) > SMALL:
            raise MissingExtra("match", f"matching with more than {SMALL:,} names")
        else:
            self._looks = _Everything(index)

    def find(self, asked: Sequence[Sequence[Phrase]], also: Sequence[Collection[int]] = ()) -> Iterator[Near]:
        """Give what is near to each phrase, in the order asked.

        Parameters
        ----------
        asked
            For each phrase its wordings, itself first; shape ``(n_phrases, n_wordings)``, the second of any length.
        also
            Targets that count as near to each phrase whatever they look like, shape ``(n_phrases,)``.
        """
        return self._looks.find(asked, also or [()] * len(asked))


class _Everything:
    """Without matrices: every target is near."""

    def __init__(self, index: Index) -> None:
        self._letters = Letters([name.text for name in index.texts])
        self._vectors = [self._letters.vector(name.text) for name in index.texts]
        self._targets = range(len(index.targets))

    def find(self, asked: Sequence[Sequence[Phrase]], also: Sequence[Collection[int]]) -> Iterator[Near]:
        for wordings in asked:
            yield Near(self._targets, [self._alike(phrase.text) for phrase in wordings])

    def _alike(self, text: str) -> dict[int, float]:
        mine = self._letters.vector(text)
        return {
            at: sum(value * theirs[group] for group, value in mine.items() if group in theirs)
            for at, theirs in enumerate(self._vectors)
        }


def _has_matrices() -> bool:
    return find_spec("numpy") is not None and find_spec("scipy") is not None
