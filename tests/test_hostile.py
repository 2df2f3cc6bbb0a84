"""Every reader against input made to do harm: refused with an issue or a sentence, in bounded time and memory.

The table is reader x attack (``hostile.py``). A new format of ``chordae.formats.table`` is in it without being named.
What is tried: entities that multiply (the "billion laughs", a known attack on XML, here also as aliases of YAML),
entities and contexts that stand outside the file, nesting without end, huge numbers and texts, broken and unusual
encodings, zero bytes, zip bombs, paths and links that lead out of a folder.
"""

from __future__ import annotations

import io
import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest

from chordae import cli
from chordae.errors import InputError
from chordae.formats.opening import open_bytes, open_path
from chordae.formats.packing import files_of_folder, pack, unpack
from chordae.formats.settings import Settings
from chordae.formats.table import FORMATS
from chordae.registry.package import unpack as unpack_deposit
from hostile import LAUGHS, OUTSIDE, READERS, SHOWN, Outcome, attacks, harmless, zipped

SECONDS = 10
MEGABYTES = 300

# What is no harm to a reader, and why nothing need be said: any other pair must be refused or named.
NO_HARM: Mapping[str, tuple[str, ...]] = {
    "UTF-16": ("yaml", "collection.yaml", "words txt"),  # an encoding that its mark names
    "numbers that are none": ("yaml",),  # NaN is a word in YAML as read here
    "dates that are none": ("yaml",),  # a date is text
    "an import in a context": ("yaml", "json", "ndjson"),  # a record with a key that the check of structure names
    "one long text": (
        "profile",
        "registry profile",
    ),  # a long name; files of profiles are limited where they are opened
    "an empty zip": ("registry archive",),  # an empty folder is no deposit; told by the next step
    "a zip of zips": ("registry archive",),  # a file like any other
    "nothing": ("digest",),  # an empty graph has a digest
    "blanks": ("digest",),
    "many tabs": ("digest",),
}
# A list of words takes any text, a word a line.
WORDS = "words txt"


@cache
def made() -> tuple[tuple[str, bytes], ...]:
    return tuple(attacks())


@cache
def outcomes(reader: str) -> dict[str, Outcome]:
    return harmless(READERS[reader], made())


@pytest.mark.parametrize("reader", READERS)
def test_a_reader_withstands_every_attack(reader: str) -> None:
    found = outcomes(reader)
    assert len(found) > 50
    assert {name: one.told for name, one in found.items() if one.crashed} == {}
    assert {name: one.seconds for name, one in found.items() if one.seconds > SECONDS} == {}
    assert {name: one.megabytes for name, one in found.items() if one.megabytes > MEGABYTES} == {}


@pytest.mark.parametrize("reader", READERS)
def test_a_reader_says_what_it_refuses(reader: str) -> None:
    silent = {name for name, one in outcomes(reader).items() if not one.refused}
    if reader == WORDS:
        assert {"nothing", "blanks", "invalid UTF-8", "zero bytes", "a zip bomb", "a gzip"}.isdisjoint(silent)
    else:
        assert silent == {name for name, readers in NO_HARM.items() if reader in readers}


# -- attacks that only one reader would understand ---------------------------------------------------------------------

M = "https://w3id.org/chordae/model/"
RECORD = f"<https://e/1> a <{M}Record>"
DEEP = "[ <https://e/p> " * 20_000
META = """<archive xmlns="http://rs.tdwg.org/dwc/text/"><core encoding="UTF-8" fieldsTerminatedBy="{by}"
 linesTerminatedBy="\\n" fieldsEnclosedBy='{quote}' ignoreHeaderLines="{skip}" rowType="http://rs.tdwg.org/dwc/terms/Occurrence">
 <files><location>{file}</location></files><id index="{at}"/></core></archive>"""


def meta(**change: str) -> bytes:
    return META.format(**{"by": ",", "quote": '"', "skip": "0", "file": "a.csv", "at": "0", **change}).encode()


def archive(content: bytes, **files: bytes) -> bytes:
    return zipped({"meta.xml": content, "a.csv": b"1,x\n", **files})


SPECIAL: list[tuple[str, str, bytes | str, str]] = [
    # RDF: nodes within nodes, identifiers that are none, values that are not of their type, contexts from elsewhere.
    ("turtle", "nested nodes", f"{RECORD} ; <https://e/p> {DEEP}", "I-RDF-01"),
    ("turtle", "nested lists", f"{RECORD} ; <https://e/p> {'( ' * 20_000}", "I-RDF-01"),
    ("trig", "nested nodes", f"{{ {RECORD} ; <https://e/p> {DEEP}", "I-RDF-01"),
    ("ntriples", "an IRI with blanks", "<https://e/a b> <https://e/p> <https://e/o> .", "I-RDF-01"),
    (
        "nquads",
        "a graph without an end",
        "<https://e/a> <https://e/p> <https://e/o> <https://e/" + "g" * 99_999,
        "I-RDF-01",
    ),
    ("turtle", "an IRI with brackets", f"<https://e/<1> a <{M}Record> .", "I-RDF-01"),
    (
        "turtle",
        "a number that is none",
        f"{RECORD} ; <{M}measurements> <https://e/m> . <https://e/m> <{M}value> 'NaN' .",
        "I-RDF-09",
    ),
    (
        "turtle",
        "a huge exponent",
        f"{RECORD} ; <{M}measurements> <https://e/m> . <https://e/m> <{M}value> 1e999999999 .",
        "I-RDF-09",
    ),
    (
        "turtle",
        "a number of many digits",
        f"{RECORD} ; <{M}measurements> <https://e/m> . <https://e/m> <{M}value> {'7' * 50_000} .",
        "I-RDF-09",
    ),
    ("turtle", "a node that is its own part", f"{RECORD} ; <{M}parts> <https://e/1> .", "I-RDF-10"),
    (
        "turtle",
        "a statement about a statement",
        f"{RECORD} ; <{M}collection> <<( <https://e/a> <https://e/p> 1 )>> .",
        "I-RDF-09",
    ),
    ("jsonld", "a context elsewhere", '{"@context": ["https://e/c"], "@id": "https://e/1"}', "I-RDF-02"),
    (
        "jsonld",
        "a context elsewhere, within a term",
        '{"@context": {"x": {"@id": "https://e/x", "@context": "http://e/c"}}}',
        "I-RDF-02",
    ),
    ("jsonld", "a context in a file", '{"@context": "../../etc/passwd"}', "I-RDF-02"),
    ("jsonld", "an identifier with blanks", '{"@context": {}, "@id": "https://e/a b", "https://e/p": 1}', "I-RDF-04"),
    # SSSOM: traps in the header and in the rows.
    ("sssom", "aliases in the header", "# a: &x [1]\n# b: [*x, *x]\nsubject_id\n", "I-MAP-01"),
    ("sssom", "a tag in the header", "# license: !!python/name:os.system\nsubject_id\n", "I-MAP-01"),
    ("sssom", "a header nested without end", "# see_also: " + "[" * 30_000 + "\nsubject_id\n", "I-MAP-01"),
    ("sssom", "a header without end", "# comment: x\n" * 10_000 + "subject_id\n", "I-MAP-01"),
    (
        "sssom",
        "a terminal escape in a cell",
        "subject_id\tpredicate_id\tobject_id\tmapping_justification\na\t\x1b[2J\tb\tc\n",
        "I-MAP-03",
    ),
    ("sssom-json", "a context elsewhere", '{"@context": "https://e/c", "mappings": []}', "I-MAP-01"),
    ("sssom-json", "rows nested without end", '{"mappings": [' + "[" * 50_000, "I-DOC-04"),
    (
        "sssom-rdf",
        "nested nodes",
        f"<https://e/s> a <https://w3id.org/sssom/MappingSet> ; <https://w3id.org/sssom/mappings> {DEEP}",
        "I-RDF-01",
    ),
    # Outside terms.
    ("obograph", "a circle", json.dumps({"graphs": [{"nodes": [{"id": "HP:1", "lbl": {"a": 1}}]}]}), "I-OUT-06"),
    (
        "skos",
        "nested nodes",
        f"<https://e/1> a <http://www.w3.org/2004/02/skos/core#Concept> ; <https://e/p> {DEEP}",
        "I-RDF-01",
    ),
    ("ontology owl", "an entity outside", OUTSIDE, "refused"),
    ("ontology owl", "entities that multiply", LAUGHS, "refused"),
    (
        "ontology owl",
        "one long entity many times",
        f'<!DOCTYPE x [<!ENTITY a "{"x" * 10_000}">]><x>{"&a;" * 100_000}</x>',
        "refused",
    ),
    (
        "ontology owl",
        "an entity of parameters",
        '<!DOCTYPE x [<!ENTITY % a SYSTEM "file:///etc/passwd"> %a;]><x/>',
        "refused",
    ),
    ("ontology obo", "a gzip", b"\x1f\x8b\x08\x00" + b"\0" * 100, "refused"),
    # FHIR and phenopackets.
    ("fhir", "a bundle of bundles", '{"resourceType":"Bundle","entry":[{"resource":' * 5000, "I-DOC-04"),
    (
        "fhir",
        "references in a circle",
        json.dumps(
            {
                "resourceType": "Bundle",
                "entry": [{"fullUrl": "a", "resource": {"resourceType": "Specimen", "parent": [{"reference": "a"}]}}],
            }
        ),
        "I-REC-02",
    ),
    (
        "fhir",
        "everything of the wrong type",
        json.dumps(
            {
                "resourceType": "Bundle",
                "entry": [7, {}, {"resource": 7}, {"resource": {"resourceType": ["Specimen"], "identifier": {}}}],
            }
        ),
        "I-FHIR-",
    ),
    # Archives.
    ("dwca", "an entity in the description", archive(LAUGHS.encode()), "I-DWC-01"),
    ("dwca", "an entity outside in the description", archive(OUTSIDE.encode()), "I-DWC-01"),
    ("dwca", "a table outside", archive(meta(file="../../etc/passwd")), "I-DWC-05"),
    ("dwca", "a table by an absolute path", archive(meta(file="/etc/passwd")), "I-DWC-05"),
    ("dwca", "a delimiter that is a line end", archive(meta(by="\\n")), "I-DWC-01"),
    ("dwca", "an index without end", archive(meta(at="9" * 5000)), "I-DWC-01"),
    ("dwca", "an index below zero", archive(meta(at="-1")), "I-DWC-01"),
    ("dwca", "lines to skip without end", archive(meta(skip="9" * 5000)), "I-DWC-01"),
    ("dwca", "one sign for everything", archive(meta(by="x", quote="x")), "I-DWC-01"),
    (
        "csv",
        "a package that names tables outside",
        zipped(
            {
                "datapackage.json": json.dumps(
                    {"resources": [{"path": "/etc/passwd"}, {"path": "../x.csv"}, {"path": "http://e/x.csv"}]}
                ).encode()
            }
        ),
        "I-",
    ),
    ("xlsx", "an entity in a sheet", zipped({"xl/workbook.xml": LAUGHS.encode()}), "I-FMT-01"),
    (
        "xlsx table",
        "an entity behind 8 KB",
        zipped(
            {
                "[Content_Types].xml": b"<Types>" + b" " * 9000 + LAUGHS.encode(),
                "xl/workbook.xml": b" " * 9000 + LAUGHS.encode(),
            }
        ),
        "refused",
    ),
    # Tables and what goes with them.
    (
        "columns.tsv",
        "a column of a million letters",
        "column\tpart\tproperty\tkind\n" + "x" * 1_000_000 + "\t\t\tvalue\n",
        "I-",
    ),
    ("collection.yaml", "a catalogue outside", "catalogue: ../../../etc/passwd\n", "refused"),
    ("collection.yaml", "an absolute catalogue", "catalogue: /etc/passwd\n", "refused"),
    ("collection.yaml", "a base that is none", "base_iri: 'javascript:alert(1)'\n", "refused"),
    ("collection.yaml", "a text of many letters", "name: " + "x" * 40_000, "refused"),
    ("profile", "a rule that is none", "id: x\nrules: {R-" + "9" * 900 + ": off}\n", "I-PRO-03"),
    ("profile", "requirements nested without end", "id: x\nrequire: " + "[" * 5000, "I-DOC-"),
    ("registry profile", "a date that is none", "id: x\nnewer: 2026-99-99\n", "refused"),
    # Deposits.
    ("deposit manifest-sha256.txt", "paths that lead out", "0" * 64 + "  ../../../etc/passwd\n", "I-DEP-07"),
    ("deposit manifest-sha256.txt", "paths in the home folder", "0" * 64 + "  ~root/x\n", "I-DEP-07"),
    (
        "deposit bagit.txt",
        "an encoding that is none",
        "BagIt-Version: 1.0\nTag-File-Character-Encoding: rot13\n",
        "I-DEP-02",
    ),
    ("deposit data/versions.json", "nested without end", "[" * 100_000, "I-DEP-"),
    ("registry archive", "a path that leads out", zipped({"../evil": b"x"}), "refused"),
]


@pytest.mark.parametrize(
    ("reader", "attack", "data", "expected"), SPECIAL, ids=[f"{one[0]}-{one[1]}" for one in SPECIAL]
)
def test_an_attack_on_one_reader_is_refused(reader: str, attack: str, data: bytes | str, expected: str) -> None:
    content = data.encode("utf-8", "surrogatepass") if isinstance(data, str) else data
    found = harmless(READERS[reader], [(attack, content)])[attack]
    assert not found.crashed, found.told
    assert found.seconds < SECONDS and found.megabytes < MEGABYTES
    if expected == "refused":
        assert found.error == "refused"
    else:
        assert any(rule.startswith(expected) for rule in found.rules), found


XSD = "http://www.w3.org/2001/XMLSchema#"
TYPE = "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type>"
VALVE = "<https://e/1/part/aortic_valve>"
HEART = (
    f"<https://e/1> {TYPE} <{M}Record> .\n<https://e/1> <{M}parts> {VALVE} .\n{VALVE} {TYPE} <{M}ArterialValve> .\n"
    f"<https://e/1> <{M}description> <https://e/1/description> .\n<https://e/1/description> {TYPE} <{M}Description> .\n"
)
WRONG = {
    "words for a number": (f'{VALVE} <{M}leaflet_count> "abc"^^<{XSD}integer> .', "I-RDF-09"),
    "a fraction for a whole number": (f'{VALVE} <{M}leaflet_count> "3.5"^^<{XSD}integer> .', "I-RDF-09"),
    "a truth for a number": (f'{VALVE} <{M}leaflet_count> "true"^^<{XSD}boolean> .', "I-RDF-09"),
    "a datatype of nobody": (f'{VALVE} <{M}leaflet_count> "3"^^<https://e/mine> .', "I-RDF-09"),
    "a state with a datatype of nobody": (f'{VALVE} <{M}state> "absent"^^<https://e/mine> .', "I-RDF-09"),
    "a day that is none": (f'<https://e/1/description> <{M}described_on> "2026-02-30"^^<{XSD}date> .', "I-RDF-09"),
    "an IRI with a blank": (f'<https://e/a b> <{M}note> "x" .', "I-RDF-01"),
    "an IRI with an escaped blank": (f'<https://e/a\\u0020b> <{M}note> "x" .', "I-RDF-01"),
    "an IRI with a brace": (f'<https://e/a{{b> <{M}note> "x" .', "I-RDF-01"),
    "a language that is none": (f'{VALVE} <{M}note> "x"@en--x .', "I-RDF-01"),
    "half a pair": (f'{VALVE} <{M}note> "\\uD800" .', "I-RDF-01"),
    "signs that nobody can see": (f'{VALVE} <{M}note> "a\\u0000b" .', "I-DOC-07"),
    "a huge text": (f'{VALVE} <{M}note> "{"x" * 1_000_000}" .', "I-DOC-10"),
}


@pytest.mark.parametrize("form", ["ntriples", "nquads", "turtle", "trig"])
@pytest.mark.parametrize("fault", WRONG)
def test_bad_identifiers_datatypes_and_texts_are_named_in_every_syntax(form: str, fault: str) -> None:
    line, rule = WRONG[fault]
    readings, issues = open_bytes(f"{HEART}{line}\n".encode(), "x", FORMATS[form])
    assert [one.rule for one in issues] == [rule]
    for one in readings:
        part = {"id": "aortic_valve", "type": "ArterialValve"}
        assert [{**found, "note": ""} for found in one.record["parts"]] == [{**part, "note": ""}]
        assert "description" not in one.record or "described_on" not in one.record["description"]
    sound, none = open_bytes(HEART.encode(), "x", FORMATS[form])
    assert len(sound) == 1 and none == []


@pytest.mark.parametrize("form", ["ntriples", "turtle"])
def test_an_absent_thing_that_is_present_as_well_is_neither(form: str) -> None:
    """RDF has no order; to take the first of two would be to take one by chance."""
    both = "".join(f"{VALVE} <{M}state> <https://w3id.org/chordae/term/{one}> .\n" for one in ("absent", "present"))
    readings, issues = open_bytes(f"{HEART}{both}".encode(), "x", FORMATS[form])
    assert [one.rule for one in issues] == ["I-RDF-08", "I-RDF-08"]
    assert "state" not in readings[0].record["parts"][0]
    assert {one["text"] for one in readings[0].record["remarks"]} == {"absent", "present"}


@pytest.mark.parametrize("form", ["fhir", "dwca", "phenopackets", "annotations"])
def test_what_documents_refuse_is_refused_in_every_format(form: str) -> None:
    """A text without end, which a record in JSON may not hold, may not come in by another door."""
    record = {"id": "7", "evidence": [{"id": "a", "source_file": "a.jpg", "view": "x" * 50_000}]}
    module, many = FORMATS[form].load(), FORMATS[form].several
    made = module.write_files if many else module.write
    content = made([(record, None)], Settings(format=form))
    data = pack(content) if many else b"".join(content)
    readings, issues = open_bytes(data, "x", FORMATS[form])
    texts = [len(str(value)) for one in readings for row in one.record.get("evidence", ()) for value in row.values()]
    assert max(texts, default=0) <= 32_767
    assert form not in ("fhir", "annotations") or "I-DOC-10" in {one.rule for one in issues}


# -- folders and links -------------------------------------------------------------------------------------------------


@pytest.fixture
def trap(tmp_path: Path) -> Path:
    """A folder whose links lead to a file and a folder outside it."""
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "told.csv").write_text(SHOWN, encoding="utf-8")
    folder = tmp_path / "folder"
    folder.mkdir()
    (folder / "file.csv").symlink_to(tmp_path / "outside" / "told.csv")
    return folder


def test_a_link_in_a_folder_is_not_followed(trap: Path) -> None:
    with pytest.raises(InputError, match="leads out of the folder"):
        files_of_folder(trap)
    with pytest.raises(InputError, match="leads out of the folder"):
        open_path(str(trap), FORMATS["csv"])
    (trap / "file.csv").unlink()
    (trap / "inner").symlink_to(trap.parent / "outside", target_is_directory=True)
    assert SHOWN.encode() not in b"".join(files_of_folder(trap).values())


def test_a_link_in_a_circle_ends(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    (tmp_path / "self").symlink_to(tmp_path, target_is_directory=True)
    (tmp_path / "x.csv").write_bytes(b"1")
    assert files_of_folder(tmp_path) == {"x.csv": b"1"}


@pytest.mark.parametrize("name", ["../evil", "/etc/evil", "a/../../evil", "..\\evil", "C:\\evil", "a\0b/../../evil"])
def test_a_name_in_a_zip_that_leads_out(tmp_path: Path, name: str) -> None:
    """Names are kept as they are only where they cannot lead out; nothing is written outside."""
    for read in (lambda data: unpack(data, "x.zip"), lambda data: _to_disk(tmp_path, data)):
        try:
            read(zipped({name: b"evil", "data/a": b"x"}))
        except InputError:
            continue
    assert [one for one in tmp_path.rglob("*") if "evil" in one.name and (tmp_path / "out") not in one.parents] == []
    assert not Path("/etc/evil").exists()


def _to_disk(folder: Path, data: bytes) -> None:
    (folder / "x.zip").write_bytes(data)
    unpack_deposit(folder / "x.zip", folder / "out" / str(len(list(folder.iterdir()))))


def test_a_zip_that_lies_about_its_sizes_is_refused() -> None:
    data = zipped({"a.csv": b"0" * 50_000_000})
    # The true size stands twice, before the content and in the list at the end; both say 1,000.
    lied = data.replace((50_000_000).to_bytes(4, "little"), (1000).to_bytes(4, "little"))
    assert lied != data
    with pytest.raises(InputError):
        unpack(lied, "x.zip")


# -- the command line --------------------------------------------------------------------------------------------------

ENDINGS = [suffix for one in FORMATS.values() if one.reads for suffix in one.suffixes] + [
    ".csv",
    ".xlsx",
    ".zip",
    ".txt",
]


@pytest.mark.parametrize("command", ["read", "write", "check", "derive"])
@pytest.mark.parametrize("ending", ENDINGS)
def test_the_command_line_ends_in_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str, ending: str
) -> None:
    for attack, data in (
        ("laughs", LAUGHS.encode()),
        ("nested", b"[" * 50_000),
        ("bytes", bytes(range(256))),
        ("context", b'{"@context": "https://e/c", "id": "a"}'),
        ("pair", b'{"id": "\\ud800", "\\udfff": 1}'),
    ):
        path = tmp_path / f"{attack}{ending}"
        path.write_bytes(data)
        code = cli.main([command, str(path)])
        said = capsys.readouterr()
        assert code in (1, 2), (attack, said.out[:200], said.err[:400])
        assert "Traceback" not in said.err and "Internal error" not in said.err
        assert said.err.strip() or said.out.strip()
        said.err.encode()


def test_standard_input_is_no_less_safe(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    class Stdin:
        buffer = io.BytesIO(b"[" * 100_000)

    monkeypatch.setattr("sys.stdin", Stdin())
    assert cli.main(["read", "-"]) == 1
    assert "Traceback" not in capsys.readouterr().err
