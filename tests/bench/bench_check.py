"""How fast records are checked, with the whole rule base: ratios of one run, so that they hold on any machine.

::

    PYTHONPATH=converters:tests python tests/bench/bench_check.py [--records 400] [--reference 6]
    PYTHONPATH=converters:tests python tests/bench/bench_check.py --long 100000 [--threads 2]

Records are generated hearts with planted faults (``tests/generate_records.py``). The reference is pySHACL, as it is
shipped and at its best (shapes and queries read once). Each line is printed when it is known. Processor time of all
threads together, unless it says wall clock. ``--long`` shows that time a record and memory stay flat.

``bench_audit.py`` compares the results of both engines on a thousand records; ``bench_rules.py`` names the rules that
take the most time, and why.
"""

from __future__ import annotations

import argparse
import resource
import time
from collections.abc import Callable, Iterator, Sequence
from typing import Any

import pyoxigraph

from chordae.rdf.derived import as_node
from chordae.rdf.emit import emit
from chordae.record import Reading
from chordae.shapes.check import check_records
from chordae.shapes.checker import TOGETHER, Checker
from chordae.shapes.engines import CompiledShapes, validate
from chordae.shapes.load import load_rules
from chordae.shapes.together import show, validate_shown
from generate_records import make_records

SHAPES = load_rules().shapes
NT = pyoxigraph.RdfFormat.N_TRIPLES
IDLE = CompiledShapes(
    "<urn:x> a <http://www.w3.org/ns/shacl#NodeShape> ; <http://www.w3.org/ns/shacl#targetClass> <urn:y> ."
)
"""A rule that meets nothing: what is left is reading and copying."""


def timed(work: Callable[[Any], object], items: Sequence[Any], runs: int = 3) -> float:
    """Processor seconds for one item, the best of some runs."""
    best = float("inf")
    for _ in range(runs):
        begun = time.process_time()
        for item in items:
            work(item)
        best = min(best, time.process_time() - begun)
    return best / len(items)


def line(what: str, seconds: float, than: float | None = None) -> None:
    """Print a rate, and how often it is that of another one."""
    ratio = "" if than is None else f"{than / seconds:10.1f} x"
    print(f"{what:<58}{1 / seconds:10.1f} /s{ratio}", flush=True)


def engines(hearts: Sequence[Reading], number: int) -> None:
    """Each engine on the same records: whole graphs for the reference, the checker as it is used for the fast one."""
    few = hearts[:number]
    checker = Checker(engine="fast")
    graphs = [emit(heart.record, checker.derive(heart.record)) for heart in few]
    print(f"\nPer record, {len(SHAPES.graph)} triples of rules; ratio to pySHACL as shipped")
    shipped = timed(lambda graph: validate(graph, SHAPES, "reference"), graphs, 1)
    line("pySHACL as shipped, graphs given", shipped)
    best = timed(lambda graph: validate(graph, SHAPES, "reference_cached"), graphs, 1)
    line("pySHACL, shapes and queries read once, graphs given", best, shipped)
    alone = timed(lambda graph: validate(graph, SHAPES), graphs)
    line("fast engine, one whole graph a call", alone, shipped)
    shown = shown_in_groups(hearts)
    together = timed(lambda group: validate_shown(group[0], group[1], SHAPES), shown) * len(shown) / len(hearts)
    line(f"fast engine, what the rules read of {TOGETHER} records a call", together, shipped)
    checker.check_many(few)
    whole = timed(checker.check_many, [hearts]) / len(hearts)
    line("whole check: derive, write, engine, words", whole, shipped)
    print(f"fast engine to pySHACL at its best: {best / together:.0f} x; whole check: {best / whole:.0f} x", flush=True)
    same = [list(checked.results) for checked in checker.check_many(few)]
    for engine in ("reference", "reference_cached"):
        differ = sum(validate(graph, SHAPES, engine) != one for graph, one in zip(graphs, same, strict=True))
        print(f"results other than those of {engine}: {differ} of {len(few)} records", flush=True)


def shown_in_groups(hearts: Sequence[Reading]) -> list[tuple[list[str], list[str]]]:
    """What the engine is given: texts and IRIs of each group."""
    checker = Checker(engine="fast")
    found = []
    for first in range(0, len(hearts), TOGETHER):
        some = [heart.record for heart in hearts[first : first + TOGETHER]]
        texts = [show(record, as_node(checker.derive(record)), number)[0] for number, record in enumerate(some)]
        found.append((texts, [f"urn:{record['id']}" for record in some]))
    return found


def steps(hearts: Sequence[Reading]) -> None:
    """Where the time of a check goes, in microseconds a record."""
    checker = Checker(engine="fast")
    records = [heart.record for heart in hearts]
    derived = [checker.derive(record) for record in records]
    graphs = [emit(*pair) for pair in zip(records, derived, strict=True)]
    shown = shown_in_groups(hearts)
    read = sum(text.count("\n") for texts, _ in shown for text in texts) / len(hearts)
    triples = sum(graph.count("\n") for graph in graphs) / len(graphs)
    print(f"\nSteps; {triples:.0f} triples a record with what is derived, of which the rules are shown {read:.0f}")
    whole = timed(checker.check_many, [hearts]) / len(hearts)

    def share(what: str, seconds: float) -> None:
        print(f"{what:<58}{seconds * 1e6:8.0f} us{seconds / whole:8.0%}", flush=True)

    share("whole check", whole)
    share("derive", timed(checker.derive, records))
    pairs = list(zip(records, [as_node(one) for one in derived], strict=True))
    share("write what the rules read", timed(lambda pair: show(pair[0], pair[1], 0), pairs))
    idle = timed(lambda group: validate_shown(group[0], group[1], IDLE), shown) * len(shown) / len(hearts)
    share("engine: reading the lines", idle)
    engine = timed(lambda group: validate_shown(group[0], group[1], SHAPES), shown) * len(shown) / len(hearts)
    share("engine: rules, and results as objects", engine - idle)
    share("whole graph, sorted (not part of a check)", timed(lambda pair: emit(*pair), pairs))
    parse = timed(lambda graph: sum(1 for _ in pyoxigraph.parse(graph, format=NT)), graphs)
    share("bare parse of the whole graph (not part of a check)", parse)
    print()
    for threads in (1, 2):
        begun, used = time.perf_counter(), time.process_time()
        check_records(hearts, threads=threads)
        wall, used = time.perf_counter() - begun, time.process_time() - used
        rate = len(hearts) / used
        line(f"check_records, {threads} thread(s), wall clock; {rate:.0f} a processor second", wall / len(hearts))


def long(number: int, threads: int) -> None:
    """Time a record and memory as the number of records grows; nothing is kept."""
    size = 100
    check_records(stream(size), threads=threads)
    while size <= number:
        begun, used = time.perf_counter(), time.process_time()
        check_records(stream(size), threads=threads, on_issues=lambda issues: None)
        wall, used = time.perf_counter() - begun, time.process_time() - used
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(
            f"{size:>7} records, {threads} thread(s): {used / size * 1e6:.0f} us a record of processor time, "
            f"{wall / size * 1e6:.0f} us wall clock, {memory:.0f} MB at most so far",
            flush=True,
        )
        size *= 10


def stream(number: int) -> Iterator[Reading]:
    """Records as a file would give them: a hundred hearts again and again, under new ids."""
    hearts = [heart for heart, _ in make_records(100, seed=8, faults=0.2)]
    for count in range(number):
        yield Reading({**hearts[count % 100], "id": f"h{count}"})


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--records", type=int, default=400)
    parser.add_argument("--reference", type=int, default=6, help="records that pySHACL checks")
    parser.add_argument("--long", type=int, default=0, help="up to how many records time and memory are followed")
    parser.add_argument("--threads", type=int, default=1, help="threads of --long")
    chosen = parser.parse_args()
    if chosen.long:
        long(chosen.long, chosen.threads)
        return
    hearts = [Reading(heart) for heart, _ in make_records(chosen.records, seed=7, faults=0.3)]
    steps(hearts)
    engines(hearts, chosen.reference)


if __name__ == "__main__":
    main()
