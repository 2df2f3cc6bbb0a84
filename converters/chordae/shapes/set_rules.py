"""The rules across records: ``schema/set_rules.yaml`` as a table of rules, and an issue from what one of them found."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from chordae import resources
from chordae.errors import ShapesError
from chordae.issues import SEVERITIES, Issue, Location, shown
from chordae.shapes.load import Rule

__all__ = ["load_set_rules", "set_rule_row", "set_table", "tell_set"]

FILE = "schema/set_rules.yaml"
_CONFIRMATIONS = ("pair", "copy", "alone", "lender")
_FIELDS = ("label", "statement", "message", "template", "remedy", "why", "source")


@cache
def set_table() -> Mapping[str, Any]:
    """The whole file: rules, words for later readings, facts of a specimen, conclusions that are compared."""
    import yaml

    found: Mapping[str, Any] = yaml.safe_load(resources.read_text(FILE))
    return found


def set_rule_row(rule: str) -> Mapping[str, Any]:
    """The row of a rule in the file, with ``confirmation`` or ``not_confirmed``; empty for another rule."""
    return next((row for row in set_table()["rules"] if row["id"] == rule), {})


@cache
def load_set_rules() -> Mapping[str, Rule]:
    """The rules by id, as those of one record are told (:class:`chordae.shapes.load.Rule`).

    Raises
    ------
    ShapesError
        A rule lacks one of its sentences, or has no known severity.
    """
    found = {}
    for row in set_table()["rules"]:
        if row["severity"] not in SEVERITIES or any(not row.get(key) for key in _FIELDS) or row["id"] in found:
            raise ShapesError(f"{FILE}: rule {row['id']} is not complete, or stands twice.")
        if (row.get("confirmation") in _CONFIRMATIONS) == bool(row.get("not_confirmed")):
            raise ShapesError(f"{FILE}: rule {row['id']} should say how it is confirmed, or why it cannot be.")
        found[row["id"]] = Rule(
            **{key: row[key] for key in ("id", "label", "statement", "message", "template", "remedy", "why")},
            severity=row["severity"],
            sources=(row["source"],),
            exceptions=tuple(row.get("exceptions") or ()),
            school="both",
            since=row.get("since", "0.1.0"),
            about=(),
            targets=(),
            target_slots=(),
            reads=(),
            file=FILE.rpartition("/")[2],
        )
    return found


def tell_set(
    rule: str, *, record: str, path: str | None, location: Location, value: object = None, **fields: object
) -> Issue:
    """Fill the sentence of a rule across records; every ``{field}`` of its template has to be given.

    Examples
    --------
    >>> tell_set("R-SET-03", record="8", path=None, location=Location(), other="heart 7").message
    'The description is the same, word for word, as that of heart 7.'
    """
    found = load_set_rules()[rule]
    text = None if value is None else shown(value)
    words = {key: shown(one) for key, one in fields.items()}
    return Issue(
        rule=rule,
        severity=found.severity,
        message=found.template.format(**{**words, "value": text}),
        hint=found.remedy,
        record=record,
        path=path,
        value=text,
        source="; ".join(found.sources),
        location=location,
    )
