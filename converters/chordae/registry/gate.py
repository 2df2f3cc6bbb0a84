"""The gate: a deposit goes in, a verdict comes out, the same at home and at the registry.

::

    fixity -> collection -> versions -> each description: structure, derivation, rules, fields, likeness -> Verdict

The graph and the derived statements are made here anew from the descriptions: what the deposit says of itself is
compared, not believed. Without a ledger (at home) only what needs the other collections is left out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import orjson

from chordae import deposit as deposits
from chordae import resources
from chordae.exchange.pipeline import Passed, run_steps
from chordae.exchange.steps import load_steps
from chordae.intake.document import each_line
from chordae.issues import SEVERITIES, Issue, Location, at_or_above, issue, sort_issues, worst
from chordae.progress import track
from chordae.record import Reading
from chordae.registry.declared import REPORT_FILE, collection_of, look_at_collection, look_at_versions
from chordae.registry.entry import OUTCOMES
from chordae.registry.ledger import HeartRow, Ledger
from chordae.registry.likeness import facts_of, numbers_of, seen_elsewhere
from chordae.registry.made import Made
from chordae.registry.package import deposit_digest
from chordae.registry.profile import Profile
from chordae.shapes.across import Across
from chordae.shapes.checker import Checker

__all__ = ["Verdict", "judge"]


@dataclass(slots=True)
class Verdict:
    """What the gate says of a deposit. ``hearts`` are the rows of the ledger, ``triples`` the size of the graph."""

    deposit: str
    collection: Mapping[str, Any]
    outcome: str = "refused"
    issues: list[Issue] = field(default_factory=list)
    hearts: list[HeartRow] = field(default_factory=list)
    records: int = 0
    triples: int = 0
    profile: str = ""

    @property
    def counts(self) -> dict[str, int]:
        """Number of descriptions, of triples, and of issues by severity."""
        found = Counter(one.severity for one in self.issues)
        return {"records": self.records, "triples": self.triples, **{name: found[name] for name in SEVERITIES}}

    def report(self) -> bytes:
        """Return the report as JSON, the same wherever it was made with the same versions."""
        told = {
            "deposit": self.deposit,
            "collection": self.collection,
            "outcome": self.outcome,
            "counts": self.counts,
            "judged_with": {"profile": self.profile, **deposits.versions()},
            "issues": [one.to_json() for one in self.issues],
        }
        return orjson.dumps(told, option=orjson.OPT_INDENT_2) + b"\n"


def judge(
    folder: Path,
    profile: Profile,
    *,
    ledger: Ledger | None = None,
    follows: str | None = None,
    out: Path | None = None,
) -> Verdict:
    """Judge a deposit.

    Parameters
    ----------
    folder
        The deposit; only read.
    profile
        What the registry asks.
    ledger
        What the registry knows; ``None`` at home.
    follows
        Digest of the version that the submitter believes to be the current one, if he says so.
    out
        Folder for graph, hearts and report, which is made; ``None`` to make none.
    """
    issues = [_relative(one, folder) for one in deposits.verify(folder)]
    verdict = Verdict(deposit_digest(folder), collection_of(folder), profile=profile.digest)
    if worst(issues) == "violation":
        return _close(verdict, issues, profile, out)
    base, found = look_at_collection(verdict.collection, profile)
    issues += found + list(look_at_versions(folder, profile))
    collection = str(verdict.collection.get("id") or "")
    issues += _follows(collection, follows, ledger)
    with ExitStack() as stack:
        made = stack.enter_context(Made(out)) if out is not None else None
        across = stack.enter_context(Across(profile=profile.checks))
        for passed in _passed(folder, base, profile):
            issues += _take(passed, collection, ledger, verdict, made)
            if passed.record is not None and passed.graph:
                across.add(
                    Reading(passed.record, {"": Location("data/records.ndjson", verdict.records)}), passed.derived
                )
        issues += across.issues()
    if not verdict.records:
        issues.append(issue("I-REG-11", location=Location("data/records.ndjson")))
    issues += _withdrawn(collection, verdict, ledger)
    return _close(verdict, issues, profile, out)


def _passed(folder: Path, base: str | None, profile: Profile) -> Iterator[Passed]:
    with deposits.records_file(folder).open("rb") as stream:
        steps = replace(load_steps(base), check=Checker(base=base, profile=profile.checks).check)
        readings = each_line(stream, "data/records.ndjson")
        yield from track(run_steps(readings, steps, base, f"chordae {resources.VERSION}"), "Judging")


def _take(passed: Passed, collection: str, ledger: Ledger | None, verdict: Verdict, made: Made | None) -> list[Issue]:
    issues = list(passed.issues)
    record = passed.record
    if record is None or not passed.graph:
        return issues
    verdict.records += 1
    specimen = record.get("specimen") or {}
    place = Location("data/records.ndjson", verdict.records)
    name = str(record["id"])
    row = HeartRow(
        name, passed.iri, str(specimen.get("accession") or ""), 0, 0, facts_of(passed.derived), numbers_of(record)
    )
    if ledger is not None:
        issues += seen_elsewhere(row, record, collection, ledger, place)
    verdict.triples += passed.graph.count("\n")
    if made is not None:
        row = made.add(row, record, passed.derived, sort_issues(issues), passed.graph)
    verdict.hearts.append(row)
    return issues


def _follows(collection: str, follows: str | None, ledger: Ledger | None) -> list[Issue]:
    if follows is None or ledger is None:
        return []
    head = ledger.head(collection)
    found = head.deposit if head else "none"
    if found == follows or (head is None and follows == "none"):
        return []
    return [issue("I-REG-09", location=Location(REPORT_FILE), expected=follows[:12], found=found[:12])]


def _withdrawn(collection: str, verdict: Verdict, ledger: Ledger | None) -> list[Issue]:
    head = ledger.head(collection) if ledger is not None else None
    if head is None or ledger is None or not verdict.records or head.deposit == verdict.deposit:
        return []
    here = {one.record for one in verdict.hearts}
    rows = ledger.hearts(int(head.body.get("chosen", head.number)))
    return [issue("I-REG-08", record=one.record) for one in rows if one.record not in here]


def _close(verdict: Verdict, issues: list[Issue], profile: Profile, out: Path | None) -> Verdict:
    verdict.issues = sort_issues(issues)
    found = worst(verdict.issues)
    broken = any(one.severity == "violation" and one.rule.startswith("I-DEP-") for one in verdict.issues)
    if broken or not verdict.records or at_or_above(found, profile.refuse_on):
        verdict.outcome = "refused"
    else:
        verdict.outcome = OUTCOMES[0] if found in (None, "info") else OUTCOMES[1]
    if out is not None:
        out.mkdir(exist_ok=True)
        (out / "report.json").write_bytes(verdict.report())
    return verdict


def _relative(one: Issue, folder: Path) -> Issue:
    """Name files as they stand in the deposit, whatever its folder is called here."""
    file = one.location.file or ""
    for top in (str(folder), folder.name):
        if file == top or file.startswith(f"{top}/"):
            return replace(one, location=replace(one.location, file=file[len(top) :].lstrip("/") or "."))
    return one
