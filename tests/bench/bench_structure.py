"""How fast the shape of records is checked: python tests/bench/bench_structure.py [N]

Prints ratios in one run, so that they hold on any machine: our check, with references and states, against the bare
JSON Schema of LinkML (all classes of parts at once) and against the Pydantic model that LinkML writes. The best of
three runs counts.
"""

from __future__ import annotations

import copy
import importlib.util
import json
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import jsonschema_rs

from chordae.record import Reading, Record
from chordae.soundness import make_sound
from chordae.structure import check_structure, has_shape

TOP = Path(__file__).resolve().parents[2]
RUNS = 3
GENERATED = TOP / "schema" / "generated"


def rate(work: Callable[[Any], object], items: Sequence[Any]) -> float:
    """Return items a second, the best of some runs, in processor time."""
    best = float("inf")
    for _ in range(RUNS):
        begun = time.process_time()
        for item in items:
            work(item)
        best = min(best, time.process_time() - begun)
    return len(items) / best


def model() -> Any:
    """Return LinkML's Pydantic model of a record."""
    spec = importlib.util.spec_from_file_location("chordae_model", GENERATED / "chordae_model.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["chordae_model"] = module
    spec.loader.exec_module(module)
    return module.Record


def broken(record: Record) -> Record:
    """Return the record with two faults deep inside."""
    found = copy.deepcopy(record)
    found["parts"][3]["side"] = "leftt"
    found["parts"][5]["nonsense"] = "x"
    return found


def main(count: int) -> None:
    """Measure and print."""
    sys.path.insert(0, str(TOP / "tests"))
    from generate_records import make_records

    records = [record for record, _ in make_records(count, seed=1)]
    schema = json.loads((GENERATED / "chordae.schema.json").read_text(encoding="utf-8"))
    chosen = jsonschema_rs.Draft201909Validator(schema, validate_formats=True)
    readings = [Reading(record) for record in records]
    faulty = [Reading(broken(record)) for record in records]
    assert not any(check_structure(one) for one in readings)
    assert all(len(check_structure(one)) == 2 for one in faulty)
    ours = rate(check_structure, readings)
    rows = [
        ("check_structure, no fault", ours),
        ("  of this, shape alone", rate(has_shape, records)),
        ("check_structure, two faults each", rate(check_structure, faulty)),
        ("make_sound, two faults each", rate(make_sound, faulty[: count // 4])),
        ("JSON Schema, branch by if/then", rate(chosen.is_valid, records)),
        ("Pydantic model of LinkML", rate(model().model_validate, records[: count // 4])),
    ]
    print(f"{count} records of {sum(len(record['parts']) for record in records) / count:.0f} parts")
    for name, speed in rows:
        print(f"{name:34} {speed:9,.0f} records/s   {speed / ours:5.2f} of check_structure")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
