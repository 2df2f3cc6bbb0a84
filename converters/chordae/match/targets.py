"""The terms that a local word may be matched with: their names, and an index to find near ones fast.

::

    Target(id, label, names, definition, terms above it)
        -> Index: names as words, weights of words by rarity, sets of letter groups

Without numpy and scipy (extra ``match``) every name is looked at, which is fine to some thousands; with them a sparse
matrix finds the nearest names among tens of thousands.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from chordae.match.equivalents import Equivalents, learn
from chordae.match.words import content, key

__all__ = ["Index", "Name", "Target", "letter_groups"]

NameKind = Literal["label", "synonym", "abbreviation"]


@dataclass(frozen=True, slots=True)
class Name:
    """One name of a target; ``school`` is european, north_american or empty."""

    text: str
    kind: NameKind = "synonym"
    school: str = ""


@dataclass(frozen=True, slots=True)
class Target:
    """A term that a local word may mean."""

    id: str
    label: str
    names: tuple[Name, ...]
    definition: str = ""
    source: str = ""


def letter_groups(text: str) -> dict[str, float]:
    """Groups of two to four letters within words, each with one plus the log of its count; ends of words marked."""
    counts: Counter[str] = Counter()
    for word in text.casefold().split():
        padded = f" {word} "
        for size in (2, 3, 4):
            counts.update(padded[at : at + size] for at in range(max(1, len(padded) - size + 1)))
    return {group: 1.0 + math.log(n) for group, n in counts.items()}


@dataclass
class Index:
    """Targets prepared for matching; built once, read many times.

    Parameters
    ----------
    targets
        Shape ``(n_targets,)``; identifiers are unique.
    equivalents
        Words that stand for each other; learned from the targets' own names when not given.
    """

    targets: Sequence[Target]
    equivalents: Equivalents | None = None
    owner: list[int] = field(init=False, default_factory=list)
    texts: list[Name] = field(init=False, default_factory=list)
    words: list[tuple[str, ...]] = field(init=False, default_factory=list)
    groups: list[dict[str, float]] = field(init=False, default_factory=list)
    by_text: dict[str, list[int]] = field(init=False, default_factory=dict)
    by_key: dict[str, list[int]] = field(init=False, default_factory=dict)
    names_of: list[list[int]] = field(init=False, default_factory=list)
    definitions: list[dict[str, float]] = field(init=False, default_factory=list)

    def __post_init__(self) -> None:
        if self.equivalents is None:
            self.equivalents = learn(
                [name.text for name in target.names if name.kind != "abbreviation"] for target in self.targets
            )
        for at, target in enumerate(self.targets):
            self.names_of.append([])
            for name in target.names:
                self.names_of[at].append(len(self.texts))
                self.by_text.setdefault(name.text.casefold().strip(), []).append(len(self.texts))
                self.by_key.setdefault(key(name.text), []).append(len(self.texts))
                self.owner.append(at)
                self.texts.append(name)
                self.words.append(content(name.text))
        self._word_weight = _rarity(self.words)
        group_sets = [letter_groups(name.text) for name in self.texts]
        self._group_weight = _rarity(group_sets)
        self.groups = [self.weigh_groups(groups) for groups in group_sets]
        defined = [content(f"{target.definition} {target.label}") for target in self.targets]
        self._defined_weight = _rarity(defined)
        self.definitions = [self.weigh_definition(words) for words in defined]

    def weight(self, word: str) -> float:
        """Rarity of a word over all names: the log of their number by those that hold it, plus 0.3."""
        return self._word_weight.get(word, math.log(len(self.words) + 1)) + 0.3

    def weigh_groups(self, groups: Mapping[str, float]) -> dict[str, float]:
        """Letter groups weighted by rarity, scaled to length one."""
        return _scaled(
            {group: n * self._group_weight[group] for group, n in groups.items() if group in self._group_weight}
        )

    def weigh_definition(self, words: Sequence[str]) -> dict[str, float]:
        """Words weighted by their rarity over all definitions, scaled to length one."""
        counts = Counter(words)
        return _scaled(
            {w: (1 + math.log(n)) * self._defined_weight[w] for w, n in counts.items() if w in self._defined_weight}
        )


def _rarity(rows: Sequence[Sequence[str] | Mapping[str, float]]) -> dict[str, float]:
    seen: Counter[str] = Counter()
    for row in rows:
        seen.update(set(row))
    return {one: math.log((len(rows) + 1) / (n + 1)) + 1e-6 for one, n in seen.items()}


def _scaled(row: dict[str, float]) -> dict[str, float]:
    length = math.sqrt(sum(value * value for value in row.values()))
    return {one: value / length for one, value in row.items()} if length else {}
