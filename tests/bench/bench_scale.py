"""Print how checking grows with the number of generated hearts, and what a second worker brings.

    python tests/bench/bench_scale.py check --sizes 1000,10000,100000 --keep FOLDER
    python tests/bench/bench_scale.py workers --size 10000 --keep FOLDER

Each size runs in a process of its own. With ``--keep`` the hearts stay on disk for the next time, and a size that is
broken off goes on where it stood: seconds are then those of all its runs together. ``--again`` begins a size anew.
Two cores that others use too make wall time a matter of luck: read the processor seconds.
"""

from __future__ import annotations

import argparse
import json
import resource
import signal
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from scale_data import fresh, parts, run_apart

HEAD = (
    f"{'records':>10} {'wall s':>8} {'CPU s':>8} {'per CPU s':>10} {'MB here':>8} {'MB worker':>10} {'issues':>9} runs"
)


def check(sizes: list[int], cluster: str, keep: Path, again: bool) -> list[dict[str, Any]]:
    """Growth of checking, in one process or on workers."""
    print(HEAD)
    return [_size(size, cluster, keep, again) for size in sizes]


def workers(size: int, keep: Path) -> None:
    """One worker, and two: the same slices, of which only names and bytes are sent."""
    found = []
    for cluster in ("local:1", "local:2"):
        print(cluster)
        found += check([size], cluster, keep, again=True)
    for one, number in zip(found, (1, 2), strict=True):
        print(f"{number} worker(s): {one['work']:.1f} s of work after the start of the cluster")
    print(f"speed-up of 2 workers over 1: {found[0]['work'] / found[1]['work']:.2f}")


def _size(size: int, cluster: str, keep: Path, again: bool) -> dict[str, Any]:
    folder = parts(keep, size)
    work = keep / f"work-{size}-{cluster.replace(':', '-') or 'here'}"
    if again:
        fresh(work)
    work.mkdir(exist_ok=True)
    found = run_apart(Path(__file__), "one", str(folder), str(work), cluster)
    runs = [json.loads(line) for line in (work / "runs.ndjson").read_text().splitlines()]
    wall, cpu = (sum(one[name] for one in runs) for name in ("wall", "cpu"))
    here, there = (max(one[name] for one in runs) for name in ("here", "worker"))
    print(
        f"{found['records']:10,} {wall:8.1f} {cpu:8.1f} {found['records'] / cpu:10,.0f} {here:8} {there:10}"
        f" {found['issues']:9,} {len(runs):4}",
        flush=True,
    )
    return found


def one(folder: Path, work: Path, cluster: str) -> dict[str, Any]:
    """Check one folder; what this run took is added to those before, also if it is broken off."""
    from chordae.parts import check_parts
    from chordae.parts.spread import Spread

    for number in (signal.SIGINT, signal.SIGTERM):  # also one in the background can be broken off, and says how far
        signal.signal(number, signal.default_int_handler)
    begun, started = time.monotonic(), [0.0]
    real = Spread.run

    def run(self: Spread, *given: Any, **more: Any) -> Any:
        for number, each in enumerate(real(self, *given, **more)):
            if not number:
                started[0] = time.monotonic()
            yield each

    Spread.run = run  # type: ignore[method-assign]
    told: dict[str, Any] = {"records": 0, "issues": 0}
    try:
        found = check_parts(folder, work, cluster=cluster, size=1 << 20 if cluster else 4 << 20)
        told = {"records": found.records, "issues": sum(found.severities.values()), "slices": found.slices}
    finally:
        used = [resource.getrusage(kind) for kind in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
        here, worker = (each.ru_maxrss // 1024 for each in used)
        cpu = sum(each.ru_utime + each.ru_stime for each in used)
        run_told = {"wall": time.monotonic() - begun, "cpu": cpu, "here": here, "worker": worker}
        with (work / "runs.ndjson").open("a", encoding="utf-8") as out:
            out.write(json.dumps(run_told) + "\n")
    # From the first slice that was done to the end: without the start of the cluster, less one slice of each worker.
    return {**told, **run_told, "work": time.monotonic() - started[0]}


def main() -> None:
    """Run what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    kinds = parser.add_subparsers(dest="kind", required=True)
    checking = kinds.add_parser("check")
    checking.add_argument("--sizes", default="1000,10000,100000")
    checking.add_argument("--cluster", default="", help="as of chordae check --cluster")
    checking.add_argument("--again", action="store_true")
    two = kinds.add_parser("workers")
    two.add_argument("--size", type=int, default=10_000)
    for each in (checking, two):
        each.add_argument("--keep", type=Path, help="folder that stays (default: a new one that does not)")
    single = kinds.add_parser("one")
    for name in ("folder", "work"):
        single.add_argument(name, type=Path)
    single.add_argument("cluster", nargs="?", default="")
    args = parser.parse_args()
    if args.kind == "one":
        print(json.dumps(one(args.folder, args.work, args.cluster)))
        return
    with tempfile.TemporaryDirectory() as top:
        keep = args.keep or Path(top)
        keep.mkdir(parents=True, exist_ok=True)
        if args.kind == "check":
            check([int(each) for each in args.sizes.split(",")], args.cluster, keep, args.again)
        else:
            workers(args.size, keep)


if __name__ == "__main__":
    main()
