"""From the decisions about a word to statements in a draft, and an issue where no statement may be made.

::

    decision                             statement value discordant                     the slot gets the
    value state not_assessable, transected     the slot gets the state; reason and, for numbers, the state
    under observed close, broad or narrow match         the value, and the word itself kept as a quote
    ambiguous, or a word with two        none: an issue with the question
      meanings that nobody reviewed
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any

from chordae.intake.cells import Refusal
from chordae.intake.crosswalk_rules import NOT_RECORDED, ColumnRule, ValueRule
from chordae.intake.draft import Draft
from chordae.intake.scalars import exact_number
from chordae.intake.targets import Mistake, Target, has_state, typed
from chordae.issues import Issue, Location, issue, shown

__all__ = ["Cell", "Statements"]

_UNSEEN = ("not_assessable", "not_examined")
_PLANS = 8192


@dataclass(frozen=True, slots=True)
class Cell:
    """One filled cell, or one word of it."""

    record: str
    heading: str
    text: str
    place: Location
    stored_date: bool = False

    def with_text(self, text: str) -> Cell:
        """Return the same place with one word of the cell."""
        return self if text == self.text else replace(self, text=text)


@dataclass(frozen=True, slots=True)
class _Plan:
    """What is done with a word of a column: ask, or each rule with its places and the value that goes there."""

    question: str | None
    steps: tuple[tuple[ValueRule, tuple[tuple[Target, Any], ...]], ...]


class Statements:
    """Makes statements and writes issues.

    Parameters
    ----------
    issues
        The list to write to.
    ask
        Returns the question about a word with more than one meaning, else ``None``.
    """

    def __init__(self, issues: list[Issue], ask: Callable[[str], str | None]) -> None:
        self._issues = issues
        self._ask = ask
        self._plans: dict[tuple[str, str], _Plan] = {}

    def put(self, draft: Draft, target: Target, value: Any, cell: Cell, **more: Any) -> None:
        """Set a value; a contradiction with an earlier cell is an issue."""
        if target.kind in ("integer", "decimal"):
            value = self._number(target, value, cell)
            if value is None:
                return
        conflict = draft.put(target, value, cell.place, cell.heading, **more)
        if conflict is not None:
            fields = {"property": target.slot, "first": shown(conflict.value), "column": conflict.heading}
            self._say("I-CEL-09", cell, shown(value), part=target.area, heading=cell.heading, **fields)

    def refuse(self, cell: Cell, refusal: Refusal, rule: ColumnRule) -> None:
        """Write why a number or date was not taken over."""
        comma = " with a decimal comma" if rule.style == "decimal_comma" else ""
        fields = {"style": rule.style if rule.kind == "date" else comma, "found": refusal.found, "expected": rule.unit}
        self._say(refusal.rule, cell, cell.text, heading=cell.heading, **fields)

    def decide(
        self, draft: Draft, cell: Cell, decisions: Iterable[ValueRule], own: list[Target], measured: bool
    ) -> bool:
        """Make the statements of a word.

        Parameters
        ----------
        decisions
            The crosswalk rows for the word, at least one.
        own
            The places that the column itself fills, for rows that name none.
        measured
            Whether the column holds measurements, which have no place of their own for a state.

        Returns
        -------
        bool
            Whether the word was dealt with; ``False`` if no row could be used here.
        """
        plan = self._plans.get((cell.heading, cell.text))
        if plan is None:
            if len(self._plans) >= _PLANS:
                self._plans.clear()
            plan = self._plans[cell.heading, cell.text] = self._plan(cell.text, tuple(decisions), own)
        if plan.question is not None:
            self._say("I-CEL-03", cell, cell.text, heading=cell.heading, question=plan.question)
            return True
        made = False
        for rule, values in plan.steps:
            for target, value in values:
                made = self._state(draft, cell, rule, target, value) or made
            if rule.state == NOT_RECORDED:
                made = True
            elif rule.target is None and measured and rule.state in _UNSEEN:
                draft.remark(cell.text, cell.heading, cell.place)
                made = True
        return made

    def _plan(self, text: str, decisions: tuple[ValueRule, ...], own: list[Target]) -> _Plan:
        """Return what a word of a column means, which is the same in every row."""
        question = next((one.note for one in decisions if one.match == "ambiguous"), None)
        if question is None and not all(one.match == "exact" and one.reviewer for one in decisions):
            question = self._ask(text)
        steps = []
        for rule in decisions:
            targets = [rule.target] if rule.target is not None else own
            seen = rule.state != NOT_RECORDED and rule.state not in _UNSEEN
            words = rule.value or rule.state
            steps.append((rule, tuple((one, typed(one, words) if seen else None) for one in targets)))
        return _Plan(question, tuple(steps))

    def _state(self, draft: Draft, cell: Cell, rule: ValueRule, target: Target, value: Any) -> bool:
        if rule.state == NOT_RECORDED:
            return True
        if rule.state in _UNSEEN:
            self._unseen(draft, cell, rule, target)
        else:
            if isinstance(value, Mistake):
                return False
            self.put(draft, target, value, cell)
        self._add(draft, cell, rule, target)
        return True

    def _unseen(self, draft: Draft, cell: Cell, rule: ValueRule, target: Target) -> None:
        said = {"state_reason": rule.value} if rule.value else {}
        if target.entry == "MaterialCondition":
            self.put(draft, target, rule.state, cell, **said)
        elif target.slot == "state":
            self.put(draft, target, rule.state, cell)
            if rule.value:
                self.put(draft, Target(target.area, "state_reason"), rule.value, cell)
        elif has_state(target, rule.state):
            self.put(draft, target, rule.state, cell)
            if said and target.is_part:
                draft.observe(target.area, target.slot, cell.place, **said)
        elif target.is_part:
            draft.observe(target.area, target.slot, cell.place, state=rule.state, **said)
        else:
            draft.remark(cell.text, cell.heading, cell.place)

    def _add(self, draft: Draft, cell: Cell, rule: ValueRule, target: Target) -> None:
        """Keep the word itself where the match is not exact, and how sure the observer was."""
        if rule.match != "exact":
            taken = rule.value or rule.state
            self._say("I-CEL-11", cell, cell.text, heading=cell.heading, taken=taken, match=rule.match)
            if target.is_part:
                draft.observe(target.area, target.slot, cell.place, quote=cell.text)
            else:
                draft.remark(cell.text, cell.heading, cell.place)
        if rule.certainty and target.is_part:
            draft.observe(target.area, target.slot, cell.place, certainty=rule.certainty)

    def _number(self, target: Target, value: Any, cell: Cell) -> int | float | None:
        """Return a number that the slot may hold; ``None``, with an issue, for any other."""
        mistake = typed(target, str(value) if not isinstance(value, float) else repr(value))
        if not isinstance(mistake, Mistake):
            return exact_number(repr(value)) if isinstance(value, float) else mistake
        self._say("I-CEL-12", cell, cell.text, heading=cell.heading, problem=mistake.fields["nearest"].strip())
        return None

    def _say(self, rule: str, cell: Cell, value: str, **fields: Any) -> None:
        self._issues.append(issue(rule, location=cell.place, record=cell.record, value=value, **fields))
