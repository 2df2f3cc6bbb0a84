"""Confirmations: a curator stands by a record although a rule warns. Findings and waivers in, issues out.

::

    waivers:
    - rule: R-TOPO-01                      the rule that warned
      part: ventricular_septum             the part it warned of; none if it was the heart as a whole
      reason: Both ventricles were probed again, the septal surface is that of a left ventricle.
      confirmed_by: Reader A
      confirmed_on: "2026-05-04"
      premises_digest: 5c0c...             the facts as they were then (chordae.shapes.premises)
      evidence_refs: [photograph_3]

Where the rule is one across records, the confirmation names the other record as well (``other_record``); it is judged
where both are at hand (:mod:`chordae.shapes.set_waivers`).

A confirmed warning is for the record: it is shown, with who confirmed it, and asks for nothing. A confirmation

* applies to warnings and to what is for the record, never to a violation;
* ends when one of the facts changes on which the warning rested: the warning is back, and an issue says so;
* that lacks who, when or the digest, or that the rule no longer needs, is an issue itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from chordae.errors import InputError
from chordae.issues import Confirmation, Issue, Location, issue, nearest, sort_issues
from chordae.record import Reading, Record, say
from chordae.shapes.load import Rule, load_rules
from chordae.shapes.set_rules import load_set_rules, set_rule_row
from chordae.shortwords import is_empty

__all__ = [
    "Finding",
    "confirm",
    "confirmed_issue",
    "is_complete",
    "make_waiver",
    "settle",
    "waiver_issue",
    "with_waivers",
]

_WAIVERS = "waivers"
_NEEDED = {
    "reason": "why",
    "confirmed_by": "who confirmed it",
    "confirmed_on": "when",
    "premises_digest": "on which facts it rests",
}


@dataclass(frozen=True, slots=True)
class Finding:
    """An issue of a rule of morphology with the digest of its premises."""

    issue: Issue
    premises: str


def settle(reading: Reading, findings: Sequence[Finding]) -> list[Issue]:
    """Apply the confirmations of a record to the findings in it.

    Parameters
    ----------
    reading
        The record, sound in structure, with its places.
    findings
        All findings in it, with the severities that count (those of a profile, if there is one).

    Returns
    -------
    list[Issue]
        The issues of the findings, confirmed where they are, and those of the confirmations; sorted.
    """
    waivers = reading.record.get(_WAIVERS) or ()
    issues = [one.issue for one in findings]
    for number, waiver in enumerate(waivers):
        met = [place for place, one in enumerate(findings) if _same(waiver, one.issue)]
        fault = _fault(waiver, [findings[place] for place in met])
        if fault is not None:
            where = reading.place(f"/{_WAIVERS}/{number}")
            issues.append(waiver_issue(fault, waiver, number, str(reading.record.get("id")), where))
            continue
        for place in met:
            if findings[place].premises == waiver["premises_digest"] and findings[place].issue.severity != "violation":
                issues[place] = confirmed_issue(findings[place].issue, waiver)
    return sort_issues(issues)


def confirm(
    record: Record,
    findings: Sequence[Finding],
    rule: str,
    *,
    part: str | None = None,
    reason: str,
    by: str,
    on: str,
    evidence: Sequence[str] = (),
) -> Record:
    """Return the record with a confirmation of what a rule found; the record given is not changed.

    Parameters
    ----------
    record
        The record as it was written: full or short.
    findings
        All findings in it.
    rule, part
        What is confirmed. The part may be left out if the rule found one thing only.
    reason, by, on
        Why, who, and the day as ``2026-05-04``.
    evidence
        Ids of pieces of evidence in the record.

    Raises
    ------
    InputError
        The rule found nothing there, found several things, or called it impossible.
    """
    name = record.get("id")
    met = [one for one in findings if one.issue.rule == rule and (part is None or one.issue.part == part)]
    if not met:
        _refuse_nothing(record, rule, part)
    if len({one.issue.part for one in met}) > 1:
        parts = ", ".join(sorted(str(one.issue.part) for one in met))
        raise InputError(f"{rule} speaks of several parts of heart {name}: {parts}.", "Name one of them with --part.")
    if any(one.issue.severity == "violation" for one in met):
        raise InputError(
            f"{rule} calls this impossible in heart {name}; only a warning can be confirmed.",
            f"{met[0].issue.message} {met[0].issue.hint}".strip(),
        )
    return with_waivers(record, [make_waiver(one, reason, by, on, evidence) for one in met])


def with_waivers(record: Record, made: Sequence[Mapping[str, Any]]) -> Record:
    """Return the record with confirmations, in place of older ones of the same findings."""

    def finding(one: Mapping[str, Any]) -> tuple[Any, ...]:
        return tuple(one.get(key) for key in ("rule", "part", "other_record", "premises_digest"))

    new = [finding(one) for one in made]
    kept = [one for one in record.get(_WAIVERS) or () if finding(one) not in new]
    return {**record, _WAIVERS: kept + [one for number, one in enumerate(made) if new[number] not in new[:number]]}


def make_waiver(
    finding: Finding, reason: str, by: str, on: str, evidence: Sequence[str] = (), *, other: str | None = None
) -> dict[str, Any]:
    """Return the confirmation of one finding as it stands in a record; ``other``: the other record, if there is one.

    Raises
    ------
    InputError
        Why or who is not said.
    """
    if is_empty(reason) or is_empty(by):
        raise InputError("A confirmation says why, and who stands by it.", "Give both in words.")
    made: dict[str, Any] = {"rule": finding.issue.rule}
    if finding.issue.part is not None:
        made["part"] = finding.issue.part
    if other is not None:
        made["other_record"] = other
    made |= {"reason": reason, "confirmed_by": by, "confirmed_on": on, "premises_digest": finding.premises}
    if evidence:
        made["evidence_refs"] = list(evidence)
    return made


def _refuse_nothing(record: Record, rule: str, part: str | None) -> None:
    known = load_rules().rules
    where = f"heart {record.get('id')}" + (f", {say(part)}" if part else "")
    if rule not in known:
        raise InputError(f"There is no rule {rule}.{_near(rule)}", "Name a rule of morphology: R-...")
    raise InputError(f"{rule} does not speak of {where}: there is nothing to confirm.", "Look at the list of issues.")


def _same(waiver: Mapping[str, Any], found: Issue) -> bool:
    return waiver.get("rule") == found.rule and waiver.get("part") == found.part


def _fault(waiver: Mapping[str, Any], met: Sequence[Finding]) -> str | None:
    """The rule that a confirmation breaks, if it does not apply."""
    rule = str(waiver.get("rule"))
    if rule not in load_rules().rules and rule not in load_set_rules():
        return "I-WAI-05"
    if set_rule_row(rule).get("not_confirmed"):
        return "I-WAI-06"
    if not is_complete(waiver):
        return "I-WAI-04"
    if rule in load_set_rules():
        return None  # judged where the other records are at hand
    if not met:
        return "I-WAI-01"
    if all(one.premises != waiver["premises_digest"] for one in met):
        return "I-WAI-02"
    if all(one.issue.severity == "violation" for one in met):
        return "I-WAI-03"
    return None


def is_complete(waiver: Mapping[str, Any]) -> bool:
    """Say whether a confirmation says all that it has to."""
    return not any(is_empty(waiver.get(key)) for key in _needed(waiver))


def _needed(waiver: Mapping[str, Any]) -> Mapping[str, str]:
    of_two = set_rule_row(str(waiver.get("rule"))).get("confirmation") in ("pair", "copy")
    return {**_NEEDED, "other_record": "which other record it is about"} if of_two else _NEEDED


def waiver_issue(fault: str, waiver: Mapping[str, Any], number: int, record: str, place: Location) -> Issue:
    """Return the issue about a confirmation that does not apply.

    Parameters
    ----------
    fault
        Id of the intake rule.
    waiver, number, record, place
        The confirmation, its number in the record, the id of that, and where it was read.
    """
    rule = str(waiver.get("rule"))
    known: Mapping[str, Rule] = {**load_rules().rules, **load_set_rules()}
    missing = [words for key, words in _needed(waiver).items() if is_empty(waiver.get(key))]
    part, other = waiver.get("part"), waiver.get("other_record")
    return issue(
        fault,
        location=place,
        record=record,
        part=part,
        path=f"/{_WAIVERS}/{number}",
        value=rule,
        what=f"{rule} ({known[rule].label})" if rule in known else rule,
        where=f" of the {say(part)}" if part else f" against heart {other}" if other else "",
        missing=", ".join(missing),
        nearest=_near(rule),
        why=set_rule_row(rule).get("not_confirmed", ""),
    )


def _near(rule: str) -> str:
    found = nearest(rule, [name.casefold() for name in (*load_rules().rules, *load_set_rules())])
    return found[:15] + found[15:-2].upper() + found[-2:] if found else ""


def confirmed_issue(found: Issue, waiver: Mapping[str, Any]) -> Issue:
    """Return an issue as it is when a confirmation stands: for the record, with who confirmed it."""
    by, on, reason = (" ".join(str(waiver[key]).split()) for key in ("confirmed_by", "confirmed_on", "reason"))
    closed = reason if reason.endswith((".", "!", "?")) else f"{reason}."
    return replace(
        found,
        severity="info",
        message=f"{found.message} Confirmed by {by} on {on}: {closed}",
        hint="",
        confirmed=Confirmation(by, on, reason, found.severity),
    )
