"""Deposits: what was sealed verifies; anything changed, missing, added, linked or leading out is named.

Outside checks: GNU ``sha256sum -c`` on the written lists, and the validation of the ``bagit`` library.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import bagit
import orjson
import pytest

from chordae import deposit
from chordae.deposit.versions import PIECES, versions
from chordae.errors import InputError

RECORDS = b'{"id":"a"}\n{"id":"b"}\n'


@pytest.fixture
def sealed(tmp_path: Path) -> Path:
    folder = tmp_path / "deposit"
    (folder / "source").mkdir(parents=True)
    (folder / "records.ndjson").write_bytes(RECORDS)
    (folder / "versions.json").write_bytes(orjson.dumps(versions()))
    (folder / "report.json").write_bytes(b'{"records": 2}')
    (folder / "source" / "hearts.csv").write_text("No\n1\n2\n", encoding="utf-8")
    deposit.seal(folder, {"Source-Organization": "An invented\nmuseum", "Contact-Name": " "}, "Read me.\n")
    return folder


def _rules(folder: Path) -> list[tuple[str, str | None]]:
    return [(one.rule, one.value) for one in deposit.verify(folder)]


def test_what_was_sealed_verifies(sealed: Path) -> None:
    assert deposit.is_deposit(sealed)
    assert deposit.records_file(sealed).read_bytes() == RECORDS
    assert deposit.verify(sealed) == []


def test_other_programs_agree(sealed: Path) -> None:
    if shutil.which("sha256sum") is None:
        pytest.skip("sha256sum is not on this machine; the bagit library alone is asked")
    for name in ("manifest-sha256.txt", "tagmanifest-sha256.txt"):
        run = subprocess.run(
            ["sha256sum", "--strict", "-c", name], cwd=sealed, capture_output=True, check=False
        )
        assert run.returncode == 0, run.stdout


def test_the_library_reads_version_1_0(sealed: Path) -> None:
    bag = bagit.Bag(str(sealed))
    assert bag.validate()
    assert bag.version_info == (1, 0)
    assert bag.info["Source-Organization"] == "An invented museum"
    assert "Contact-Name" not in bag.info
    assert "Bagging-Date" not in bag.info


def test_a_date_only_when_it_is_given(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    (tmp_path / "one").mkdir()
    deposit.seal(tmp_path / "one", {}, "")
    assert bagit.Bag(str(tmp_path / "one")).info["Bagging-Date"] == "1970-01-02"


def _tamper(folder: Path) -> None:
    (folder / "data/records.ndjson").write_bytes(RECORDS.replace(b"b", b"c"))


def _truncate(folder: Path) -> None:
    (folder / "data/records.ndjson").write_bytes(RECORDS[:11])


def _remove(folder: Path) -> None:
    (folder / "data/source/hearts.csv").unlink()


def _add(folder: Path) -> None:
    (folder / "data/extra.txt").write_text("x", encoding="utf-8")


def _add_beside(folder: Path) -> None:
    (folder / "extra.txt").write_text("x", encoding="utf-8")


def _link(folder: Path) -> None:
    (folder / "data/source/hearts.csv").unlink()
    (folder / "data/source/hearts.csv").symlink_to("/etc/hostname")


def _link_folder(folder: Path) -> None:
    (folder / "data/more").symlink_to(folder.parent, target_is_directory=True)


def _pipe(folder: Path) -> None:
    os.mkfifo(folder / "data/pipe")


def _up(folder: Path) -> None:
    _append(folder, "../outside.txt")


def _neighbour(folder: Path) -> None:
    # The library takes /x/deposit-other for a path inside /x/deposit, because the name begins the same.
    neighbour = folder.with_name(folder.name + "-other")
    neighbour.mkdir()
    (neighbour / "secret.txt").write_text("x", encoding="utf-8")
    _append(folder, f"../{neighbour.name}/secret.txt")


def _absolute(folder: Path) -> None:
    _append(folder, "/etc/passwd")


def _append(folder: Path, path: str) -> None:
    with (folder / "manifest-sha256.txt").open("a", encoding="utf-8") as stream:
        stream.write(f"{'0' * 64}  {path}\n")


def _no_list(folder: Path) -> None:
    (folder / "tagmanifest-sha256.txt").unlink()


def _fetch(folder: Path) -> None:
    (folder / "fetch.txt").write_text("https://example.org/x - data/x\n", encoding="utf-8")


def _readme(folder: Path) -> None:
    (folder / "README.txt").write_text("Another text.\n", encoding="utf-8")


def _bagit_txt(folder: Path) -> None:
    (folder / "bagit.txt").write_bytes(b"\xff\xfe\x00")


DAMAGE: dict[Callable[[Path], None], set[str]] = {
    _tamper: {"I-DEP-03"},
    _truncate: {"I-DEP-03", "I-DEP-11"},
    _remove: {"I-DEP-04"},
    _add: {"I-DEP-05"},
    _add_beside: {"I-DEP-05"},
    _link: {"I-DEP-06"},
    _link_folder: {"I-DEP-06"},
    _pipe: {"I-DEP-06"},
    _up: {"I-DEP-07"},
    _neighbour: {"I-DEP-07"},
    _absolute: {"I-DEP-07"},
    _no_list: {"I-DEP-08"},
    _fetch: {"I-DEP-09"},
    _readme: {"I-DEP-03"},
    _bagit_txt: {"I-DEP-02"},
}


@pytest.mark.parametrize("damage", DAMAGE, ids=lambda one: one.__name__.strip("_"))
def test_damage_is_named(sealed: Path, damage: Callable[[Path], None]) -> None:
    damage(sealed)
    found = deposit.verify(sealed)
    rules = {one.rule for one in found}
    assert rules == DAMAGE[damage], found
    assert all(one.severity == "violation" and one.hint and one.location.file for one in found)


def test_a_changed_file_is_named_with_what_was_found(sealed: Path) -> None:
    _truncate(sealed)
    found = {one.rule: one for one in deposit.verify(sealed)}
    assert found["I-DEP-03"].value == "data/records.ndjson"
    assert found["I-DEP-03"].location.file == "deposit/data/records.ndjson"
    assert "11 bytes" in found["I-DEP-03"].message
    assert found["I-DEP-11"].value == "1"


def test_several_faults_are_all_named(sealed: Path) -> None:
    _tamper(sealed)
    _remove(sealed)
    _add(sealed)
    assert {"I-DEP-03", "I-DEP-04", "I-DEP-05"} == {rule for rule, _ in _rules(sealed)}


def test_other_versions_are_for_the_record_only(tmp_path: Path) -> None:
    folder = tmp_path / "old"
    folder.mkdir()
    then = versions()
    then["schema"] = {"version": "0.0.9", "sha256": "0" * 64}
    (folder / "versions.json").write_bytes(orjson.dumps(then))
    (folder / "records.ndjson").write_bytes(b"")
    (folder / "report.json").write_bytes(b'{"records": 0}')
    deposit.seal(folder, {}, "")
    (found,) = deposit.verify(folder)
    assert (found.rule, found.severity) == ("I-DEP-10", "info")
    assert "schema 0.0.9 (000000000000)" in found.message


def test_what_is_no_deposit_is_said_to_be_none(tmp_path: Path) -> None:
    assert not deposit.is_deposit(tmp_path)
    assert [one.rule for one in deposit.verify(tmp_path)] == ["I-DEP-01"]
    with pytest.raises(InputError, match=r"holds no file data/records\.ndjson"):
        deposit.records_file(tmp_path)


def test_records_file_is_no_link(sealed: Path) -> None:
    (sealed / "data/records.ndjson").unlink()
    (sealed / "data/records.ndjson").symlink_to("/etc/hostname")
    with pytest.raises(InputError):
        deposit.records_file(sealed)


def test_versions_hold_a_digest_for_every_piece() -> None:
    found = versions()
    assert {"chordae", "schema", "engine", *PIECES} == set(found)
    assert all(len(found[piece]["sha256"]) == 64 for piece in ("schema", "mappings"))
