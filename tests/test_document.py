"""Documents of records: what is read, where it stood, what is refused, and that writing and reading are inverse."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from chordae.errors import FormatError, InputError
from chordae.intake.document import FORMATS, each_reading, read_document
from chordae.intake.document_text import in_order, write_document
from chordae.intake.scalars import LARGEST
from chordae.issues import Issue, Location
from chordae.record import Reading


def read(text: str | bytes, name: str = "hearts.yaml") -> tuple[list[Reading], list[Issue]]:
    return read_document(name, data=text.encode() if isinstance(text, str) else text)


def rules(issues: list[Issue]) -> list[str]:
    return [one.rule for one in issues]


# --- scalars ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("0012", "0012"),
        ("12", 12),
        ("-3", -3),
        ("1.5", 1.5),
        ("2e3", 2000.0),
        ("no", "no"),
        ("on", "on"),
        ("Yes", "Yes"),
        ("NULL", "NULL"),
        ("true", True),
        ("True", "True"),
        ("null", None),
        ("~", None),
        ("", None),
        ("2026-11-25", "2026-11-25"),
        ("1:30", "1:30"),
        ("0o12", "0o12"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        (".inf", ".inf"),
        ("+5", "+5"),
        ("'12'", "12"),
        ('"no"', "no"),
    ],
)
def test_yaml_scalars_are_read_as_json_reads_them(written: str, value: Any) -> None:
    readings, issues = read(f"id: a\nx: {written}\n")
    assert issues == []
    assert readings[0].record == {"id": "a", "x": value}
    assert type(readings[0].record["x"]) is type(value)


def test_the_plain_loader_of_pyyaml_would_lose_these() -> None:
    """The reason for reading scalars ourselves, held against the library's own YAML 1.1 reading."""
    assert yaml.safe_load("[0012, no, 1:30, 2026-11-25]")[:3] == [10, False, 90]
    assert read("id: a\nx: [0012, no, 1:30, 2026-11-25]\n")[0][0].record["x"] == ["0012", "no", "1:30", "2026-11-25"]


@pytest.mark.parametrize("written", ["1.0000000000000000001", str(LARGEST + 1), "1e999", "9" * 500])
def test_a_number_that_cannot_be_kept_is_an_issue_and_stays_as_text(written: str) -> None:
    for name, text in (("a.yaml", f"id: a\nx: {written}\n"), ("a.json", f'{{"id":"a","x":{written}}}')):
        readings, issues = read(text, name)
        assert readings[0].record["x"] == written
        assert rules(issues) == ["I-DOC-06"]
        assert issues[0].path == "/x"


# --- places ----------------------------------------------------------------------------------------------------

NESTED = """\
- id: "0012"
  parts:
  - id: tricuspid_valve
    leaflet_count: 3
    observed: [{feature: cleft, state: absent}]
- id: "0013"
"""


def test_every_value_of_yaml_has_line_and_column() -> None:
    first, second = read(NESTED)[0]
    assert first.places[""] == Location("hearts.yaml", 1, 3)
    assert first.places["/id"] == Location("hearts.yaml", 1, 7)
    assert first.places["/parts/0/leaflet_count"] == Location("hearts.yaml", 4, 20)
    assert first.places["/parts/0/observed/0/state"] == Location("hearts.yaml", 5, 40)
    assert second.places["/id"] == Location("hearts.yaml", 6, 7)
    assert set(first.places) == set(pointers(first.record))


def test_every_value_of_json_has_line_and_column() -> None:
    record = {"id": "a", "x": [{"y": [1, "]"]}, {}], "z\\/": 'quo"te', "e": {}}
    text = "[\n " + json.dumps(record, indent=2) + ",\n" + json.dumps({"id": "b", "x": 1}) + "]"
    first, second = read(text, "a.json")[0]
    assert first.record == record
    assert set(first.places) == set(pointers(record))
    lines = text.split("\n")
    place = first.places["/x/0/y/1"]
    assert place.line is not None and place.column is not None
    assert lines[place.line - 1][place.column - 1 :].startswith('"]"')
    assert second.places["/x"].line == len(lines)


def test_ndjson_counts_lines_and_a_broken_line_costs_that_line_only(tmp_path: Path) -> None:
    path = tmp_path / "a.ndjson"
    path.write_bytes(b'\xef\xbb\xbf{"id":"a"}\n\n{"id":\n{"id":"b","x":"\xff"}\n  {"id":"c","x":[1]} \n')
    readings, issues = read_document(path)
    assert [one.record["id"] for one in readings] == ["a", "c"]
    assert [(one.rule, one.location.line) for one in issues] == [("I-DOC-01", 3), ("I-DOC-01", 4)]
    assert readings[1].places["/x/0"] == Location(str(path), 5, 18)


def test_ndjson_is_read_line_by_line(tmp_path: Path) -> None:
    """The first record is there before the last line has been looked at."""
    path = tmp_path / "a.ndjson"
    path.write_text('{"id":"a"}\n' + '{"id":"b"}\n' * 3 + "{", encoding="utf-8")
    reading, issues = next(each_reading(path))
    assert reading is not None and reading.record == {"id": "a"} and issues == []


def pointers(value: Any, path: str = "") -> list[str]:
    found = [path]
    if isinstance(value, dict):
        for key, one in value.items():
            found += pointers(one, f"{path}/{key.replace('~', '~0').replace('/', '~1')}")
    elif isinstance(value, list):
        for number, one in enumerate(value):
            found += pointers(one, f"{path}/{number}")
    return found


# --- what is refused -------------------------------------------------------------------------------------------


def test_what_stands_where_a_record_should_is_a_reading_or_has_a_violation() -> None:
    text = "- id: a\n- 5\n- []\n- id: a\n- name: x\n- id: 12\n- id: {}\n- id: b\n"
    readings, issues = read(text)
    assert [one.record["id"] for one in readings] == ["a", "12", "b"]
    assert [(one.rule, one.location.line) for one in issues] == [
        ("I-DOC-05", 2),
        ("I-DOC-05", 3),
        ("I-REC-01", 4),
        ("I-REC-02", 5),
        ("I-REC-03", 6),
        ("I-REC-02", 7),
    ]


def test_records_before_a_fault_in_the_text_are_kept() -> None:
    readings, issues = read("- id: a\n- id: b\n- id: [c\n- id: d\n")
    assert [one.record["id"] for one in readings] == ["a", "b"]
    assert rules(issues) == ["I-DOC-01"]
    readings, issues = read('[{"id":"a"}, {"id":"b"} {"id":"c"}]', "a.json")
    assert [one.record["id"] for one in readings] == ["a", "b"]
    assert rules(issues) == ["I-DOC-01"]


def test_a_key_given_twice_keeps_its_first_value() -> None:
    for name, text in (("a.yaml", "id: a\nx: 1\nx: 2\n"), ("a.json", '{"id":"a","x":1,"x":2}')):
        readings, issues = read(text, name)
        assert readings[0].record == {"id": "a", "x": 1}
        assert rules(issues) == ["I-DOC-03"]
        assert issues[0].record == "a" and "1" in issues[0].message and "2" in issues[0].message


def test_tags_and_anchors_are_issues_and_nothing_is_run() -> None:
    readings, issues = read('id: a\nx: !!python/object/apply:os.system ["exit 1"]\ny: &n 1\n')
    assert readings[0].record == {"id": "a", "x": ["exit 1"], "y": 1}
    assert rules(issues) == ["I-DOC-09", "I-DOC-02"]


def test_a_key_that_is_no_word_is_refused() -> None:
    readings, issues = read("id: a\n? [b]\n: c\n")
    assert readings == [] and rules(issues) == ["I-DOC-08"]


@pytest.mark.parametrize("bad", ["\\u0007", "\\ud800", "\\ufffe"])
def test_characters_that_cannot_be_stored_are_refused(bad: str) -> None:
    readings, issues = read(f'{{"id":"a","x":["b{bad}"]}}', "a.json")
    assert readings == [] and rules(issues) == ["I-DOC-07"]
    assert issues[0].path == "/x/0"
    issues[0].message.encode()


def test_documents_one_after_another_and_the_list_under_records() -> None:
    assert len(read("id: a\n---\nid: b\n---\n")[0]) == 2
    readings, issues = read("records:\n- id: a\n- id: b\nnote: x\n")
    assert [one.record["id"] for one in readings] == ["a", "b"] and rules(issues) == ["I-DOC-11"]
    readings, issues = read('{"records":[{"id":"a"},{"id":"b"}],"note":1}', "a.json")
    assert [one.record["id"] for one in readings] == ["a", "b"] and rules(issues) == ["I-DOC-11"]
    assert readings[1].places["/id"] == Location("a.json", 1, 30)


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ('{"id":"a"}\n{"id":"b"}\n', ["a", "b"]),
        ('{"id":"a",\n"x":{}}\n', ["a"]),
        ('[{"id":"a"}]', ["a"]),
        ("id: a\n", ["a"]),
        ("- id: a\n", ["a"]),
    ],
)
def test_the_format_of_standard_input_is_found_from_the_text(
    text: str, ids: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(text.encode())))
    readings, issues = read_document("-")
    assert [one.record["id"] for one in readings] == ids and issues == []
    assert readings[0].places["/id"].file == "standard input"


def test_what_cannot_be_read_at_all_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no file"):
        read_document(tmp_path / "none.yaml")
    with pytest.raises(InputError, match="folder"):
        read_document(tmp_path)
    with pytest.raises(InputError, match="empty"):
        read(" \n")
    with pytest.raises(InputError, match="not UTF-8 text: byte 6 "):
        read("id: aé".encode("latin-1"))
    with pytest.raises(FormatError):
        read_document("a", data=b"id: a", format="xml")
    with pytest.raises(FormatError):
        read_document("a.yaml", data=b"id: a", encoding="no-such")


# --- writing ---------------------------------------------------------------------------------------------------

TEXT = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs", "Cn"]), max_size=20) | st.sampled_from(
    ["0012", "no", "?", "~", "", "null", "1e3", "- a", "a: b", "#", "'", '"', "a\nb", "\t", " x ", "é", "...", "---"]
)
NUMBER = st.integers(-LARGEST, LARGEST) | st.floats(allow_nan=False, allow_infinity=False)
VALUE = st.recursive(
    TEXT | NUMBER | st.booleans() | st.none(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXT, inner, max_size=3),
    max_leaves=8,
)
RECORD = st.dictionaries(TEXT, VALUE, max_size=4).map(lambda one: one | {"parts": [{"type": "Atrium", **one}]})
IDS = st.lists(TEXT.filter(lambda one: bool(one.strip())), min_size=1, max_size=3, unique=True)


@given(ids=IDS, rest=st.lists(RECORD, min_size=3, max_size=3), form=st.sampled_from(FORMATS))
def test_reading_what_was_written_gives_the_same_records(ids: list[str], rest: list[dict[str, Any]], form: str) -> None:
    records = [{**more, "id": name} for name, more in zip(ids, rest, strict=False)]
    text = write_document(records, form)
    readings, issues = read(text, f"a.{form}")
    assert issues == []
    assert [one.record for one in readings] == records
    assert [typed(one.record) for one in readings] == [typed(one) for one in records]
    assert write_document([one.record for one in readings], form) == text
    for reading in readings:
        assert set(reading.places) == set(pointers(reading.record))


@given(RECORD, st.sampled_from(FORMATS))
def test_another_yaml_or_json_reader_reads_the_same(record: dict[str, Any], form: str) -> None:
    """Held against PyYAML's own loader and the standard library, not against our reader."""
    record = {**record, "id": "a"}
    text = write_document([record], form)
    if form == "yaml":
        assert yaml.safe_load(text) == [record]
    else:
        assert json.loads(text) == (record if form == "ndjson" else [record])


def typed(value: Any) -> Any:
    """Return the value with its types, for 1, 1.0 and True are equal to Python."""
    if isinstance(value, dict):
        return {key: typed(one) for key, one in value.items()}
    return [typed(one) for one in value] if isinstance(value, list) else (type(value).__name__, value)


def test_keys_stand_in_the_order_of_the_schema() -> None:
    part = {"leaflet_count": 3, "own": 1, "type": "AtrioventricularValve", "id": "tricuspid_valve"}
    record = {"parts": [part], "zeta": 1, "id": "a"}
    assert list(in_order(record)) == ["id", "parts", "zeta"]
    assert list(in_order(record)["parts"][0]) == ["id", "type", "leaflet_count", "own"]
    assert write_document([record]) == write_document([dict(reversed(record.items()))])


def test_an_empty_document_and_an_unknown_format() -> None:
    assert write_document([], "json") == "[]\n"
    assert write_document([], "ndjson") == ""
    with pytest.raises(FormatError):
        write_document([], "xml")
