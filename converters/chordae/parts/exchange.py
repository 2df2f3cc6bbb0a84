"""Exchange records that stand in many parts: the same deposit as from one file, written by many hands.

::

    slice -> all steps -> records.ndjson ... issues.tsv  order.ndjson  facts.ndjson      on a worker
          -> joined in the order of the slices, counted and sealed                       here, while the workers go on
          -> across the set, from the facts                                              here
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import IO, Any

import orjson

from chordae import deposit, resources
from chordae.exchange.catalogue import Catalogue
from chordae.exchange.intake import Intake
from chordae.exchange.payload import Payload, issue_row
from chordae.exchange.pipeline import run_steps
from chordae.exchange.run import Exchanged, Filled, Shown, exchange, tell_across, terms_in
from chordae.exchange.steps import Steps, load_steps
from chordae.intake.document import each_line
from chordae.issues import Issue
from chordae.parts.plan import SIZE, Slice, lines_of, plan, plan_digest
from chordae.parts.spread import Spread
from chordae.record import Reading
from chordae.report import Heart, Summary
from chordae.shapes.across import Across
from chordae.shapes.set_facts import facts_of

__all__ = ["exchange_parts", "exchange_slice"]

FACTS = "facts.ndjson"
_HEAD = {"records.ttl": re.compile(rb"(?:@prefix [^\n]*\n)*"), "issues.tsv": re.compile(rb"[^\n]*\n")}
_PLAIN = ("records.ndjson", "records.yaml", "derived.ndjson", "records.nq")


def exchange_parts(
    folder: Path, out: Path, work: Path, collection: Mapping[str, Any], *, cluster: str = "", size: int = SIZE
) -> Exchanged:
    """Exchange a folder of parts.

    Parameters
    ----------
    folder
        Its .ndjson and .parquet files; collection.yaml, if there is one, goes into the deposit.
    out
        The deposit folder.
    work
        Work folder; kept, so that a run that is broken off goes on.
    collection
        What is said of the collection.
    cluster
        See :class:`chordae.parts.spread.Spread`.
    size
        Bytes of a slice.
    """
    slices = plan(folder, size)
    about = folder / "collection.yaml"
    catalogue = Catalogue(folder, collection=collection, collection_file=about if about.is_file() else None)
    options = {"base": catalogue.base}
    digest = plan_digest(slices, options, deposit.versions(), "exchange")
    steps = load_steps(catalogue.base)

    def filling(aside: Path) -> Filled:
        done = Spread(cluster).run(exchange_slice, slices, work / "slices", digest, options, "Exchanging")
        return _join(aside, catalogue, steps, done)

    return exchange(catalogue, out, steps, copy_source=False, filling=filling)


def exchange_slice(one: Slice, folder: Path, options: dict[str, Any]) -> dict[str, Any]:
    """Take the records of a slice through all steps; runs on a worker."""
    base = options["base"]
    steps = load_steps(base)
    rows = refused = 0

    def counted() -> Iterator[tuple[Reading | None, list[Issue]]]:
        nonlocal rows, refused
        for reading, issues in each_line(lines_of(one), one.name, one.first):
            rows += 1
            refused += reading is None
            yield reading, issues

    with (
        Payload(folder) as payload,
        (folder / "order.ndjson").open("wb") as order,
        (folder / FACTS).open("wb") as facts,
    ):
        for passed in run_steps(counted(), steps, base, f"chordae {resources.VERSION}"):
            payload.add_issues(passed.issues)
            if passed.record is not None:
                payload.add(passed.record, passed.derived)
                payload.add_graph(passed.iri, passed.graph)
            if passed.reading is not None:
                facts.write(orjson.dumps(facts_of(passed.reading, passed.derived)) + b"\n")
            issues = [each.to_json() for each in passed.issues]
            order.write(orjson.dumps([passed.record is not None, issues, terms_in(passed.graph)]) + b"\n")
    return {"rows": rows, "refused": refused, "not_tested": list(steps.not_tested())}


def _join(folder: Path, catalogue: Catalogue, steps: Steps, slices: Iterator[tuple[Path, dict[str, Any]]]) -> Filled:
    intake = Intake(catalogue, steps.ask)
    summary, shown = Summary(catalogue.collection), Shown()
    not_tested: set[str] | None = None
    number = 0
    with Payload(folder):  # writes the beginning of each file
        pass
    for name in ("records.yaml", "issues.json"):
        (folder / name).write_bytes(b"")
    first_issue = True
    with Across(steps.derive) as across:
        for place, told in slices:
            intake.rows += told["rows"]
            intake.refused += told["refused"]
            not_tested = set(told["not_tested"]) if not_tested is None else not_tested & set(told["not_tested"])
            first_issue = _append(folder, place, first_issue)
            for heart, issues, terms in _passed(place):
                if heart is None:
                    summary.add_table(0, 0, issues)
                else:
                    summary.add(heart[0], heart[1], issues, terms)
                    shown.add(number, Heart(heart[0], heart[1], issues))
                number += 1
            with (place / FACTS).open("rb") as facts:
                for line in facts:
                    across.add_facts(orjson.loads(line))
        found = tell_across(across, summary, shown)
    with (folder / "issues.json").open("ab") as out, (folder / "issues.tsv").open("ab") as table:
        for one in found:
            out.write((b"[\n" if first_issue else b",\n") + orjson.dumps(one.to_json()))
            table.write(issue_row(one))
            first_issue = False
        out.write(b"[]\n" if first_issue else b"\n]\n")
    if not summary.records:
        (folder / "records.yaml").write_bytes(b"[]\n")
    summary.add_table(intake.rows, intake.refused, ())
    return Filled(intake, summary, shown, sorted(not_tested or ()))


def _append(folder: Path, place: Path, first_issue: bool) -> bool:
    """Add the files of a slice to those of the deposit; returns whether there is still no issue."""
    for name in (*_PLAIN, *_HEAD):
        with (place / name).open("rb") as read, (folder / name).open("ab") as write:
            if name in _HEAD:
                head = _HEAD[name].match(read.read(4096))
                read.seek(head.end() if head else 0)
            elif name == "records.yaml" and read.read(4) == b"[]\n":
                continue
            else:
                read.seek(0)
            shutil.copyfileobj(read, write, 1 << 20)
    listed = (place / "issues.json").read_bytes().removeprefix(b"[").removesuffix(b"]\n").rstrip(b"\n")
    if listed:
        with (folder / "issues.json").open("ab") as write:
            write.write(b"[" if first_issue else b",")
            write.write(listed)
    return first_issue and not listed


def _passed(place: Path) -> Iterator[tuple[tuple[Any, Any] | None, list[Issue], list[str]]]:
    with (
        (place / "order.ndjson").open("rb") as order,
        (place / "records.ndjson").open("rb") as records,
        (place / "derived.ndjson").open("rb") as derived,
    ):
        for line in order:
            is_heart, told, terms = orjson.loads(line)
            issues = [_issue(one) for one in told]
            yield (_next(records), _next(derived)) if is_heart else None, issues, terms


def _next(stream: IO[bytes]) -> Any:
    return orjson.loads(stream.readline())


def _issue(told: dict[str, Any]) -> Issue:
    return Issue.from_json(told)
