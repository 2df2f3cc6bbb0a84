"""What the mapping sets may say, and which way round: one exact match a term, sides never taken for morphology.

The direction of every row that is not exact is read aloud and checked against its stored reason and, where the same
outside source is matched elsewhere, against both hierarchies. Outside checks: the pinned releases of the ontologies.
"""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter, defaultdict
from pathlib import Path

import pytest

from chordae.identifiers import prefixes
from chordae.mapping import HELD, Code, codes_for, never_for, searched_for, sets, terms_for
from chordae.sssom import MappingSet, Row
from chordae.terms import vocabulary
from chordae.vocabulary.audit import SOURCES, our_sets
from chordae.vocabulary.outside import pinned

TOP = Path(__file__).resolve().parents[1]
FILES = {"uberon", "hpo", "mondo", "pato", "icd11", "icd10cm", "ro", "bspo"}
WHERE = {"structure": ("UBERON",), "quality": ("PATO",), "relation": ("RO", "BFO", "BSPO")}
DISORDER = ("HP", "MONDO", "icd11.code", "ICD10CM")
FILE_OF = {"UBERON": "uberon", "HP": "hpo", "MONDO": "mondo", "icd11.code": "icd11", "ICD10CM": "icd10cm"}

WIDER = re.compile(
    r"\b(any|either|anywhere|anything|whatever|wherever|with or without|or not|or acquired|not part|not fix|of both|"
    r"together|files it with|lists|residual|counts?|takes? in|the whole|also|every|superior or|subaortic or|or doubly|"
    r"straddling or|stenosis or|one or (more|both)|right or left|no class|mainly|gathers|great vessels are|with dilat)",
    re.IGNORECASE,
)
NARROWER = re.compile(r"\b(only|alone|by definition)\b", re.IGNORECASE)


def rows() -> list[tuple[MappingSet, Row]]:
    return [(mappings, row) for mappings, _ in our_sets() for row in mappings.rows]


def aloud(slug: str, code: Code) -> str:
    """Say a match that is not exact in words."""
    said = {"broad": "is wider than", "narrow": "is narrower than"}[code.predicate]
    return f"the outside term '{code.label}' {said} ours, '{vocabulary()[slug].european}' ({code.comment})"


def by_reason(comment: str) -> str | None:
    """Say what a stored reason implies: an outside term that is so 'only' is narrower, one that is 'any' is wider."""
    if NARROWER.search(comment):
        return "narrow"
    return "broad" if WIDER.search(comment) else None


def by_hierarchy(slug: str, code: Code) -> str | None:
    """Say what the hierarchies imply, where the same source holds the meaning of a term above or below ours."""
    known, source = vocabulary(), code.curie.partition(":")[0]
    release = pinned(source)

    def same(one: str) -> list[str]:
        return [other.curie for other in codes_for(one) if other.same and other.curie.startswith(f"{source}:")]

    if any(code.curie in release.ancestors(own) for own in same(slug)):
        return "broad"
    if any(own in release.ancestors(code.curie) for own in same(slug)):
        return "narrow"
    if any(code.curie in same(one) for one in known.ancestors(slug)):
        return "broad"
    return "narrow" if any(code.curie in same(one) for one in known.descendants(slug)) else None


def directed() -> list[tuple[str, Code]]:
    return [(t.slug, code) for t in vocabulary() for code in codes_for(t.slug) if code.predicate in ("broad", "narrow")]


def wrong_way_round(slug: str, code: Code, said: str) -> bool:
    """Whether what is said of a match goes against its reason or the hierarchies, or nothing speaks for it."""
    found = {by_reason(code.comment), by_hierarchy(slug, code)} - {None}
    return found != {said}


def test_every_wider_and_narrower_row_reads_right_aloud() -> None:
    wrong = [aloud(slug, code) for slug, code in directed() if wrong_way_round(slug, code, code.predicate)]
    assert wrong == []
    assert len(directed()) > 400


def test_a_row_turned_round_is_noticed() -> None:
    turned = {"broad": "narrow", "narrow": "broad"}
    missed = [aloud(slug, code) for slug, code in directed() if not wrong_way_round(slug, code, turned[code.predicate])]
    assert missed == []


def test_there_is_one_set_for_each_outside_source() -> None:
    assert {one["file"] for one in sets()} == {f"chordae-{name}.sssom.tsv" for name in FILES}
    assert sum(one["rows"] for one in sets()) == len(rows())


def test_no_row_is_signed_and_the_header_says_so() -> None:
    for mappings, row in rows():
        assert row["reviewer_label"] == ""
        assert mappings.header["comment"].startswith("reviewed: no.")
    assert not any(code.reviewed for term in vocabulary() for code in codes_for(term.slug))


def test_every_row_names_author_date_justification_and_release() -> None:
    for mappings, row in rows():
        assert row["author_label"] == "chordae team"
        assert re.fullmatch(r"\d{4}-\d{2}-\d{2}", row["mapping_date"])
        assert row["mapping_justification"] == "semapv:ManualMappingCuration"
        assert mappings.value(row, "object_source_version")
        assert mappings.header["license"] == "https://creativecommons.org/licenses/by/4.0/"


def test_every_row_that_is_not_exact_gives_its_reason() -> None:
    silent = [row["subject_id"] for _, row in rows() if row["predicate_id"] != "skos:exactMatch" or not row.positive
              if not row["comment"]]  # fmt: skip
    assert silent == []


def test_a_term_is_exact_to_one_outside_term_at_most_and_the_other_way_round() -> None:
    exact = [(t.slug, code.curie) for t in vocabulary() for code in codes_for(t.slug) if code.predicate == "exact"]
    assert max(Counter(slug for slug, _ in exact).values()) == 1
    assert max(Counter(curie for _, curie in exact).values()) == 1


def test_a_match_is_held_at_close_only_where_another_is_exact() -> None:
    for mappings, row in rows():
        if row["curation_rule_text"]:
            assert row["curation_rule_text"] == HELD
            assert row["predicate_id"] == "skos:closeMatch"
            exact = [one for one in codes_for(row["subject_id"].removeprefix("term:")) if one.predicate == "exact"]
            assert exact, f"{mappings.name}:{row.line}"
            assert exact[0].curie in row["comment"]


def test_sides_are_never_exact_to_morphology() -> None:
    sided = {"UBERON:0002078", "UBERON:0002079", "UBERON:0002080", "UBERON:0002084"}
    for chamber in ("atrium", "ventricle", "atrial_appendage"):
        for side in ("right", "left"):
            for code in codes_for(f"morphologically_{side}_{chamber}"):
                assert code.predicate == "close"
                assert not code.same
    for curie in sided:
        assert not any(slug.startswith("morphologically") for slug, said in terms_for(curie) if said == "exact")


def test_only_allowed_vocabularies_are_named() -> None:
    outside = {row["object_id"].partition(":")[0] for _, row in rows()} - {"sssom"}
    assert outside == {"UBERON", "HP", "MONDO", "PATO", "RO", "BFO", "BSPO", "icd11.code", "ICD10CM"}
    assert not any("sct" in prefix.lower() or "snomed" in prefix.lower() for prefix in prefixes())


def test_every_term_has_been_looked_for_in_at_least_one_outside_source() -> None:
    held = {row["subject_id"].removeprefix("term:") for _, row in rows()}
    assert [term.slug for term in vocabulary() if not term.deprecated and term.slug not in held] == []
    assert held <= vocabulary().slugs


def test_a_search_in_vain_among_qualities_says_what_was_near_or_where_to_look() -> None:
    near = re.compile(
        r"PATO:\d{7}|PATO has no|PATO counts|Qualities of PATO|No quality|not among our sources|shape and end"
    )
    vain = [row for mappings, row in rows() if "-pato." in mappings.name and row.no_term]
    assert len(vain) > 100
    assert [row["subject_id"] for row in vain if not near.search(row["comment"])] == []


def test_every_term_of_a_coded_kind_has_a_row() -> None:
    held: dict[str, set[str]] = defaultdict(set)
    for _, row in rows():
        slug = row["subject_id"].removeprefix("term:")
        held[slug].add(_.name.split("chordae-")[1].split(".")[0])
    missing = []
    for term in vocabulary():
        if term.deprecated:
            continue
        if term.kind in ("malformation", "connection"):
            missing += [f"{term.slug}: {source}" for source in DISORDER if FILE_OF[source] not in held[term.slug]]
        elif term.kind in WHERE and not held[term.slug]:
            missing.append(term.slug)
    assert missing == []


def test_codes_come_closest_first_with_what_they_are_to_ours() -> None:
    found = codes_for("double_outlet_right_ventricle")
    assert [(one.curie, one.predicate, one.same) for one in found] == [
        ("HP:0001719", "exact", True),
        ("ICD10CM:Q20.1", "close", True),
        ("icd11.code:LA85.2", "close", True),
        ("MONDO:0018089", "close", True),
    ]
    assert found[0].iri == "http://purl.obolibrary.org/obo/HP_0001719"
    assert found[0].release == "2025-11-24"
    assert codes_for("no_such_term") == []


def test_what_looks_right_and_is_not_stands_apart() -> None:
    (found,) = never_for("septomarginal_trabeculation")
    assert found.curie == "UBERON:8470002"
    assert found.curie not in [one.curie for one in codes_for("septomarginal_trabeculation")]


def test_a_search_in_vain_is_told_and_is_no_code() -> None:
    (found,) = searched_for("triangle_of_koch")
    assert found.source == "chordae-uberon.sssom.tsv"
    assert codes_for("triangle_of_koch") == []


def test_every_outside_id_stands_in_the_pinned_tables() -> None:
    known = {name for source in SOURCES for name in pinned(source).terms}
    assert [row["object_id"] for _, row in rows() if not row.no_term and row["object_id"] not in known] == []


@pytest.mark.parametrize("script", ["build_mappings.py"])
def test_the_compiled_table_is_fresh(script: str) -> None:
    done = subprocess.run([sys.executable, str(TOP / "schema" / script), "--check"], capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
