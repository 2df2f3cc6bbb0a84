"""The gate: a deposit goes in, a verdict comes out, the same at home and at the registry.

::

    fixity -> collection -> versions -> each description: structure, derivation, rules, fields, likeness -> Verdict

The graph and the derived statements are made here anew from the descriptions: what the deposit says of itself is
compared, not believed. Without a ledger (at home) only what needs the other collections is left out.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import orjson

from chordae import deposit as deposits
from chordae import resources
from chordae.errors import ChordaeError
from chordae.exchange.pipeline import Passed, run_steps
from chordae.exchange.steps import load_steps
from chordae.intake.document import each_line
from chordae.issues import SEVERITIES, Issue, Location, Severity, at_or_above, issue, sort_issues, worst
from chordae.progress import track
from chordae.rdf.emit import check_base
from chordae.record import Reading
from chordae.registry.entry import OUTCOMES
from chordae.registry.ledger import HeartRow, Ledger
from chordae.registry.likeness import facts_of, numbers_of, seen_elsewhere
from chordae.registry.made import Made
from chordae.registry.package import deposit_digest
from chordae.registry.profile import Profile
from chordae.shapes.across import Across
from chordae.shapes.check import Checker

__all__ = ["COLLECTION_ID", "Verdict", "collection_of", "judge"]

COLLECTION_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,127}")
_REPORT = "data/report.json"


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
    base, found = _about(verdict.collection, profile)
    issues += found + list(_versions(folder, profile))
    collection = str(verdict.collection.get("id") or "")
    issues += _follows(collection, follows, ledger)
    with ExitStack() as stack:
        made = stack.enter_context(Made(out)) if out is not None else None
        across = stack.enter_context(Across())
        for passed in _passed(folder, base, profile):
            issues += _take(passed, collection, ledger, verdict, made)
            if passed.record is not None and passed.graph:
                across.add(Reading(passed.record, {"": Location("data/records.ndjson", verdict.records)}))
        issues += [one for one in map(profile.checks.apply, across.issues()) if one is not None]
    if not verdict.records:
        issues.append(issue("I-REG-11", location=Location("data/records.ndjson")))
    issues += _withdrawn(collection, verdict, ledger)
    return _close(verdict, issues, profile, out)


def collection_of(folder: Path) -> dict[str, Any]:
    """Return what a deposit says of its collection; empty if it says nothing that can be read."""
    path = folder / _REPORT
    try:
        found = orjson.loads(path.read_bytes()) if not path.is_symlink() else None
    except (OSError, orjson.JSONDecodeError):
        return {}
    said = found.get("collection") if isinstance(found, dict) else None
    return {str(key): str(value) for key, value in said.items() if value} if isinstance(said, dict) else {}


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


def _about(collection: Mapping[str, Any], profile: Profile) -> tuple[str | None, list[Issue]]:
    issues = []
    place = Location(_REPORT)
    for what in profile.collection:
        if not collection.get(what):
            issues.append(issue("I-REG-01", location=place, what=what.replace("_iri", " IRI"), path=f"/{what}"))
    name = collection.get("id")
    if name and not COLLECTION_ID.fullmatch(name):
        expected = "a word of letters, digits, dots, hyphens and underscores"
        issues.append(issue("I-REG-13", location=place, what="id", value=name, expected=expected))
    licence = collection.get("licence")
    if licence and profile.licences and licence not in profile.licences:
        issues.append(issue("I-REG-10", location=place, value=licence, expected=", ".join(profile.licences)))
    base = collection.get("base_iri")
    try:
        return (check_base(base) if base else None), issues
    except ChordaeError:
        expected = "an absolute IRI that ends in a slash or a hash"
        return None, [*issues, issue("I-REG-13", location=place, what="base IRI", value=base, expected=expected)]


def _versions(folder: Path, profile: Profile) -> Iterator[Issue]:
    path = folder / "data/versions.json"
    try:
        told = orjson.loads(path.read_bytes())
    except (OSError, orjson.JSONDecodeError):
        return
    here = deposits.versions()
    for what, now in here.items():
        then = told.get(what) if isinstance(told, dict) else None
        if not isinstance(then, dict) or "version" not in now:
            continue
        if _parts(then.get("version")) > _parts(now["version"]):
            severity: Severity = "violation" if profile.newer == "refuse" else "warning"
            yield replace(
                issue(
                    "I-REG-03",
                    location=Location("data/versions.json"),
                    what=what,
                    value=then.get("version"),
                    found=now["version"],
                ),
                severity=severity,
            )


def _follows(collection: str, follows: str | None, ledger: Ledger | None) -> list[Issue]:
    if follows is None or ledger is None:
        return []
    head = ledger.head(collection)
    found = head.deposit if head else "none"
    if found == follows or (head is None and follows == "none"):
        return []
    return [issue("I-REG-09", location=Location(_REPORT), expected=follows[:12], found=found[:12])]


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


def _parts(version: object) -> tuple[int, ...]:
    return tuple(int(one) for one in re.findall(r"\d+", str(version or "0"))[:3])
