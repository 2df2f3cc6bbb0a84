"""From local words to rows of the review table: each candidate with the row of the crosswalk it would become.

::

    word "R-sided"  column "Aortic arch"
        1  right aortic arch     aortic_arch  stated_arch_side  right     exact    same words as ...
        2  ...
    word "cusp"     column "Valves"
        ?  The moving leaflet or the sinus behind it?

Candidates that the column can give stand before the others, for a curator fills in that column.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from chordae.intake.crosswalk_rules import Crosswalk, ValueRule
from chordae.intake.targets import Target as PlaceInRecord
from chordae.match.local import LocalWord
from chordae.match.own import own_targets
from chordae.match.places import Fill, fills_of_column, only_place, term_of
from chordae.match.propose import Candidate, Matcher, Proposal
from chordae.match.targets import Name, Target

if TYPE_CHECKING:
    from chordae.match.meaning import Meaning

__all__ = ["Offer", "offers"]

_MOST = 5


@dataclass(frozen=True, slots=True)
class Offer:
    """One word with its proposal; ``fills`` has one entry a candidate: its row of values.tsv, or None."""

    local: LocalWord
    proposal: Proposal
    fills: tuple[Fill | None, ...]


def offers(
    words: Sequence[LocalWord],
    crosswalk: Crosswalk | None = None,
    ontology: Sequence[Target] = (),
    rejected: Iterable[tuple[str, str, str]] = (),
    most: int = _MOST,
    meaning: Meaning | None = None,
) -> Iterator[Offer]:
    """Propose candidates for local words.

    Parameters
    ----------
    words
        The words, with their columns.
    crosswalk
        Says what each column can give.
    ontology
        Terms of an open ontology, matched as well; their candidates come behind those of the vocabulary.
    rejected
        ``(column, word, target)`` that a curator has ruled out.
    most
        Candidates a word, of each of the two.
    meaning
        Compares meanings as well.
    """
    ruled_out = {(column, word.casefold(), target) for column, word, target in rejected}
    texts = [one.word for one in words]
    own = Matcher(_with_own_words(crosswalk), meaning=meaning)
    at = {target.id: number for number, target in enumerate(own.index.targets)}
    columns = {column: fills_of_column(crosswalk, column) for column in {one.column for one in words}}
    also = [[at[slug] for slug in columns[one.column] if slug in at] for one in words]
    outside: Iterator[Proposal | None] = iter([None] * len(words))
    if ontology:
        outside = Matcher(ontology, meaning=meaning).propose(texts, 4 * most)
    for local, found, more in zip(words, own.propose(texts, 0, also), outside, strict=True):

        def stays(candidate: Candidate, local: LocalWord = local) -> bool:
            return (local.column, local.word.casefold(), candidate.target) not in ruled_out

        fitting = columns[local.column]
        kept = [one for one in found.candidates if stays(one)]
        kept.sort(key=lambda one: one.target not in fitting)
        chosen = [_in_column(one, one.target in fitting) for one in kept[:most]]
        fills = [fitting.get(one.target) or only_place(one.target) for one in chosen]
        if more is not None:
            extra = [one for one in more.candidates if stays(one)][:most]
            chosen += extra
            fills += [None] * len(extra)
        sure = found.sure and bool(chosen) and (not fitting or chosen[0].target in fitting)
        yield Offer(local, replace(found, candidates=tuple(chosen), sure=sure), tuple(fills))


def _with_own_words(crosswalk: Crosswalk | None) -> Sequence[Target]:
    """Return the vocabulary with the words that a collection already uses, as far as each says one thing alone."""
    words: dict[str, list[Name]] = {}
    for rules in crosswalk.values.values() if crosswalk else ():
        if len(rules) == 1 and rules[0].match == "exact" and crosswalk:
            for target in _own_targets_of(rules[0], crosswalk):
                slug = term_of(target, rules[0].value, rules[0].state)
                words.setdefault(slug or "", []).append(Name(rules[0].local, "local"))
    return [replace(one, names=(*one.names, *words.get(one.id, ()))) for one in own_targets()]


def _own_targets_of(rule: ValueRule, crosswalk: Crosswalk) -> list[PlaceInRecord | None]:
    if rule.target is not None:
        return [rule.target]
    return [one.target for one in crosswalk.columns.get(rule.column, ()) if one.kind == "value"][:1]


def _in_column(candidate: Candidate, fits: bool) -> Candidate:
    return replace(candidate, reasons=(*candidate.reasons, "the column can give it")) if fits else candidate
