"""Print what the store of a registry takes to load, and how long the ready questions take, for any number of hearts.

    python tests/bench/bench_registry.py load --size 100000 --collections 10 --keep FOLDER
    python tests/bench/bench_registry.py ask --keep FOLDER

The lines of the ledger are written directly, because judging is measured by ``bench_scale.py``. The registry stays in
the folder; a load that is broken off goes on with the next collection. The first collection gets a second version, in
which every tenth heart is described otherwise. ``ask`` gives the median of three answers of each question.
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

from scale_data import write_hearts

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


def load(size: int, collections: int, keep: Path, steps: int) -> None:
    """Fill a registry, collection by collection, and print what each took in all."""
    place, times = keep / "registry", keep / "times.ndjson"
    if not place.exists():
        create(place, "Invented", "https://example.org/registry/")
        times.write_text("")
    each = size // collections
    done = 0
    for line in range(collections + 1):
        if done == steps:
            break
        with Registry.open(place, write=True) as registry:
            last = registry.ledger.last()
            if last is not None and last.number > line:
                continue
            done += 1
            begun = time.process_time(), time.monotonic()
            # Hearts of the second version of the first collection stand under the numbers of the first one.
            number = line % collections
            made = _line(registry, number, each, keep / "hearts.ndjson", each // 10 if line == collections else 0)
            middle = time.process_time(), time.monotonic()
            with open_store(registry):
                pass
            end = time.process_time(), time.monotonic()
        told = {"hearts": each, "triples": made, "made": middle[0] - begun[0], "loaded": end[0] - middle[0]}
        told |= {"wall": end[1] - middle[1], "peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024}
        with times.open("a", encoding="utf-8") as out:
            out.write(json.dumps(told) + "\n")
        rate = made / told["loaded"]
        print(
            f"line {line + 1}: {made:,} triples loaded in {told['loaded']:.0f} CPU s ({rate:,.0f} a CPU s)", flush=True
        )
    rows = [json.loads(line) for line in times.read_text().splitlines()]
    hearts, triples, making, loading, wall = (
        sum(one[name] for one in rows) for name in ("hearts", "triples", "made", "loaded", "wall")
    )
    disk = subprocess.run(["du", "-sm", str(place / "store" / "live")], capture_output=True, text=True, check=True)
    megabytes = int(disk.stdout.split()[0])
    ledger = (place / "ledger.sqlite").stat().st_size
    print(f"{hearts:,} hearts in {len(rows)} versions of {collections} collections, {triples:,} triples")
    print(f"derived, graphs and ledger written: {making:.0f} CPU s, {hearts / making:,.0f} hearts a CPU s")
    print(f"store loaded and frozen: {loading:.0f} CPU s ({wall:.0f} s), {triples / loading:,.0f} triples a CPU s")
    print(f"store {megabytes:,} MB, {megabytes * 2**20 / triples:.0f} bytes a triple")
    print(f"ledger {ledger / hearts:.0f} bytes a heart")
    print(f"peak {max(one['peak'] for one in rows)} MB in the process that writes and loads")


def _line(registry: Registry, number: int, each: int, source: Path, changed: int) -> int:
    """Write one version; returns its triples."""
    name, base = f"invented-{number}", f"https://example.org/invented-{number}/"
    write_hearts(source, each, name, number * each, changed)
    body = next_body(registry, "submission")
    body |= {"deposit": f"{body['number']:064d}", "collection": name, "agent": "A bench"}
    folder, rows, triples = registry.made(body["number"]), [], 0
    with Made(folder) as made, source.open(encoding="utf-8") as lines:
        for line in lines:
            record = json.loads(line)
            derived = derive(record)
            graph = emit(record, derived, base)
            triples += graph.count("\n")
            accession = record["specimen"]["accession"]
            row = HeartRow(record["id"], record_iri(record["id"], base), accession, 0, 0, "", (accession,))
            rows.append(made.add(row, record, derived, [], graph))
    counts = {"records": each, "triples": triples, "violation": 0, "warning": 0, "info": 0}
    more = {"outcome": "accepted", "counts": counts, "made": digests(folder), "graph": f"{base}{body['number']}"}
    head = registry.ledger.head(name)
    follows = {"supersedes": head.graph} if head else {}
    registry.ledger.add(Entry({**body, **more, **follows}), rows)
    source.unlink()
    return triples


def ask(keep: Path) -> None:
    """Ask every ready question three times."""
    with Registry.open(keep / "registry") as registry, Asker.of(registry) as asker:
        asker.ask("ASK {}")
        head = asker.question("coding_coverage", {}, "csv").data.decode().splitlines()
        common, rare = (line.split(",")[0].rpartition("/")[2] for line in (head[1], head[-1]))
        values = {
            "term": common,
            "code": "http://purl.obolibrary.org/obo/HP_0001636",
            "record": "https://example.org/invented-0/H-00000007",
            "collection": "invented-0",
        }
        print(f"hearts_with asks for the most common malformation, {common}; the rarest is {rare}")
        for one in questions().values():
            if one.name == "in_both_registries":
                continue
            needed = {each.name: values[each.name] for each in one.parameters if each.default is None}
            _ask(asker, one.name, needed)
        _ask(asker, "hearts_with", {"term": rare})


def _ask(asker: Asker, name: str, needed: dict[str, str]) -> None:
    taken = []
    for _ in range(3):
        begun = time.monotonic()
        try:
            told = f"{asker.question(name, needed, 'csv', seconds=120).rows:,} rows"
        except Exception as error:
            told = str(error)
        taken.append(time.monotonic() - begun)
    print(f"{statistics.median(taken):9.3f} s  {name}: {told}", flush=True)


def main() -> None:
    """Run what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    kinds = parser.add_subparsers(dest="kind", required=True)
    loading = kinds.add_parser("load")
    loading.add_argument("--size", type=int, default=10_000)
    loading.add_argument("--collections", type=int, default=10)
    loading.add_argument("--steps", type=int, default=-1, help="versions that are loaded in this run (default: all)")
    for one in (loading, kinds.add_parser("ask")):
        one.add_argument("--keep", type=Path, required=True, help="folder that holds the registry")
    args = parser.parse_args()
    if args.kind == "load":
        args.keep.mkdir(parents=True, exist_ok=True)
        load(args.size, args.collections, args.keep, args.steps)
    else:
        ask(args.keep)


if __name__ == "__main__":
    main()
