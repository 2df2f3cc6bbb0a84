"""The terms that a local word may be matched with, their names, and an index of these.

::

    Target(id, label, names, definition, source)
        -> Index: names by text and by key, names as words, weights of words by rarity, definitions
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from chordae.match.equivalents import Equivalents, learn
from chordae.match.letters import rarity, scaled
from chordae.match.words import all_words, content, key_of_words

__all__ = ["Index", "Name", "Scope", "Target"]

NameKind = Literal["label", "synonym", "abbreviation", "local"]
Scope = Literal["exact", "broad", "narrow", "related", "unstated"]


@dataclass(frozen=True, slots=True)
class Name:
    """One name of a target; ``local`` is a word that a collection already uses for it.

    ``school`` is european, north_american or empty; ``scope`` says what the name is to the target: its own (exact), or
    one that is wider, narrower or only near to it; unstated where the source does not say.
    """

    text: str
    kind: NameKind = "synonym"
    school: str = ""
    scope: Scope = "exact"


@dataclass(frozen=True, slots=True)
class Target:
    """A term that a local word may mean; ``source`` is the vocabulary that it belongs to."""

    id: str
    label: str
    names: tuple[Name, ...]
    definition: str = ""
    source: str = ""


@dataclass
class Index:
    """Targets prepared for matching; built once, read many times.

    Parameters
    ----------
    targets
        Shape ``(n_targets,)``; identifiers are unique.
    equivalents
        Words that stand for each other; learned from the targets' own names when not given.

    Attributes
    ----------
    owner, texts, words, weights, weight_sums, whole
        One entry a name: target, name, words that carry meaning, their weights, the sum of these, and every word.
    names_of, definitions
        One entry a target: positions of its names, weighted words of its definition.
    place_of
        Position of a target by its identifier.
    by_text, by_key
        Positions of the names by text without capitals, and by :func:`chordae.match.words.key`.
    """

    targets: Sequence[Target]
    equivalents: Equivalents | None = None
    owner: list[int] = field(init=False, default_factory=list)
    texts: list[Name] = field(init=False, default_factory=list)
    words: list[tuple[str, ...]] = field(init=False, default_factory=list)
    whole: list[frozenset[str]] = field(init=False, default_factory=list)
    weights: list[tuple[float, ...]] = field(init=False, default_factory=list)
    weight_sums: list[float] = field(init=False, default_factory=list)
    by_text: dict[str, list[int]] = field(init=False, default_factory=dict)
    by_key: dict[str, list[int]] = field(init=False, default_factory=dict)
    names_of: list[list[int]] = field(init=False, default_factory=list)
    place_of: dict[str, int] = field(init=False, default_factory=dict)
    definitions: list[dict[str, float]] = field(init=False, default_factory=list)

    def __post_init__(self) -> None:
        if self.equivalents is None:
            self.equivalents = learn(
                [name.text for name in target.names if name.kind != "abbreviation"] for target in self.targets
            )
        for at, target in enumerate(self.targets):
            self.place_of[target.id] = at
            self.names_of.append(list(range(len(self.texts), len(self.texts) + len(target.names))))
            for name in target.names:
                words = content(name.text)
                self.by_text.setdefault(name.text.casefold().strip(), []).append(len(self.texts))
                self.by_key.setdefault(key_of_words(words), []).append(len(self.texts))
                self.owner.append(at)
                self.texts.append(name)
                self.words.append(words)
                self.whole.append(frozenset(all_words(name.text)))
        self._rarity = {word: weight + _LEAST for word, weight in rarity(self.words).items()}
        self._unknown = math.log(len(self.words) + 1) + _LEAST
        self.weights = [tuple(map(self.weight, words)) for words in self.words]
        self.weight_sums = [sum(weights) for weights in self.weights]
        defined = [content(f"{target.definition} {target.label}") for target in self.targets]
        self._defined = rarity(defined)
        self.definitions = [self.weigh_definition(words) for words in defined]

    def weight(self, word: str) -> float:
        """Rarity of a word over all names: the log of their number by those that hold it, plus 0.3."""
        return self._rarity.get(word, self._unknown)

    def weigh_definition(self, words: Sequence[str]) -> dict[str, float]:
        """Words weighted by their rarity over all definitions, scaled to length one."""
        defined = self._defined
        counts = Counter(words)
        return scaled({w: (1 + math.log(n)) * defined[w] for w, n in counts.items() if w in defined})


_LEAST = 0.3
