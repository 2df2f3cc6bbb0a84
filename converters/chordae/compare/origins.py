"""Where each fact of a reconciled description comes from, and what stays open; kept while it is put together."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from chordae.compare.hearts import Comparison
from chordae.compare.settled import Settled
from chordae.issues import Issue, issue
from chordae.rdf.emit import record_iri
from chordae.rdf.terms import name as segment
from chordae.record import find_part

__all__ = ["Origins", "shown"]

_AGREEING = frozenset({"agree", "more_specific", "less_specific"})
_NOT_SEEN = frozenset({"not_assessable", "not_examined"})


class Origins:
    """Chooses values and notes their origin.

    Parameters
    ----------
    found
        The two descriptions compared.
    settled
        Differences that somebody settled, of this heart.
    bases
        Base IRIs of the records of A and of B.

    Attributes
    ----------
    rows, questions
        For the slots ``origins`` and ``open_questions`` of a reconciliation.
    """

    def __init__(self, found: Comparison, settled: Sequence[Settled], bases: tuple[str | None, str | None]) -> None:
        self.records = found.a, found.b
        self.iris = record_iri(found.a["id"], bases[0]), record_iri(found.b["id"], bases[1])
        self.reverse = {one: other for other, one in found.parts.items()}
        self.rows: list[dict[str, Any]] = []
        self.questions: list[dict[str, Any]] = []
        self._verdicts: dict[tuple[str, str], set[str]] = {}
        for item in found.items:
            self._verdicts.setdefault((item.area, item.slot.partition(".")[0]), set()).add(item.verdict)
        self._settled = {one.place(): one for one in settled}
        self._used: set[tuple[str, str]] = set()

    def verdicts(self, area: str, slot: str) -> set[str]:
        """Return the verdicts on one property."""
        return self._verdicts.get((area, slot), set())

    def choose(self, area: str, slot: str, mine: Any, theirs: Any) -> tuple[Any, tuple[int, ...]]:
        """Return the value of one property and from which of the two it comes; None where it is open."""
        verdicts = self.verdicts(area, slot)
        if mine == theirs and mine is not None:
            return self.take(area, slot, mine, (0, 1))
        if "contradict" in verdicts:
            return self.differ(area, slot, mine, theirs)
        if mine is not None and (theirs is None or _unseen(theirs)):
            return self.take(area, slot, mine, (0,))
        if theirs is not None and (mine is None or _unseen(mine)):
            return self.take(area, slot, theirs, (1,))
        if verdicts and verdicts <= _AGREEING:
            if "less_specific" in verdicts:
                return self.take(area, slot, theirs, (1,), "the other says less")
            why = "the other says less" if "more_specific" in verdicts else ""
            return self.take(area, slot, mine, (0,) if why else (0, 1), why)
        return self.differ(area, slot, mine, theirs)

    def take(
        self, area: str, slot: str, value: Any, sides: tuple[int, ...], why: str = ""
    ) -> tuple[Any, tuple[int, ...]]:
        """Take a value over."""
        self.note(f"{area}.{slot}", sides, area, None, why)
        return copy.deepcopy(value), sides

    def differ(self, area: str, slot: str, mine: Any, theirs: Any) -> tuple[Any, tuple[int, ...]]:
        """Ask a question, or take what somebody settled."""
        decision = self._settled.get((area, slot))
        if decision is None:
            self.ask(f"{area}.{slot}", [shown(mine), shown(theirs)])
            return None, ()
        self._used.add((area, slot))
        value = {"a": mine, "b": theirs}.get(decision.take, decision.value)
        sides = {"a": (0,), "b": (1,)}.get(decision.take, ())
        self.note(f"{area}.{slot}", sides, area, decision)
        return copy.deepcopy(value), sides

    def ask(self, what: str, answers: Sequence[str]) -> None:
        """Add an open question."""
        told = [f"{record['id']}: {answer}" for record, answer in zip(self.records, answers, strict=True)]
        self.questions.append({"what": what, "answers": told})

    def note(self, what: str, sides: Iterable[int], area: str, decision: Settled | None = None, why: str = "") -> None:
        """Note where a fact comes from."""
        row: dict[str, Any] = {"what": what}
        if found := [self._iri(side, area) for side in sides]:
            row["derived_from"] = found
        if decision is not None:
            row |= {"settled_by": decision.by, "why": decision.why}
            if person := decision.person():
                row["attributed_to"] = person
        elif why:
            row["why"] = why
        self.rows.append(row)

    def people(self) -> list[str]:
        """Return who settled something that was used."""
        return list(dict.fromkeys(one.by for place, one in self._settled.items() if place in self._used))

    def unused(self) -> list[Issue]:
        """Return an issue for each decision on a place where nothing differs."""
        return [
            issue("I-RCN-01", location=one.location, record=one.heart, part=one.part, value=f"{place[0]}.{place[1]}")
            for place, one in self._settled.items()
            if place not in self._used
        ]

    def _iri(self, side: int, area: str) -> str:
        part_id = area if side == 0 else self.reverse.get(area, area)
        if find_part(self.records[side], part_id) is not None:
            return f"{self.iris[side]}/part/{segment(part_id)}"
        return f"{self.iris[side]}/{area}" if area in ("specimen", "stated") else self.iris[side]


def _unseen(value: Any) -> bool:
    return isinstance(value, str) and value in _NOT_SEEN


def shown(value: Any) -> str:
    """Return a value of a record as text."""
    if isinstance(value, list):
        return ", ".join(shown(one) for one in value)
    if isinstance(value, Mapping):
        return " ".join(str(one) for one in value.values())
    return "not recorded" if value is None else str(value)
