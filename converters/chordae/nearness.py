"""How much names look like a text that somebody typed: letter by letter, in any order of words, or word by word.

::

    Nearness("tricuspit").of("tricuspid valve")    0.78
    Nearness("valve mitral").of("mitral valve")    1.0
"""

from __future__ import annotations

import difflib
import re
import unicodedata

__all__ = ["NEAR", "Nearness", "key_of"]

_JOINT = re.compile(r"[-‐-―_'’.]+")
NEAR = 0.6
"""What looks less like a text than this is not near it."""
_EXTRA = 0.25
"""How much of its likeness a name loses at most by words that the text lacks."""


def key_of(text: str) -> str:
    """Fold a name for comparison: case, accents, hyphens, apostrophes and runs of spaces do not matter.

    >>> key_of("Criss-Cross  heart")
    'criss cross heart'
    """
    plain = unicodedata.normalize("NFKD", text).casefold()
    plain = "".join(one for one in plain if not unicodedata.combining(one))
    return " ".join(_JOINT.sub(" ", plain).split())


class Nearness:
    """How much names look like one text, from 0 to 1: letter by letter, in any order of words, or word by word."""

    def __init__(self, wanted: str) -> None:
        self._words = wanted.split()
        self._whole, self._sorted = _matcher(wanted), _matcher(" ".join(sorted(self._words)))
        self._parts = [_matcher(word) for word in self._words]
        self._by_word: dict[str, list[float]] = {}

    def of(self, name: str) -> float:
        """Likeness of one name, folded as :func:`key_of` does."""
        words = name.split()
        same_length = max(_ratio(self._whole, name), _ratio(self._sorted, " ".join(sorted(words))))
        return max(same_length, self._word_by_word(words))

    def _word_by_word(self, words: list[str]) -> float:
        if len(self._words) >= len(words):
            return 0.0
        rows = [self._of_word(word) for word in words]
        found = [max(column) for column in zip(*rows, strict=True)]
        share = len(self._words) / len(words)
        return sum(found) / len(found) * (1 - _EXTRA + _EXTRA * share) if min(found) >= NEAR else 0.0

    def _of_word(self, word: str) -> list[float]:
        if word not in self._by_word:
            self._by_word[word] = [_ratio(part, word) for part in self._parts]
        return self._by_word[word]


def _matcher(text: str) -> difflib.SequenceMatcher[str]:
    matcher: difflib.SequenceMatcher[str] = difflib.SequenceMatcher()
    matcher.set_seq2(text)
    return matcher


def _ratio(matcher: difflib.SequenceMatcher[str], name: str) -> float:
    matcher.set_seq1(name)
    if matcher.real_quick_ratio() < NEAR or matcher.quick_ratio() < NEAR:
        return 0.0
    return matcher.ratio()
