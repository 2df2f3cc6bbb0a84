"""How fast records become RDF and come back: python tests/bench/bench_rdf.py [N]

Prints ratios in one run, so that they hold on any machine: the generated emitter against LinkML's own rdflib dumper
on the same records, and each format against N-Triples. The best of three runs counts.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from chordae.rdf.canonical import digest
from chordae.rdf.emit import emit
from chordae.rdf.read import read_rdf
from chordae.rdf.write import write_rdf

TOP = Path(__file__).resolve().parents[2]
RUNS = 3


def rate(work: Callable[[Any], object], items: Sequence[Any]) -> float:
    """Return items a second, the best of some runs, in processor time."""
    best = float("inf")
    for _ in range(RUNS):
        begun = time.process_time()
        for item in items:
            work(item)
        best = min(best, time.process_time() - begun)
    return len(items) / best


def linkml_rate(records: Sequence[dict[str, Any]]) -> float:
    """Return records a second of LinkML's dumper; loading them into its classes is not counted."""
    from linkml.generators.pythongen import PythonGenerator
    from linkml_runtime import SchemaView
    from linkml_runtime.dumpers import rdflib_dumper
    from linkml_runtime.loaders import json_loader

    os.chdir(TOP)
    module, view = PythonGenerator("schema/chordae.yaml").compile_module(), SchemaView("schema/chordae.yaml")
    loaded = [json_loader.load(record, target_class=module.Record) for record in records]
    base = {"@base": "https://example.org/r/"}
    return rate(lambda one: rdflib_dumper.as_rdf_graph(one, view, prefix_map=base), loaded)


def main(count: int) -> None:
    """Measure and print."""
    sys.path.insert(0, str(TOP / "tests"))
    from generate_records import make_records

    records = [record for record, _ in make_records(count, seed=1)]
    triples = [emit(record).count("\n") for record in records]
    print(f"{count} records, {min(triples)} to {max(triples)} triples each")
    ours, theirs = rate(emit, records), linkml_rate(records[:40])
    print(f"emit, N-Triples       {ours:9,.0f} records/s   {sum(triples) / count * ours / 1e6:.2f} million triples/s")
    print(f"LinkML rdflib dumper  {theirs:9,.0f} records/s   graph only, not serialised")
    print(f"emit / LinkML dumper  {ours / theirs:9.0f} times")
    for format in ("nquads", "jsonld", "turtle", "trig"):
        speed = rate(lambda one, f=format: list(write_rdf([(one, None)], f)), records)
        print(f"write {format:15} {speed:9,.0f} records/s   {speed / ours:.2f} of N-Triples")
    some = records[: count // 4]
    for format in ("ntriples", "turtle", "jsonld"):
        text = b"".join(write_rdf(((one, None) for one in some), format))
        speed = rate(lambda one, f=format: read_rdf(one, f), [text]) * len(some)
        print(f"read {format:16} {speed:9,.0f} records/s   {speed / ours:.2f} of writing N-Triples")
    speed = rate(digest, [emit(record) for record in records])
    print(f"digest                {speed:9,.0f} records/s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 400)
