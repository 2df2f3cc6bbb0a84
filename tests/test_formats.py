"""What holds for every format of the table, each time a row is added.

No format may turn *absent*, *not assessable* or *not examined* into anything else; what a writer says it carried coded
comes back the same; nothing comes back that was not written; the same records give the same bytes.
"""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from tests.formats_data import RECORDS, STATES_RECORD, example_records, record_formats, there_and_back, written
from tests.strategies import records

from chordae.canonical import canonical
from chordae.errors import FormatError, MissingExtra
from chordae.formats.losses import confirm, count_losses, loss_report
from chordae.formats.packing import unpack
from chordae.formats.same import differences, named_values
from chordae.formats.statements import statements
from chordae.formats.table import FORMATS, Format, format_named, format_of_name, names
from chordae.intake.scalars import bad_characters
from chordae.model import STATES
from chordae.record import Record, feature_state, find_part

TOP = Path(__file__).parents[1]
PLACES = os.pathsep.join(map(str, (TOP, TOP / "converters", TOP / "tests")))
READ = [one for one in record_formats() if one.reads]
LOSSLESS = [one for one in record_formats() if one.lossless]


def named(format: Format) -> str:
    return format.name


@pytest.mark.parametrize("format", READ, ids=named)
def test_what_is_said_to_be_carried_coded_comes_back(format: Format) -> None:
    back, issues, carried = there_and_back(format, list(example_records()))
    assert [one.message for one in issues] == []
    assert back.keys() == {name for name, mine in carried.items() if mine}
    for name, record in RECORDS.items():
        assert confirm(record, carried[name], back.get(name)) == carried[name], name


@pytest.mark.parametrize("format", READ, ids=named)
def test_nothing_comes_back_that_was_not_written(format: Format) -> None:
    back, _, _ = there_and_back(format, list(example_records()))
    for name, record in RECORDS.items():
        added = [
            one for one in differences(record, back.get(name, {})) if one[2] is not None and one[0][0] != "remarks"
        ]
        assert added == [], name


@pytest.mark.parametrize("format", READ, ids=named)
def test_no_state_turns_into_another(format: Format) -> None:
    checked = 0
    back, _, _ = there_and_back(format, [canonical(STATES_RECORD)])
    for part in STATES_RECORD["parts"]:
        again = find_part(back.get("states", {}), part["id"]) or {}
        noted = [one["feature"] for one in part.get("observed", ())]
        for feature in [*part, *noted]:
            if feature not in ("id", "type", "observed", "state_reason"):
                was, now = feature_state(part, feature).state, feature_state(again, feature).state
                assert now in (was, None), (part["id"], feature, was, now)
                checked += was in ("absent", "not_assessable", "not_examined")
    assert checked == 11


STATE_WORDS = {
    "coarse": "coarse apical trabeculations",
    "absent": "looked for and absent",
    "not_assessable": "could not be assessed",
    "not_examined": "was not examined",
}


@pytest.mark.parametrize("format", [one for one in record_formats() if not one.reads], ids=named)
def test_formats_for_persons_say_each_state_in_words_of_its_own(format: Format) -> None:
    """What is written only cannot be read back: each state is looked for in the text beside the name of its feature."""
    ventricle = find_part(STATES_RECORD, "right_sided_ventricle") or {}
    features = [one for one, value in ventricle.items() if isinstance(value, str) and value in STATE_WORDS]
    assert sorted(ventricle[one] for one in features) == sorted(STATE_WORDS)
    shows = [{"part": "right_sided_ventricle", "feature": one} for one in features]
    video = {"id": "v", "evidence_kind": "video", "source_file": "v.mp4", "selector": "t=1,2", "shows": shows}
    data, _ = written(format, [canonical({**STATES_RECORD, "evidence": [video]})])
    text = " ".join(content.decode() for content in unpack(data, "made").values()).replace("\\n", "\n")
    for one in features:
        said = re.findall(rf"{one.replace('_', ' ')}: ([^\n\"<(]*)", text)
        assert said and {words.strip() for words in said} == {STATE_WORDS[ventricle[one]]}, one


def in_plain_words(value: Any) -> Any:
    """The same record with texts as people type them: printable, on one line, not empty, no bar."""
    if isinstance(value, dict):
        return {key: in_plain_words(one) for key, one in value.items()}
    if isinstance(value, list):
        return [in_plain_words(one) for one in value]
    if not isinstance(value, str):
        return value
    return " ".join("".join(one if one.isprintable() and one != "|" else "-" for one in value).split()) or "-"


@pytest.mark.parametrize("format", [one for one in READ if one.name != "xlsx"], ids=named)
@settings(max_examples=20)
@given(record=records(derived=False))
def test_whatever_comes_back_of_any_record_is_what_was_written(format: Format, record: Record) -> None:
    """No value turns into another and none is added, in records of any shape, however little sense they make.

    For workbooks, whose template takes its time, ``test_sheets.py`` does the same, and asks for the whole record.
    """
    record = canonical(in_plain_words(record))
    back, _, carried = there_and_back(format, [record])
    again = back.get(record["id"], {})
    changed = [one for one in differences(record, again) if one[2] is not None and one[0][0] != "remarks"]
    assert changed == []
    assert confirm(record, carried[record["id"]], again) == carried[record["id"]]


@pytest.mark.parametrize("format", record_formats(), ids=named)
def test_writers_mark_places_of_the_record_only(format: Format) -> None:
    _, carried = written(format, list(example_records()))
    for name, record in RECORDS.items():
        places = {one.path for one in statements(record)}
        assert set(carried[name]) <= places, name


def without_controls(value: Any) -> Any:
    """The same record without characters that no document may hold; readers of documents refuse them."""
    if isinstance(value, dict):
        return {key: without_controls(one) for key, one in value.items()}
    if isinstance(value, list):
        return [without_controls(one) for one in value]
    return "".join(one for one in value if not bad_characters(one)) if isinstance(value, str) else value


@pytest.mark.parametrize("format", LOSSLESS, ids=named)
@settings(max_examples=40)
@given(record=records())
def test_lossless_formats_give_back_any_record(format: Format, record: Record) -> None:
    record = canonical(without_controls(record))
    back, issues, carried = there_and_back(format, [record])
    assert [one for one in issues if one.severity == "violation"] == []
    assert back == {record["id"]: record}
    assert count_losses(record, format.name, confirm(record, carried[record["id"]], record)).dropped == ()


PROGRAM = """
import sys
from tests.formats_data import example_records, record_formats, written
import hashlib
for one in record_formats():
    print(one.name, hashlib.sha256(written(one, list(example_records()))[0]).hexdigest())
"""


def test_same_bytes_under_three_hash_seeds() -> None:
    here = {one.name: hashlib.sha256(written(one, list(example_records()))[0]).hexdigest() for one in record_formats()}
    for seed in ("0", "1", "4711"):
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM],
            capture_output=True,
            text=True,
            check=True,
            cwd=TOP,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": PLACES},
        )
        assert dict(line.split() for line in done.stdout.splitlines()) == here, seed


def test_a_claim_that_does_not_come_back_is_dropped() -> None:
    record: Record = {"id": "7", "parts": [{"id": "aorta", "type": "ArterialTrunk", "state": "absent"}]}
    carried = dict.fromkeys((one.path for one in statements(record)), "coded")
    turned = {"id": "7", "parts": [{"id": "aorta", "type": "ArterialTrunk", "state": "present"}]}
    loss = count_losses(record, "test", confirm(record, carried, turned))
    assert [one.path for one in loss.dropped] == ["/parts/0/state"]
    report = loss_report("test", [(record, carried)], {"7": turned})
    assert report["totals"] == {"statements": 4, "coded": 3, "text": 0, "dropped": 1}
    assert report["records"][0]["dropped"] == [{"path": "/parts/0/state", "value": "absent"}]
    assert loss_report("test", [(record, carried)], {})["totals"]["dropped"] == 4
    assert {row["kind"]: row["dropped"] for row in report["kinds"]} == {"part": 1, "record": 0}


def test_statements_are_named_by_what_names_their_items() -> None:
    one: Record = {"id": "7", "description": {"examination": ["probe", "naked_eye"]}}
    other: Record = {"id": "7", "description": {"examination": ["naked_eye", "probe"]}}
    assert differences(one, other) == []
    assert {name for name, _ in named_values(one).values()} == {
        ("id",), ("description", "examination", "=probe"), ("description", "examination", "=naked_eye"),
    }  # fmt: skip
    assert set(STATES) == {"present", "absent", "not_assessable", "not_examined"}


def test_the_table_names_modules_and_functions_that_are_there() -> None:
    for one in FORMATS.values():
        module = one.load()
        ending = "_files" if one.several else ""
        if one.holds == "vocabulary":
            assert callable(module.publish)
            continue
        assert not one.reads or callable(getattr(module, f"read{ending}")), one.name
        assert not one.writes or callable(getattr(module, f"write{ending}")), one.name
        assert one.label and not one.label.endswith(".")


def test_formats_are_known_by_name_and_by_ending() -> None:
    found = {name: format_of_name(name) for name in ("a.yml", "A.FHIR.JSON", "a.json", "a.ttl", "a.csv", "a.odt")}
    assert {name: one.name if one else None for name, one in found.items()} == {
        "a.yml": "yaml", "A.FHIR.JSON": "fhir", "a.json": "json", "a.ttl": "turtle", "a.csv": None, "a.odt": None,
    }  # fmt: skip
    assert "fhir" in names(to="read") and "fhir-terminology" in names(to="write", holds="vocabulary")
    with pytest.raises(FormatError, match="no format 'odt'"):
        format_named("odt", to="read")
    with pytest.raises(FormatError, match="holds vocabulary, not records"):
        format_named("fhir-terminology", to="write")


def test_a_missing_library_is_named_with_the_extra_that_brings_it() -> None:
    one = Format("none", "a format", "documents", extra="none", needs="no_such_library_is_here")
    with pytest.raises(MissingExtra, match=r"'none' is needed for the format none.*chordae\[none\]"):
        one.load()


HIDDEN = """
import sys

HIDDEN = {"fhir", "phenopackets", "google", "csvw", "frictionless", "iiif_prezi3", "dwca", "webvtt", "pronto", "lxml"}
HIDDEN |= {"python_calamine", "sssom", "sssom_pydantic", "skosify", "pandas", "numpy", "PIL", "linkml", "pyarrow"}

class Nothing:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in HIDDEN:
            raise ModuleNotFoundError(name)

sys.meta_path.insert(0, Nothing())
from tests.formats_data import STATES_RECORD, record_formats, there_and_back, written
from chordae.errors import MissingExtra

for one in record_formats():
    try:
        there_and_back(one, [STATES_RECORD]) if one.reads else written(one, [STATES_RECORD])
        print(one.name, "-")
    except MissingExtra as error:
        print(one.name, error.message.partition("'")[2].partition("'")[0])
"""


def test_without_any_optional_library_formats_work_or_name_their_extra() -> None:
    done = subprocess.run(
        [sys.executable, "-c", HIDDEN],
        capture_output=True,
        text=True,
        check=True,
        cwd=TOP,
        env={"PYTHONPATH": PLACES},
    )
    found = dict(line.split() for line in done.stdout.splitlines())
    assert found == {one.name: one.extra or "-" for one in record_formats()}
