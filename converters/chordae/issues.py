"""A fault found in someone's data: one frozen value with rule, place, sentence and remedy.

::

    Issue
      rule      R-AV-13 (morphology)   S-KEY (structure)   I-TAB-03 (reading)
      severity  violation | warning | info
      record, part, path, value        what it is about
      message, hint                    what was found and expected; what to do
      source                           key of schema/sources.tsv, where there is one
      location  file, line, column (1-based), sheet

The words of the ``S-`` and ``I-`` rules are data: ``schema/intake_rules.yaml``. Checks return issues, all of
them; they never print and never stop at the first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any, Literal, cast

from chordae import resources
from chordae.errors import ResourceError
from chordae.sentence import LONGEST, counted, fill, nearest, shown, sound, unfilled

__all__ = [
    "LONGEST",
    "SEVERITIES",
    "Confirmation",
    "Issue",
    "Location",
    "Rule",
    "Severity",
    "at_or_above",
    "counted",
    "issue",
    "nearest",
    "rules",
    "shown",
    "sort_issues",
    "unfilled",
    "worst",
]

Severity = Literal["violation", "warning", "info"]
SEVERITIES: tuple[Severity, ...] = ("violation", "warning", "info")
"""Worst first."""

_RULES = "schema/intake_rules.yaml"


@dataclass(frozen=True, slots=True)
class Location:
    """A place in a file; lines and columns count from 1. A column of a table is the number of its column.

    Examples
    --------
    >>> str(Location("hearts.csv", 6, 48)), str(Location("hearts.xlsx", 6, 48, "Hearts"))
    ('hearts.csv:6:48', 'hearts.xlsx [Hearts] AV6')
    """

    file: str | None = None
    line: int | None = None
    column: int | None = None
    sheet: str | None = None

    def to_json(self) -> dict[str, Any]:
        """Return ``{"file", "line", "column"}``, with ``"sheet"`` only where there is one."""
        place: dict[str, Any] = {"file": self.file, "line": self.line, "column": self.column}
        if self.sheet is not None:
            place["sheet"] = self.sheet
        return place

    def __str__(self) -> str:
        if self.sheet is not None:
            place = f"{_letters(self.column)}{self.line}" if self.column else f"row {self.line}"
            cell = "" if self.line is None else place
            return " ".join(one for one in (self.file, f"[{self.sheet}]", cell) if one)
        name = self.file or ""
        numbers = [str(one) for one in (self.line, self.column) if one is not None]
        return ":".join(([name] if name else []) + numbers)


def _letters(column: int | None) -> str:
    """Return the letters over a column of a workbook, as the person who looks for the cell sees them."""
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


@dataclass(frozen=True, slots=True)
class Confirmation:
    """Who stands by what a rule spoke of, when and why; ``severity`` is what the issue had without it."""

    by: str
    on: str
    reason: str
    severity: Severity

    def to_json(self) -> dict[str, str]:
        """Return ``{"by", "on", "reason", "severity"}``."""
        return {"by": self.by, "on": self.on, "reason": self.reason, "severity": self.severity}


@dataclass(frozen=True, slots=True)
class Issue:
    """One fault in someone's data. ``part`` is the id of a part, ``path`` a JSON pointer into the record.

    An issue with a confirmation is for the record (``info``), and its message ends with the confirmation.
    """

    rule: str
    severity: Severity
    message: str
    hint: str = ""
    record: str | None = None
    part: str | None = None
    path: str | None = None
    value: str | None = None
    source: str | None = None
    location: Location = field(default_factory=Location)
    confirmed: Confirmation | None = None

    def to_json(self) -> dict[str, Any]:
        """Return the issue as the JSON object that the command line promises; ``"confirmed"`` only where it is."""
        told: dict[str, Any] = {
            "rule": self.rule,
            "severity": self.severity,
            "record": self.record,
            "part": self.part,
            "path": self.path,
            "value": self.value,
            "message": self.message,
            "hint": self.hint,
            "source": self.source,
            "location": self.location.to_json(),
        }
        if self.confirmed is not None:
            told["confirmed"] = self.confirmed.to_json()
        return told

    @classmethod
    def from_json(cls, told: Mapping[str, Any]) -> Issue:
        """Return the issue that :meth:`to_json` told of."""
        confirmed = told.get("confirmed")
        inner = {
            "location": Location(**told["location"]),
            "confirmed": None if confirmed is None else Confirmation(**confirmed),
        }
        return cls(**{**told, **inner})


@dataclass(frozen=True, slots=True)
class Rule:
    """One row of ``schema/intake_rules.yaml``; ``message`` and ``hint`` are templates with ``{fields}``.

    ``{count} {count:cell was|cells were} read`` takes the first words for one, the second for any other number.
    """

    id: str
    severity: Severity
    label: str
    message: str
    hint: str
    source: str | None


@cache
def rules() -> Mapping[str, Rule]:
    """Return every ``I-`` and ``S-`` rule by its id.

    Raises
    ------
    ResourceError
        The table is not as it must be.
    """
    import yaml

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    table = yaml.load(resources.read_text(_RULES), Loader=loader)  # noqa: S506 - a safe loader, in C where built
    found: dict[str, Rule] = {}
    for row in table["rules"]:
        if row["id"] in found or row["severity"] not in SEVERITIES:
            raise ResourceError(f"{_RULES}: rule {row['id']} stands twice or has no known severity.")
        found[row["id"]] = Rule(
            row["id"], row["severity"], row["label"], row["message"], row.get("hint", ""), row.get("source")
        )
    return found


def issue(
    rule: str,
    *,
    location: Location | None = None,
    record: str | None = None,
    part: str | None = None,
    path: str | None = None,
    value: object = None,
    severity: Severity | None = None,
    **fields: object,
) -> Issue:
    """Fill the sentence of an ``I-`` or ``S-`` rule.

    Parameters
    ----------
    rule
        An id of ``schema/intake_rules.yaml``; any other is a mistake in the program (``KeyError``).
    value
        The value found; shortened to about 80 characters.
    severity
        Only where it differs from the rule's own.
    fields
        The ``{fields}`` of the sentence and the hint, besides ``record``, ``part``, ``path`` and ``value``.

    Examples
    --------
    >>> issue("I-TAB-08", location=Location("hearts.csv"), name="hearts.csv").message
    'The table hearts.csv has a heading but no rows.'
    """
    found = rules()[rule]
    text = None if value is None else shown(value)
    # Ids and keys of a foreign file may hold anything; an issue is shown, and written as text.
    record, part, path = (None if one is None else shown(one, LONGEST) for one in (record, part, path))
    known: dict[str, object] = {"record": record, "part": part, "path": path, "value": text, **fields}
    return Issue(
        rule=rule,
        severity=severity or found.severity,
        message=sound(fill(found.message, known)),
        hint=sound(fill(found.hint, known)),
        record=record,
        part=part,
        path=path,
        value=text,
        source=found.source,
        location=location or Location(),
    )


def sort_issues(issues: Iterable[Issue]) -> list[Issue]:
    """Sort by record, severity (worst first), rule, path, value and place."""
    return sorted(issues, key=_order)


def worst(issues: Iterable[Issue]) -> Severity | None:
    """Return the worst severity among the issues, ``None`` if there are none."""
    present = {one.severity for one in issues}
    return next((severity for severity in SEVERITIES if severity in present), None)


def at_or_above(severity: Severity | None, threshold: str) -> bool:
    """Say whether a severity reaches a threshold; the threshold ``never`` is never reached."""
    if severity is None or threshold == "never":
        return False
    return SEVERITIES.index(severity) <= SEVERITIES.index(cast(Severity, threshold))


def _order(one: Issue) -> tuple[Any, ...]:
    place = one.location
    return (
        one.record or "",
        SEVERITIES.index(one.severity),
        one.rule,
        one.path or "",
        one.value or "",
        place.file or "",
        place.sheet or "",
        place.line or 0,
        place.column or 0,
        one.message,
    )
