"""From a catalogue to a sealed deposit folder, and the counts of what is in it.

::

    Catalogue -> Intake -> run_steps -> Payload + Summary + hearts for the page -> seal -> rename
                                     -> Across: what the records say of each other, at the end

The folder is made aside and takes its name when it is complete; a run that is interrupted leaves nothing.
"""

from __future__ import annotations

import heapq
import re
import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import orjson

from chordae import deposit, files, resources
from chordae.errors import InputError
from chordae.exchange.catalogue import COLLECTION, Catalogue
from chordae.exchange.intake import Intake
from chordae.exchange.payload import Payload
from chordae.exchange.pipeline import Passed, run_steps
from chordae.exchange.readme import bag_info, make_readme
from chordae.exchange.steps import Steps
from chordae.issues import SEVERITIES, Issue, sort_issues
from chordae.progress import track
from chordae.report import Heart, Summary, page_pieces
from chordae.report.coding import coverage, shown_codes
from chordae.report.words import rule_words
from chordae.shapes.across import Across

__all__ = ["SHOWN", "Exchanged", "Filled", "Shown", "exchange", "fill", "tell_across", "terms_in"]

SHOWN = 300
"""How many hearts get a section of their own on the page; beyond that those with the worst issues."""

_TERM = re.compile(r" <https://w3id\.org/chordae/term/([A-Za-z0-9_.-]+)> \.$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Exchanged:
    """A finished exchange: the folder, and the counts."""

    folder: Path
    counts: dict[str, Any]

    @property
    def page(self) -> str:
        """The page as it stands in the folder."""
        return (self.folder / "data" / "report.html").read_text(encoding="utf-8")


def exchange(
    catalogue: Catalogue,
    out: Path,
    steps: Steps,
    *,
    copy_source: bool = True,
    filling: Callable[[Path], Filled] | None = None,
) -> Exchanged:
    """Read, derive, check and deposit one catalogue.

    Parameters
    ----------
    catalogue
        What to read.
    out
        The deposit folder. It is new, empty, or a sound deposit, which is replaced.
    steps
        The steps of other layers.
    copy_source
        Whether the deposit holds the catalogue as it was handed in.
    filling
        Writes the records into the folder in another way than :func:`fill`, for example on many machines.

    Raises
    ------
    InputError
        The catalogue cannot be read, or the folder holds something that is no deposit, or a changed one.
    """
    _refuse_others(out)
    with files.folder_aside(out, replace=True) as aside:
        filled = fill(aside, catalogue, steps) if filling is None else filling(aside)
        counts = _report(aside, filled, steps)
        _copy(aside, catalogue, copy_source)
        (aside / "vocabulary.ttl").write_bytes(steps.publish())
        deposit.seal(aside, bag_info(catalogue.collection, counts), make_readme(counts, copy_source))
    return Exchanged(out, counts)


def _refuse_others(out: Path) -> None:
    if not out.exists() or (out.is_dir() and not any(out.iterdir())):
        return
    if not out.is_dir() or not deposit.is_deposit(out):
        raise InputError(f"{out} is there already and is no deposit; it is left as it is.", "Name a new folder.")
    changed = [one for one in deposit.verify(out) if one.severity == "violation"]
    if changed:
        raise InputError(
            f"The deposit {out} was changed since it was written, and is left as it is: {changed[0].message}",
            "Name a new folder, or remove this one yourself.",
        )


@dataclass
class Filled:
    """What was counted while the records were written: ``not_tested`` are the rules that met nothing in any of them."""

    intake: Intake
    summary: Summary
    shown: Shown
    not_tested: Sequence[str]


@dataclass
class Shown:
    """The hearts for the page: the worst ones, if there are too many; the first in the catalogue among equals."""

    kept: list[tuple[tuple[int, ...], int, Heart]] = field(default_factory=list)

    def add(self, number: int, heart: Heart) -> None:
        """Keep a heart, or let the least serious one go; ``number`` is its place in the catalogue."""
        counts = tuple(sum(one.severity == severity for one in heart.issues) for severity in SEVERITIES)
        item = ((*counts, -number), number, heart)
        if len(self.kept) < SHOWN:
            heapq.heappush(self.kept, item)
        else:
            heapq.heappushpop(self.kept, item)

    def tell(self, issues: Sequence[Issue]) -> None:
        """Add issues that were found when all hearts had passed to the hearts that are shown."""
        late: dict[str | None, list[Issue]] = {}
        for one in issues:
            late.setdefault(one.record, []).append(one)
        for at, (counts, number, heart) in enumerate(self.kept):
            if more := late.pop(heart.id, None):
                told = replace(heart, issues=sort_issues([*heart.issues, *more]))
                self.kept[at] = (counts, number, told)

    def in_order(self) -> list[Heart]:
        """Return the hearts that were kept, in the order of the catalogue."""
        return [heart for _, _, heart in sorted(self.kept, key=lambda item: item[1])]


def fill(folder: Path, catalogue: Catalogue, steps: Steps) -> Filled:
    """Read the catalogue, take its records through all steps, and write them into the folder."""
    intake = Intake(catalogue, steps.ask)
    summary = Summary(catalogue.collection)
    shown = Shown()
    with Payload(folder) as payload, Across(steps.derive) as across:
        for number, passed in enumerate(_passed(intake, catalogue, steps)):
            payload.add_issues(passed.issues)
            if passed.record is None:
                summary.add_table(0, 0, passed.issues)
                continue
            payload.add(passed.record, passed.derived)
            payload.add_graph(passed.iri, passed.graph)
            summary.add(passed.record, passed.derived, passed.issues, terms_in(passed.graph))
            shown.add(number, Heart(passed.record, passed.derived, passed.issues))
            if passed.reading is not None:
                across.add(passed.reading, passed.derived)
        payload.add_issues(tell_across(across, summary, shown))
    summary.add_table(intake.rows, intake.refused, ())
    return Filled(intake, summary, shown, steps.not_tested())


def tell_across(across: Across, summary: Summary, shown: Shown) -> list[Issue]:
    """Return, sorted, and count what the records say of each other."""
    found = sort_issues(across.issues())
    summary.add_table(0, 0, found)
    shown.tell(found)
    return found


def terms_in(graph: str) -> list[str]:
    """Return the terms of the vocabulary that a graph speaks of."""
    return _TERM.findall(graph)


def _report(folder: Path, filled: Filled, steps: Steps) -> dict[str, Any]:
    intake, summary = filled.intake, filled.summary
    counts = {**summary.to_json(), **_of_intake(intake), **_of_rules(filled.not_tested)}
    for row in counts["diagnoses"]:
        row["codes"] = shown_codes(steps.codes(row["term"]))
    counts["coding"] = {"cells": _cells(intake), **coverage(summary.terms, steps.codes)}
    versions = deposit.versions()
    options = orjson.OPT_INDENT_2
    (folder / "report.json").write_bytes(orjson.dumps(counts, option=options) + b"\n")
    (folder / "versions.json").write_bytes(orjson.dumps(versions, option=options) + b"\n")
    with (folder / "report.html").open("w", encoding="utf-8", newline="\n") as page:
        page.writelines(page_pieces(counts, filled.shown.in_order(), versions))
    return counts


def _passed(intake: Intake, catalogue: Catalogue, steps: Steps) -> Iterator[Passed]:
    passing = run_steps(intake, steps, catalogue.base, f"chordae {resources.VERSION}")
    return track(passing, f"Exchanging {catalogue.path.name}")


def _of_intake(intake: Intake) -> dict[str, Any]:
    words = sorted(intake.unmapped.items(), key=lambda item: (-item[1], item[0]))
    columns = sorted(intake.unmapped_columns.items(), key=lambda item: (-item[1], item[0]))
    return {
        "unmapped_words": [{"column": column, "word": word, "count": count} for (column, word), count in words],
        "unmapped_columns": [{"column": column, "count": count} for column, count in columns],
    }


def _of_rules(not_tested: Sequence[str]) -> dict[str, Any]:
    return {"not_tested": [{"rule": rule, "label": rule_words(rule)} for rule in sorted(not_tested)]}


def _cells(intake: Intake) -> dict[str, int]:
    return {
        "filled": intake.filled,
        "mapped": intake.mapped,
        "ignored": intake.ignored,
        "without_meaning": intake.without_meaning,
    }


def _copy(folder: Path, catalogue: Catalogue, copy_source: bool) -> None:
    """Copy what the exchange was made from: crosswalk, mapping sets, collection file, and the catalogue."""
    if catalogue.crosswalk:
        (folder / "crosswalk").mkdir()
        for path, name in zip(catalogue.crosswalk, ("columns.tsv", "values.tsv"), strict=False):
            shutil.copyfile(path, folder / "crosswalk" / name)
    if catalogue.collection_file is not None:
        shutil.copyfile(catalogue.collection_file, folder / COLLECTION)
    (folder / "mappings").mkdir()
    for entry in sorted(resources.find("mappings").iterdir(), key=lambda one: one.name):
        if entry.name.endswith(".sssom.tsv") or entry.name in ("prefixes.tsv", "LICENSE"):
            (folder / "mappings" / entry.name).write_bytes(entry.read_bytes())
    if copy_source:
        (folder / "source").mkdir()
        shutil.copyfile(catalogue.path, folder / "source" / catalogue.path.name)
