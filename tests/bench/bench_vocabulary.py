"""How long the vocabulary takes to load and to answer; prints milliseconds and shares of the budget, asserts nothing.

::

    python tests/bench/bench_vocabulary.py

Budget: a command that needs schema and vocabulary has them within 150 ms.
"""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

TOP = Path(__file__).parents[2]
BUDGET = 150.0
SCRIPTS = {
    "python alone": "pass",
    "terms": "from chordae.terms import vocabulary; vocabulary()",
    "schema too": "from chordae.terms import vocabulary as v; from chordae.model import tables as t; v(); t()",
    "explain a word": "from chordae.vocabulary.explain import explain_word; explain_word('L-TGA')",
}


def best(run: Callable[[], object], times: int) -> float:
    """Shortest of several runs, in milliseconds."""
    found = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        found.append((time.perf_counter() - start) * 1000)
    return min(found)


def main() -> None:
    """Measure whole processes, then single look-ups in this one."""
    env = {"PYTHONPATH": str(TOP / "converters")}
    base = 0.0
    for name, script in SCRIPTS.items():
        took = best(lambda script=script: subprocess.run([sys.executable, "-c", script], env=env, check=True), 7)
        base = base or took
        print(f"{name:20} {took:7.1f} ms   {(took - base) / BUDGET:5.0%} of the budget over python alone")
    sys.path.insert(0, str(TOP / "converters"))
    from chordae.terms import vocabulary

    table = vocabulary()
    table.by_label("warm")
    print(f"{'by_label':20} {best(lambda: table.by_label('L-loop ventricles'), 50):7.3f} ms")
    print(f"{'is_a':20} {best(lambda: table.is_a('straddling_mitral_valve', 'cardiac_valve'), 50):7.3f} ms")
    print(f"{'nearest':20} {best(lambda: table.nearest('tricuspit valve'), 20):7.3f} ms")


if __name__ == "__main__":
    main()
