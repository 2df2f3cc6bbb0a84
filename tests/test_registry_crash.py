"""A submission is whole or not at all: killed at any step, at any moment, with a full disk, under two hands.

``tests/bench/bench_registry_kill.py`` does the same with more kills and prints figures.
"""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
import sys
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

import registry_killing
from chordae.errors import InputError
from chordae.registry import Registry, create, gate, submit
from chordae.registry.stores import open_store
from chordae.registry.verify import verify
from registry_data import BASE, deposit, environment, hearts, registry
from registry_killing import STEPS, in_clean_process, look

KILLS = 12


@pytest.fixture(scope="module")
def deposits(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("deposits")
    return [
        deposit(folder / f"d{number}", hearts(range(3), name), name)
        for number, name in enumerate(("ashdene", "birchholt", "cawood", "dunmere"))
    ]


@pytest.fixture(scope="module")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty registry whose store has the vocabulary, so that its copies need not load it."""
    folder = registry(tmp_path_factory.mktemp("empty") / "registry")
    assert look(folder) == (0, [])
    return folder


def test_killed_at_a_step(deposits: list[Path], empty: Path, tmp_path: Path) -> None:
    found = in_clean_process("at", 500, folder=empty, work=tmp_path, deposit=deposits[0], steps=STEPS)
    assert list(found) == list(STEPS)
    for step, (before, after, faults) in found.items():
        assert faults == [], step
        assert after - before == (1 if step in ("done", "load", "note") else 0), step
        assert list((tmp_path / step / "incoming").iterdir()) == [], step
        with Registry.open(tmp_path / step, write=True) as opened:
            again = submit(opened, deposits[0])
        assert again.again == (after > before), f"{step}: what was decided is known, what was not is decided now"


def test_killed_at_any_moment(deposits: list[Path], empty: Path, tmp_path: Path) -> None:
    given = {"empty": empty, "work": tmp_path / "work", "deposits": deposits}
    found = Counter(in_clean_process("chance", 500, **given, kills=KILLS, seed=8))
    assert not {one for one in found if not one.startswith(("old state", "new state", "finished"))}, found
    assert found.total() - found["finished before the kill"] == KILLS


def test_a_process_with_threads_is_not_forked() -> None:
    """It would wait for ever for the threads of the store that are not in the fork; so it is refused, and says why."""
    with ThreadPoolExecutor(1) as threads:
        threads.submit(int).result()
        with pytest.raises(AssertionError, match="cannot be forked safely"):
            registry_killing._fork(int)


@pytest.mark.parametrize("step", ["copy", "judge", "keep", "ledger"])
def test_a_full_disk_changes_nothing(step: str, deposits: list[Path], empty: Path, tmp_path: Path) -> None:
    folder = Path(shutil.copytree(empty, tmp_path / "registry"))

    def full(name: str) -> None:
        if name == step:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with Registry.open(folder, write=True) as opened:
        with pytest.raises(InputError, match="no room left"):
            submit(opened, deposits[0], step=full)
        assert opened.ledger.last() is None
    assert look(folder) == (0, [])


def test_a_disk_that_fills_up_while_writing(
    deposits: list[Path], empty: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A small file system in memory, if this machine lets one be mounted; else the sixth write fails with ENOSPC."""
    small = tmp_path / "small"
    small.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=1200k", "tmpfs", str(small)]
    mounted = (
        shutil.which("mount") and not subprocess.run(mount, capture_output=True, timeout=30, check=False).returncode
    )
    try:
        folder = small / "registry"
        create(folder, "Small", BASE)
        if not mounted:
            real, count = os.fsync, iter(range(100))

            def fsync(handle: int) -> None:
                if next(count) > 5:
                    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
                real(handle)

            monkeypatch.setattr(os, "fsync", fsync)
        with Registry.open(folder, write=True) as opened, pytest.raises(InputError, match="no room left"):
            submit(opened, deposits[0])
        monkeypatch.undo()
        with Registry.open(folder, write=True) as opened:
            assert opened.ledger.last() is None
            assert verify(opened) == []
    finally:
        if mounted:
            subprocess.run(["umount", "-l", str(small)], check=True, timeout=30)


def test_what_a_file_size_limit_breaks_is_not_there(deposits: list[Path], empty: Path, tmp_path: Path) -> None:
    """The limit of the operating system on the size of files, met by a process of its own."""
    folder = Path(shutil.copytree(empty, tmp_path / "registry"))
    code = (
        "import resource, signal, sys\n"
        "from chordae.cli import main\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (60_000, 60_000))\n"
        f"sys.exit(main(['registry', 'submit', {str(deposits[0])!r}, '--to', {str(folder)!r}]))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, env=environment(), check=False, timeout=120
    )
    assert done.returncode == 2, done.stderr
    assert "no room left" in done.stderr
    assert look(folder) == (0, [])


def test_two_do_not_write_at_once(deposits: list[Path], empty: Path, tmp_path: Path) -> None:
    folder = Path(shutil.copytree(empty, tmp_path / "registry"))
    with (
        Registry.open(folder, write=True),
        pytest.raises(InputError, match="another process"),
        Registry.open(folder, write=True),
    ):
        pass
    with Registry.open(folder) as reading:  # readers are not kept out
        assert reading.ledger.last() is None


def test_a_crash_inside_the_gate_leaves_nothing(
    deposits: list[Path], empty: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = Path(shutil.copytree(empty, tmp_path / "registry"))

    def broken(*given: object) -> None:
        raise RuntimeError("a fault of ours")

    monkeypatch.setattr(gate, "facts_of", broken)
    with Registry.open(folder, write=True) as opened, pytest.raises(RuntimeError):
        submit(opened, deposits[0])
    monkeypatch.undo()
    assert look(folder) == (0, [])


def test_the_store_can_be_made_again(deposits: list[Path], empty: Path, tmp_path: Path) -> None:
    folder = Path(shutil.copytree(empty, tmp_path / "registry"))
    with Registry.open(folder, write=True) as opened:
        for one in deposits[:2]:
            submit(opened, one)
        with open_store(opened) as store:
            assert verify(opened, store) == []
        shutil.rmtree(folder / "store")
        (folder / "store" / "seen").mkdir(parents=True)
        with open_store(opened) as store:
            assert verify(opened, store) == []
