"""How fast files become records: python tests/bench/bench_intake.py [N]

Prints ratios in one run, so that they hold on any machine: our readers, which keep the place of every value, against
the plain parsers of the same libraries, which keep none; and rows a second of a table with its crosswalk.
"""

from __future__ import annotations

import io
import json
import sys
import tempfile
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

import yaml

from chordae.intake.build import build
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.document import each_reading, read_document
from chordae.intake.document_text import write_document
from chordae.intake.source import find_crosswalk
from chordae.intake.table import read_table

TOP = Path(__file__).resolve().parents[2]
EXAMPLE = TOP / "examples" / "tolliver_bay"


def seconds(work: Callable[[], Any]) -> tuple[float, Any]:
    """Return the time of one run, and what it returned."""
    begun = time.perf_counter()
    found = work()
    return time.perf_counter() - begun, found


def main(count: int) -> None:
    """Measure and print."""
    columns, values = find_crosswalk(EXAMPLE)
    crosswalk, _ = read_crosswalk(columns, values)
    lines = (EXAMPLE / "catalogue.csv").read_text(encoding="utf-8").splitlines()
    body = [line for line in lines[1:] if line.count('"') % 2 == 0]
    made = io.StringIO()
    made.write(lines[0] + "\n")
    for number in range(count):
        first, _, rest = body[number % len(body)].partition(",")
        made.write(f"{first}-{number},{rest}\n")
    data = made.getvalue().encode()
    took, (table, _) = seconds(lambda: read_table("bench.csv", data=data))
    print(f"table read      {len(table.rows) / took:10,.0f} rows/s of {len(table.headings)} columns")
    took, built = seconds(lambda: build(table, crosswalk))
    print(f"records built   {len(built.readings) / took:10,.0f} records/s, {built.refused} refused")
    records = [reading.record for reading in built.readings]
    for form, plain, share in (
        ("ndjson", lambda text: [json.loads(line) for line in text.splitlines()], 1),
        ("json", json.loads, 1),
        ("yaml", lambda text: yaml.load(text, Loader=yaml.CSafeLoader), 10),
    ):
        some = records[: max(1, len(records) // share)]
        writing, text = seconds(lambda some=some, form=form: write_document(some, form))
        ours, (readings, issues) = seconds(lambda text=text, form=form: read_document(f"a.{form}", data=text.encode()))
        theirs, _ = seconds(lambda text=text, plain=plain: plain(text))
        assert len(readings) == len(some) and not issues
        print(
            f"{form:<15} {len(some) / ours:10,.0f} records/s read with places, {ours / theirs:4.1f} times the plain "
            f"parser; {len(some) / writing:,.0f} written/s"
        )
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.ndjson"
        path.write_text(write_document(records, "ndjson"), encoding="utf-8")
        tracemalloc.start()
        number = sum(1 for _ in each_reading(path))
        peak = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        print(f"stream          {number:,} records, {path.stat().st_size / 1e6:.0f} MB, peak {peak / 1e6:.1f} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
