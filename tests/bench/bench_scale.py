"""Print how checking, the store and the ready questions grow with the number of generated hearts.

    python tests/bench/bench_scale.py check --sizes 1000,10000,100000
    python tests/bench/bench_scale.py workers --size 20000
    python tests/bench/bench_scale.py store --size 100000 --collections 10

``check`` and ``workers`` run in processes of their own, so that the peak memory of each is told apart. The hearts are
2,000 generated ones, written again and again under new numbers.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

TOP = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(TOP / "converters"), str(TOP / "tests")]
TEMPLATES = 2_000


def write_hearts(path: Path, size: int, collection: str = "invented", begin: int = 0) -> None:
    """Write hearts as NDJSON."""
    from registry_data import hearts

    texts = []
    for number, one in enumerate(hearts(range(min(size, TEMPLATES)), collection, faults=0.01)):
        one["id"], one["specimen"]["accession"] = "@@ID", "@@NO"
        one["evidence"][0] |= {"source_file": f"plate_{number}.jpg", "shows": [{"part": "right_sided_atrium"}]}
        texts.append(json.dumps(one) + "\n")
    with path.open("w", encoding="utf-8") as out:
        for number in range(begin, begin + size):
            text = texts[(number - begin) % len(texts)]
            out.write(text.replace("@@ID", f"H-{number:08d}").replace("@@NO", f"{number:08d}"))


def measured(code: str) -> dict[str, Any]:
    """Run code in a process of its own; it prints one JSON object."""
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(TOP / "converters"), str(TOP / "tests")])}
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=environment, check=False)
    if done.returncode:
        raise SystemExit(done.stderr[-2000:])
    found: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return found


CHECK = """
import json, resource, time
from pathlib import Path
if __name__ == "__main__":
    from chordae.parts import check_parts
    begun = time.monotonic()
    found = check_parts(Path({folder!r}), Path({work!r}), cluster={cluster!r})
    seconds = time.monotonic() - begun
    kinds = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    used = [resource.getrusage(one) for one in kinds]
    own, children = (one.ru_maxrss // 1024 for one in used)
    cpu = sum(one.ru_utime + one.ru_stime for one in used)
    print(json.dumps([found.records, seconds, cpu, own, children, sum(found.severities.values())]))
"""


def check(sizes: list[int], cluster: str) -> None:
    """Growth of checking, in one process or on workers."""
    print(
        f"{'records':>10} {'seconds':>9} {'CPU s':>8} {'per CPU s':>10} {'MB here':>8} {'MB worker':>10} {'issues':>9}"
    )
    for size in sizes:
        with tempfile.TemporaryDirectory() as top:
            folder = Path(top) / "parts"
            folder.mkdir()
            write_hearts(folder / "hearts.ndjson", size)
            code = Path(top) / "run.py"
            text = CHECK.format(folder=str(folder), work=f"{top}/work", cluster=cluster)
            code.write_text(text, encoding="utf-8")
            run = f"import runpy; runpy.run_path({str(code)!r}, run_name='__main__')"
            records, seconds, cpu, own, children, issues = measured(run)
            print(
                f"{records:10,} {seconds:9.1f} {cpu:8.1f} {records / cpu:10,.0f} {own:8} {children:10} {issues:9,}",
                flush=True,
            )


def store(size: int, collections: int) -> None:
    """Load of the store, and the ready questions.

    The lines of the ledger are written directly, because exchanging and judging are measured by ``check``.
    """
    from chordae.derive import derive
    from chordae.rdf.emit import emit, record_iri
    from chordae.registry import Registry
    from chordae.registry.ask import Asker
    from chordae.registry.entry import Entry
    from chordae.registry.ledger import HeartRow
    from chordae.registry.made import Made, digests
    from chordae.registry.place import create
    from chordae.registry.questions import questions
    from chordae.registry.stores import open_store
    from chordae.registry.submit import next_body

    with tempfile.TemporaryDirectory() as top:
        place = Path(top) / "registry"
        create(place, "Invented", "https://example.org/registry/")
        times = {"deriving, writing graphs and ledger": 0.0, "loading and freezing": 0.0}
        triples = 0
        each = size // collections
        for number in range(collections):
            name, base = f"invented-{number}", f"https://example.org/invented-{number}/"
            write_hearts(Path(top) / "hearts.ndjson", each, name, number * each)
            with Registry.open(place, write=True) as registry:
                begun = time.process_time()
                body = {**next_body(registry, "submission"), "deposit": f"{number:064d}", "collection": name}
                folder, rows, count = registry.made(body["number"]), [], 0
                with Made(folder) as made, (Path(top) / "hearts.ndjson").open(encoding="utf-8") as lines:
                    for line in lines:
                        record = json.loads(line)
                        derived = derive(record)
                        graph = emit(record, derived, base)
                        count += graph.count("\n")
                        accession = record["specimen"]["accession"]
                        row = HeartRow(record["id"], record_iri(record["id"], base), accession, 0, 0, "", (accession,))
                        rows.append(made.add(row, record, derived, [], graph))
                counts = {"records": each, "triples": count, "violation": 0, "warning": 0, "info": 0}
                more = {"outcome": "accepted", "counts": counts, "made": digests(folder), "graph": f"{base}graph"}
                registry.ledger.add(Entry({**body, **more}), rows)
                times["deriving, writing graphs and ledger"] += time.process_time() - begun
                triples += count
                begun = time.process_time()
                with open_store(registry):
                    pass
                times["loading and freezing"] += time.process_time() - begun
        disk = subprocess.run(["du", "-sm", str(place / "store" / "live")], capture_output=True, text=True, check=True)
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        print(f"{size:,} hearts in {collections} collections, {triples:,} triples, store {disk.stdout.split()[0]} MB")
        print(f"peak {peak} MB in the process that writes and loads")
        for what, seconds in times.items():
            print(
                f"{seconds:9.1f} CPU s  {what}: {size / seconds:,.0f} hearts, {triples / seconds:,.0f} triples a CPU s"
            )
        values = {
            "term": "tetralogy_of_fallot",
            "code": "http://purl.obolibrary.org/obo/HP_0001636",
            "record": "https://example.org/invented-0/H-00000007",
            "collection": "invented-0",
        }
        with Registry.open(place) as registry, Asker.of(registry) as asker:
            asker.ask("ASK {}")
            for question in questions().values():
                if question.name == "in_both_registries":
                    continue
                needed = {one.name: values[one.name] for one in question.parameters if one.default is None}
                begun = time.monotonic()
                try:
                    rows_found = f"{asker.question(question.name, needed, 'csv', seconds=120).rows:,} rows"
                except Exception as error:
                    rows_found = str(error)
                print(f"{time.monotonic() - begun:9.3f} s  {question.name}: {rows_found}", flush=True)


def main() -> None:
    """Run what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    kinds = parser.add_subparsers(dest="kind", required=True)
    one = kinds.add_parser("check")
    one.add_argument("--sizes", default="1000,10000,100000")
    one.add_argument("--cluster", default="")
    one = kinds.add_parser("workers")
    one.add_argument("--size", type=int, default=20_000)
    one = kinds.add_parser("store")
    one.add_argument("--size", type=int, default=10_000)
    one.add_argument("--collections", type=int, default=10)
    args = parser.parse_args()
    if args.kind == "check":
        check([int(one) for one in args.sizes.split(",")], args.cluster)
    elif args.kind == "workers":
        for cluster in ("", "local:1", "local:2"):
            print(cluster or "one process")
            check([args.size], cluster)
    else:
        store(args.size, args.collections)


if __name__ == "__main__":
    main()
