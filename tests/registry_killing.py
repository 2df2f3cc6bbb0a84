"""Submit deposits in a process that is killed, and look each time whether the old or the new state is there.

``chance(...)`` kills at random moments; ``at(...)`` at a named step. The processes are forks of this one, which never
opens the store itself.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

import orjson

from chordae.registry import Registry, submit
from chordae.registry.stores import follow, open_store
from chordae.registry.verify import verify

__all__ = ["at", "chance", "look", "time_of_one"]

STEPS = ("copy", "judge", "keep", "ledger", "done", "load", "note")


def _child(folder: Path, deposit: Path, step: str = "") -> int:
    """Begin a process that submits; returns its number. It kills itself at ``step``."""
    process = os.fork()
    if process:
        return process
    try:

        def reached(name: str) -> None:
            if name == step:
                os.kill(os.getpid(), signal.SIGKILL)

        with Registry.open(folder, write=True) as registry:
            submit(registry, deposit, agent="test", step=reached)
            if step in ("load", "note"):
                from chordae.registry import stores

                embedded = stores.Embedded(registry.folder / "store" / "live")
                if step == "note":
                    embedded.note = lambda *given: reached("note")  # type: ignore[method-assign]
                follow(registry, embedded, lambda entry: reached("load"))
            with open_store(registry):
                pass
        os._exit(0)
    except BaseException as error:
        os.write(2, f"{type(error).__name__}: {error}\n".encode())
        os._exit(3)


def look(folder: Path) -> tuple[int, list[str]]:
    """Return the number of lines and the faults of a registry, found by a process of its own."""
    read, write = os.pipe()
    process = os.fork()
    if not process:
        try:
            with Registry.open(folder, write=True) as registry, open_store(registry) as store:
                found = (len(registry.ledger.entries()), verify(registry, store))
        except BaseException as error:
            found = (-1, [f"{type(error).__name__}: {error}"])
        os.write(write, orjson.dumps(found))
        os._exit(0)
    os.close(write)
    with os.fdopen(read, "rb") as stream:
        lines, faults = orjson.loads(stream.read())
    os.waitpid(process, 0)
    return int(lines), list(faults)


def time_of_one(folder: Path, deposit: Path) -> float:
    """Return the seconds that one whole submission takes."""
    begun = time.monotonic()
    status = os.waitpid(_child(folder, deposit), 0)[1]
    assert status == 0, "the submission itself failed"
    return time.monotonic() - begun


def at(folder: Path, deposit: Path, step: str) -> tuple[int, int, list[str]]:
    """Kill at a step; returns the lines before and after, and the faults after."""
    before = look(folder)[0]
    status = os.waitpid(_child(folder, deposit, step), 0)[1]
    assert os.WIFSIGNALED(status), f"the process was not killed at {step}"
    lines, faults = look(folder)
    return before, lines, faults


def chance(empty: Path, work: Path, deposits: Sequence[Path], kills: int, seed: int) -> Counter[str]:
    """Kill at random moments, and count what was found; anything but old and new is listed under its fault."""
    rng = random.Random(seed)
    assert look(empty) == (0, [])  # loads the vocabulary once, so that every copy has it
    found: Counter[str] = Counter()
    folder = work / "first"
    shutil.copytree(empty, folder)
    seconds = time_of_one(folder, deposits[0])
    fresh, waiting = 0, list(deposits[1:])
    before = 1
    while found.total() - found["finished before the kill"] < kills:
        if not waiting:
            fresh += 1
            folder = work / f"fresh-{fresh}"
            shutil.copytree(empty, folder)
            waiting, before = list(deposits), 0
        process = _child(folder, waiting[0])
        time.sleep(rng.uniform(0, seconds * 1.05))
        os.kill(process, signal.SIGKILL)
        finished = not os.WIFSIGNALED(os.waitpid(process, 0)[1])
        left = [one.name for one in (folder / "incoming").iterdir()]
        lines, faults = look(folder)
        state = "new" if lines == before + 1 else "old" if lines == before else f"{lines} lines after {before}"
        if faults:
            found[f"fault: {faults[0]}"] += 1
        elif finished and state == "new":
            found["finished before the kill"] += 1
        else:
            found[f"{state} state{', with leftovers to sweep' if left and state == 'old' else ''}"] += 1
        if state != "old":
            waiting.pop(0)
        before = lines
    return found
