"""The store of a registry on SPARQL 1.1 servers: Oxigraph's server, and Virtuoso with digest authentication.

Both are other people's programs: ``oxigraph`` from PyPI, ``virtuoso-opensource-7-bin`` from Debian. Answers to the
ready questions are compared with those of the embedded store.
"""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import orjson
import pytest

from chordae.errors import InputError
from chordae.registry import Registry, submit
from chordae.registry.ask import Asker
from chordae.registry.remote import PASSWORD, Remote
from chordae.registry.stores import frozen_view, open_store
from chordae.registry.verify import verify
from registry_data import await_answer, deposit, end, free_port, hearts, only_here, registry

TOOL = shutil.which("oxigraph") or str(Path(__import__("sys").executable).with_name("oxigraph"))
VIRTUOSO = shutil.which("virtuoso-t")
ASKED = ("counts", "disagreements", "coding_coverage", "not_determined", "hearts_with_connections")


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only this machine, in place of the fixture that allows nothing."""
    only_here(monkeypatch)


@pytest.fixture(scope="module")
def deposits(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    top = tmp_path_factory.mktemp("deposits")
    return [
        deposit(top / "one", hearts(range(5), "aldermoor")),
        deposit(top / "two", hearts(range(20, 23), "birchholt"), "birchholt"),
        deposit(top / "three", hearts(range(1, 6), "aldermoor")),
    ]


@pytest.fixture
def oxigraph(tmp_path: Path) -> Iterator[dict[str, str]]:
    if not Path(TOOL).exists():
        pytest.skip("the server of Oxigraph is not installed (pip install oxigraph, in the extra 'test')")
    port = free_port()
    command = [TOOL, "serve", "--location", str(tmp_path / "oxigraph"), "--bind", f"127.0.0.1:{port}"]
    with (tmp_path / "log").open("wb") as log:
        process = subprocess.Popen(command, stdout=log, stderr=log)
    base = f"http://127.0.0.1:{port}"
    try:
        await_answer(f"{base}/", process)
        yield {"query": f"{base}/query", "update": f"{base}/update", "graphs": f"{base}/store"}
    finally:
        end(process)


@pytest.fixture
def virtuoso(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[dict[str, str]]:
    if VIRTUOSO is None:
        pytest.skip("Virtuoso is not on this machine (apt-get install virtuoso-opensource-7-bin)")
    port, web = free_port(), free_port()
    folder = tmp_path / "virtuoso"
    folder.mkdir()
    (folder / "virtuoso.ini").write_text(
        f"[Database]\nDatabaseFile={folder}/v.db\nErrorLogFile={folder}/v.log\nLockFile={folder}/v.lck\n"
        f"TransactionFile={folder}/v.trx\nxa_persistent_file={folder}/v.pxa\nMaxCheckpointRemap=2000\n"
        f"[TempDatabase]\nDatabaseFile={folder}/t.db\nTransactionFile={folder}/t.trx\nMaxCheckpointRemap=2000\n"
        f"[Parameters]\nServerPort=127.0.0.1:{port}\nServerThreads=10\nNumberOfBuffers=10000\nMaxDirtyBuffers=6000\n"
        f"DirsAllowed={folder}\n[HTTPServer]\nServerPort=127.0.0.1:{web}\nServerThreads=5\nServerRoot={folder}\n"
        "[SPARQL]\nResultSetMaxRows=1000000\nMaxQueryExecutionTime=60\n",
        encoding="utf-8",
    )
    with (folder / "out").open("wb") as log:
        process = subprocess.Popen(
            [VIRTUOSO, "+foreground", "+configfile", str(folder / "virtuoso.ini")], cwd=folder, stdout=log, stderr=log
        )
    base = f"http://127.0.0.1:{web}"
    try:
        await_answer(f"{base}/sparql?query=ASK%20%7B%7D", process, 240)
        monkeypatch.setenv(PASSWORD, "dba")
        yield {
            "query": f"{base}/sparql-auth",
            "update": f"{base}/sparql-auth",
            "graphs": f"{base}/sparql-graph-crud-auth",
            "login": "digest",
            "user": "dba",
        }
    finally:
        end(process)


def with_server(folder: Path, server: dict[str, str]) -> Path:
    """Give a registry that had an embedded store a server: its old views must not be asked any more."""
    with Registry.open(folder) as opened:
        assert frozen_view(opened), "as of a registry that was used before"
    about = orjson.loads((folder / "registry.json").read_bytes())
    (folder / "registry.json").write_bytes(orjson.dumps({**about, "server": server}))
    return folder


def answers(folder: Path) -> dict[str, Any]:
    with Registry.open(folder) as opened, Asker.of(opened) as asking:
        found = {}
        for name in ASKED:
            data = asking.question(name, {}, "csv", seconds=120).data.decode()
            found[name] = sorted(map(tuple, csv.reader(io.StringIO(data))))
        return found


@pytest.mark.parametrize("kind", ["oxigraph", "virtuoso"])
def test_a_server_holds_what_the_embedded_store_holds(
    kind: str, deposits: list[Path], tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    server = request.getfixturevalue(kind)
    own = registry(tmp_path / "own")
    other = with_server(registry(tmp_path / "other"), server)
    for folder in (own, other):
        with Registry.open(folder, write=True) as opened:
            for one in deposits[:2]:
                submit(opened, one)
            with open_store(opened) as store:
                assert verify(opened, store) == []
            submit(opened, deposits[2])
            with open_store(opened) as store:
                assert verify(opened, store) == []
    here, there = answers(own), answers(other)
    skipped = {"not_determined"}  # SAMPLE may give any of the reasons
    assert {name: rows for name, rows in here.items() if name not in skipped} == {
        name: rows for name, rows in there.items() if name not in skipped
    }
    assert [row[:2] for row in here["not_determined"]] == [row[:2] for row in there["not_determined"]]
    assert here["counts"][:2] == [("aldermoor", "5", "5"), ("birchholt", "3", "3")]


def test_a_load_that_is_broken_off_is_done_again(
    oxigraph: dict[str, str], deposits: list[Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = with_server(registry(tmp_path / "r"), oxigraph)
    with Registry.open(folder, write=True) as opened:
        submit(opened, deposits[0])
        real, calls = Remote.replace, iter(range(1000))

        def breaking(self: Remote, graph: str, triples: bytes) -> None:
            if next(calls) == 0:
                raise InputError("the line went dead")
            real(self, graph, triples)

        monkeypatch.setattr(Remote, "replace", breaking)
        with pytest.raises(InputError, match="went dead"), open_store(opened):
            pass
        with open_store(opened) as store:
            assert verify(opened, store) == []


def test_a_server_that_does_not_answer(deposits: list[Path], tmp_path: Path) -> None:
    address = f"http://127.0.0.1:{free_port()}"
    server = {name: f"{address}/{name}" for name in ("query", "update", "graphs")}
    folder = with_server(registry(tmp_path / "r"), server)
    begun = time.monotonic()
    with Registry.open(folder, write=True) as opened:
        assert submit(opened, deposits[0]).entry.accepted, "the ledger does not need the store"
        with pytest.raises(InputError, match="cannot be reached"), open_store(opened):
            pass
    assert time.monotonic() - begun < 30
    with pytest.raises(InputError, match="no address"):
        Remote.of(dict.fromkeys(server, "file:///etc/passwd"))
