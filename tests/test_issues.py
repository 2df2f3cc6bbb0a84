"""Issues: their JSON, their order, and the table of the rules of reading and structure."""

from __future__ import annotations

import re
import string
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils import get_column_letter

import chordae
from chordae import issues
from chordae.issues import Issue, Location, at_or_above, issue, rules, shown, sort_issues, worst
from chordae.progress import track

SOURCE = "\n".join(path.read_text(encoding="utf-8") for path in Path(chordae.__file__).parent.rglob("*.py"))
ID = re.compile(r"\"([IS]-[A-Z]+(?:-[0-9]{2})?)\"")


def test_the_json_of_an_issue_has_just_these_keys() -> None:
    made = issue(
        "I-CEL-04", location=Location("a.xlsx", 3, 4, "Hearts"), record="0012", value="x", heading="h", style="y"
    )
    assert made.to_json() == {
        "rule": "I-CEL-04",
        "severity": "violation",
        "record": "0012",
        "part": None,
        "path": None,
        "value": "x",
        "message": '"x" in column "h" is not a date in the style y.',
        "hint": "Correct the cell, or the style in columns.tsv.",
        "source": None,
        "location": {"file": "a.xlsx", "line": 3, "column": 4, "sheet": "Hearts"},
    }
    assert set(Location("a.csv", 1).to_json()) == {"file", "line", "column"}
    assert str(Location("a.xlsx", 3, 4, "Hearts")) == "a.xlsx [Hearts] D3" and str(Location()) == ""


def test_every_rule_is_used_and_every_rule_used_is_there() -> None:
    used = set(ID.findall(SOURCE))
    assert used - set(rules()) == set(), "in the code, not in schema/intake_rules.yaml"
    assert set(rules()) - used == set(), "in schema/intake_rules.yaml, not in the code"


@pytest.mark.parametrize("name", rules())
def test_a_rule_has_a_label_a_sentence_and_a_remedy(name: str) -> None:
    rule = rules()[name]
    assert re.fullmatch(r"[IS]-[A-Z]{2,5}(-[0-9]{2})?", name)
    assert rule.label and rule.label[0].isupper() and not rule.label.endswith(".")
    assert rule.message.rstrip().endswith((".", "?", "}")), "a sentence"
    assert rule.hint or rule.severity == "info", "a remedy"
    for text in (rule.message, rule.hint):
        for _, field, spec, conversion in string.Formatter().parse(text):
            assert field is None or (field.isidentifier() and not conversion)
            assert not spec or re.fullmatch(r"[^|]+\|[^|]+", spec), "words for one and for many"
    assert not re.search(r"https?:|sh:|xsd:|IRI|triple", rule.message + rule.hint), "a morphologist's words"


@given(st.integers(1, 16_384), st.integers(1, 1_048_576))
def test_a_cell_of_a_workbook_is_named_as_openpyxl_names_it(column: int, row: int) -> None:
    assert str(Location("a.xlsx", row, column, "S")) == f"a.xlsx [S] {get_column_letter(column)}{row}"
    assert str(Location("a.xlsx", row, None, "S")) == f"a.xlsx [S] row {row}"


def test_numbers_and_words_agree() -> None:
    told = [issue("I-CEL-08", heading="No.", count=count).message for count in (0, 1, 2)]
    ends = [one.partition("; ")[2] for one in told]
    assert ends[0] == "its 0 filled cells were not taken over."
    assert ends[1:] == ["its 1 filled cell was not taken over.", "its 2 filled cells were not taken over."]
    assert issue("I-BOOK-06", heading="Seen", count=1).message == (
        'Under "Seen" 1 cell is stored as a date; it was read as year-month-day.'
    )


def test_an_unknown_rule_is_a_mistake_in_the_program() -> None:
    with pytest.raises(KeyError):
        issue("I-NONE-01")
    with pytest.raises(KeyError):
        issue("I-CEL-04", value="x")


def test_issues_are_sorted_by_record_severity_rule_path_and_value() -> None:
    wanted = [
        Issue("I-FIL-03", "warning", "m"),
        Issue("R-AV-13", "violation", "m", record="1"),
        Issue("I-CEL-02", "warning", "m", record="1"),
        Issue("R-AV-14", "warning", "m", record="1", path="/a"),
        Issue("R-AV-14", "warning", "m", record="1", path="/b", value="x"),
        Issue("R-AV-14", "warning", "m", record="1", path="/b", value="y"),
        Issue("A", "info", "m", record="1"),
        Issue("A", "violation", "m", record="2"),
    ]
    assert sort_issues(reversed(wanted)) == wanted
    assert worst(wanted) == "violation" and worst(wanted[:1]) == "warning" and worst([]) is None


@pytest.mark.parametrize(
    ("severity", "threshold", "reached"),
    [
        ("violation", "violation", True),
        ("warning", "violation", False),
        ("warning", "warning", True),
        ("info", "warning", False),
        ("info", "info", True),
        ("violation", "never", False),
        (None, "info", False),
    ],
)
def test_thresholds(severity: issues.Severity | None, threshold: str, reached: bool) -> None:
    assert at_or_above(severity, threshold) is reached


def test_values_are_shown_short_on_one_line_and_visibly() -> None:
    assert shown("a\nb\x07") == "a b\\u0007"
    assert len(shown("x" * 10_000)) == 80
    assert shown(1.5) == "1.5"


def test_progress_says_nothing_where_there_is_no_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assert list(track(iter([1, 2]), "Counting")) == [1, 2]
    shown_text = capsys.readouterr()
    assert shown_text.out == "" and shown_text.err == ""
