"""SSSOM as JSON and RDF: rows in = rows out + issues, and no row that denies a match ever states one.

Outside checks: the table of slots against ``sssom-pydantic``; both forms, both ways, against ``sssom``, which needs an
environment of its own (it brings about 100 packages)::

    python -m venv other; other/bin/pip install sssom==0.4.21 pytest hypothesis PyYAML orjson pyoxigraph
    PYTHONPATH=converters other/bin/python -m pytest tests/test_sssom_forms.py
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from chordae.errors import FormatError
from chordae.formats.settings import Settings
from chordae.formats.sssom_forms import read, write
from chordae.sssom import COLUMNS, NO_TERM, REQUIRED, SET_SLOTS, MappingSet, Row, read_mappings, sort_rows
from chordae.sssom_slots import join_values, slots, split_values

TOP = Path(__file__).resolve().parents[1]
SETS = sorted((TOP / "mappings").glob("*.sssom.tsv"))
FORMS = {"sssom": "tsv", "sssom-json": "json", "sssom-rdf": "ttl"}
SKOS = "http://www.w3.org/2004/02/skos/core#"
PREFIXES = {"a": "https://example.org/a/", "b": "https://example.org/b#", "skos": SKOS}
ROW = {
    "subject_id": "a:heart",
    "predicate_id": "skos:exactMatch",
    "object_id": "b:1",
    "mapping_justification": "semapv:ManualMappingCuration",
}


def written(mappings: MappingSet, form: str) -> bytes:
    return b"".join(write([mappings], Settings(form)))


def made(*rows: dict[str, str], **header: Any) -> MappingSet:
    return MappingSet(
        "x", {"mapping_set_id": "https://example.org/set", "curie_map": PREFIXES, **header}, tuple(map(Row, rows))
    )


def test_the_table_of_slots_is_that_of_the_reader() -> None:
    assert {name for name, slot in slots().items() if slot.of_row} == set(COLUMNS)
    assert {name for name, slot in slots().items() if slot.of_set} == set(SET_SLOTS)
    assert len({slot.property for slot in slots().values()}) == len(slots())


def test_the_slots_that_hold_several_values_are_those_of_an_independent_library() -> None:
    library = pytest.importorskip("sssom_pydantic.constants", reason="sssom-pydantic is in the extra 'test'")
    ours = {name for name, slot in slots().items() if slot.several and slot.of_row}
    assert ours == library.MULTIVALUED & set(COLUMNS)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("path", SETS, ids=lambda path: path.name)
def test_our_sets_come_back_the_same(path: Path, form: str) -> None:
    ours, _ = read_mappings(path.read_bytes(), path.name)
    ((found,), issues) = read(written(ours, form), path.name, form)
    assert issues == []
    assert dict(found.header) == dict(ours.header)
    assert list(found.rows) == sort_rows(ours.rows)
    assert written(found, form) == written(ours, form)


@pytest.mark.parametrize("form", FORMS)
def test_rows_that_deny_a_match_stay_what_they_are(form: str) -> None:
    """Issue of other tools: a row with Not written as a match."""
    denied = {**ROW, "object_id": "b:2", "predicate_modifier": "Not"}
    sought = {**ROW, "object_id": NO_TERM}
    content = written(made(ROW, denied, sought), form)
    ((found,), issues) = read(content, "x", form)
    assert issues == []
    assert {(row["object_id"], row.negative, row.no_term, row.positive) for row in found.rows} == {
        ("b:1", False, False, True),
        ("b:2", True, False, False),
        (NO_TERM, False, True, False),
    }
    if form == "sssom-rdf":
        import pyoxigraph

        predicates = {quad.predicate.value for quad in pyoxigraph.parse(content, format=pyoxigraph.RdfFormat.TURTLE)}
        assert not any(one.startswith(SKOS) for one in predicates)


# Words of every kind: with bars, backslashes, quotes and letters of other scripts; identifiers with and without prefix.
WORDS = st.text(st.characters(blacklist_categories=("Cs", "Cc", "Zl", "Zp")), min_size=1, max_size=10)
IDS = st.sampled_from(["a:1", "b:x y", "a:", "zz:9", "no prefix", "b:é", "https://example.org/a/7", ":", "b:1"]) | WORDS


def cells(name: str) -> st.SearchStrategy[str]:
    slot = slots()[name]
    one = IDS if slot.kind in ("reference", "iri") else WORDS | st.sampled_from(["Not", "0.90", "1e5", "2026-11-25"])
    if not slot.several:
        return one
    # In RDF several values are a set: sorted here, so that they can come back the same.
    values = st.lists(one.filter(lambda text: not text.endswith("\\")), min_size=1, max_size=3, unique=True)
    return values.map(lambda found: join_values(sorted(found)))


@st.composite
def mapping_sets(draw: st.DrawFn) -> MappingSet:
    names = draw(st.lists(st.sampled_from([one for one in COLUMNS if one not in REQUIRED]), unique=True, max_size=6))
    rows = st.fixed_dictionaries({one: cells(one) for one in REQUIRED}, optional={one: cells(one) for one in names})
    header = {
        "mapping_set_version": draw(WORDS | st.sampled_from(["1.10", "no", "2026-11-25", "~"])),
        "creator_label": sorted(draw(st.lists(WORDS, min_size=1, max_size=3, unique=True))),
        "object_source": draw(IDS),
        "license": draw(IDS),
    }
    return made(*draw(st.lists(rows, max_size=5)), **header)


@settings(deadline=None)
@given(mapping_sets(), st.sampled_from(list(FORMS)))
def test_what_is_written_is_read_back_the_same(mappings: MappingSet, form: str) -> None:
    content = written(mappings, form)
    ((found,), issues) = read(content, "x", form)
    assert issues == []
    assert dict(found.header) == dict(mappings.header)
    assert list(found.rows) == sort_rows(mappings.rows)
    assert written(found, form) == content


def test_a_table_holds_one_set_and_rdf_several() -> None:
    two = [made(ROW), MappingSet("y", {"mapping_set_id": "https://example.org/other"}, (Row(ROW),))]
    for form in ("sssom", "sssom-json"):
        with pytest.raises(FormatError, match="there are 2"):
            list(write(two, Settings(form)))
    found, issues = read(b"".join(write(two, Settings("sssom-rdf"))), "x", "sssom-rdf")
    assert issues == [] and [len(one.rows) for one in found] == [1, 1]


BAD_ROWS: list[Any] = [
    *(None, 7, "words", [], {}, {"subject_id": "a:1"}, {**ROW, "object_id": None}, {**ROW, "subject_id": ["a:1"]}),
    *({**ROW, "comment": {"a": 1}}, {**ROW, "comment": "two\nlines"}, {**ROW, "comment": "\u0007"}),
    *({**ROW, "author_label": ["a\\", "b"]}, {**ROW, "author_label": [["a"]]}, {**ROW, "author_label": [None]}),
]


def test_items_of_json_are_rows_or_issues() -> None:
    """The strict count: nothing is dropped in silence, and what can be read is read."""
    good = [{**ROW, "confidence": 0.9, "author_label": ["x", "y|z"], "see_also": None}, {**ROW, "comment": True}]
    safe = [one for one in BAD_ROWS if not (isinstance(one, dict) and one.get("comment") == "\u0007")]
    document = {"curie_map": PREFIXES, "mappings": [*safe, *good]}
    ((found,), issues) = read(json.dumps(document).encode(), "x", "sssom-json")
    assert [one.rule for one in issues] == ["I-MAP-03"] * len(safe)
    assert [one.path for one in issues] == [f"/mappings/{at}" for at in range(len(safe))]
    assert [dict(row.cells) for row in found.rows] == [
        {**ROW, "confidence": "0.9", "author_label": r"x|y\|z"},
        {**ROW, "comment": "true"},
    ]


@pytest.mark.parametrize(
    ("document", "rules"),
    [
        ({"mappings": {}}, ["I-MAP-01"]),
        ([], ["I-MAP-01"]),
        (None, ["I-MAP-01"]),
        ({"@context": "https://w3id.org/sssom/sssom.context.jsonld", "mappings": [ROW]}, ["I-MAP-01"]),
        ({"@context": [{"a": "https://e/"}, "https://e/c"], "mappings": [ROW]}, ["I-MAP-01"]),
        ({"@context": {"@import": "https://e/c"}, "mappings": [ROW]}, ["I-MAP-01"]),
        ({"colour": "red", "mappings": [{**ROW, "mood": "x"}]}, ["I-MAP-02", "I-MAP-02"]),
        ({"license": ["a", "b"], "mappings": []}, ["I-MAP-01"]),
        ({"curie_map": "x", "mappings": []}, ["I-MAP-01"]),
        ({"curie_map": ["x"], "creator_label": [{}], "mappings": []}, ["I-MAP-01", "I-MAP-01"]),
    ],
)
def test_json_that_is_no_set_is_told_so(document: Any, rules: list[str]) -> None:
    _, issues = read(json.dumps(document).encode(), "x", "sssom-json")
    assert [one.rule for one in issues] == rules


TURTLE = f"""
@prefix s: <https://w3id.org/sssom/> . @prefix o: <http://www.w3.org/2002/07/owl#> . @prefix k: <{SKOS}> .
@prefix a: <https://example.org/a/> .
<https://example.org/set> a s:MappingSet ; s:mappings [ a o:Axiom ; o:annotatedSource a:1 ; o:annotatedProperty
  k:exactMatch ; o:annotatedTarget a:2 ; s:mapping_justification <https://w3id.org/semapv/vocab/X> EXTRA ] .
"""


@pytest.mark.parametrize(
    ("extra", "rows", "rules"),
    [
        ("", 1, []),
        ("; s:subject_label 'Herz'@de", 1, ["I-RDF-12"]),
        ("; s:subject_label 'a', 'b'", 0, ["I-MAP-03"]),
        ("; s:author_label 'a', 'b'", 1, []),
        ("; s:mood 'x'", 1, ["I-MAP-02"]),
        ("; s:comment []", 1, ["I-MAP-02"]),
        ("; s:subject_label []", 0, ["I-MAP-03"]),
        ("] , [ s:subject_label 'x'", 1, ["I-MAP-03"]),
        ("] , 'words' , [ a o:Axiom", 1, ["I-MAP-03", "I-MAP-03"]),
        ("] . a:1 k:exactMatch a:2 . [] s:comment [ ", 1, ["I-MAP-12", "I-MAP-12"]),
        ("] . <https://example.org/two> a s:MappingSet ; s:comment 'x' ; s:mood [", 1, ["I-MAP-02", "I-MAP-02"]),
        ("] ; s:subject_source [", 1, ["I-MAP-01"]),
    ],
)
def test_nodes_of_rdf_are_rows_or_issues(extra: str, rows: int, rules: list[str]) -> None:
    found, issues = read(TURTLE.replace("EXTRA", extra).encode(), "x", "sssom-rdf")
    assert sorted(one.rule for one in issues) == rules
    assert sum(len(one.rows) for one in found) == rows


def test_values_of_a_cell() -> None:
    assert split_values("a||b") == ["a", "", "b"]
    with pytest.raises(ValueError, match="backslash"):
        join_values(["a\\", "b"])


# -- the library ``sssom``, where it is installed ----------------------------------------------------------------------


def frame(found: Any) -> list[dict[str, str]]:
    rows = found.df.fillna("").astype(str).to_dict("records")
    return sorted(({key: value for key, value in row.items() if value} for row in rows), key=repr)


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.name)
def test_another_library_reads_ours_and_we_read_theirs(path: Path, tmp_path: Path) -> None:
    parsers = pytest.importorskip("sssom.parsers", reason="sssom needs an environment of its own (about 100 packages)")
    writers = pytest.importorskip("sssom.writers")
    ours, _ = read_mappings(path.read_bytes(), path.name)
    expected = frame(parsers.parse_sssom_table(str(path), propagate=False))
    for form, parse, put in (
        ("sssom", parsers.parse_sssom_table, writers.write_table),
        ("sssom-json", parsers.parse_sssom_json, writers.write_json),
        ("sssom-rdf", parsers.parse_sssom_rdf, writers.write_rdf),
    ):
        file = tmp_path / f"ours.{FORMS[form]}"
        file.write_bytes(written(ours, form))
        assert frame(parse(str(file), propagate=False)) == expected
        with (tmp_path / "theirs").open("w", encoding="utf-8") as stream:
            put(parsers.parse_sssom_table(str(path), propagate=False), stream)
        ((found,), issues) = read((tmp_path / "theirs").read_bytes(), path.name, form)
        assert [one for one in issues if one.rule not in ("I-MAP-02", "I-MAP-12")] == []
        # The library moves what all rows say into the header, as the standard allows.
        gone = {key for row in ours.rows for key in row.cells} - {key for row in found.rows for key in row.cells}
        moved = {key: found.header[key] for key in gone}
        shared = {key: join_values(value) if isinstance(value, list) else value for key, value in moved.items()}
        again = [Row({**shared, **row.cells}) for row in found.rows]
        assert sort_rows(again) == sort_rows(ours.rows)
