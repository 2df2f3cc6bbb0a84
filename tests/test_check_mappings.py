"""The mapping part of ``chordae check``: its exit codes and what it writes."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

import pytest

from chordae.commands import check_mappings
from chordae.commands.options import add_report
from chordae.errors import ChordaeError

TOP = Path(__file__).resolve().parents[1]
RELEASES = TOP / "tests" / "data" / "releases"


def run(*words: str) -> int:
    parser = argparse.ArgumentParser()
    check_mappings.add_options(parser)
    add_report(parser, stdout=True)
    return check_mappings.run(parser.parse_args(words))


def test_our_own_sets_pass_even_if_warnings_count(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("--mappings", "--report", "json", "--fail-on", "warning") == 0
    found = json.loads(capsys.readouterr().out)
    assert {one["severity"] for one in found} == {"info"}
    assert any("MONDO:0018089" in one["message"] for one in found)


def test_somebodys_set_with_a_fault_fails_and_names_the_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = (TOP / "mappings" / "chordae-bspo.sssom.tsv").read_text(encoding="utf-8")
    good, bad = tmp_path / "good.sssom.tsv", tmp_path / "bad.sssom.tsv"
    good.write_text(own, encoding="utf-8")
    bad.write_text(own.replace("skos:exactMatch", "skos:kindaMatch", 1), encoding="utf-8")
    assert run("--set", str(good)) == 0
    capsys.readouterr()
    assert run("--set", str(good), "--set", str(bad), "--report", "json") == 1
    (found,) = json.loads(capsys.readouterr().out)
    assert (found["rule"], found["location"]["file"]) == ("I-MAP-05", str(bad))
    line = bad.read_text(encoding="utf-8").splitlines()[found["location"]["line"] - 1]
    assert "skos:kindaMatch" in line


def test_a_missing_file_is_an_error_without_a_traceback(tmp_path: Path) -> None:
    with pytest.raises(ChordaeError):
        run("--set", str(tmp_path / "nothing.sssom.tsv"))


def test_drift_between_two_tables(capsys: pytest.CaptureFixture[str]) -> None:
    old = str(RELEASES / "hp_2025-01-16.tsv")
    assert run("--drift", "HP", old, "pinned", "--drift-to", "json") == 0
    found = json.loads(capsys.readouterr().out)
    assert ("HP:0011540", "renamed") in {(one["id"], one["change"]) for one in found}
    assert run("--drift", "HP", "pinned", "pinned") == 0
    same = capsys.readouterr().out
    assert same.startswith("HP, from 2025-11-24 to 2025-11-24\n0 of ")
    assert same.endswith("No change to any outside term in use.\n")
    assert run("--drift", "HP", old, "pinned") == 0
    assert "terms in use changed: 2 renamed, " in capsys.readouterr().out


@pytest.mark.parametrize("words", ["NOPE v1 v2", "HP pinned nosuch.tsv", "HP nosuch.obo pinned"])
def test_drift_of_what_is_not_there_is_an_error_without_a_traceback(words: str) -> None:
    with pytest.raises(ChordaeError) as error:
        run("--drift", *words.split())
    assert "UBERON" in error.value.hint or "nosuch" in error.value.message
