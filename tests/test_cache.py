"""Findings kept from before: the same answer, faster; damaged, wrong or old entries are noticed and not believed.

Outside reference: SQLite's own reader and ``PRAGMA integrity_check`` on the file, and raw bytes written over it.
"""

from __future__ import annotations

import copy
import os
import sqlite3
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import chordae.shapes.cache as kept_findings
from chordae.errors import InputError
from chordae.issues import Location
from chordae.record import Reading
from chordae.shapes.cache import FindingsCache, Kept, deciding, record_key
from chordae.shapes.check import CheckResult, check_records
from chordae.shapes.profile import Profile
from generate_records import make_records
from rule_cases import cases

RECORDS = [record for record, _ in make_records(40, seed=9, faults=0.4)]


def check(folder: Path, records: list[Any], **options: Any) -> tuple[CheckResult, FindingsCache]:
    """Check with what is kept in a folder."""
    with FindingsCache(folder, "fast") as cache:
        result = check_records([Reading(one) for one in records], cache=cache, **options)
    return result, cache


def file_of(folder: Path) -> Path:
    """The one file of a folder of findings."""
    (path,) = folder.glob("*.sqlite")
    return path


def change(folder: Path, statement: str) -> None:
    """Change what is kept, as somebody with a database browser would."""
    with sqlite3.connect(file_of(folder)) as base:
        assert base.execute(statement).rowcount > 0
    base.close()


def test_unchanged_records_are_answered_from_the_folder_with_the_same_answer(tmp_path: Path) -> None:
    plain = check_records([Reading(one) for one in RECORDS])
    first, cold = check(tmp_path, RECORDS)
    second, warm = check(tmp_path, RECORDS)
    assert first == plain == second
    assert (cold.hits, cold.misses) == (0, 40) and (warm.hits, warm.misses) == (40, 0)
    assert sqlite3.connect(file_of(tmp_path)).execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_every_case_of_the_rules_comes_back_the_same(tmp_path: Path) -> None:
    records = [case.record for case in cases()]
    assert check(tmp_path, records)[0] == check(tmp_path, records)[0] == check_records(map(Reading, records))


def test_nothing_is_worked_out_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    check(tmp_path, RECORDS)

    def refuse(*_: object) -> None:
        raise AssertionError("an unchanged record was looked at again")

    monkeypatch.setattr("chordae.shapes.ready.validate", refuse)
    monkeypatch.setattr("chordae.shapes.ready.emit", refuse)
    assert check(tmp_path, RECORDS)[1].hits == 40


def test_a_changed_record_is_checked_again_and_only_that(tmp_path: Path) -> None:
    check(tmp_path, RECORDS)
    changed = copy.deepcopy(RECORDS)
    changed[3].setdefault("stated", {})["topology"] = "undetermined"
    changed[5]["remarks"] = [{"text": "looked at again"}]
    result, cache = check(tmp_path, changed)
    assert (cache.hits, cache.misses) == (38, 2)
    assert result == check_records([Reading(one) for one in changed])


def test_places_are_those_of_today(tmp_path: Path) -> None:
    def at(line: int) -> list[Reading]:
        return [Reading(one, {"": Location("hearts.csv", line + number)}) for number, one in enumerate(RECORDS)]

    with FindingsCache(tmp_path, "fast") as cache:
        check_records(at(2), cache=cache)
        moved = check_records(at(50), cache=cache)
    assert moved == check_records(at(50)) and cache.hits == 40
    assert min(one.location.line or 0 for one in moved.issues) >= 50


def test_profiles_and_confirmations_are_applied_to_what_is_kept(tmp_path: Path) -> None:
    check(tmp_path, RECORDS)
    profile = Profile("p", rules={"R-ASS-08": "off"}, require={"specimen": ("loan_from",)}, missing="violation")
    result, cache = check(tmp_path, RECORDS, profile=profile)
    assert cache.hits == 40 and result == check_records([Reading(one) for one in RECORDS], profile=profile)


@pytest.mark.parametrize(
    ("statement", "noticed"),
    [
        ("UPDATE kept SET content = X'00'", 40),
        ("UPDATE kept SET content = substr(content, 1, length(content) - 1)", 40),
        ("UPDATE kept SET content = NULL", 40),
        ("UPDATE kept SET seal = X'00'", 40),
        ("UPDATE kept SET content = replace(content, 'warning', 'info   ')", 1),
        ("UPDATE kept SET (content, seal) = (SELECT content, seal FROM kept ORDER BY key LIMIT 1)", 39),
    ],
    ids=["overwritten", "cut-off", "emptied", "seal-broken", "severity-changed", "of-another-record"],
)
def test_a_damaged_or_wrong_entry_is_noticed_and_not_believed(tmp_path: Path, statement: str, noticed: int) -> None:
    plain = check(tmp_path, RECORDS)[0]
    change(tmp_path, statement)
    result, cache = check(tmp_path, RECORDS)
    assert result == plain
    assert cache.misses >= noticed
    assert {one.rule for one in cache.issues} == {"I-CAC-01"}
    assert "was checked again" in cache.issues[0].message
    assert check(tmp_path, RECORDS)[1].hits == 40, "replaced by what was found"


def test_an_entry_that_was_forged_with_its_seal_is_found_by_the_audit(tmp_path: Path) -> None:
    few = RECORDS[:4]
    plain = check(tmp_path, few)[0]
    with FindingsCache(tmp_path, "fast") as cache:
        for record in few:
            key = record_key(record, None)
            assert key is not None and cache.get(key) is not None
            cache.put(key, Kept((), {}))
    assert check(tmp_path, few)[0].issues == (), "the seal is no safeguard against forgery; the audit is"
    result, cache = check(tmp_path, few, audit=1.0)
    assert result.issues == plain.issues and "does not hold what the record gives now" in cache.issues[0].message
    assert check(tmp_path, few)[0] == plain


@pytest.mark.parametrize("how", ["no-database", "cut-off", "zeros-inside", "empty"])
def test_a_damaged_file_is_noticed_and_replaced(tmp_path: Path, how: str) -> None:
    plain = check(tmp_path, RECORDS)[0]
    path = file_of(tmp_path)
    data = path.read_bytes()
    damaged = {
        "no-database": b"not a database at all, but long enough to be taken for one" * 40,
        "cut-off": data[: len(data) // 3],
        "zeros-inside": data[:4096] + bytes(len(data) - 4096),
        "empty": b"",
    }[how]
    path.write_bytes(damaged)
    result, cache = check(tmp_path, RECORDS)
    assert result == plain and cache.hits == 0
    assert [one.rule for one in cache.issues][:1] == ([] if how == "empty" else ["I-CAC-01"])
    again, cache = check(tmp_path, RECORDS)
    assert again == plain and (cache.hits, cache.issues) == (40, [])


def test_rules_code_and_engine_decide_which_findings_count(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert deciding("fast") != deciding("reference")
    hits = []
    for rules in ("rules of today", "rules of today", "rules of tomorrow", "rules of today"):
        monkeypatch.setattr(kept_findings.resources, "digest", lambda name, rules=rules: rules)
        deciding.cache_clear()
        hits.append(check(tmp_path, RECORDS[:3])[1].hits)
    monkeypatch.undo()
    deciding.cache_clear()
    assert hits == [0, 3, 0, 3]


def test_the_base_of_the_records_is_part_of_the_key() -> None:
    assert record_key(RECORDS[0], None) != record_key(RECORDS[0], "https://example.org/x/")
    reordered = dict(reversed(RECORDS[0].items()))
    assert record_key(reordered, None) == record_key(RECORDS[0], None)
    assert record_key({"id": object()}, None) is None


def test_several_threads_and_processes_share_a_folder(tmp_path: Path) -> None:
    plain = check_records([Reading(one) for one in RECORDS])
    program = (
        "import sys; sys.path[:0] = sys.argv[2:]\n"
        "from pathlib import Path; import test_cache as t\n"
        "r, c = t.check(Path(sys.argv[1]), t.RECORDS, threads=2)\n"
        "print(len(r.issues), [one.message for one in c.issues])\n"
    )
    folders = [str(Path(__file__).parent), str(Path(__file__).parents[1] / "converters")]
    runs = [
        subprocess.Popen(
            [sys.executable, "-c", program, str(tmp_path), *folders], stdout=subprocess.PIPE, text=True, env=os.environ
        )
        for _ in range(3)
    ]
    with ThreadPoolExecutor(2) as pool:
        here = list(pool.map(lambda _: check(tmp_path, RECORDS, threads=2), range(2)))
    assert [run.communicate(timeout=120)[0].strip() for run in runs] == [f"{len(plain.issues)} []"] * 3
    assert all(result == plain and cache.issues == [] for result, cache in here)
    assert check(tmp_path, RECORDS)[1].hits == 40


def test_an_interrupted_run_leaves_whole_entries(tmp_path: Path) -> None:
    class Stopped(Exception):
        pass

    def stopping() -> Any:
        for number, record in enumerate(RECORDS):
            if number == 35:
                raise Stopped
            yield Reading(record)

    with pytest.raises(Stopped), FindingsCache(tmp_path, "fast") as cache:
        check_records(stopping(), cache=cache, threads=1)
    result, cache = check(tmp_path, RECORDS)
    assert cache.hits >= 32 and cache.issues == []
    assert result == check_records([Reading(one) for one in RECORDS])


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(InputError, match="cannot be used"):
        FindingsCache(tmp_path / "file" / "inside", "fast")


def test_kept_findings_hold_no_place() -> None:
    finding = check_records([Reading(RECORDS[0], {"": Location("a.csv", 3)})]).issues
    assert all(replace(one, location=Location()).to_json()["location"]["file"] is None for one in finding)
