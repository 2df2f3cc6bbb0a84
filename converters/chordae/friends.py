"""From a word to the several things it may mean, what it never implies, and the question that settles it.

::

    ask("L-TGA")   [FalseFriend(word="L-TGA",
                        meanings=(congenitally corrected transposition, aorta to the left, ...),
                        never_implies=(left_hand_topology, aorta_to_the_left, ...),
                        ask="Does the letter L speak of ...?")]

The words stand in ``schema/false_friends.yaml``. A word found here is never translated without the question.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from chordae.terms import School, key_of, vocabulary

__all__ = ["FalseFriend", "Meaning", "all_friends", "ask", "is_ambiguous"]


@dataclass(frozen=True, slots=True)
class Meaning:
    """One thing that a word may mean: slug of a term, the school that means it so, and a gloss."""

    term: str
    school: School
    gloss: str


@dataclass(frozen=True, slots=True)
class FalseFriend:
    """A word of several meanings.

    ``also`` are other spellings; ``never_implies`` slugs of terms that may not be concluded from the word; ``context``
    where only it is a trap, empty for everywhere; ``ask`` the question; ``rows`` rows of the crosswalk between the
    schools.
    """

    word: str
    also: tuple[str, ...]
    meanings: tuple[Meaning, ...]
    never_implies: tuple[str, ...]
    context: str
    ask: str
    source: str
    rows: tuple[int, ...]


def ask(word: str) -> list[FalseFriend]:
    """Return the false friends that a word is, those whose own word it is first; an empty list if it is none."""
    return list(_by_word().get(key_of(word), ()))


def is_ambiguous(word: str) -> bool:
    """Whether a word may not be translated without a question, wherever it stands."""
    return any(not friend.context for friend in ask(word))


@cache
def all_friends() -> tuple[FalseFriend, ...]:
    """All false friends, sorted by word."""
    return tuple(
        FalseFriend(
            word=raw["word"],
            also=tuple(raw.get("also", ())),
            meanings=tuple(Meaning(**meaning) for meaning in raw["meanings"]),
            never_implies=tuple(raw["never_implies"]),
            context=raw.get("context", ""),
            ask=raw["ask"],
            source=raw["source"],
            rows=tuple(raw.get("rows", ())),
        )
        for raw in vocabulary().friends
    )


@cache
def _by_word() -> Mapping[str, tuple[FalseFriend, ...]]:
    found: dict[str, list[FalseFriend]] = defaultdict(list)
    for friend in all_friends():
        found[key_of(friend.word)].insert(0, friend)
        for other in friend.also:
            if key_of(other) != key_of(friend.word):
                found[key_of(other)].append(friend)
    return {word: tuple(friends) for word, friends in found.items()}
