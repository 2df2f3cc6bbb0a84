"""From a phrase and a name to numbers that say how alike they are, each with a meaning a curator can be told.

::

    FEATURES: letters, words_found, words_covered, both, definition, initials, clash, length, ...

Words are paired one to one of the other phrase: equal, standing for each other (:mod:`chordae.match.equivalents`),
or alike in their letters. Rare words weigh more.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from chordae.match.opposites import clash
from chordae.match.targets import Index, letter_groups
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
    """A local word prepared once for many comparisons."""

    text: str
    words: tuple[str, ...]
    groups: Mapping[str, float]
    definition: Mapping[str, float]


class Scorer:
    """Measures a phrase against the names of one index."""

    def __init__(self, index: Index) -> None:
        self.index = index
        self._alike: dict[tuple[str, str], float] = {}

    def prepare(self, text: str) -> Phrase:
        """Prepare a local word."""
        words = content(text)
        return Phrase(text, words, self.index.weigh_groups(letter_groups(text)), self.index.weigh_definition(words))

    def measure(self, phrase: Phrase, target: int, names: Sequence[int] | None = None) -> tuple[list[float], int]:
        """Measure a phrase against one target.

        Parameters
        ----------
        phrase
            From :meth:`prepare`.
        target
            Position of the target in the index.
        names
            Positions of the names to look at; all of the target's if not given.

        Returns
        -------
        list of float, int
            One number a feature, shape ``(len(FEATURES),)``; the position of the name that fits best.
        """
        best, fits = -1, -1.0
        letters = both = whole = short = found = covered = 0.0
        for at in self.index.names_of[target] if names is None else names:
            cosine = _dot(phrase.groups, self.index.groups[at])
            there, back = self.pair(phrase.words, self.index.words[at])
            mean = 2 * there * back / (there + back) if there and back else 0.0
            name = self.index.texts[at].text
            short = max(short, initials(phrase.text, name))
            letters, both = max(letters, cosine), max(both, mean)
            whole = max(whole, float(mean > 0.999))
            if mean + 0.5 * cosine > fits:
                best, fits, found, covered = at, mean + 0.5 * cosine, there, back
        name = self.index.texts[best].text
        length = abs(len(self.index.words[best]) - len(phrase.words)) / (len(phrase.words) + 1)
        return [
            letters,
            letters * letters,
            both,
            both**3,
            found,
            covered,
            _dot(phrase.definition, self.index.definitions[target]),
            short,
            float(clash(phrase.text, name) is not None),
            length,
            whole,
        ], best

    def measure_any(
        self, phrases: Sequence[Phrase], target: int, names: Sequence[int] | None = None
    ) -> tuple[list[float], int, int]:
        """Measure several wordings of one phrase: numbers of the wording that fits best, the name, the wording."""
        rows = [(*self.measure(phrase, target, names), at) for at, phrase in enumerate(phrases)]
        return max(rows, key=lambda row: (row[0][_BOTH] + 0.5 * row[0][_LETTERS] + row[0][_INITIALS], -row[2]))

    def pair(self, mine: Sequence[str], theirs: Sequence[str]) -> tuple[float, float]:
        """Share of the weight of each phrase's words that is met in the other: ``(mine, theirs)``, 0 to 1."""
        if not mine or not theirs:
            return 0.0, 0.0
        weight, alike = self.index.weight, self.alike
        rows = [[alike(one, other) for other in theirs] for one in mine]
        my_weights, their_weights = [weight(w) for w in mine], [weight(w) for w in theirs]
        met = sum(w * max(row) for w, row in zip(my_weights, rows, strict=True)) / sum(my_weights)
        back = sum(w * max(column) for w, column in zip(their_weights, zip(*rows, strict=True), strict=True))
        return met, back / sum(their_weights)

    def alike(self, one: str, other: str) -> float:
        """How far two words stand for each other, 0 to 1."""
        if one == other:
            return 1.0
        pair = (one, other)
        found = self._alike.get(pair)
        if found is None:
            learned = (self.index.equivalents or {}).get(one, {}).get(other, 0.0)
            found = self._alike[pair] = max(learned, _spelled_alike(one, other))
        return found


@lru_cache(maxsize=200_000)
def _triples(word: str) -> frozenset[str]:
    marked = f"^{word}$"
    return frozenset(marked[at : at + 3] for at in range(len(marked) - 2))


def _spelled_alike(one: str, other: str) -> float:
    mine, theirs = _triples(one), _triples(other)
    dice = 2 * len(mine & theirs) / (len(mine) + len(theirs))
    alike = 0.9 * dice if dice > 0.5 else 0.0
    shorter = min(len(one), len(other))
    if shorter >= 5:
        same = next((at for at in range(shorter) if one[at] != other[at]), shorter)
        if same >= 5:
            alike = max(alike, 0.75 * same / max(len(one), len(other)) + 0.1)
    return alike


def initials(short: str, name: str) -> float:
    """Say whether a short form is made of the initials of a name: 1 yes, 0.55 letters in order, 0 no.

    Examples
    --------
    >>> initials("ASD", "Atrial septal defect"), initials("VSD", "Atrial septal defect")
    (1.0, 0.0)
    """
    letters = re.sub(r"[^A-Za-z0-9]", "", short)
    if not 2 <= len(letters) <= 6 or sum(c.isupper() for c in letters) < 2:
        return 0.0
    sought, words = letters.lower(), content(name)
    if sought in ("".join(w[0] for w in words), "".join(w[0] for w in all_words(name))):
        return 1.0
    if len(words) < 2 or len(words) > len(sought) + 1 or words[0][0] != sought[0]:
        return 0.0
    rest = iter("".join(words))
    return 0.55 if all(letter in rest for letter in sought) else 0.0


def _dot(one: Mapping[str, float], other: Mapping[str, float]) -> float:
    if len(one) > len(other):
        one, other = other, one
    return sum(value * other[key] for key, value in one.items() if key in other)
