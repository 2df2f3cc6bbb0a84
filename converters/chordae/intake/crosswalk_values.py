"""From the rows of values.tsv to decisions about words, and an issue for each mistake."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from chordae import model
from chordae.intake.crosswalk_columns import RowReader
from chordae.intake.crosswalk_rules import ANY, MATCHES, NOT_RECORDED, ColumnRule, ValueRule, normalised
from chordae.intake.grid import Row, Table
from chordae.intake.targets import Mistake, Target, has_state, typed
from chordae.issues import Issue, nearest

__all__ = ["ValueReader"]


class ValueReader(RowReader):
    """Reads the rows of values.tsv; ``columns`` are the rules of columns.tsv, ``faulty`` its columns with a mistake."""

    def __init__(
        self, table: Table, issues: list[Issue], columns: Mapping[str, tuple[ColumnRule, ...]], faulty: set[str]
    ) -> None:
        super().__init__(table, issues)
        self._columns = columns
        self._faulty = faulty

    def rules(self) -> dict[tuple[str, str], list[ValueRule]]:
        """Return the decisions by column and word; two that contradict each other are both marked ambiguous."""
        found: dict[tuple[str, str], list[ValueRule]] = {}
        refused: set[tuple[str, str]] = set()
        for row in self.table.rows:
            rule = self._rule(row)
            if rule is None:
                continue
            key = (rule.column, normalised(rule.local))
            same = [one for one in found.get(key, []) if one.target == rule.target]
            twin = next((one for one in same if _says(one) == _says(rule)), None)
            if twin is not None:
                self.wrong(row, "local", "I-XW-11", rule.local, first=twin.place.line)
            elif same and not self._may_be_several(rule):
                self._contradiction(row, rule, same[0])
                refused.add(key)
            else:
                found.setdefault(key, []).append(rule)
        for key in refused:
            found[key] = [replace(one, match="ambiguous") for one in found[key]]
        return found

    def _may_be_several(self, rule: ValueRule) -> bool:
        own = [rule.target] if rule.target else [one.target for one in self._columns.get(rule.column, ())]
        lists = all(one is not None and model.tables().slots[one.slot].multivalued for one in own)
        return bool(own) and lists and rule.match != "ambiguous"

    def _contradiction(self, row: Row, rule: ValueRule, first: ValueRule) -> None:
        target = rule.target
        words = {"part": target.area, "property": target.slot} if target else {"part": "the", "property": "column"}
        before = first.value or first.state or first.match
        now = rule.value or rule.state or rule.match
        self.wrong(row, "local", "I-XW-12", now, local=rule.local, column=rule.column, first=before, **words)

    def _rule(self, row: Row) -> ValueRule | None:
        names = ("column", "local", "part", "property", "value", "state", "match", "reviewer", "note", "certainty")
        column, local, part, property, value, state, match, reviewer, note, certainty = (
            self.cell(row, one) for one in names
        )
        column = " ".join(column.split())
        if not column or not local:
            self.wrong(row, "local" if column else "column", "I-XW-10", what="the column or the local word")
            return None
        states = (*model.STATES, NOT_RECORDED)
        if not (
            self.one_of(row, "match", "I-XW-07", MATCHES)
            and self.one_of(row, "state", "I-XW-08", states)
            and self.one_of(row, "certainty", "I-XW-18", tuple(model.enum_of("certainty") or ()))
        ):
            return None
        if not match:
            return None
        if column != ANY and column not in self._columns:
            if column not in self._faulty:
                near = nearest(column, self._columns)
                self.wrong(row, "column", "I-XW-19", column, nearest=near)
            return None
        if not value and not state and match != "ambiguous":
            self.wrong(row, "value", "I-XW-10", what="a value or a state")
            return None
        target = self.target(row, part, property) if part else None
        place = self.table.place(row.line, self.table.index("local"))
        rule = ValueRule(column, local, target, value, state, match, reviewer, note, certainty, place)
        if (part and target is None) or not self._sound(row, rule):
            return None
        return rule

    def _sound(self, row: Row, rule: ValueRule) -> bool:
        """Check value and state against every place that the row may fill."""
        if rule.match == "ambiguous":
            return True
        if rule.state in ("not_assessable", "not_examined", NOT_RECORDED):
            return self._reason(row, rule)
        rules = self._columns.get(rule.column, ())
        own = [rule.target] if rule.target else [one.target for one in rules if one.target]
        if not own and not any(one.kind == "measurement" for one in rules) and not (rule.column == ANY and rule.state):
            self.wrong(row, "part", "I-XW-10", what="the part and the property that the word speaks of")
            return False
        return all(self._fits(row, rule, target) for target in own)

    def _reason(self, row: Row, rule: ValueRule) -> bool:
        reasons = tuple(model.enum_of("state_reason") or ()) if rule.state == "not_assessable" else ()
        if not rule.value or rule.value in reasons:
            return True
        near = nearest(rule.value, reasons)
        self.wrong(row, "value", "I-XW-05", rule.value, part=rule.state, property="as a reason", nearest=near)
        return False

    def _fits(self, row: Row, rule: ValueRule, target: Target) -> bool:
        if rule.state and not rule.value and not has_state(target, rule.state):
            fields = {"part": target.area, "property": target.slot, "nearest": ""}
            self.wrong(row, "state", "I-XW-05", rule.state, **fields)
            return False
        if rule.state == "absent" and rule.value not in ("", "absent"):
            self.wrong(row, "state", "I-XW-16", rule.state, given=rule.value)
            return False
        found = typed(target, rule.value or rule.state)
        if isinstance(found, Mistake):
            self.wrong(row, "value" if rule.value else "state", found.rule, found.value, **found.fields)
            return False
        return True


def _says(rule: ValueRule) -> tuple[str, str, str]:
    return rule.value, rule.state, rule.match
