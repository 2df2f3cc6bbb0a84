"""Both engines on many generated records with planted faults: are the results the same in all six fields?

::

    PYTHONPATH=converters:tests python tests/bench/bench_audit.py [--records 1000] [--kept audit.ndjson] [--shipped]

pySHACL takes a good part of a second for a record, so this takes minutes. It prints as it goes, can be ended at any
time, and goes on where it was when it is started again with the same ``--kept``; a file made with other rules, another
generator or another engine is refused. ``--shipped`` takes pySHACL as it is shipped, without parsed queries kept.
The fast engine gets what the checker gives it: several records a call, only what the rules read.
"""

from __future__ import annotations

import argparse
import hashlib
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import orjson

import generate_records
from chordae.progress import track
from chordae.rdf.emit import emit
from chordae.record import Reading, Record
from chordae.shapes.cache import deciding
from chordae.shapes.checker import TOGETHER, Checker
from chordae.shapes.engines import Engine, validate
from chordae.shapes.load import load_rules

SEED, FAULTS = 99, 0.6
SPOKEN = 15.0
"""Seconds between two lines."""


def compared(number: int, engine: Engine) -> Iterator[dict[str, Any]]:
    """One row for each record from a number on: results, whether they differ, processor seconds of both engines."""
    checker, shapes = Checker(engine="fast"), load_rules().shapes
    checker.check_one(Reading(generate_records.make_record(0, SEED)[0]))  # loads and compiles
    while True:
        group: list[Record] = [
            generate_records.make_record(one, SEED, FAULTS)[0] for one in range(number, number + TOGETHER)
        ]
        begun = time.process_time()
        fast = checker.check_many([Reading(record) for record in group])
        seconds = (time.process_time() - begun) / TOGETHER
        for place, (record, checked) in enumerate(zip(group, fast, strict=True)):
            graph = emit(record, checker.derive(record))
            begun = time.process_time()
            reference = validate(graph, shapes, engine)
            yield {
                "number": number + place,
                "results": len(reference),
                "same": list(checked.results) == reference,
                "fast": seconds,
                "reference": time.process_time() - begun,
            }
        number += TOGETHER


def seal(engine: Engine) -> str:
    """What decides the rows: rules, code, engines, generator."""
    source = Path(generate_records.__file__).read_bytes()
    return hashlib.sha256(f"{deciding('fast')} {deciding(engine)}".encode() + source).hexdigest()


def told(rows: list[dict[str, Any]]) -> str:
    """Counts so far, and the ratio of processor seconds."""
    fast, reference = sum(row["fast"] for row in rows), sum(row["reference"] for row in rows)
    differ = [row["number"] for row in rows if not row["same"]]
    return (
        f"{len(rows)} records, {sum(row['results'] for row in rows)} results, {len(differ)} records differ"
        f"{' ' + str(differ[:10]) if differ else ''}; reference {len(rows) / reference:.2f} records a second, "
        f"whole check with the fast engine {len(rows) / fast:.0f}: {reference / fast:.0f} x"
    )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--records", type=int, default=1000)
    parser.add_argument("--kept", type=Path, help="file that keeps what was compared, to go on from")
    parser.add_argument("--shipped", action="store_true")
    chosen = parser.parse_args()
    engine: Engine = "reference" if chosen.shipped else "reference_cached"
    assert engine in get_args(Engine)
    rows: list[dict[str, Any]] = []
    head = {"seal": seal(engine)}
    if chosen.kept and chosen.kept.exists():
        lines = chosen.kept.read_bytes().splitlines(keepends=True)
        whole = [orjson.loads(line) for line in lines if line.endswith(b"\n")]
        if whole[:1] != [head]:
            print(f"{chosen.kept} was made with other rules, code or engines; name another file.", file=sys.stderr)
            return 2
        rows = whole[1 : chosen.records + 1]
        print(f"going on after {told(rows)}" if rows else "nothing compared yet", flush=True)
    kept = chosen.kept.open("wb") if chosen.kept else None
    if kept:
        kept.write(b"".join(orjson.dumps(row) + b"\n" for row in [head, *rows]))
        kept.flush()
    spoken = time.monotonic()
    try:
        for row in track(compared(len(rows), engine), "Comparing", chosen.records - len(rows)):
            if len(rows) >= chosen.records:
                break
            rows.append(row)
            if kept:
                kept.write(orjson.dumps(row) + b"\n")
                kept.flush()
            if time.monotonic() - spoken > SPOKEN:
                spoken = time.monotonic()
                print(told(rows), flush=True)
    except KeyboardInterrupt:
        print("ended early", flush=True)
    finally:
        if kept:
            kept.close()
    if rows:
        print(told(rows))
    return 1 if any(not row["same"] for row in rows) else 0


if __name__ == "__main__":
    sys.exit(main())
