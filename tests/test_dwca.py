"""Darwin Core Archives: others read them, every state stays what it is, foreign and hostile archives are told apart.

Published sources: Darwin Core text guide (TDWG), its schema of meta.xml in our own words (``data/dwc_text.rng``), the
independent reader ``python-dwca-reader``.
"""

from __future__ import annotations

import io
import zipfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from tests.formats_data import BASE, RECORDS, STATES_RECORD, example_records, there_and_back, written
from tests.strategies import records
from tests.test_sheets import in_plain_words

from chordae.canonical import canonical
from chordae.formats.facts import facts_of, record_of, say_name
from chordae.formats.opening import open_bytes
from chordae.formats.packing import pack, unpack
from chordae.formats.table import FORMATS
from chordae.issues import Issue
from chordae.record import Record

FORMAT = FORMATS["dwca"]
DWC = "http://rs.tdwg.org/dwc/terms/"
CORE = (
    f'encoding="UTF-8" fieldsTerminatedBy="," fieldsEnclosedBy="&quot;" ignoreHeaderLines="1" rowType="{DWC}Occurrence"'
)
META = f"""<archive xmlns="http://rs.tdwg.org/dwc/text/"><core {CORE}>
<files><location>specimens.csv</location></files><id index="0"/>
<field index="1" term="{DWC}catalogNumber"/><field index="2" term="{DWC}sex"/><field index="3" term="{DWC}country"/>
</core></archive>"""


def archive(meta: str = META, table: str = "id,no,sex,country\n7,0012,Female,\n") -> bytes:
    return pack([("meta.xml", meta.encode()), ("specimens.csv", table.encode())])


def read(data: bytes) -> tuple[list[Record], list[Issue]]:
    readings, issues = open_bytes(data, "theirs.zip", FORMAT)
    return [one.record for one in readings], issues


def test_an_independent_reader_reads_every_statement(tmp_path: Path) -> None:
    reader = pytest.importorskip("dwca.read", reason="extra formats-test")
    data, carried = written(FORMAT, list(example_records()))
    path = tmp_path / "hearts.zip"
    path.write_bytes(data)
    with reader.DwCAReader(str(path)) as theirs:
        rows = {row.id: (row, list(row.extensions)) for row in theirs}
    assert rows.keys() == RECORDS.keys()
    for name, record in RECORDS.items():
        row, extensions = rows[name]
        assert row.data[f"{DWC}basisOfRecord"] == "PreservedSpecimen"
        assert row.data[f"{DWC}occurrenceID"] == f"{BASE}{name}"
        assert row.data[f"{DWC}catalogNumber"] == (record.get("specimen") or {}).get("accession", "")
        found = {
            one.data[f"{DWC}measurementID"].partition("#")[2]: one.data[f"{DWC}measurementValue"] for one in extensions
        }
        for path_in, fact, text in facts_of(record):
            if fact in found:
                assert found[fact] == " ".join(text.split())
            else:
                assert carried[name][path_in] == "coded", fact  # in the core row, or in that of the measurement


def test_meta_xml_is_as_the_text_guide_has_it() -> None:
    etree = pytest.importorskip("lxml.etree", reason="extra formats-test")
    schema = etree.RelaxNG(etree.parse(Path(__file__).parent / "data" / "dwc_text.rng"))
    meta = unpack(written(FORMAT, [])[0], "hearts.zip")["meta.xml"]
    assert schema.validate(etree.fromstring(meta)), schema.error_log
    assert schema.validate(etree.fromstring(META)), schema.error_log
    assert not schema.validate(etree.fromstring(meta.replace(b"coreid", b"id")))
    assert not schema.validate(etree.fromstring(meta.replace(b"rowType", b"rowtype")))


def test_every_state_stands_as_itself() -> None:
    files = unpack(written(FORMAT, [canonical(STATES_RECORD)])[0], "hearts.zip")
    rows = [line.split("\t") for line in files["measurementorfact.txt"].decode().splitlines()[1:]]
    found = {row[1].partition("#")[2]: (row[2], row[3]) for row in rows}
    assert found["parts/right_sided_ventricle/moderator_band"] == (
        "right sided ventricle: moderator band", "not_assessable",
    )  # fmt: skip
    assert found["parts/right_sided_ventricle/septomarginal_trabeculation"][1] == "absent"
    assert found["parts/right_sided_ventricle/septal_surface"][1] == "not_examined"
    assert found["parts/pulmonary_valve/observed/leaflet_count/state"][1] == "not_assessable"


def test_unseen_sex_is_no_sex_of_the_core() -> None:
    record: Record = {"id": "7", "specimen": {"sex": "not_examined", "age_group": "fetus", "note": "a\tb"}}
    files = unpack(written(FORMAT, [record])[0], "hearts.zip")
    head, row = (line.split("\t") for line in files["occurrence.txt"].decode().splitlines())
    core = dict(zip(head, row, strict=True))
    assert (core["sex"], core["lifeStage"], core["occurrenceRemarks"]) == ("", "fetus", "")
    back, issues, carried = there_and_back(FORMAT, [record])
    assert back["7"] == {"id": "7", "specimen": {"sex": "not_examined", "age_group": "fetus", "note": "a b"}}
    assert issues == [] and carried["7"]["/specimen/note"] == "text"


def in_single_spaces(value: Any) -> Any:
    """The same record with texts on one line, as a table without quotation marks holds them."""
    if isinstance(value, dict):
        return {key: in_single_spaces(one) for key, one in value.items()}
    if isinstance(value, list):
        return [in_single_spaces(one) for one in value]
    return " ".join(value.split()) if isinstance(value, str) else value


@settings(max_examples=50)
@given(record=records())
def test_any_record_in_plain_words_comes_back_whole(record: Record) -> None:
    record = canonical(in_single_spaces(in_plain_words(record)))
    back, issues, carried = there_and_back(FORMAT, [record])
    assert issues == []
    assert set(carried[record["id"]].values()) == {"coded"}
    assert back == {record["id"]: record}


@settings(max_examples=60)
@given(record=records())
def test_facts_and_records_are_each_others_inverse(record: Record) -> None:
    again, rest = record_of(record["id"], ((name, text) for _, name, text in facts_of(record)))
    assert rest == []
    assert canonical(again) == record


def test_facts_without_a_place_are_given_back() -> None:
    pairs = [("parts/x/no_such_slot", "1"), ("parts", "2"), ("stated/topology/more", "3"), ("specimen/0", "4")]
    assert record_of("7", pairs)[1] == pairs
    assert say_name("parts/aorta/arises_from/0/per_cent") == "aorta: arises from: 1: per cent"


def test_a_foreign_archive_gives_specimens_and_remarks() -> None:
    table = "id,no,sex,country\n7,0012,Female,Nowhere\n8,0013,unknown,\n7,0014,,\n,0015,,\n"
    found, issues = read(archive(table=table))
    assert found == [
        {"id": "7", "specimen": {"accession": "0012", "sex": "female"},
         "remarks": [{"text": "Nowhere", "place": "country"}]},
        {"id": "8", "specimen": {"accession": "0013"}, "remarks": [{"text": "unknown", "place": "sex"}]},
    ]  # fmt: skip
    assert [(one.rule, one.location.line, one.value) for one in issues] == [
        ("I-REC-01", 4, "7"), ("I-REC-02", 5, None), ("I-DWC-02", None, "country"), ("I-DWC-02", None, "sex"),
    ]  # fmt: skip


ENTITY = '<!DOCTYPE archive [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>' + META.replace("specimens", "&b;")
OUTSIDE = '<!DOCTYPE archive [<!ENTITY x SYSTEM "file:///etc/hostname">]>' + META.replace("specimens", "&x;")


@pytest.mark.parametrize(
    ("data", "rule"),
    [
        (archive(ENTITY), "I-DWC-01"),
        (archive(OUTSIDE), "I-DWC-01"),
        (archive("<archive"), "I-DWC-01"),
        (archive(META.replace("core", "heart")), "I-DWC-01"),
        (archive(META.replace("specimens.csv", "../../etc/hostname")), "I-DWC-05"),
        (archive(META.replace("specimens.csv", "http://example.org/x.csv")), "I-DWC-05"),
        (archive(META.replace('encoding="UTF-8"', 'encoding="rot13"')), "I-DWC-01"),
        (archive(META.replace('fieldsTerminatedBy=","', 'fieldsTerminatedBy=""')), "I-DWC-01"),
        (archive(META.replace('id index="0"', 'id index="99999999999999999999"')), "I-DWC-01"),
        (pack([("specimens.csv", b"id\n7\n")]), "I-DWC-01"),
        (b"PK\x03\x04 no zip", "I-FMT-01"),
    ],
    ids=["entities", "outside", "broken", "no-core", "traversal", "remote", "encoding", "delimiter", "index", "no-meta",
         "no-zip"],
)  # fmt: skip
def test_hostile_and_broken_archives_are_refused_with_an_issue(data: bytes, rule: str) -> None:
    found, issues = read(data)
    assert found == [] and [one.rule for one in issues] == [rule]


def test_facts_of_nobody_are_told() -> None:
    data, _ = written(FORMAT, [canonical(STATES_RECORD)])
    files = unpack(data, "hearts.zip")
    files["occurrence.txt"] = files["occurrence.txt"].splitlines(keepends=True)[0]
    found, issues = read(pack(files.items()))
    assert found == [] and [(one.rule, one.value) for one in issues] == [("I-DWC-04", "states")]


@pytest.mark.parametrize("name", ["../up.txt", "/root.txt", "a\\b.txt"])
def test_names_that_lead_out_of_the_zip_are_refused(name: str) -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as package:
        package.writestr(name, b"x")
    assert [one.rule for one in read(stream.getvalue())[1]] == ["I-FMT-01"]


def test_a_zip_bomb_is_refused_before_it_is_unpacked() -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr("occurrence.txt", b"0" * 64 * 1024 * 1024)
    found, issues = read(stream.getvalue())
    assert found == [] and [one.rule for one in issues] == ["I-FMT-01"] and "zip bomb" in issues[0].hint
