"""From a phrase and a name to numbers that say how alike they are, each with a meaning a curator can be told.

::

    FEATURES: letters, words found, words covered, both, definition, initials, clash, length, ...

Words are paired one to one of the other phrase: equal, standing for each other (:mod:`chordae.match.equivalents`),
or alike in their letters. Rare words weigh more.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from chordae.match.opposites import clash_of_words
from chordae.match.targets import Index
from chordae.match.words import all_words, content

__all__ = ["FEATURES", "Phrase", "Scorer", "initials"]

FEATURES = (
    "letters",
    "letters2",
    "both",
    "both3",
    "found",
    "covered",
    "definition",
    "initials",
    "clash",
    "length",
    "whole",
)
"""Names of the numbers, in the order in which :meth:`Scorer.measure` gives them; all but length lie in 0..1."""

_LETTERS, _BOTH, _INITIALS = (FEATURES.index(name) for name in ("letters", "both", "initials"))


@dataclass(frozen=True, slots=True)
class Phrase:
    """A local word prepared once for many comparisons.

    ``whole`` holds every word, ``words`` those that carry meaning, with their weights and what each stands for;
    ``short`` says that it may be made of initials.
    """

    text: str
    whole: frozenset[str]
    words: tuple[str, ...]
    weights: tuple[float, ...]
    weight_sum: float
    alike: tuple[Mapping[str, float], ...]
    definition: Mapping[str, float]
    short: bool


class Scorer:
    """Measures a phrase against the names of one index."""

    def __init__(self, index: Index) -> None:
        self.index = index
        self._alike: dict[str, _Alike] = {}

    def prepare(self, text: str) -> Phrase:
        """Prepare a local word."""
        words = content(text)
        weights = tuple(map(self.index.weight, words))
        return Phrase(
            text,
            frozenset(all_words(text)),
            words,
            weights,
            sum(weights),
            tuple(map(self.alike, words)),
            self.index.weigh_definition(words),
            _may_be_short(text),
        )

    def measure(
        self, phrase: Phrase, target: int, letters: Mapping[int, float], names: Sequence[int] | None = None
    ) -> tuple[list[float], int]:
        """Measure a phrase against one target.

        Parameters
        ----------
        phrase
            From :meth:`prepare`.
        target
            Position of the target in the index.
        letters
            How alike each name of the target is in its letters, by its position (:mod:`chordae.match.near`).
        names
            Positions of the names to look at; all of the target's if not given.

        Returns
        -------
        list of float, int
            One number a feature, shape ``(len(FEATURES),)``; the position of the name that fits best.
        """
        index = self.index
        best, fits = -1, -1.0
        most = both = short = found = covered = 0.0
        for at in index.names_of[target] if names is None else names:
            cosine = letters[at]
            there, back = self.pair(phrase, at)
            mean = 2 * there * back / (there + back) if there and back else 0.0
            if phrase.short:
                short = max(short, initials(phrase.text, index.texts[at].text))
            if cosine > most:
                most = cosine
            if mean > both:
                both = mean
            if mean + 0.5 * cosine > fits:
                best, fits, found, covered = at, mean + 0.5 * cosine, there, back
        length = abs(len(index.words[best]) - len(phrase.words)) / (len(phrase.words) + 1)
        return [
            most,
            most * most,
            both,
            both * both * both,
            found,
            covered,
            _dot(phrase.definition, index.definitions[target]),
            short,
            0.0 if clash_of_words(phrase.whole, index.whole[best]) is None else 1.0,
            length,
            1.0 if both > 0.999 else 0.0,
        ], best

    def measure_any(
        self,
        phrases: Sequence[Phrase],
        target: int,
        letters: Sequence[Mapping[int, float]],
        names: Sequence[int] | None = None,
    ) -> tuple[list[float], int, int]:
        """Measure several wordings of one phrase: numbers of the wording that fits best, the name, the wording."""
        if len(phrases) == 1:
            return (*self.measure(phrases[0], target, letters[0], names), 0)
        rows = [(*self.measure(phrase, target, letters[at], names), at) for at, phrase in enumerate(phrases)]
        return max(rows, key=lambda row: (row[0][_BOTH] + 0.5 * row[0][_LETTERS] + row[0][_INITIALS], -row[2]))

    def pair(self, phrase: Phrase, name: int) -> tuple[float, float]:
        """Share of the weight of the words of a phrase, and of a name, that is met in the other; 0 to 1."""
        theirs = self.index.words[name]
        if not phrase.words or not theirs:
            return 0.0, 0.0
        rows = [[alike[word] for word in theirs] for alike in phrase.alike]
        met = sum(map(mul, phrase.weights, map(max, rows))) / phrase.weight_sum
        if len(rows) == 1:
            back = sum(map(mul, self.index.weights[name], rows[0]))
        else:
            back = sum(map(mul, self.index.weights[name], map(max, *rows)))
        return met, back / self.index.weight_sums[name]

    def alike(self, word: str) -> Mapping[str, float]:
        """How far each other word stands for one, 0 to 1; worked out when asked."""
        found = self._alike.get(word)
        if found is None:
            found = self._alike[word] = _Alike(word, (self.index.equivalents or {}).get(word, {}))
        return found


class _Alike(dict[str, float]):
    def __init__(self, word: str, learned: Mapping[str, float]) -> None:
        super().__init__({word: 1.0})
        self._word, self._learned = word, learned

    def __missing__(self, other: str) -> float:
        found = self[other] = max(self._learned.get(other, 0.0), _spelled_alike(self._word, other))
        return found


@lru_cache(maxsize=200_000)
def _triples(word: str) -> frozenset[str]:
    marked = f"^{word}$"
    return frozenset(marked[at : at + 3] for at in range(len(marked) - 2))


def _spelled_alike(one: str, other: str) -> float:
    mine, theirs = _triples(one), _triples(other)
    dice = 2 * len(mine & theirs) / (len(mine) + len(theirs))
    alike = 0.9 * dice if dice > 0.5 else 0.0
    if len(one) == len(other) > 3 and one[0] == other[0] and sorted(one) == sorted(other):
        alike = max(alike, 0.75)  # letters that changed places
    if one[:5] == other[:5] and min(len(one), len(other)) >= 5:
        same = next(
            (at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other))
        )
        alike = max(alike, 0.75 * same / max(len(one), len(other)) + 0.1)
    return alike


def initials(short: str, name: str) -> float:
    """Say whether a short form is made of the initials of a name: 1 yes, 0.55 letters in order, 0 no.

    Examples
    --------
    >>> initials("ASD", "Atrial septal defect"), initials("VSD", "Atrial septal defect")
    (1.0, 0.0)
    """
    if not _may_be_short(short):
        return 0.0
    sought, words = _NO_LETTER.sub("", short).lower(), content(name)
    if sought in ("".join(w[0] for w in words), "".join(w[0] for w in all_words(name))):
        return 1.0
    if len(words) < 2 or len(words) > len(sought) + 1 or words[0][0] != sought[0]:
        return 0.0
    rest = iter("".join(words))
    return 0.55 if all(letter in rest for letter in sought) else 0.0


_NO_LETTER = re.compile(r"[^A-Za-z0-9]")


def _may_be_short(text: str) -> bool:
    letters = _NO_LETTER.sub("", text)
    return 2 <= len(letters) <= 6 and sum(c.isupper() for c in letters) >= 2


def _dot(one: Mapping[str, float], other: Mapping[str, float]) -> float:
    if len(one) > len(other):
        one, other = other, one
    return sum([value * other[key] for key, value in one.items() if key in other])
