"""Check records that stand in many parts: every record by itself on the workers, then what goes across all of them.

::

    slice -> lines -> full, sound records -> rules -> issues.ndjson  facts.ndjson      on a worker
          -> across the set from the facts, in the order of the slices                 here, while the workers go on
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import orjson

from chordae import deposit
from chordae.derive import derive
from chordae.intake.document import each_line
from chordae.issues import SEVERITIES, Issue, sort_issues
from chordae.parts.plan import SIZE, Slice, lines_of, plan, plan_digest
from chordae.parts.spread import Spread
from chordae.record import Reading
from chordae.shapes.across import Across
from chordae.shapes.checker import Checker
from chordae.shapes.profile import DEFAULT
from chordae.shapes.profile_file import parse_profile
from chordae.shapes.set_facts import facts_of
from chordae.shortform import expand_reading
from chordae.soundness import make_sound

__all__ = ["CheckedParts", "check_parts", "check_slice"]

_BATCH = 256


@dataclass
class CheckedParts:
    """What was found: counts, and the file that holds every issue, one JSON object a line."""

    records: int = 0
    slices: int = 0
    severities: Counter[str] = field(default_factory=Counter)
    rules: Counter[tuple[str, str]] = field(default_factory=Counter)
    tested: Counter[str] = field(default_factory=Counter)
    untested: tuple[str, ...] = ()
    issues: Path = Path()

    @property
    def worst(self) -> Any:
        """The worst severity that was met."""
        return next((one for one in SEVERITIES if self.severities[one]), None)


def check_parts(
    folder: Path, work: Path, *, cluster: str = "", profile: bytes | None = None, size: int = SIZE
) -> CheckedParts:
    """Check a folder of parts.

    Parameters
    ----------
    folder
        Its .ndjson and .parquet files.
    work
        Work folder; kept, so that a run that is broken off goes on. ``issues.ndjson`` stands in it at the end.
    cluster
        See :class:`chordae.parts.spread.Spread`.
    profile
        The file of a profile.
    size
        Bytes of a slice.
    """
    slices = plan(folder, size)
    options = {"profile": profile.decode() if profile else ""}
    digest = plan_digest(slices, options, deposit.versions(), "check")
    found = CheckedParts(slices=len(slices))
    chosen = parse_profile(profile)[0] or DEFAULT if profile else DEFAULT
    work.mkdir(parents=True, exist_ok=True)
    found.issues = work / "issues.ndjson"
    aside = work / "issues.part"
    with aside.open("wb") as out, Across(profile=chosen) as across:
        for place, told in Spread(cluster).run(check_slice, slices, work / "slices", digest, options, "Checking"):
            found.records += told["records"]
            found.tested.update(told["met"])
            found.severities.update(told["severities"])
            found.rules.update({(rule, severity): count for rule, severity, count in told["rules"]})
            out.write((place / "issues.ndjson").read_bytes())
            with (place / "facts.ndjson").open("rb") as facts:
                for line in facts:
                    across.add_facts(orjson.loads(line))
        for one in sort_issues(across.issues()):
            found.severities[one.severity] += 1
            found.rules[one.rule, one.severity] += 1
            out.write(orjson.dumps(one.to_json()) + b"\n")
    aside.replace(found.issues)
    found.untested = tuple(one for one in Checker(profile=chosen).not_tested() if not found.tested[one])
    return found


def check_slice(one: Slice, folder: Path, options: dict[str, Any]) -> dict[str, Any]:
    """Check the records of a slice; runs on a worker."""
    profile = parse_profile(options["profile"].encode())[0] if options["profile"] else None
    checker = Checker(profile=profile or DEFAULT)
    records = 0
    looked: Counter[str] = Counter()
    severities: Counter[str] = Counter()
    rules: Counter[tuple[str, str]] = Counter()
    with (folder / "issues.ndjson").open("wb") as out, (folder / "facts.ndjson").open("wb") as facts:
        for batch in _batches(one):
            readings = [reading for reading, _ in batch if reading is not None]
            derived = [derive(reading.record) for reading in readings]
            checked = iter(checker.check_many(readings, derived=derived))
            follows = iter(derived)
            for reading, issues in batch:
                found = issues
                if reading is not None:
                    records += 1
                    result = next(checked)
                    looked.update(result.looked)
                    found = [*issues, *result.issues]
                    facts.write(orjson.dumps(facts_of(reading, next(follows))) + b"\n")
                for each in sort_issues(found):
                    severities[each.severity] += 1
                    rules[each.rule, each.severity] += 1
                    out.write(orjson.dumps(each.to_json()) + b"\n")
    return {
        "records": records,
        "met": dict(checker.tested(looked)),
        "severities": dict(severities),
        "rules": [[rule, severity, count] for (rule, severity), count in sorted(rules.items())],
    }


def _batches(one: Slice) -> Iterator[list[tuple[Reading | None, list[Issue]]]]:
    batch: list[tuple[Reading | None, list[Issue]]] = []
    for reading, issues in each_line(lines_of(one), one.name, one.first):
        if reading is None:
            batch.append((None, issues))
        else:
            full, found = expand_reading(reading)
            sound, faults = make_sound(full)
            batch.append((sound, [*issues, *found, *faults]))
        if len(batch) >= _BATCH:
            yield batch
            batch = []
    if batch:
        yield batch
