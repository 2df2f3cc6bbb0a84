"""How fast records become derived statements: python tests/bench/bench_derive.py [SECONDS]

One process, process time (``time.process_time``), never wall time, so that other work on the machine counts less.

* *full records*: invented hearts of eleven kinds (``tests/generate_records.py``), no two alike, in which further
  features of the parts are recorded until each holds 150 to 190 statements (a value at one place; ids and types do not
  count). Some features are not examined or not assessable, as in real catalogues.
* *examples*: the records of ``examples/valid``, 80 to 240 statements each, with one feature in ten not assessable.

Prints the rate of each, and the ratio to writing the same records as JSON, which holds on any machine.
"""

from __future__ import annotations

import copy
import json
import random
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import yaml

from chordae.derive import derive, explain
from chordae.model import class_slots, enum_of, tables
from chordae.shortform import expand

TOP = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(TOP / "tests"))

from generate_records import make_records

WANTED = 3000
FULL = (150, 190)


def statements(node: Any) -> int:
    """Count the values at one place, without ids and types."""
    if isinstance(node, dict):
        return sum(statements(value) for key, value in node.items() if key not in ("id", "type"))
    if isinstance(node, list):
        return sum(statements(one) for one in node)
    return 1


def full_records(number: int, chance: random.Random) -> list[dict[str, Any]]:
    """Return invented records that hold at least 150 statements each."""
    made = []
    for record, _ in make_records(number, seed=1):
        open_slots = [
            (part, name)
            for part in record["parts"]
            for name in class_slots(part["type"])
            if name not in part and enum_of(name) and tables().slots[name].range == "PresenceEnum"
        ]
        chance.shuffle(open_slots)
        wanted = chance.randint(*FULL) - statements(record)
        for part, name in open_slots[: max(wanted, 0)]:
            part[name] = chance.choices(["absent", "not_examined", "not_assessable", "present"], [80, 10, 5, 5])[0]
        if statements(record) >= FULL[0]:
            made.append(record)
    return made


def example_records(times: int, chance: random.Random) -> list[dict[str, Any]]:
    """Return copies of the examples with new ids, one word in ten of each part not assessable."""
    made = []
    for path in sorted((TOP / "examples" / "valid").glob("*.yaml")):
        loaded = yaml.safe_load(path.read_text(encoding="utf-8"))
        for record in loaded if isinstance(loaded, list) else [loaded]:
            for number in range(times):
                one = copy.deepcopy(expand(record)[0])
                one["id"] = f"{record['id']}-{number}"
                for part in one.get("parts", ()):
                    for name in [key for key in part if key not in ("id", "type", "side", "observed")]:
                        if isinstance(part[name], str) and chance.random() < 0.1:
                            part[name] = "not_assessable"
                made.append(one)
    return made


def rate(work: Callable[[Any], Any], given: list[Any], seconds: float) -> float:
    """Return how many a second, in process time, best of the rounds that fit into the time."""
    best, begun = 0.0, time.process_time()
    while time.process_time() - begun < seconds:
        start = time.process_time()
        for one in given:
            work(one)
        best = max(best, len(given) / (time.process_time() - start))
    return best


def measure(name: str, given: list[dict[str, Any]], seconds: float) -> None:
    """Measure one set of records and print."""
    counts = [statements(one) for one in given]
    parts = sum(len(one["parts"]) for one in given) / len(given)
    print(
        f"{name}: {len(given)} records, {min(counts)} to {max(counts)} statements "
        f"({sum(counts) / len(counts):.0f} on average), {parts:.1f} parts"
    )
    start = time.process_time()
    for one in given:
        derive(one)
    first = len(given) / (time.process_time() - start)
    again = rate(derive, given, seconds)
    written = rate(json.dumps, given, seconds / 4)
    print(f"  derive, seen for the first time {first:8,.0f} records a CPU second")
    print(f"  derive                          {again:8,.0f} records a CPU second (wanted {WANTED:,})")
    print(
        f"  json.dumps                      {written:8,.0f} records a CPU second: {written / again:.1f} times as fast"
    )


def main(seconds: float) -> None:
    """Measure and print."""
    full = full_records(1500, random.Random(7))
    measure("full records", full, seconds)
    measure("examples", example_records(60, random.Random(7)), seconds)
    told = [derive(one) for one in full[:300]]
    print(f"explain: {rate(explain, told, seconds / 4):,.0f} accounts a CPU second")


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 4.0)
