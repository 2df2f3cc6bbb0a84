"""Measure the search for hearts alike: 100,000 invented hearts, how long a query takes after loading.

    python tests/bench/bench_nearest.py [N]

The terms of N hearts are drawn from those of a few thousand generated records, each with some terms dropped at random
so that hardly two hearts are the same: the worst case, for hearts with the same terms are counted together.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from chordae.compare.nearest import Hearts, terms_of
from chordae.derive import derive
from generate_records import make_records


def main() -> None:
    n = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    draw = random.Random(11)
    records = [record for record, _ in make_records(2000, seed=5)]
    start = time.perf_counter()
    known = [terms_of(record, derive(record)) for record in records]
    print(f"derive and terms: {(time.perf_counter() - start) / len(records) * 1000:.2f} ms a heart")
    hearts = []
    for at in range(n):
        terms = draw.choice(known)
        hearts.append((f"h{at}", "invented", frozenset(term for term in terms if draw.random() > 0.15)))
    start = time.perf_counter()
    index = Hearts.from_terms(hearts)
    loaded = time.perf_counter() - start
    print(f"{n:,} hearts, {len({one[2] for one in hearts}):,} of them different: {loaded:.2f} s to load")
    times = []
    for _ in range(20):
        terms = draw.choice(known)
        start = time.perf_counter()
        found = index.nearest_to(terms, 10)
        times.append(time.perf_counter() - start)
        assert len(found) == 10
    print(f"a query: median {statistics.median(times) * 1000:.0f} ms, slowest {max(times) * 1000:.0f} ms")


if __name__ == "__main__":
    main()
