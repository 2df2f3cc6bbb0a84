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

import re
import string
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any, Literal, cast

from chordae import resources
from chordae.errors import ResourceError

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
_SHOWN = 80
_STEERING = re.compile("[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
LONGEST = 1000
_AS_NEAR = 0.03


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
        message=_sound(_fill(found.message, known)),
        hint=_sound(_fill(found.hint, known)),
        record=record,
        part=part,
        path=path,
        value=text,
        source=found.source,
        location=location or Location(),
    )


def shown(value: object, limit: int = _SHOWN) -> str:
    """Return a value as text for a sentence: one line, control characters visible, at most ``limit`` long.

    Examples
    --------
    >>> shown("a" * 100, 10)
    'aaaaaaa...'
    """
    text = str(value)
    if len(text) > limit:
        text = text[: limit - 3] + "..."
    return "".join(one if one.isprintable() else _visible(one) for one in text)


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with the word for what is counted, in the singular or the plural.

    Examples
    --------
    >>> counted(1, "record"), counted(12000, "record"), counted(0, "entry", "entries")
    ('1 record', '12,000 records', '0 entries')
    """
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def unfilled(template: str) -> str:
    """Return a template as a reader is shown it: the words for many where it has words for one and for many.

    Examples
    --------
    >>> unfilled("{count} {count:cell was|cells were} read.")
    '{count} cells were read.'
    """
    return re.sub(r"\{\w+:[^{}|]*\|([^{}|]*)\}", r"\1", template)


def nearest(word: str, known: Iterable[str]) -> str:
    """Return ``' Did you mean "x"?'`` for the known word most like this one, or an empty text.

    Words that are as near, or almost, are named as well, so that a slip never turns left into right unseen.

    Examples
    --------
    >>> nearest("tricuspit", ["tricuspid", "mitral"])
    ' Did you mean "tricuspid"?'
    >>> nearest("cordant", ["concordant", "discordant", "mixed"])
    ' Did you mean "concordant" or "discordant"?'
    """
    from difflib import SequenceMatcher, get_close_matches

    asked = word.casefold()[:_SHOWN]
    found = get_close_matches(asked, dict.fromkeys(known), n=3, cutoff=0.6) if word else []
    if not found:
        return ""
    scores = [SequenceMatcher(None, one, asked).ratio() for one in found]
    near = sorted(f'"{one}"' for one, score in zip(found, scores, strict=True) if score >= scores[0] - _AS_NEAR)
    return f" Did you mean {' or '.join(near)}?"


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


def _visible(character: str) -> str:
    return " " if character in "\t\n\r\u2028\u2029" else f"\\u{ord(character):04x}"


def _sound(text: str) -> str:
    """Make signs visible that a sentence must not hold: they steer a terminal, or cannot be written as UTF-8."""
    return text if text.isprintable() else _STEERING.sub(lambda one: _visible(one[0]), text)


class _Sentence(string.Formatter):
    """Fills in fields; ``{count:cell|cells}`` gives the word that goes with the number."""

    def format_field(self, value: object, format_spec: str) -> str:
        one, bar, many = format_spec.partition("|")
        if not bar:
            return format(value, format_spec)
        return one if str(value) == "1" else many


_SENTENCE = _Sentence()


def _fill(template: str, known: Mapping[str, object]) -> str:
    return _SENTENCE.vformat(template, (), known) if template else ""
