"""Measure the whole exchange at 1,000 and at 10,000 records: records a second, and the most memory used.

    python tests/bench/bench_exchange.py [COUNT ...]

The catalogue is generated: the rows of the invented example collection in examples/tolliver_bay, over and over, with
catalogue numbers of their own. Each size runs in a process of its own; its peak is the resident memory that the
system reports, to be read against that of a run of 10 records (the program itself). The table is read line by line;
of the records a few batches are in memory, and the 300 hearts that the page shows. So the peak of 1,000 records is
that of any number: the last lines give the ratio of every larger run to it.
"a CPU s" is records per second of processor time: on a busy machine it tells more than the clock.
"""

from __future__ import annotations

import csv
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
SOURCE = TOP / "examples" / "tolliver_bay"
SIZES = (10, 1_000, 10_000)
FULL = 1_000
"""With so many records every page, batch and cache is full."""


def write_catalogue(folder: Path, count: int) -> None:
    """Write a collection of as many descriptions into a folder."""
    for name in ("collection.yaml", "columns.tsv", "values.tsv"):
        shutil.copy(SOURCE / name, folder / name)
    with (SOURCE / "catalogue.csv").open(encoding="utf-8-sig", newline="") as stream:
        head, *rows = csv.reader(stream)
    good = [row for row in rows if len(row) == len(head)]
    at = head.index("Record")
    with (folder / "catalogue.csv").open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream)
        writer.writerow(head)
        for number in range(count):
            row = list(good[number % len(good)])
            row[at] = f"{number:06}"
            writer.writerow(row)


def measure(folder: Path, out: Path) -> None:
    """Run one exchange and print seconds and peak memory in MiB."""
    from chordae.exchange import exchange, find_catalogue, load_steps

    start = time.perf_counter()
    catalogue = find_catalogue(folder)
    exchange(catalogue, out, load_steps(catalogue.base))
    seconds = time.perf_counter() - start
    used = resource.getrusage(resource.RUSAGE_SELF)
    print(f"{seconds:.3f} {used.ru_utime + used.ru_stime:.3f} {used.ru_maxrss / 1024:.1f}")


def main(sizes: list[int]) -> None:
    """Measure every size and print the table."""
    env = {**os.environ, "PYTHONPATH": str(TOP / "converters")}
    heads = ("records", "seconds", "CPU s", "records/s", "a CPU s", "peak MiB", "deposit MiB")
    print("{:>9} {:>9} {:>7} {:>10} {:>8} {:>9} {:>12}".format(*heads))
    peaks: dict[int, float] = {}
    for size in sizes:
        with tempfile.TemporaryDirectory() as place:
            folder, out = Path(place) / "collection", Path(place) / "deposit"
            folder.mkdir()
            write_catalogue(folder, size)
            command = [sys.executable, __file__, "--measure", str(folder), str(out)]
            run = subprocess.run(command, env=env, capture_output=True, text=True, check=False)
            if run.returncode:
                sys.exit(run.stderr)
            seconds, cpu, peak = (float(one) for one in run.stdout.split())
            peaks[size] = peak
            written = sum(one.stat().st_size for one in out.rglob("*") if one.is_file()) / 2**20
            speed = f"{size / seconds:>10.0f} {size / cpu:>8.0f}"
            print(f"{size:>9,} {seconds:>9.1f} {cpu:>7.1f} {speed} {peak:>9.0f} {written:>12.1f}", flush=True)
    smaller = max((size for size in peaks if size <= FULL), default=0)
    for size in sorted(one for one in peaks if one > smaller > 0):
        print(f"peak at {size:,} records: {peaks[size] / peaks[smaller]:.2f} times that at {smaller:,}")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--measure"]:
        measure(Path(sys.argv[2]), Path(sys.argv[3]))
    else:
        main([int(one) for one in sys.argv[1:]] or list(SIZES))
