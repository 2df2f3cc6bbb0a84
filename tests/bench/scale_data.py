"""Generated hearts in any number, written once and kept: what the benches of scale work on.

The hearts are 2,000 generated ones, written again and again under new numbers, 50,000 in a file.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Any

TOP = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(TOP / "converters"), str(TOP / "tests")]

__all__ = ["PART", "TEMPLATES", "TOP", "parts", "run_apart", "write_hearts"]

TEMPLATES = 2_000
PART = 50_000
"""Hearts of a file."""


def write_hearts(path: Path, size: int, collection: str = "invented", begin: int = 0, changed: int = 0) -> None:
    """Write hearts as NDJSON; the first ``changed`` ones are described as their neighbour is."""
    texts = _templates(min(size + changed, TEMPLATES), collection)
    aside = path.with_suffix(".writing")
    with aside.open("w", encoding="utf-8") as out:
        for number in range(size):
            text = texts[(number + (number < changed)) % len(texts)]
            name = begin + number
            out.write(text.replace("@@ID", f"H-{name:08d}").replace("@@NO", f"{name:08d}"))
    aside.replace(path)


def parts(top: Path, size: int) -> Path:
    """Return a folder with that many hearts; the files of the largest one are shared by all."""
    shared, folder = top / "parts", top / f"hearts-{size}"
    shared.mkdir(parents=True, exist_ok=True)
    folder.mkdir(exist_ok=True)
    for number in range(-(-size // PART)):
        count = min(PART, size - number * PART)
        one = shared / f"part-{number:04d}-{count}.ndjson"
        if not one.exists():
            write_hearts(one, count, begin=number * PART)
        link = folder / f"part-{number:04d}.ndjson"
        if not link.exists():
            os.link(one, link)
    return folder


def run_apart(script: Path, *words: str) -> dict[str, Any]:
    """Run a script in a process of its own, so that its peak memory is its own; it prints one JSON object last."""
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(TOP / "converters"), str(TOP / "tests")])}
    done = subprocess.run(
        [sys.executable, str(script), *words], stdout=subprocess.PIPE, text=True, env=environment, check=False
    )
    if done.returncode:
        raise SystemExit(done.returncode)
    found: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return found


def fresh(folder: Path) -> Path:
    """Return the folder, empty."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    return folder


@cache
def _templates(size: int, collection: str) -> list[str]:
    from registry_data import hearts

    texts = []
    for number, one in enumerate(hearts(range(size), collection, faults=0.01)):
        one["id"], one["specimen"]["accession"] = "@@ID", "@@NO"
        one["evidence"][0] |= {"source_file": f"plate_{number}.jpg", "shows": [{"part": "right_sided_atrium"}]}
        texts.append(json.dumps(one) + "\n")
    return texts
