"""The engine of identity: from the features of one part and the criteria in data to an answer with its ground.

::

    schema/criteria.yaml           features of the part             Identity
    decides  pectinate_extent      pectinate_extent = to_crux  -->  answer      morphologically_right_atrium
    supports terminal_crest        terminal_crest = absent          confidence  decided
    excludes ...                                                    used        pectinate_extent = to_crux
                                                                    against     terminal_crest = absent

    a deciding row of one answer only, and none excludes it   decided
    deciding rows of two answers, or one that is excluded     conflict
    no deciding row; supporting rows of one answer only       supported
    otherwise                                                 undetermined, with what was not seen

The engine knows no anatomy. What the observer stated of the identity is carried along and never counted.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal, NamedTuple, TypeAlias

from chordae.conditions import SILENT
from chordae.derive.heart import Part, words
from chordae.derive.kinds import SORTS, Answer, Criterion, Kind
from chordae.knowledge import table
from chordae.record import Record, feature_state

__all__ = ["Confidence", "Identity", "identify"]

Confidence: TypeAlias = Literal["decided", "supported", "undetermined", "conflict"]


class Identity(NamedTuple):
    """What one part is, how firmly, and why.

    ``answer`` is ``None`` where it is undetermined or in conflict; ``stated`` is the answer that the observer named, if
    any; ``used`` and ``against`` are ``feature = value``, ``basis`` is ``used`` with the part before it; ``unseen`` are
    deciding features with the reason why they give nothing; ``would`` says what seeing them would change.
    """

    part: str
    kind: str
    answer: str | None
    term: str | None
    confidence: Confidence
    stated: str | None
    used: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    unseen: tuple[str, ...] = ()
    would: tuple[str, ...] = ()
    possible: tuple[str, ...] = ()
    basis: tuple[str, ...] = ()

    @property
    def looked_at(self) -> bool:
        """Whether anything was recorded of it, be it that a feature could not be judged."""
        return bool(self.used or self.against) or any("(not recorded)" not in one for one in self.unseen)

    @property
    def best(self) -> str | None:
        """The answer, or else what the observer stated."""
        return self.answer or self.stated


def identify(of: Kind, part: Part, given: Mapping[str, Any] | None = None, record: Record | None = None) -> Identity:
    """Identify one part.

    Parameters
    ----------
    of
        The kind of structure, from :func:`chordae.derive.kinds.kind`.
    part
        The part with its features.
    given
        Facts found before, under the names that the criteria give them.
    record
        The whole record, for what it says of the material.
    """
    doubtful: frozenset[str] = frozenset()
    if observed := part.get("observed"):
        part = {**{one.get("feature"): one.get("state") for one in observed}, **part}
        demoting = table("criteria")["demoted_by_certainty"]
        doubtful = frozenset(one.get("feature", "") for one in observed if one.get("certainty") in demoting)
    facts = {**part, **given} if given else part
    values = tuple(map(facts.get, of.features))
    identifier, stated = str(part.get("id", "")), _stated(of, part)
    try:
        found, excluded = _known(of, values, doubtful, identifier, stated)
    except TypeError:  # a list where one value belongs; the check of structure reports it
        values = tuple(one if isinstance(one, (str, int, float)) else None for one in values)
        found, excluded = _known(of, values, doubtful, identifier, stated)
    if found.confidence in ("decided", "conflict"):
        return found
    unseen, would, possible = _open(of, _Silence(part, record), values, excluded, doubtful)
    return found._replace(unseen=unseen, would=would, possible=possible)


@lru_cache(maxsize=65536)
def _known(
    of: Kind, values: tuple[Any, ...], doubtful: frozenset[str], identifier: str, stated: str | None
) -> tuple[Identity, frozenset[str]]:
    """Return what the features give, before what was not seen is named; and the answers that are excluded."""
    found = _judge(of, values, doubtful)
    name, term = (found.answer.name, found.answer.term) if found.answer else (None, None)
    identity = Identity(
        identifier, of.name, name, term, found.confidence, stated, found.used, found.against, possible=found.possible,
        basis=tuple(f"{identifier}.{text}" for text in found.used),
    )  # fmt: skip
    return identity, found.excluded


@dataclass(frozen=True, slots=True)
class _Judgement:
    """What the features alone give, the same for every part with the same features."""

    answer: Answer | None
    confidence: Confidence
    used: tuple[str, ...]
    against: tuple[str, ...]
    possible: tuple[str, ...]
    excluded: frozenset[str]


@lru_cache(maxsize=65536)
def _judge(of: Kind, values: tuple[Any, ...], doubtful: frozenset[str]) -> _Judgement:
    facts = dict(zip(of.features, values, strict=True))
    decided, supported, excluded = _rows_met(of, facts, doubtful)
    out = frozenset(one.name for one, _ in excluded)
    names = {one.name for one, _ in decided}
    if len(names) > 1 or names & out:
        used, against = _seen(decided, facts), _seen(excluded, facts)
        return _Judgement(None, "conflict", used, against, tuple(sorted(names)), out)
    if names:
        answer = decided[0][0]
        used = _seen([*decided, *(one for one in supported if one[0] is answer)], facts)
        against = _seen((one for one in supported if one[0] is not answer), facts, used)
        return _Judgement(answer, "decided", used, against, (), out)
    leaning = {one.name for one, _ in supported} - out
    used = _seen((one for one in supported if one[0].name in leaning), facts)
    against = _seen([*(one for one in supported if one[0].name not in leaning), *excluded], facts, used)
    if len(leaning) == 1 and not against:
        answer = next(one for one, _ in supported if one.name in leaning)
        return _Judgement(answer, "supported", used, (), (), out)
    return _Judgement(None, "undetermined", used, against, (), out)


_Met: TypeAlias = tuple[Answer, Criterion]


def _rows_met(of: Kind, facts: Part, doubtful: frozenset[str]) -> tuple[list[_Met], list[_Met], list[_Met]]:
    met: dict[str, list[_Met]] = {sort: [] for sort in SORTS}
    for sort in SORTS:
        for answer in of.answers:
            for row in getattr(answer, sort):
                if _met(row, facts):
                    doubt = sort == "decides" and not doubtful.isdisjoint(name for name, _ in row.see)
                    met["supports" if doubt else sort].append((answer, row))
    return met["decides"], met["supports"], met["excludes"]


def _met(row: Criterion, facts: Part) -> bool:
    if any(facts.get(name) not in values for name, values in row.see):
        return False
    return not any(facts.get(name) in values for name, values in row.unless)


@dataclass(frozen=True, slots=True)
class _Silence:
    """What is recorded of the features of a part, and why nothing is."""

    part: Part
    record: Record | None

    def of(self, name: str) -> str:
        """Say why a feature gives nothing: its state, with the reason where one was recorded."""
        state = feature_state(self.part, name, self.record)
        if state.state is None or state.seen:
            return "not recorded"
        return words(state.state) + (f", {words(state.reason)}" if state.reason else "")


def _open(
    of: Kind, silence: _Silence, values: tuple[Any, ...], out: frozenset[str], doubtful: frozenset[str]
) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Say what would decide soonest: features that give nothing, what seeing them would change, what stays possible."""
    missing, would, possible = _nearest(of, values, out, doubtful)
    return tuple(f"{words(name)} ({silence.of(name)})" for name in missing), would, possible


@lru_cache(maxsize=65536)
def _nearest(
    of: Kind, values: tuple[Any, ...], out: frozenset[str], doubtful: frozenset[str]
) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Find the rows that lack the fewest features: these features, what each would give, the answers still possible."""
    facts = dict(zip(of.features, values, strict=True))
    rows: list[tuple[Answer, list[tuple[str, frozenset[Any]]]]] = []
    for answer in of.answers:
        for row in answer.decides:
            missing = [one for one in row.see if facts.get(one[0]) in SILENT or one[0] in doubtful]
            refuted = any(facts.get(name) not in known for name, known in row.see if facts.get(name) not in SILENT)
            blocked = any(facts.get(name) in known for name, known in row.unless)
            if missing and not refuted and not blocked and answer.name not in out:
                rows.append((answer, missing))
    fewest = min((len(missing) for _, missing in rows), default=0)
    near = [one for one in rows if len(one[1]) == fewest]
    would: dict[str, dict[str, None]] = {}
    for answer, missing in near:
        names = " and ".join(words(name) for name, _ in missing)
        seen = " and ".join(_either(known) for _, known in missing)
        would.setdefault(names, {})[f"{seen} = {words(answer.name)}"] = None
    features = dict.fromkeys(name for _, missing in near for name, _ in missing)
    texts = tuple(f"{names}: {', '.join(given)}" for names, given in would.items())
    return tuple(features), texts, tuple(dict.fromkeys(answer.name for answer, _ in rows))


def _seen(rows: Iterable[_Met], facts: Part, but: tuple[str, ...] = ()) -> tuple[str, ...]:
    names = {name: None for _, row in rows for name, _ in row.see}
    texts = (f"{name} = {facts.get(name)}" for name in names)
    return tuple(text for text in texts if text not in but)


def _stated(of: Kind, part: Part) -> str | None:
    value = part.get(of.stated)
    return of.named.get(value) if isinstance(value, str) else None


def _either(values: frozenset[Any]) -> str:
    return " or ".join(sorted(words(str(one)) for one in values))
