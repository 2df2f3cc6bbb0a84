"""Measure what unchanged records cost, and what the pass over all records costs, in time and memory.

::

    python tests/bench/bench_incremental.py            1,000 and 10,000 records
    python tests/bench/bench_incremental.py 2000       another number, and ten times as many

Printed: records a second and the ratio to a check without anything kept, in the same run; memory of the process at its
highest, for the pass across records. Records are generated (``tests/generate_records.py``), all invented.
"""

from __future__ import annotations

import copy
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from chordae.record import Reading
from chordae.shapes.across import Across
from chordae.shapes.cache import FindingsCache
from chordae.shapes.check import check_records

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from generate_records import make_records

ROUND = 500
"""Records made anew for each part of a set; their ids are counted up."""


def records(number: int) -> list[dict[str, Any]]:
    """So many invented records."""
    return [record for record, _ in make_records(number, seed=4, faults=0.1)]


def timed(name: str, number: int, work: Callable[[], object], before: float | None = None) -> float:
    """Run, print, and return the seconds."""
    begun = time.perf_counter()
    work()
    seconds = time.perf_counter() - begun
    ratio = f"   {before / seconds:6.1f} times as fast" if before else ""
    print(f"{name:<44}{number / seconds:>10,.0f} records/s{ratio}")
    return seconds


def kept(number: int) -> None:
    """Without a cache, with an empty one, with a full one, with one record in a hundred changed."""
    made = records(number)
    changed = copy.deepcopy(made)
    for record in changed[:: max(1, number // (number // 100))]:
        record["remarks"] = [{"text": "looked at again"}]
    with tempfile.TemporaryDirectory() as folder:

        def check(some: list[dict[str, Any]]) -> None:
            with FindingsCache(Path(folder), "fast") as cache:
                check_records([Reading(one) for one in some], cache=cache, threads=1)

        plain = timed("nothing kept", number, lambda: check_records([Reading(one) for one in made], threads=1))
        timed("kept for the first time", number, lambda: check(made), plain)
        timed("all unchanged", number, lambda: check(made), plain)
        timed("one in a hundred changed", number, lambda: check(changed), plain)
        size = sum(path.stat().st_size for path in Path(folder).iterdir())
        print(f"{'on disk':<44}{size / number:>10,.0f} bytes a record")


def across(number: int) -> None:
    """One pass across so many records; run in a process of its own for its memory."""
    made = records(ROUND)
    begun = time.perf_counter()
    with Across() as passed:
        for count in range(number):
            record = made[count % ROUND]
            specimen = {**(record.get("specimen") or {}), "accession": f"A{count // 2}"}
            passed.add(Reading({**record, "id": f"r{count}", "specimen": specimen}))
        added = time.perf_counter() - begun
        found = sum(1 for _ in passed.issues())
    seconds = time.perf_counter() - begun
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"across {number:>9,} records, two of each specimen{number / added:>9,.0f} added/s"
        f" {number / seconds:>8,.0f} in all   {found:,} issues   {memory:,.0f} MB"
    )


def main() -> None:
    """Measure."""
    if sys.argv[1:2] == ["across"]:
        across(int(sys.argv[2]))
        return
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    kept(number)
    for many in (number, 10 * number):
        subprocess.run([sys.executable, __file__, "across", str(many)], check=True)


if __name__ == "__main__":
    main()
