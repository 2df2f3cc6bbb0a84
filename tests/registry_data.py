"""Deposits and registries for the tests: invented collections of generated hearts."""

from __future__ import annotations

import atexit
import json
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from chordae.exchange import exchange, find_catalogue, load_steps
from chordae.record import Record
from chordae.registry import Registry, create
from chordae.registry.stores import open_store
from generate_records import make_record

TOP = Path(__file__).resolve().parents[1]
BASE = "https://example.org/registry-a/"


def hearts(numbers: Iterable[int], collection: str, seed: int = 0, faults: float = 0.0) -> list[Record]:
    """Return generated hearts as they would stand in a collection, with the ground on which they are kept."""
    found = []
    for number in numbers:
        record, _ = make_record(number, seed, faults)
        record["collection"] = collection
        record["specimen"] |= {"consent": "historic", "material": "heart_lung_block"}
        if number % 3 == 0:
            record["specimen"].pop("age_group", None)  # a weight without an age is a warning
        found.append(record)
    return found


def deposit(folder: Path, records: Iterable[Mapping[str, Any]], collection: str = "aldermoor", **about: str) -> Path:
    """Write a deposit of records, as ``chordae exchange`` does."""
    source = folder.with_name(f"{folder.name}.source")
    source.mkdir(parents=True)
    (source / "hearts.ndjson").write_text("".join(json.dumps(one) + "\n" for one in records), encoding="utf-8")
    said = {
        "id": collection,
        "name": f"Invented collection {collection}",
        "base_iri": f"https://example.org/{collection}/record/",
        "custodian": "An invented museum",
        "licence": "CC-BY-4.0",
        **about,
    }
    lines = "".join(f"{key}: {json.dumps(value)}\n" for key, value in said.items() if value)
    (source / "collection.yaml").write_text(lines, encoding="utf-8")
    catalogue = find_catalogue(source / "hearts.ndjson")
    exchange(catalogue, folder, load_steps(catalogue.base))
    return folder


def registry(folder: Path, refuse_on: str = "violation", name: str = "Invented registry", base: str = BASE) -> Path:
    """Make an empty registry; its store has the vocabulary already."""
    create(folder, name, base)
    shutil.copytree(_empty_store(), folder / "store", dirs_exist_ok=True)
    profile = folder / "profile.yaml"
    text = profile.read_text(encoding="utf-8").replace("refuse_on: violation", f"refuse_on: {refuse_on}")
    profile.write_text(text, encoding="utf-8")
    return folder


@cache
def _empty_store() -> Path:
    """Load the vocabulary once in this process."""
    top = tempfile.TemporaryDirectory(prefix="chordae-tests-")
    atexit.register(top.cleanup)
    folder = Path(top.name) / "registry"
    create(folder, "None", BASE)
    with Registry.open(folder, write=True) as opened, open_store(opened):
        pass
    return folder / "store"


def only_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Allow connections to this machine, and refuse all others."""
    real = socket.socket.connect

    def connect(self: socket.socket, address: Any) -> None:
        if self.family != socket.AF_UNIX and str(address[0]) not in ("127.0.0.1", "::1", "localhost"):
            raise AssertionError(f"a test tried to connect to {address!r}")
        real(self, address)

    monkeypatch.setattr(socket.socket, "connect", connect)


def free_port() -> int:
    """Return a port that nothing listens on."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


@contextmanager
def served(folder: Path, *options: str) -> Iterator[str]:
    """Serve a registry in a process of its own; yields its address."""
    port = free_port()
    command = [sys.executable, "-m", "chordae", "registry", "serve", str(folder), "--port", str(port), *options]
    with (folder / "service.log").open("wb") as log:
        process = subprocess.Popen(command, stderr=log, stdout=log, env=environment())
    try:
        address = f"http://127.0.0.1:{port}"
        await_answer(f"{address}/health", process)
        yield address
    finally:
        ended = end(process)
    assert ended, f"the service did not end by itself: {(folder / 'service.log').read_text()[-2000:]}"


def end(process: subprocess.Popen[bytes], seconds: float = 30) -> bool:
    """End a process; returns whether it ended when it was asked to. Never waits longer."""
    process.terminate()
    try:
        process.wait(timeout=seconds)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait(timeout=seconds)
        return False
    return True


def environment(**more: str) -> dict[str, str]:
    """Return the environment in which a process finds the package of this checkout."""
    import os

    return {**os.environ, "PYTHONPATH": str(TOP / "converters"), **more}


def await_answer(address: str, process: subprocess.Popen[bytes], seconds: float = 120) -> None:
    """Wait until an address answers."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        assert process.poll() is None, "the process has ended"
        try:
            with urllib.request.urlopen(address, timeout=2):  # noqa: S310 - an address on this machine
                return
        except OSError:
            time.sleep(0.05)
    raise AssertionError(f"{address} does not answer")
