"""Mapping sets are read strictly: every line is a row or an issue, and what was written is read back the same.

Outside checks: the order of the columns and the rows of our own sets against the library ``sssom-pydantic``.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae.sssom import COLUMNS, NO_TERM, REQUIRED, MappingSet, Row, read_mappings, sort_rows, write_mappings
from chordae.terms import vocabulary
from chordae.vocabulary.lint import lint_mappings

TOP = Path(__file__).resolve().parents[1]
SETS = sorted((TOP / "mappings").glob("*.sssom.tsv"))
HEADER = """# mapping_set_id: https://example.org/set
# mapping_set_title: A set for a test
# license: https://creativecommons.org/licenses/by/4.0/
# object_source: obo:hp.owl
# curie_map:
#   term: https://w3id.org/chordae/term/
#   HP: http://purl.obolibrary.org/obo/HP_
#   obo: http://purl.obolibrary.org/obo/
#   skos: http://www.w3.org/2004/02/skos/core#
#   semapv: https://w3id.org/semapv/vocab/
#   sssom: https://w3id.org/sssom/
"""
NAMES = ("subject_id", "subject_label", "predicate_id", "object_id", "object_label", "mapping_justification", "comment")
GOOD = {
    "subject_id": "term:ebstein_malformation",
    "subject_label": "Ebstein malformation",
    "predicate_id": "skos:exactMatch",
    "object_id": "HP:0010316",
    "object_label": "Ebstein anomaly of the tricuspid valve",
    "mapping_justification": "semapv:ManualMappingCuration",
}


def table(*rows: dict[str, str], header: str = HEADER, names: tuple[str, ...] = NAMES) -> str:
    lines = ["\t".join(names), *("\t".join(row.get(name, "") for name in names) for row in rows)]
    return header + "\n".join(lines) + "\n"


def rules(text: str | bytes) -> list[str]:
    mappings, issues = read_mappings(text, "test.sssom.tsv")
    return sorted(one.rule for one in (*issues, *lint_mappings(mappings, vocabulary())))


def test_a_good_row_gives_no_issue() -> None:
    mappings, issues = read_mappings(table(GOOD), "test.sssom.tsv")
    assert issues == []
    assert lint_mappings(mappings, vocabulary()) == []
    assert dict(mappings.rows[0].cells) == GOOD
    assert mappings.rows[0].line == 13


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"predicate_id": "skos:kindaMatch"}, "I-MAP-05"),
        ({"mapping_justification": "guessed"}, "I-MAP-06"),
        ({"object_id": "ORDO:1880"}, "I-MAP-04"),
        ({"predicate_id": "skos:broadMatch"}, "I-MAP-08"),
        ({"subject_id": "term:no_such_term"}, "I-MAP-11"),
        ({"subject_label": ""}, "I-MAP-10"),
        ({"object_label": ""}, "I-MAP-10"),
        ({"object_id": ""}, "I-MAP-03"),
        ({"mapping_justification": ""}, "I-MAP-03"),
    ],
    ids=lambda value: "-".join(value) if isinstance(value, dict) else value,
)
def test_a_row_with_a_fault_gives_that_issue(change: dict[str, str], rule: str) -> None:
    assert rules(table({**GOOD, **change})) == [rule]


def test_dates_modifiers_and_confidence_have_a_form() -> None:
    names = (*NAMES, "mapping_date", "predicate_modifier", "confidence")
    good = {**GOOD, "mapping_date": "2026-11-25", "predicate_modifier": "Not", "confidence": "0.9", "comment": "Why."}
    assert rules(table(good, names=names)) == []
    assert rules(table({**good, "mapping_date": "25.11.2026"}, names=names)) == ["I-MAP-06"]
    assert rules(table({**good, "predicate_modifier": "No"}, names=names)) == ["I-MAP-06"]
    assert rules(table({**good, "confidence": "1.9"}, names=names)) == ["I-MAP-06"]


def test_one_pair_twice_is_told_with_the_first_line() -> None:
    mappings, _ = read_mappings(table(GOOD, {**GOOD, "predicate_id": "skos:closeMatch", "comment": "Why."}), "x")
    (found,) = lint_mappings(mappings)
    assert found.rule == "I-MAP-07"
    assert "line 13 says skos:exactMatch" in found.message
    assert found.location.line == 14


def test_no_term_and_a_term_of_one_source_exclude_each_other() -> None:
    nothing = {**GOOD, "object_id": NO_TERM, "object_label": "", "comment": "Searched."}
    assert rules(table(nothing)) == []
    assert rules(table(GOOD, nothing)) == ["I-MAP-09"]


def test_negative_rows_and_searches_in_vain_are_no_matches() -> None:
    names = (*NAMES, "predicate_modifier")
    rows = (GOOD, {**GOOD, "predicate_modifier": "Not"}, {**GOOD, "object_id": NO_TERM})
    mappings, _ = read_mappings(table(*rows, names=names), "x")
    assert [row.positive for row in mappings.rows] == [True, False, False]


@pytest.mark.parametrize(
    "text",
    [
        b"\xff\xfe\x00",
        "",
        "# a: [\nsubject_id\n",
        "# a: &x [1]\n# b: *x\nsubject_id\n",
        "# - only\n# - a list\n" + table(GOOD, header=""),
        "# x: " + "y" * 70_000 + "\n" + table(GOOD, header=""),
        table(GOOD, names=("subject_id", "predicate_id", "object_id")),
        table(GOOD, names=(*NAMES, "comment")),
    ],
    ids=["encoding", "empty", "yaml", "alias", "list", "long", "column-missing", "column-twice"],
)
def test_what_is_no_mapping_set_is_told_so(text: str | bytes) -> None:
    assert "I-MAP-01" in rules(text)


def test_unknown_slots_and_columns_are_told_and_left_out() -> None:
    mappings, issues = read_mappings("# colour: red\n" + table({**GOOD, "mood": "x"}, names=(*NAMES, "mood")), "x")
    assert [one.rule for one in issues] == ["I-MAP-02", "I-MAP-02"]
    assert "colour" not in mappings.header
    assert "mood" not in mappings.rows[0].cells


def test_a_quote_that_is_never_closed_costs_its_row_only() -> None:
    text = table(GOOD, {**GOOD, "subject_label": '"open'}, {**GOOD, "object_id": "HP:0001719"})
    mappings, issues = read_mappings(text.replace('"open', '"open" more'), "x")
    assert [one.rule for one in issues] == ["I-MAP-03"]
    assert [row["object_id"] for row in mappings.rows] == ["HP:0010316", "HP:0001719"]


CELLS = st.text(st.characters(blacklist_categories=("Cs", "Cc")), min_size=1, max_size=12)


@st.composite
def mapping_sets(draw: st.DrawFn) -> MappingSet:
    names = draw(st.lists(st.sampled_from([one for one in COLUMNS if one not in REQUIRED]), unique=True, max_size=5))
    rows = draw(
        st.lists(
            st.fixed_dictionaries(dict.fromkeys(REQUIRED, CELLS), optional=dict.fromkeys(names, CELLS)), max_size=6
        )
    )
    header = {"mapping_set_id": draw(CELLS), "comment": draw(CELLS), "curie_map": {"a": draw(CELLS)}}
    return MappingSet("x", header, tuple(Row(row) for row in rows))


@given(mapping_sets())
def test_what_is_written_is_read_back_the_same(mappings: MappingSet) -> None:
    text = write_mappings(mappings)
    found, issues = read_mappings(text, "x")
    assert issues == []
    assert found.header == mappings.header
    assert list(found.rows) == sort_rows(mappings.rows)
    assert write_mappings(found) == text


@given(st.lists(st.lists(st.text(st.characters(blacklist_characters='"\r\n'), max_size=6), max_size=6), max_size=8))
def test_every_line_is_a_row_or_an_issue(lines: list[list[str]]) -> None:
    body = ["\t".join(cells).replace("\x00", "") for cells in lines]
    body = [one for one in body if one and not one.startswith("#")]
    mappings, issues = read_mappings("\t".join(REQUIRED) + "\n" + "".join(f"{one}\n" for one in body), "x")
    assert len(mappings.rows) + sum(one.rule == "I-MAP-03" for one in issues) == len(body)


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.name)
def test_our_sets_are_canonical_and_clean(path: Path) -> None:
    data = path.read_bytes()
    mappings, issues = read_mappings(data, path.name)
    assert issues == []
    assert lint_mappings(mappings, vocabulary()) == []
    assert write_mappings(mappings).encode() == data


def test_the_columns_stand_in_the_order_of_the_standard() -> None:
    library = pytest.importorskip("sssom_pydantic", reason="sssom-pydantic is in the extra 'test'")
    fields = [name for name in library.Record.model_fields if name != "extensions"]
    assert list(COLUMNS) == fields


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.name)
def test_an_independent_reader_sees_the_same_rows(path: Path) -> None:
    library = pytest.importorskip("sssom_pydantic", reason="sssom-pydantic is in the extra 'test'")
    ours, _ = read_mappings(path.read_bytes(), path.name)
    theirs, _, _, errors = library.read(path, return_errors=True)
    assert errors == []

    def key(row: Row) -> tuple[str, str, str, bool, str]:
        label = row["object_label"]
        return row["subject_id"], row["predicate_id"], row["object_id"], row.negative, label

    seen = sorted(
        (
            one.subject.curie,
            one.predicate.curie,
            one.object.curie,
            one.predicate_modifier == "Not",
            one.object.name or "",
        )
        for one in theirs
    )
    assert seen == sorted(map(key, ours.rows))
