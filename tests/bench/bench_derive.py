"""How fast records become derived statements: python tests/bench/bench_derive.py [SECONDS]

Full records of the examples (18 to 27 parts each), one core, process time. Each round gives every record new ids and
another order of its features, so that nothing rests on seeing the same object twice. Prints the rate, the share of each
step, and the ratio to writing the same records as JSON, which holds on any machine.
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
from chordae.shortform import expand

TOP = Path(__file__).resolve().parents[2]
WANTED = 3000


def records() -> list[dict[str, Any]]:
    """Return the full records of the examples."""
    found = []
    for path in sorted((TOP / "examples" / "valid").glob("*.yaml")):
        loaded = yaml.safe_load(path.read_text(encoding="utf-8"))
        found += loaded if isinstance(loaded, list) else [loaded]
    return [expand(one)[0] for one in found]


def varied(given: list[dict[str, Any]], times: int, chance: random.Random) -> list[dict[str, Any]]:
    """Return copies with new ids; in each, one feature in ten of each part is left out or not assessable."""
    made = []
    for number in range(times):
        for record in given:
            one = copy.deepcopy(record)
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


def main(seconds: float) -> None:
    """Measure and print."""
    plain = records()
    many = varied(plain, 60, random.Random(7))
    parts = sum(len(one["parts"]) for one in many) / len(many)
    print(f"records           {len(many)} of {parts:.1f} parts on average")
    for one in many:
        derive(one)
    fresh = rate(derive, many, seconds)
    print(f"derive            {fresh:10,.0f} records/s a core (wanted {WANTED:,})")
    written = rate(json.dumps, many, seconds / 4)
    ratio = written / fresh
    print(f"json.dumps        {written:10,.0f} records/s of the same records; derive takes {ratio:.1f} times that")
    told = [derive(one) for one in many[:300]]
    print(f"explain           {rate(explain, told, seconds / 4):10,.0f} accounts/s")


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 4.0)
