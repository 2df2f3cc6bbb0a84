"""From a phrase to the words that carry its meaning: case, order, spelling, plurals and hyphens set aside.

::

    "Defects, Septal (ventricular)"  ->  all words  ("defect", "septal", "ventricular")
    "Haemorrhage of the lung"        ->  content    ("hemorrhage", "lung")        of, the: mappings/stop_words.txt
                                         key        "hemorrhage lung"             sorted: order does not matter

Sources: ``mappings/spelling.tsv`` (British and American spelling), ``mappings/stop_words.txt``; common practice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from chordae import resources

__all__ = ["all_words", "content", "key", "key_of_words"]

_WORD = re.compile(r"[^\W_]+")
_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4", "v": "5", "vi": "6"}
_NUMBERED = frozenset({"type", "grade", "class", "sinus"})
_PLURALS = (("ies", "y"), ("sses", "ss"), ("ches", "ch"), ("xes", "x"), ("ices", "ex"), ("ae", "a"))


@lru_cache(maxsize=65536)
def all_words(text: str) -> tuple[str, ...]:
    """Return every word of a phrase in lower case, one spelling, singular."""
    words = [_plain(word) for word in _WORD.findall(text.casefold())]
    # A Roman numeral counts as a number only behind a word such as type, so that "i" elsewhere stays a letter.
    return tuple(_ROMAN.get(word, word) if at and words[at - 1] in _NUMBERED else word for at, word in enumerate(words))


def content(text: str) -> tuple[str, ...]:
    """Return the words that carry meaning, in their order."""
    stop = _stop_words()
    return tuple([word for word in all_words(text) if word not in stop])


def key(text: str) -> str:
    """Return the form under which two spellings of one phrase are the same."""
    return key_of_words(content(text))


def key_of_words(words: Iterable[str]) -> str:
    """Return the same for a phrase whose words were found before."""
    return " ".join(sorted(words))


@lru_cache(maxsize=65536)
def _plain(word: str) -> str:
    for british, american in _spelling():
        word = word.replace(british, american)
    if len(word) > 4:
        for ending, instead in _PLURALS:
            if word.endswith(ending):
                return word[: -len(ending)] + instead
        if word.endswith("s") and not word.endswith(("ss", "us", "is")):
            return word[:-1]
    return word


@cache
def _spelling() -> tuple[tuple[str, str], ...]:
    lines = resources.read_text("mappings/spelling.tsv").splitlines()[1:]
    return tuple((one, other) for one, _, other in (line.partition("\t") for line in lines) if other)


@cache
def _stop_words() -> frozenset[str]:
    lines = resources.read_text("mappings/stop_words.txt").splitlines()
    return frozenset(line for line in lines if line and not line.startswith("#"))
