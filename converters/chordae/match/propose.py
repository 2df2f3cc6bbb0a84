"""From a local word to ranked candidates, each with its reasons; or to the question that must be answered first.

::

    propose(["Ao arch R", "cusp"], Matcher(own_targets()))
        Proposal("Ao arch R", candidates=(Candidate("right_aortic_arch", stage="near", confidence=0.9), ...))
        Proposal("cusp", questions=(FalseFriend(...),))          an ambiguous word has no candidates

Stages, first that answers: *exact* (same letters but for case), *normalised* (same words but for order, spelling,
plural, hyphen), *abbreviation* (a short form of one school), *other name* (the vocabulary has both as names of one
term), *near* (like it). Only exact and normalised answers with one target are sure; nothing else is ever accepted
without a person.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from chordae import friends
from chordae.match.equivalents import Equivalents
from chordae.match.likeness import FEATURES, Scorer
from chordae.match.near import Finder
from chordae.match.opposites import clash
from chordae.match.own import Rephrasing, rephrase
from chordae.match.rank import load_model
from chordae.match.targets import Index, Target
from chordae.match.words import key

__all__ = ["Candidate", "Matcher", "Proposal", "Stage"]

Stage = Literal["exact", "normalised", "abbreviation", "other name", "near"]

_CLASH = FEATURES.index("clash")
_SURE: Sequence[Stage] = ("exact", "normalised")


@dataclass(frozen=True, slots=True)
class Candidate:
    """One target that a word may mean.

    ``confidence`` is how often a candidate like this was right on the set the model was fitted on, 0 to 1.
    """

    target: str
    label: str
    stage: Stage
    confidence: float
    reasons: tuple[str, ...]

    def to_json(self) -> dict[str, Any]:
        """Return plain data."""
        return {
            "target": self.target,
            "label": self.label,
            "stage": self.stage,
            "confidence": round(self.confidence, 3),
            "reasons": list(self.reasons),
        }


@dataclass(frozen=True, slots=True)
class Proposal:
    """What is proposed for one word: candidates best first, or questions instead of candidates."""

    word: str
    candidates: tuple[Candidate, ...] = ()
    questions: tuple[friends.FalseFriend, ...] = ()
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
    """

    def __init__(
        self,
        targets: Sequence[Target],
        equivalents: Equivalents | None = None,
        rejected: Iterable[tuple[str, str]] = (),
        keep: int = 12,
    ) -> None:
        self.index = Index(targets, equivalents)
        self.scorer, self.finder, self.model = Scorer(self.index), Finder(self.index, keep), load_model()
        self._rejected = {(key(word), target) for word, target in rejected}

    def propose(self, words: Sequence[str], most: int = 5) -> Iterator[Proposal]:
        """Propose candidates for each word, in the order of the words.

        Parameters
        ----------
        words
            Local words, shape ``(n_words,)``.
        most
            How many candidates to give for each.
        """
        others = [rephrase(word) for word in words]
        phrases = [
            self.scorer.prepare(text)
            for word, more in zip(words, others, strict=True)
            for text in (word, *(o.text for o in more))
        ]
        near = self.finder.find(phrases)
        at = 0
        for word, more in zip(words, others, strict=True):
            found = {target for _ in range(1 + len(more)) for target in next(near)}
            own = phrases[at : at + 1 + len(more)]
            at += 1 + len(more)
            if questions := [one for one in friends.ask(word) if not one.context]:
                yield Proposal(word, questions=tuple(questions))
                continue
            staged = self._staged(word, more)
            ranked = self._ranked(word, own, more, sorted(found | set(staged)), staged)
            candidates = tuple(one for one in ranked if (key(word), one.target) not in self._rejected)[:most]
            sure = [one for one in candidates if one.stage in _SURE]
            yield Proposal(word, candidates, sure=len(sure) == 1 and candidates[0] is sure[0])

    def _staged(self, word: str, others: Sequence[Rephrasing]) -> dict[int, tuple[Stage, str]]:
        found: dict[int, tuple[Stage, str]] = {}
        text = word.casefold().strip()
        for at in self.index.by_text.get(text, ()):
            name = self.index.texts[at]
            short = name.kind == "abbreviation"
            school = f" of the {name.school.replace('_', ' ')} school" if name.school else ""
            stage: tuple[Stage, str] = (
                ("abbreviation", f"'{name.text}' is a short form{school}")
                if short
                else ("exact", f"same words as '{name.text}'")
            )
            if self.index.owner[at] not in found or not short:
                found[self.index.owner[at]] = stage
        for at in self.index.by_key.get(key(word), ()):
            if self.index.texts[at].kind != "abbreviation" and clash(word, self.index.texts[at].text) is None:
                reason = f"same as '{self.index.texts[at].text}' but for order, spelling, plural or hyphen"
                found.setdefault(self.index.owner[at], ("normalised", reason))
        for other in others:
            for at in self.index.by_key.get(key(other.text), ()):
                if self.index.texts[at].kind != "abbreviation":
                    reason = f"{other.why}, which is also called '{self.index.texts[at].text}'"
                    found.setdefault(self.index.owner[at], ("other name", reason))
        return found

    def _ranked(
        self,
        word: str,
        phrases: Sequence[Any],
        others: Sequence[Rephrasing],
        near: Sequence[int],
        staged: dict[int, tuple[Stage, str]],
    ) -> list[Candidate]:
        rows = []
        for target in near:
            numbers, name, best = self.scorer.measure_any(phrases, target)
            against = clash(word, self.index.texts[name].text) if numbers[_CLASH] else None
            rows.append(
                (target, self.model.score(numbers), numbers, name, against, others[best - 1].why if best else "")
            )
        order = ("exact", "normalised", "abbreviation", "other name", "near")

        def place(row: tuple[Any, ...]) -> tuple[int, bool, float, str]:
            stage = staged[row[0]][0] if row[0] in staged else "near"
            return order.index(stage), row[4] is not None, -row[1], self.index.targets[row[0]].id

        rows.sort(key=place)
        shares = self.model.shares([score for _, score, *_ in rows])
        return [self._candidate(row, share, staged.get(row[0])) for row, share in zip(rows, shares, strict=True)]

    def _candidate(self, row: tuple[Any, ...], share: float, staged: tuple[Stage, str] | None) -> Candidate:
        target, _, numbers, name, against, why = row
        told = self.index.targets[target]
        if staged:
            stage, reason = staged
            confidence = (
                1.0 if stage == "exact" else max(0.97 if stage == "normalised" else 0.85, self.model.confidence(share))
            )
            return Candidate(told.id, told.label, stage, confidence, (reason,))
        values = dict(zip(FEATURES, numbers, strict=True))
        reasons = [f"nearest name '{self.index.texts[name].text}'"]
        reasons.append(
            f"{100 * values['found']:.0f} % of the words found, {100 * values['covered']:.0f} % of its words covered"
        )
        reasons.append(f"{100 * values['letters']:.0f} % of the letters alike")
        if why:
            reasons.append(why)
        if values["initials"]:
            reasons.append("the letters are its initials")
        if against:
            reasons.append(f"speaks against it: {against}")
        confidence = 0.0 if against else self.model.confidence(share)
        return Candidate(told.id, told.label, "near", confidence, tuple(reasons))
