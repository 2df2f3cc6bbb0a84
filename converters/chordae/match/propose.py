"""From a local word to ranked candidates, each with its reasons; or to the question that must be answered first.

::

    Matcher(own_targets()).propose(["Ao arch R", "cusp"])
        Proposal("Ao arch R", candidates=(Candidate("right_aortic_arch", stage="other name", confidence=0.85), ...))
        Proposal("cusp", questions=(FalseFriend(...),))          an ambiguous word has no candidates

Stages, first that answers: *exact*, *normalised*, *abbreviation*, *other name* (:mod:`chordae.match.stages`), then
*near*, what is like it. Only exact and normalised answers with one target are sure; nothing else is ever accepted
without a person. A near candidate that says the opposite never stands first: where there is no other, there is none.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from chordae.friends import FalseFriend
from chordae.match.equivalents import Equivalents
from chordae.match.likeness import FEATURES, Phrase, Scorer
from chordae.match.near import Finder, Near
from chordae.match.opposites import clash_of_words
from chordae.match.own import Rephrasing, rephrase
from chordae.match.rank import load_model
from chordae.match.stages import STAGES, SURE, Stage, Staged, cautions_about, named, questions_about
from chordae.match.targets import Index, Target
from chordae.match.words import key

if TYPE_CHECKING:
    from chordae.match.meaning import Meaning

__all__ = ["Candidate", "Matcher", "Proposal"]

_STAGED = {"exact": 1.0, "normalised": 0.98, "abbreviation": 0.85, "other name": 0.85}
"""Confidence of a stage: how often it was right on the half used for choosing (``bench_match.py --stages``):
normalised 61 of 62, other name 11 of 13. Abbreviation cannot be measured there, and is put beside other name."""
_AT_ONCE = 2048
_CLASH, _FOUND, _LETTERS, _INITIALS = (FEATURES.index(one) for one in ("clash", "found", "letters", "initials"))


@dataclass(frozen=True, slots=True)
class Candidate:
    """One target that a word may mean.

    ``confidence`` is how often a candidate like this was right on the set the model was fitted on, 0 to 1.
    ``against`` are words in which it says the opposite; empty for most.
    """

    target: str
    label: str
    stage: Stage
    confidence: float
    reasons: tuple[str, ...]
    source: str = ""
    against: str = ""

    def to_json(self) -> dict[str, Any]:
        """Return plain data."""
        return {
            "target": self.target,
            "label": self.label,
            "source": self.source,
            "stage": self.stage,
            "confidence": round(self.confidence, 3),
            "reasons": list(self.reasons),
        }


@dataclass(frozen=True, slots=True)
class Proposal:
    """What is proposed for one word: candidates best first, or questions instead of candidates."""

    word: str
    candidates: tuple[Candidate, ...] = ()
    questions: tuple[FalseFriend, ...] = ()
    sure: bool = field(default=False)

    def to_json(self) -> dict[str, Any]:
        """Return plain data."""
        asked = [
            {"word": one.word, "may_mean": [m.gloss for m in one.meanings], "question": one.ask}
            for one in self.questions
        ]
        return {
            "word": self.word,
            "sure": self.sure,
            "candidates": [one.to_json() for one in self.candidates],
            "questions": asked,
        }


class Matcher:
    """Proposes targets for words.

    Parameters
    ----------
    targets
        Terms of the vocabulary, or of an ontology.
    equivalents
        Words that stand for each other; learned from the targets when not given.
    rejected
        Pairs ``(word, target id)`` that a curator has ruled out; they are never proposed again.
    keep
        How many near names are looked at closely.
    meaning
        Compares meanings as well (extra ``embeddings``); much slower.
    """

    def __init__(
        self,
        targets: Sequence[Target],
        equivalents: Equivalents | None = None,
        rejected: Iterable[tuple[str, str]] = (),
        keep: int = 12,
        meaning: Meaning | None = None,
    ) -> None:
        self.index = Index(targets, equivalents)
        self.scorer, self.finder = Scorer(self.index), Finder(self.index, keep if meaning is None else 2 * keep)
        self.meaning, self.model = meaning, load_model(meaning is not None)
        self._rejected = {(key(word), target) for word, target in rejected}

    def propose(self, words: Sequence[str], most: int = 5, also: Sequence[Collection[int]] = ()) -> Iterator[Proposal]:
        """Propose candidates for each word, in the order of the words.

        Parameters
        ----------
        words
            Local words, shape ``(n_words,)``.
        most
            How many candidates to give for each; 0 for all that are worth it.
        also
            Positions of targets that are looked at in any case, shape ``(n_words,)``.
        """
        for start in range(0, len(words), _AT_ONCE):
            end = start + _AT_ONCE
            yield from self._propose(words[start:end], most, also[start:end] or [()] * len(words[start:end]))

    def _propose(self, words: Sequence[str], most: int, also: Sequence[Collection[int]]) -> Iterator[Proposal]:
        others = [rephrase(word) for word in words]
        asked = [
            [self.scorer.prepare(text) for text in (word, *(other.text for other in more))]
            for word, more in zip(words, others, strict=True)
        ]
        staged = [named(self.index, word, more) for word, more in zip(words, others, strict=True)]
        near = self.finder.find(asked, [{*found, *more} for found, more in zip(staged, also, strict=True)])
        for word, more, phrases, found, around in zip(words, others, asked, staged, near, strict=True):
            if questions := questions_about(self.index, word, found):
                yield Proposal(word, questions=questions)
                continue
            ranked = self._ranked(phrases, more, around, found)
            kept = [one for one in ranked if (key(word), one.target) not in self._rejected]
            candidates = () if kept and kept[0].against else _worth(kept, most or len(kept))
            sure = [one for one in candidates if one.stage in SURE]
            certain = len(sure) == 1 and candidates[0] is sure[0]
            if candidates and (cautions := cautions_about(word)):
                first = candidates[0]
                candidates = (replace(first, reasons=(*first.reasons, *cautions)), *candidates[1:])
                certain = False
            yield Proposal(word, candidates, sure=certain)

    def _ranked(
        self, phrases: Sequence[Phrase], others: Sequence[Rephrasing], near: Near, staged: Staged
    ) -> list[Candidate]:
        rows = []
        for target in near.targets:
            numbers, name, wording = self.scorer.measure_any(phrases, target, near.letters)
            if self.meaning is not None:
                names = [self.index.texts[at].text for at in self.index.names_of[target]]
                alike = self.meaning.alike(phrases[0].text, names)
                numbers = [*numbers, alike, alike**3]
            against = ""
            if target not in staged and numbers[_CLASH]:
                against = clash_of_words(phrases[wording].whole, self.index.whole[name]) or ""
            why = others[wording - 1].why if wording else ""
            rows.append((target, self.model.score(numbers), numbers, name, against, why))

        def place(row: tuple[Any, ...]) -> tuple[int, bool, float, str]:
            stage = staged[row[0]][0] if row[0] in staged else "near"
            return STAGES.index(stage), bool(row[4]), -row[1], self.index.targets[row[0]].id

        rows.sort(key=place)
        shares = self.model.shares([score for _, score, *_ in rows])
        return [
            self._candidate(row, share, staged)
            for row, share in zip(rows, shares, strict=True)
            if row[0] in staged or _like(row[2])
        ]

    def _candidate(self, row: tuple[Any, ...], share: float, staged: Staged) -> Candidate:
        target, _, numbers, name, against, why = row
        told = self.index.targets[target]
        if target in staged:
            stage, reason = staged[target]
            return Candidate(told.id, told.label, stage, _STAGED[stage], (reason,), told.source)
        values = dict(zip(FEATURES, numbers, strict=False))
        reasons = [
            f"nearest name '{self.index.texts[name].text}'",
            f"{100 * values['found']:.0f} % of the words found, {100 * values['covered']:.0f} % of its words covered",
            f"{100 * values['letters']:.0f} % of the letters alike",
        ]
        if self.meaning is not None:
            reasons.append(f"{100 * numbers[len(FEATURES)]:.0f} % alike in meaning")
        reasons += [why] if why else []
        reasons += ["the letters are its initials"] if values["initials"] else []
        reasons += [f"speaks against it: {against}"] if against else []
        confidence = 0.0 if against else self.model.confidence(share)
        return Candidate(told.id, told.label, "near", confidence, tuple(reasons), told.source, against)


def _like(numbers: Sequence[float]) -> bool:
    """Say whether there is anything in common at all: nearest does not mean near."""
    meaning = max(numbers[len(FEATURES) :], default=0.0)
    return numbers[_FOUND] >= 0.25 or numbers[_LETTERS] >= 0.35 or numbers[_INITIALS] > 0 or meaning >= 0.5


def _worth(candidates: Sequence[Candidate], most: int) -> tuple[Candidate, ...]:
    """Leave out what is next to impossible; the first stays."""
    return tuple(one for at, one in enumerate(candidates[:most]) if at == 0 or one.confidence >= 0.02 or one.against)
