"""From readings to finished descriptions, a batch at a time: expanded, sound, derived, as RDF, checked.

::

    Reading -> expand -> make_sound -> derive -> emit -> check -> Passed(record, derived, graph, issues)

No more than three batches are in memory. A record that a step cannot take keeps its place, with an issue.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from itertools import islice
from typing import Any

from chordae.errors import ChordaeError
from chordae.exchange.steps import Steps
from chordae.issues import Issue, issue, sort_issues
from chordae.rdf.emit import emit, record_iri
from chordae.record import Reading, Record
from chordae.resources import VERSION
from chordae.soundness import make_sound
from chordae.versions import check_version

__all__ = ["BATCH", "Passed", "run_steps"]

BATCH = 128
"""Records in memory at a time."""


@dataclass(slots=True)
class Passed:
    """What became of one row: ``record`` is ``None`` for a refused row, or for the table as a whole.

    ``reading`` is the record with the place where it begins.
    """

    record: Record | None
    issues: list[Issue]
    derived: Mapping[str, Any] = field(default_factory=dict)
    iri: str = ""
    graph: str = ""
    reading: Reading | None = None


Batch = list[tuple[Reading | None, Passed]]


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
    prepared = (
        (reading, Passed(None, issues)) if reading is None else _prepare(reading, issues, steps, base, tool)
        for reading, issues in readings
    )
    pending: deque[tuple[Batch, Future[Sequence[Sequence[Issue]]]]] = deque()
    # One thread checks a batch while the next one is prepared: the engine frees the interpreter meanwhile.
    with ThreadPoolExecutor(1) as checking:
        while waiting := list(islice(prepared, batch)):
            ready = [(reading, passed) for reading, passed in waiting if reading is not None and passed.graph]
            found = checking.submit(
                steps.check, [reading for reading, _ in ready], [passed.graph for _, passed in ready]
            )
            pending.append((waiting, found))
            if len(pending) > 1:
                yield from _finish(*pending.popleft())
        while pending:
            yield from _finish(*pending.popleft())


def _prepare(
    reading: Reading, issues: list[Issue], steps: Steps, base: str | None, tool: str
) -> tuple[Reading | None, Passed]:
    full, found = steps.expand(reading)
    sound, faults = make_sound(full)
    place = reading.place("")
    passed = Passed(sound.record, [*issues, *found, *faults], reading=Reading(sound.record, {"": place}))
    if sound.record.get("vocabulary_version") not in (None, VERSION):
        passed.issues += check_version(sound)
    passed.derived = steps.derive(sound.record)
    provenance = {"file": place.file, "place": str(place), "tool": tool}
    told = {key: value for key, value in provenance.items() if value}
    try:
        passed.iri = record_iri(sound.record.get("id"), base)
        passed.graph = emit(sound.record, passed.derived, base, told)
    except ChordaeError as error:
        passed.issues.append(
            issue("S-OTHER", location=place, record=str(sound.record.get("id")), problem=error.message)
        )
    return sound, passed


def _finish(waiting: Batch, found: Future[Sequence[Sequence[Issue]]]) -> Iterator[Passed]:
    ready = [passed for reading, passed in waiting if reading is not None and passed.graph]
    for passed, issues in zip(ready, found.result(), strict=True):
        passed.issues.extend(issues)
    for _, passed in waiting:
        passed.issues = sort_issues(passed.issues)
        yield passed
