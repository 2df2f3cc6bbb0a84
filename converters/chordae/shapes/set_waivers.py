"""Confirmations of what rules across records found: on one of the two records, naming the other.

::

    waivers:                                    of heart 0012-B
    - rule: R-SET-05
      other_record: 0012                        the description that it contradicts
      reason: Both readers looked again; each stands by what was seen.
      confirmed_by: Reader B
      confirmed_on: "2026-05-04"
      premises_digest: 77a1...                  what was compared of both, as it was then

It counts wherever both records are in the set, in whatever order; it ends when what was compared of either changes.
Where the other record is not at hand nothing can be said of it, and nothing is. What is no finding about a heart but a
fault of the set (one id for two descriptions) cannot be confirmed: ``not_confirmed`` in ``schema/set_rules.yaml``.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import orjson

from chordae.errors import InputError
from chordae.issues import Issue, Location
from chordae.shapes.set_rules import set_rule_row
from chordae.shapes.waivers import Finding, confirmed_issue, is_complete, make_waiver, waiver_issue

__all__ = ["SetFinding", "SetWaivers", "premises_of", "waivers_of"]

_TABLE = """
CREATE TABLE waived (number INTEGER, id TEXT, rule TEXT, other TEXT, waiver BLOB, at INTEGER, place BLOB,
    compared INTEGER DEFAULT 0, met INTEGER DEFAULT 0, good INTEGER DEFAULT 0);
CREATE INDEX by_waiver ON waived (rule, number);
"""
_LENGTH = 32


@dataclass(frozen=True, slots=True)
class SetFinding:
    """An issue of a rule across records: number of its record in the set, number and id of the other, premises."""

    issue: Issue
    number: int
    other_number: int | None = None
    other: str | None = None
    premises: str = ""


def premises_of(rule: str, *sides: object) -> str:
    """Return the digest of what was compared, whichever of the sides comes first: 32 hexadecimal digits.

    Examples
    --------
    >>> premises_of("R-SET-05", ["1", "a"], ["2", "b"]) == premises_of("R-SET-05", ["2", "b"], ["1", "a"])
    True
    """
    told = sorted(orjson.dumps(one, option=orjson.OPT_SORT_KEYS) for one in sides)
    return hashlib.sha256(b"\n".join([rule.encode(), *told])).hexdigest()[:_LENGTH]


def waivers_of(
    findings: Sequence[SetFinding],
    rule: str,
    record: str,
    *,
    other: str | None = None,
    reason: str,
    by: str,
    on: str,
    evidence: Sequence[str] = (),
) -> list[dict[str, Any]]:
    """Return the confirmations of what a rule across records found in a record, to stand in it.

    Parameters
    ----------
    findings
        All findings in the set (:meth:`chordae.shapes.across.Across.findings`).
    rule, record, other
        What is confirmed: the rule, the record in which it will stand, and the other one, which may be left out if the
        rule speaks of one other record only.
    reason, by, on, evidence
        As for :func:`chordae.shapes.waivers.confirm`.

    Raises
    ------
    InputError
        It cannot be confirmed, the rule found nothing there, or it speaks of several others.
    """
    if why := set_rule_row(rule).get("not_confirmed"):
        raise InputError(f"{rule} cannot be confirmed. {why}", "Mend what it speaks of.")
    met: dict[str | None, list[SetFinding]] = {}
    for one in findings:
        if one.issue.rule == rule and record in (one.issue.record, one.other):
            met.setdefault(one.other if one.issue.record == record else one.issue.record, []).append(one)
    wanted = [name for name in met if other is None or name == other]
    if not wanted:
        against = f" against heart {other}" if other is not None else ""
        raise InputError(
            f"{rule} does not speak of heart {record}{against}: there is nothing to confirm.",
            "Give the files of both records, the one to be written first.",
        )
    if len(wanted) > 1:
        names = ", ".join(str(one) for one in wanted)
        raise InputError(f"{rule} speaks of heart {record} and several others: {names}.", "Name one with --other.")
    return [
        make_waiver(Finding(one.issue, one.premises), reason, by, on, evidence, other=wanted[0])
        for one in met[wanted[0]]
    ]


class SetWaivers:
    """The confirmations of a set, in the file of the pass; few of them are ever in memory."""

    def __init__(self, base: sqlite3.Connection) -> None:
        self._base = base
        self._base.executescript(_TABLE)
        self._any = False

    def add(self, number: int, name: str, told: Mapping[str, Any]) -> None:
        """Remember a confirmation of a record (:func:`chordae.shapes.set_facts.facts_of`)."""
        waiver = told["waiver"]
        if not is_complete(waiver) or set_rule_row(waiver["rule"]).get("not_confirmed"):
            return  # an issue of the record by itself says so
        self._any = True
        row = (number, name, waiver["rule"], waiver.get("other_record") or "", orjson.dumps(waiver), told["number"])
        self._base.execute(
            "INSERT INTO waived (number, id, rule, other, waiver, at, place) VALUES (?, ?, ?, ?, ?, ?, ?)",
            (*row, orjson.dumps(told["place"])),
        )

    def compared(self, later: int, first: int, rule: str) -> None:
        """Note that two records were held against each other by a rule."""
        if self._any:
            self._base.execute(
                "UPDATE waived SET compared = 1 WHERE rule IN (?, 'R-SET-07', 'R-SET-08') AND rowid IN ("
                "SELECT waived.rowid FROM waived JOIN heard ON heard.id = other "
                "WHERE (waived.number, heard.number) IN (VALUES (?, ?), (?, ?)))",
                (rule, later, first, first, later),
            )

    def settle(self, found: SetFinding, issue: Issue) -> Issue:
        """Return the issue as it is, or for the record if one of its records confirms it."""
        if not self._any:
            return issue
        query = "SELECT rowid, waiver FROM waived WHERE rule = ? AND number = ? AND other = ? ORDER BY rowid"
        pairs = [(found.number, found.other or "")]
        if found.other_number is not None:
            pairs.append((found.other_number, issue.record or ""))
        settled = issue
        for number, other in pairs:
            for row, told in self._base.execute(query, (issue.rule, number, other)).fetchall():
                waiver = orjson.loads(told)
                good = waiver["premises_digest"] == found.premises and issue.severity != "violation"
                self._base.execute(
                    "UPDATE waived SET met = max(met, ?), good = max(good, ?) WHERE rowid = ?",
                    (2 if issue.severity == "violation" else 1, good, row),
                )
                if good and settled.confirmed is None:
                    settled = confirmed_issue(issue, waiver)
        return settled

    def faults(self) -> Iterator[Issue]:
        """Yield an issue for each confirmation that does not apply, once everything was settled."""
        query = (
            "SELECT id, rule, waiver, at, place, compared, met, "
            "other = '' OR EXISTS (SELECT 1 FROM heard WHERE heard.id = other) FROM waived "
            "WHERE NOT good ORDER BY rowid"
        )
        for name, rule, told, at, place, compared, met, there in self._base.execute(query).fetchall():
            how = set_rule_row(rule).get("confirmation")
            judged = {"pair": compared, "copy": there, "alone": True}.get(str(how), met)
            if met == 2:
                fault = "I-WAI-03"
            elif met:
                fault = "I-WAI-02"
            elif judged:
                fault = "I-WAI-01"
            else:
                continue
            yield waiver_issue(fault, orjson.loads(told), at, name, Location(*orjson.loads(place)))
