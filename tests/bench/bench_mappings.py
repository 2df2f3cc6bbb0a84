"""How long a look-up of codes takes against reading the sets themselves, in one run.

python tests/bench/bench_mappings.py
"""

from __future__ import annotations

import time
from collections.abc import Callable

from chordae import mapping
from chordae.terms import vocabulary
from chordae.vocabulary.audit import audit, our_sets


def seconds(work: Callable[[], object]) -> float:
    """Return how long a piece of work takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> None:
    """Print the times and their ratio."""
    load = seconds(lambda: mapping.codes_for("heart"))
    slugs = [term.slug for term in vocabulary()]
    look = seconds(lambda: [mapping.codes_for(slug) for slug in slugs])
    read = seconds(lambda: list(our_sets()))
    check = seconds(audit)
    print(f"first look-up, with the compiled table loaded  {load * 1000:7.1f} ms")
    print(f"codes of all {len(slugs)} terms                        {look * 1000:7.1f} ms")
    print(
        f"reading the eight sets strictly                {read * 1000:7.1f} ms  {read / load:.0f} x the first look-up"
    )
    print(f"all checks against the pinned releases         {check * 1000:7.1f} ms")


if __name__ == "__main__":
    main()
