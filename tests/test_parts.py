"""Catalogues in many parts: here, on two workers, on a scheduler, with a worker killed: always the same results.

What is compared with: ``chordae check`` and ``chordae exchange`` on the same records in one file.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any

import orjson
import pytest

from chordae.cli import main
from chordae.errors import FormatError, InputError
from chordae.exchange import exchange, find_catalogue, load_steps
from chordae.parts import Slice, Spread, check_parts, exchange_parts, is_parts, plan, spread
from chordae.parts import check as module
from chordae.parts.plan import lines_of
from registry_data import environment, free_port, hearts, only_here

SMALL = 40_000
SAID = {"id": "aldermoor", "name": "Invented", "base_iri": "https://example.org/a/", "licence": "CC-BY-4.0"}


@pytest.fixture(autouse=True)
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only this machine, in place of the fixture that allows nothing."""
    only_here(monkeypatch)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One part with hearts, contradictions, an empty line, a broken line and a record without an id."""
    top = tmp_path_factory.mktemp("parts") / "hearts"
    top.mkdir()
    lines = [json.dumps(one) for one in hearts(range(60), "aldermoor", faults=0.3)]
    lines[10:10] = ["", "{broken", '{"no": "id"}']
    (top / "hearts.ndjson").write_text("\n".join(lines) + "\n", encoding="utf-8")
    (top / "collection.yaml").write_text("".join(f"{key}: {value}\n" for key, value in SAID.items()), encoding="utf-8")
    return top


def found_by(result: Any) -> list[dict[str, Any]]:
    return [orjson.loads(line) for line in result.issues.read_bytes().splitlines()]


# --- the plan -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [1, 50, 7_000, 40_000, 10**9])
def test_a_plan_cuts_no_line_and_loses_none(folder: Path, size: int) -> None:
    whole = (folder / "hearts.ndjson").read_bytes()
    slices = plan(folder, size)
    assert b"".join(line for one in slices for line in lines_of(one)) == whole
    first = 1
    for one in slices:
        assert one.first == first
        first += len(list(lines_of(one)))


def test_what_is_a_folder_of_parts(folder: Path, tmp_path: Path) -> None:
    assert is_parts(folder)
    examples = Path(__file__).parents[1] / "examples"
    assert not is_parts(examples / "veyhaven") and not is_parts(examples) and not is_parts(folder / "hearts.ndjson")
    with pytest.raises(InputError, match="no parts"):
        plan(tmp_path)
    (tmp_path / "a.ndjson").symlink_to("/etc/passwd")
    with pytest.raises(InputError, match="link"):
        plan(tmp_path)


def test_parquet_gives_what_ndjson_gives(folder: Path, tmp_path: Path) -> None:
    pyarrow = pytest.importorskip("pyarrow", reason="the extra 'cluster' is not installed")
    from pyarrow import parquet

    lines = [line for line in (folder / "hearts.ndjson").read_text().splitlines() if line.startswith('{"id"')]
    one, other = tmp_path / "one", tmp_path / "other"
    one.mkdir()
    other.mkdir()
    (one / "hearts.ndjson").write_text("\n".join(lines) + "\n")
    parquet.write_table(pyarrow.table({"record": lines}), other / "hearts.parquet", row_group_size=17)
    here, there = check_parts(one, tmp_path / "w1", size=SMALL), check_parts(other, tmp_path / "w2")
    assert there.slices == 4
    assert (here.records, here.rules, here.tested) == (there.records, there.rules, there.tested)
    bare = [{**issue, "location": None} for issue in found_by(here)]
    assert bare == [{**issue, "location": None} for issue in found_by(there)]
    for name, data in (("bad.parquet", b"no parquet"), ("wrong.parquet", None)):
        bad = tmp_path / name
        bad.mkdir()
        if data is None:
            parquet.write_table(pyarrow.table({"other": ["x"]}), bad / "x.parquet")
        else:
            (bad / "x.parquet").write_bytes(data)
        with pytest.raises(InputError, match=r"Parquet|column"):
            check_parts(bad, tmp_path / "w3")


# --- the same results -----------------------------------------------------------------------------------------------


def test_slices_give_what_one_file_gives(folder: Path, tmp_path: Path, capsysbinary: Any) -> None:
    assert main(["check", str(folder / "hearts.ndjson"), "--report", "json", "--fail-on", "never"]) == 0
    whole = orjson.loads(capsysbinary.readouterr().out)
    result = check_parts(folder, tmp_path / "work", size=SMALL)
    assert result.slices > 3
    found = found_by(result)
    for one in [*whole, *found]:
        one["location"]["file"] = Path(one["location"]["file"] or "").name
    key = orjson.dumps
    assert sorted(map(key, found)) == sorted(map(key, whole))
    assert result.records == 60


def test_two_workers_give_what_one_process_gives(folder: Path, tmp_path: Path) -> None:
    pytest.importorskip("distributed", reason="the extra 'cluster' is not installed")
    here = check_parts(folder, tmp_path / "here", size=SMALL)
    there = check_parts(folder, tmp_path / "there", size=SMALL, cluster="local:2")
    assert there.issues.read_bytes() == here.issues.read_bytes()
    assert (there.records, there.tested, there.untested) == (here.records, here.tested, here.untested)


def test_a_deposit_of_parts_is_that_of_one_file(folder: Path, tmp_path: Path) -> None:
    catalogue = find_catalogue(folder / "hearts.ndjson")
    exchange(catalogue, tmp_path / "one", load_steps(catalogue.base), copy_source=False)
    exchange_parts(folder, tmp_path / "many", tmp_path / "work", catalogue.collection, size=SMALL)
    names, others = (
        sorted(one.relative_to(top) for one in top.rglob("*") if one.is_file())
        for top in (tmp_path / "one", tmp_path / "many")
    )
    assert names == others
    for name in names:
        assert (tmp_path / "many" / name).read_bytes() == (tmp_path / "one" / name).read_bytes(), name


def test_what_records_of_different_slices_say_of_each_other(tmp_path: Path) -> None:
    """Two descriptions of each specimen, in two parts, and one id twice: found whatever the slices and the workers."""
    top = tmp_path / "pairs"
    top.mkdir()
    for name, word in (("a", "concordant"), ("b", "discordant")):
        records = [
            {
                "id": f"{name}{number}",
                "specimen": {"accession": str(number)},
                "description": {"observer": name},
                "stated": {"av_connection": word},
            }
            for number in range(6)
        ]
        records.append({"id": "twice", "stated": {"va_connection": word}})
        (top / f"{name}.ndjson").write_text("".join(json.dumps(one) + "\n" for one in records), encoding="utf-8")
    found = []
    for name, size, cluster in (("few", 10**6, ""), ("many", 1, ""), ("two", 200, "local:2")):
        made = exchange_parts(top, tmp_path / name, tmp_path / f"work-{name}", SAID, size=size, cluster=cluster)
        found.append({one.name: one.read_bytes() for one in sorted(made.folder.rglob("*")) if one.is_file()})
        issues = orjson.loads((made.folder / "data/issues.json").read_bytes())
        told = [(one["rule"], one["record"]) for one in issues if one["rule"].startswith("R-SET")]
        assert sorted(told) == [("R-SET-01", "twice"), *(("R-SET-05", f"b{number}") for number in range(6))]
        page = (made.folder / "data/report.html").read_text(encoding="utf-8")
        assert page.count("which describes the same specimen (catalogue number 3)") >= 1
        checked = check_parts(top, tmp_path / f"check-{name}", size=size)
        assert sorted(told) == sorted(
            (one["rule"], one["record"]) for one in found_by(checked) if one["rule"].startswith("R-SET")
        )
    assert found[0] == found[1] == found[2]


def test_a_scheduler_by_its_address_and_a_worker_killed(folder: Path, tmp_path: Path) -> None:
    """Dask's own command-line scheduler and two workers; one is killed with SIGKILL while it works."""
    pytest.importorskip("distributed", reason="the extra 'cluster' is not installed")
    port = free_port()
    address = f"tcp://127.0.0.1:{port}"
    base = [sys.executable, "-m", "distributed.cli"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "env": environment()}
    scheduler = subprocess.Popen(
        [*base[:2], "distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", str(port), "--no-dashboard"],
        **quiet,
    )
    workers = [
        subprocess.Popen(
            [
                *(*base[:2], "distributed.cli.dask_worker", address, "--nthreads", "1", "--no-nanny"),
                *("--no-dashboard", "--local-directory", str(tmp_path / f"w{number}")),
            ],
            **quiet,
        )
        for number in range(2)
    ]
    killed: list[int] = []

    def kill() -> None:
        slices = tmp_path / "there" / "slices"
        end = time.monotonic() + 60
        while time.monotonic() < end and not (slices.is_dir() and any(slices.glob("0*"))):
            time.sleep(0.01)
        os.kill(workers[0].pid, signal.SIGKILL)
        killed.append(len(list(slices.glob("0*"))))

    try:
        killer = threading.Thread(target=kill, daemon=True)
        killer.start()
        there = check_parts(folder, tmp_path / "there", size=6_000, cluster=address)
        killer.join(timeout=90)
    finally:
        for one in (*workers, scheduler):
            one.kill()
            one.wait(timeout=30)
    here = check_parts(folder, tmp_path / "here", size=6_000)
    assert killed and killed[0] < there.slices, "the worker was killed before all was done"
    assert there.issues.read_bytes() == here.issues.read_bytes()


def test_a_cluster_without_workers_is_given_up(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    distributed = pytest.importorskip("distributed", reason="the extra 'cluster' is not installed")
    monkeypatch.setattr(spread, "_LOOKING", 0.1)
    monkeypatch.setattr(spread, "_ALONE", 0.5)
    with (
        distributed.LocalCluster(n_workers=0, host="127.0.0.1", dashboard_address=None) as none,
        pytest.raises(InputError, match="no worker"),
    ):
        check_parts(folder, tmp_path / "work", cluster=none.scheduler_address)


def test_what_was_finished_is_not_done_again(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    done: list[int] = []
    real = module.check_slice

    def counting(one: Slice, place: Path, options: dict[str, Any]) -> dict[str, Any]:
        if len(done) == 2 and not (tmp_path / "again").exists():
            raise KeyboardInterrupt
        done.append(one.number)
        return real(one, place, options)

    monkeypatch.setattr(module, "check_slice", counting)
    with pytest.raises(KeyboardInterrupt):
        check_parts(folder, tmp_path / "work", size=SMALL)
    assert not (tmp_path / "work" / "issues.ndjson").exists()
    (tmp_path / "again").touch()
    result = check_parts(folder, tmp_path / "work", size=SMALL)
    assert done == list(range(result.slices)), "each slice once"
    assert result.issues.read_bytes() == check_parts(folder, tmp_path / "other", size=SMALL).issues.read_bytes()
    done.clear()
    os.utime(folder / "hearts.ndjson", ns=(1, 1))
    check_parts(folder, tmp_path / "work", size=SMALL)
    assert len(done) == result.slices, "a part that was touched is read again"


# --- the command line -----------------------------------------------------------------------------------------------


def test_the_commands_take_a_folder_of_parts(folder: Path, tmp_path: Path, capsysbinary: Any) -> None:
    work = str(tmp_path / "work")
    assert main(["check", str(folder), "--work", work]) == 1
    out = capsysbinary.readouterr()
    assert b"(R-" in out.out and b"60 records" in out.err
    assert main(["exchange", str(folder), "--out", str(tmp_path / "d"), "--work", work, "--fail-on", "never"]) == 0
    assert main(["check", str(tmp_path / "d"), "--fail-on", "never"]) == 0
    assert main(["check", str(folder / "hearts.ndjson"), "--cluster", "local"]) == 2
    assert main(["check", str(folder), "--work", work, "--cluster", "nowhere"]) == 2
    assert "Traceback" not in capsysbinary.readouterr().err.decode()


@pytest.mark.parametrize("cluster", ["nonsense", "local:0", "local:x"])
def test_a_cluster_that_is_none(cluster: str, folder: Path, tmp_path: Path) -> None:
    pytest.importorskip("distributed", reason="the extra 'cluster' is not installed")
    with pytest.raises(FormatError):
        list(Spread(cluster).run(module.check_slice, plan(folder), tmp_path, "x", {"profile": ""}, "x"))
