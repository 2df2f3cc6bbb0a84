"""Submit deposits in processes that are killed, and look each time whether the old or the new state is there.

::

    in_clean_process("at", 500, folder=..., work=..., deposit=..., steps=[...])   -> {step: (before, after, faults)}
    in_clean_process("chance", 500, empty=..., work=..., deposits=[...], kills=..., seed=...)    -> {state: times}

Both run in a new process that forks. It never opens a store and has one thread: a fork of a process that has opened
one (as pytest has, when another test did) lacks the threads of the store, and waits for them without end. Each fork is
ended by the operating system after ``LONGEST`` seconds, whatever it waits for.
"""

from __future__ import annotations

import contextlib
import os
import random
import shutil
import signal
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

import orjson

from chordae.registry import Registry, submit
from chordae.registry.stores import Embedded, follow, open_store
from chordae.registry.verify import verify

__all__ = ["LONGEST", "STEPS", "in_clean_process", "look"]

STEPS = ("copy", "judge", "keep", "ledger", "done", "load", "note")
LONGEST = 180
"""Seconds that one submission, or one look, may take."""


def in_clean_process(name: str, seconds: float, **given: Any) -> Any:
    """Run ``at`` or ``chance`` in a new process.

    Parameters
    ----------
    seconds
        Time after which it is ended and the test fails.
    given
        Passed on; plain data and paths.
    """
    top = Path(__file__).resolve().parents[1]
    places = os.pathsep.join([str(top / "converters"), str(top / "tests")])
    told = orjson.dumps([name, given], default=str)
    try:
        done = subprocess.run(
            [sys.executable, __file__],
            input=told,
            capture_output=True,
            timeout=seconds,
            env={**os.environ, "PYTHONPATH": places},
            check=False,
        )
    except subprocess.TimeoutExpired as late:
        said = (late.stderr or b"").decode(errors="replace")
        raise AssertionError(f"{name} was not done after {seconds:g} seconds: {said[-2000:]}") from None
    assert done.returncode == 0, done.stderr.decode(errors="replace")[-4000:]
    return orjson.loads(done.stdout)


def look(folder: Path) -> tuple[int, list[str]]:
    """Return the number of lines and the faults of a registry."""
    try:
        with Registry.open(folder, write=True) as registry, open_store(registry) as store:
            return len(registry.ledger.entries()), verify(registry, store)
    except Exception as error:
        return -1, [f"{type(error).__name__}: {error}"]


def at(folder: Path, work: Path, deposit: Path, steps: Sequence[str]) -> dict[str, tuple[int, int, list[str]]]:
    """Kill at each step, in a copy of a registry each; the copies stand in ``work``, under the names of the steps."""
    found = {}
    for step in steps:
        copy = work / step
        shutil.copytree(folder, copy)
        before = _look(copy)[0]
        status = _ended(_fork(partial(_submit, copy, deposit, step)))
        assert os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGKILL, f"not killed at {step}: {status}"
        found[step] = (before, *_look(copy))
    return found


def chance(empty: Path, work: Path, deposits: Sequence[Path], kills: int, seed: int) -> Counter[str]:
    """Kill at random moments of processor time, and count what was found: old, new, or the fault that was seen."""
    rng = random.Random(seed)
    assert _look(empty) == (0, [])  # loads the vocabulary once, so that every copy has it
    found: Counter[str] = Counter()
    folder = work / "first"
    shutil.copytree(empty, folder)
    _, status, used = os.wait4(_fork(partial(_submit, folder, deposits[0])), 0)
    assert status == 0, "the submission itself failed"
    seconds = used.ru_utime + used.ru_stime
    fresh, waiting = 0, list(deposits[1:])
    before = 1
    while found.total() - found["finished before the kill"] < kills:
        assert found.total() < 20 * kills + 20, f"too few are killed before they end: {found}"
        if not waiting:
            fresh += 1
            folder = work / f"fresh-{fresh}"
            shutil.copytree(empty, folder)
            waiting, before = list(deposits), 0
        process = _fork(partial(_submit, folder, waiting[0]))
        _kill(process, rng.uniform(0, seconds * 1.02))
        finished = not os.WIFSIGNALED(_ended(process))
        left = [one.name for one in (folder / "incoming").iterdir()]
        lines, faults = _look(folder)
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


def _kill(process: int, seconds: float) -> None:
    """Kill a process after so many processor seconds of its own: a moment that a busy machine does not shift."""
    clock = (~process << 3) | 2  # the processor clock of a process, as clock_getcpuclockid(3) makes it on Linux
    while os.waitid(os.P_PID, process, os.WEXITED | os.WNOHANG | os.WNOWAIT) is None:
        with contextlib.suppress(OSError):  # it ended just now
            if time.clock_gettime(clock) >= seconds:
                os.kill(process, signal.SIGKILL)
                return
        time.sleep(0.001)


def _submit(folder: Path, deposit: Path, step: str = "") -> None:
    """Submit, and bring the store up to the ledger; the process kills itself at ``step``."""

    def reached(name: str) -> None:
        if name == step:
            os.kill(os.getpid(), signal.SIGKILL)

    with Registry.open(folder, write=True) as registry:
        submit(registry, deposit, agent="test", step=reached)
        if step in ("load", "note"):
            embedded = Embedded(registry.folder / "store" / "live")
            if step == "note":
                embedded.note = lambda *given: reached("note")  # type: ignore[method-assign]  # the step to die at
            follow(registry, embedded, lambda entry: reached("load"))
        with open_store(registry):
            pass


def _look(folder: Path) -> tuple[int, list[str]]:
    """``look`` in a fork."""
    read, write = os.pipe()
    process = _fork(lambda: os.write(write, orjson.dumps(look(folder))))
    os.close(write)
    with os.fdopen(read, "rb") as stream:
        told = stream.read()
    status = _ended(process)
    assert status == 0 and told, f"looking ended with {status}; signal {signal.SIGALRM} means that it waited too long"
    lines, faults = orjson.loads(told)
    return int(lines), list(faults)


def _fork(work: Callable[[], object]) -> int:
    """Begin a process that does this; returns its number."""
    tasks = Path("/proc/self/task")
    threads = sum(1 for _ in tasks.iterdir()) if tasks.is_dir() else 1
    assert threads == 1, f"a process with {threads} threads cannot be forked safely"
    process = os.fork()
    if process:
        return process
    try:
        signal.signal(signal.SIGALRM, signal.SIG_DFL)
        signal.alarm(LONGEST)
        work()
        os._exit(0)
    except BaseException as error:
        os.write(2, f"{type(error).__name__}: {error}\n".encode())
        os._exit(3)


def _ended(process: int) -> int:
    """Return how a fork ended; its alarm bounds the wait."""
    return os.waitpid(process, 0)[1]


def main() -> int:
    """Do what standard input says."""
    name, given = orjson.loads(sys.stdin.buffer.read())
    for key in ("folder", "deposit", "empty", "work"):
        if key in given:
            given[key] = Path(given[key])
    if "deposits" in given:
        given["deposits"] = [Path(one) for one in given["deposits"]]
    sys.stdout.buffer.write(orjson.dumps({"at": at, "chance": chance}[name](**given)))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
