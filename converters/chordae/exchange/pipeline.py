"""From readings to finished descriptions, a batch at a time: expanded, sound, derived, as RDF, checked.

::

    Reading -> expand -> make_sound -> derive -> emit_lines -> check -> Passed(record, derived, lines, issues)

No more than one batch is in memory. A record that a step cannot take keeps its place, with an issue.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from chordae.errors import ChordaeError
from chordae.exchange.steps import Steps
from chordae.issues import Issue, issue, sort_issues
from chordae.rdf.emit import emit_lines, record_iri
from chordae.record import Reading, Record
from chordae.soundness import make_sound

__all__ = ["BATCH", "Passed", "run_steps"]

BATCH = 128
"""Records in memory at a time."""


@dataclass(slots=True)
class Passed:
    """What became of one row: ``record`` is ``None`` for a refused row, or for the table as a whole."""

    record: Record | None
    issues: list[Issue]
    derived: Mapping[str, Any] = field(default_factory=dict)
    iri: str = ""
    lines: Sequence[str] = ()


def run_steps(
    readings: Iterable[tuple[Reading | None, list[Issue]]],
    steps: Steps,
    base: str | None = None,
    tool: str = "",
    batch: int = BATCH,
) -> Iterator[Passed]:
    """Take readings through all steps, in their order.

    Parameters
    ----------
    readings
        As :class:`chordae.exchange.intake.Intake` yields them.
    steps
        The steps of other layers.
    base
        IRI under which the records stand; ``None`` for the default one.
    tool
        What made the records, for their provenance.
    batch
        How many records are checked together.
    """
    waiting: list[tuple[Reading | None, Passed]] = []
    for reading, issues in readings:
        waiting.append(
            (reading, Passed(None, issues)) if reading is None else _prepare(reading, issues, steps, base, tool)
        )
        if len(waiting) >= batch:
            yield from _checked(waiting, steps)
            waiting = []
    yield from _checked(waiting, steps)


def _prepare(
    reading: Reading, issues: list[Issue], steps: Steps, base: str | None, tool: str
) -> tuple[Reading | None, Passed]:
    full, found = steps.expand(reading)
    sound, faults = make_sound(full)
    passed = Passed(sound.record, [*issues, *found, *faults])
    passed.derived = steps.derive(sound.record)
    place = reading.place("")
    provenance = {"file": place.file, "place": str(place), "tool": tool}
    told = {key: value for key, value in provenance.items() if value}
    try:
        passed.iri = record_iri(sound.record.get("id"), base)
        passed.lines = emit_lines(sound.record, passed.derived, base, told)
    except ChordaeError as error:
        passed.issues.append(
            issue("S-OTHER", location=place, record=str(sound.record.get("id")), problem=error.message)
        )
    return sound, passed


def _checked(waiting: Sequence[tuple[Reading | None, Passed]], steps: Steps) -> Iterator[Passed]:
    ready = [(reading, passed) for reading, passed in waiting if reading is not None and passed.lines]
    found = steps.check([reading for reading, _ in ready], ["\n".join(passed.lines) + "\n" for _, passed in ready])
    for (_, passed), issues in zip(ready, found, strict=True):
        passed.issues.extend(issues)
    for _, passed in waiting:
        passed.issues = sort_issues(passed.issues)
        yield passed
