"""How fast records are checked, with the whole rule base: ratios of one run, so that they hold on any machine.

::

    PYTHONPATH=converters:tests python tests/bench/bench_check.py [--records 400] [--reference 6] [--audit 0]
    PYTHONPATH=converters:tests python tests/bench/bench_check.py --long 100000
    PYTHONPATH=converters:tests python tests/bench/bench_check.py --rules 20

Records are generated hearts with planted faults (``tests/generate_records.py``). The reference is pySHACL, as it is
shipped and at its best (shapes and queries read once). ``--audit 1000`` compares the results of both engines on that
many records, in all six fields; ``--long`` shows that time a record and memory stay flat; ``--rules`` names the rules
that take the most time. Processor time of one core, unless it says threads.
"""

from __future__ import annotations

import argparse
import resource
import time
from collections.abc import Callable, Iterator, Sequence
from typing import Any

import pyoxigraph

from chordae.rdf.emit import emit
from chordae.record import Reading
from chordae.shapes.check import TOGETHER, Checker, check_records
from chordae.shapes.engines import CompiledShapes, validate
from chordae.shapes.load import RULE, ShapesGraph, load_rules, read_texts
from generate_records import make_records
from rule_cases import cases, graph_of
from rule_mutants import triples_of

SHAPES = load_rules().shapes
NT = pyoxigraph.RdfFormat.N_TRIPLES


def timed(work: Callable[[Any], object], items: Sequence[Any], runs: int = 3) -> float:
    """Seconds for one item, the best of some runs."""
    best = float("inf")
    for _ in range(runs):
        begun = time.process_time()
        for item in items:
            work(item)
        best = min(best, time.process_time() - begun)
    return best / len(items)


def show(what: str, seconds: float, than: float | None = None) -> None:
    ratio = "" if than is None else f"{than / seconds:10.1f} x"
    print(f"{what:<58}{1 / seconds:10.1f} /s{ratio}")


def engines(graphs: Sequence[str], number: int) -> None:
    """Each engine on the same graphs, one record at a time."""
    print(f"\nEngines, one graph a record, {len(SHAPES.graph)} triples of rules; ratio to pySHACL as shipped")
    few = graphs[:number]
    shipped = timed(lambda graph: validate(graph, SHAPES, "reference"), few, 1)
    best = timed(lambda graph: validate(graph, SHAPES, "reference_cached"), few, 1)
    fast = timed(lambda graph: validate(graph, SHAPES), graphs)
    groups = ["".join(graphs[first : first + TOGETHER]) for first in range(0, len(graphs), TOGETHER)]
    together = timed(lambda group: validate(group, SHAPES), groups) * len(groups) / len(graphs)
    show("pySHACL as shipped", shipped)
    show("pySHACL, shapes and queries read once", best, shipped)
    show("fast engine, one record a call", fast, shipped)
    show(f"fast engine, {TOGETHER} records a call (as check does)", together, shipped)
    print(f"fast engine to pySHACL at its best: {best / together:.0f} x")
    same = all(
        validate(graph, SHAPES, engine) == validate(graph, SHAPES)
        for graph in few
        for engine in ("reference", "reference_cached")
    )
    print(f"results of all engines identical on {number} records: {same}")


def steps(hearts: Sequence[Reading], graphs: Sequence[str]) -> None:
    """Where the time of a check goes."""
    checker = Checker()
    records = [heart.record for heart in hearts]
    triples = sum(graph.count("\n") for graph in graphs) / len(graphs)
    print(f"\nSteps, {triples:.0f} triples a record with what is derived")
    show("derive", timed(checker.derive, records))
    derived = [checker.derive(record) for record in records]
    show("emit", timed(lambda pair: emit(*pair), list(zip(records, derived, strict=True))))
    show("parse alone (pyoxigraph)", timed(lambda graph: sum(1 for _ in pyoxigraph.parse(graph, format=NT)), graphs))
    show(
        "rules and words, graphs given", timed(lambda pair: checker.check(*pair), groups_of(hearts, graphs)) / TOGETHER
    )
    show("check_records, one thread", timed(lambda some: check_records(some, threads=1), [hearts]) / len(hearts))
    begun = time.perf_counter()
    check_records(hearts, threads=2)
    show("check_records, two threads (wall clock)", (time.perf_counter() - begun) / len(hearts))


def groups_of(hearts: Sequence[Reading], graphs: Sequence[str]) -> list[tuple[Sequence[Reading], Sequence[str]]]:
    last = len(hearts) - len(hearts) % TOGETHER
    return [(hearts[first : first + TOGETHER], graphs[first : first + TOGETHER]) for first in range(0, last, TOGETHER)]


def audit(number: int) -> None:
    """Both engines on many generated records with planted faults, and on every case of every rule."""
    checker = Checker()
    different = rows = 0
    begun = time.perf_counter()
    for heart, _ in make_records(number, seed=99, faults=0.6):
        graph = emit(heart, checker.derive(heart))
        fast = validate(graph, SHAPES)
        rows += len(fast)
        different += validate(graph, SHAPES, "reference_cached") != fast
    print(f"\n{number} generated records, {rows} results: {different} differ ({time.perf_counter() - begun:.0f} s)")
    different = rows = 0
    for case in cases():
        fast = validate(graph_of(case), SHAPES)
        rows += len(fast)
        different += validate(graph_of(case), SHAPES, "reference_cached") != fast
    print(f"{len(cases())} cases, {rows} results: {different} cases differ ({time.perf_counter() - begun:.0f} s)")


def long(number: int) -> None:
    """Time a record and memory as the number of records grows; nothing is kept."""
    print()
    size = 100
    while size <= number:
        begun = time.perf_counter()
        check_records(stream(size), threads=2, on_issues=lambda issues: None)
        seconds = (time.perf_counter() - begun) / size
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        show(f"{size} records, two threads (wall clock), {memory:.0f} MB at most", seconds)
        size *= 10


def stream(number: int) -> Iterator[Reading]:
    """Records as a file would give them: a hundred hearts again and again, under new ids."""
    hearts = [heart for heart, _ in make_records(100, seed=8, faults=0.2)]
    for count in range(number):
        yield Reading({**hearts[count % 100], "id": f"h{count}"})


def dearest(graphs: Sequence[str], number: int) -> None:
    """The rules that take most time, each compiled alone with its conditions."""
    graph = ShapesGraph(read_texts())
    group = "".join(graphs[:TOGETHER])
    idle = "<urn:x> a <http://www.w3.org/ns/shacl#NodeShape> ; <http://www.w3.org/ns/shacl#targetClass> <urn:y> ."
    ground = timed(lambda shapes: validate(group, shapes), [CompiledShapes(idle)] * 3)
    found = []
    for shape in graph.shapes():
        if shape.value.startswith(RULE):
            text = pyoxigraph.serialize(triples_of(graph, shape), format=NT).decode()
            seconds = timed(lambda shapes: validate(group, shapes), [CompiledShapes(text)] * 3) - ground
            found.append((seconds / TOGETHER * 1e6, shape.value.removeprefix(RULE)))
    print(f"\nParsing and copying: {ground / TOGETHER * 1e6:.0f} microseconds a record. Dearest rules above that:")
    for microseconds, rule in sorted(found, reverse=True)[:number]:
        print(f"{rule:<10}{microseconds:8.1f}  {load_rules().rules[rule].label}")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--records", type=int, default=400)
    parser.add_argument("--reference", type=int, default=6, help="records that pySHACL checks")
    parser.add_argument("--audit", type=int, default=0, help="records on which both engines are compared")
    parser.add_argument("--long", type=int, default=0, help="up to how many records time and memory are followed")
    parser.add_argument("--rules", type=int, default=0, help="how many of the dearest rules are named")
    chosen = parser.parse_args()
    hearts = [Reading(heart) for heart, _ in make_records(chosen.records, seed=7, faults=0.3)]
    checker = Checker()
    graphs = [emit(heart.record, checker.derive(heart.record)) for heart in hearts]
    if chosen.long:
        long(chosen.long)
        return
    if chosen.audit:
        audit(chosen.audit)
        return
    if chosen.rules:
        dearest(graphs, chosen.rules)
        return
    engines(graphs, chosen.reference)
    steps(hearts, graphs)


if __name__ == "__main__":
    main()
