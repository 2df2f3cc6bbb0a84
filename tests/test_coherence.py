"""Our hierarchy and the outside ones contradict each other only where a recorded exception says why.

Outside sources: the hierarchies of HPO (2025-01-16 and 2025-11-24), MONDO v2026-05-05, ICD-11 and ICD-10-CM, from the
packages named in ``data/hierarchy_pairs.tsv``; MONDO's own mapping to ICD-11 (``mappings/outside/mondo_icd11.tsv``).
"""

from __future__ import annotations

import csv
from collections.abc import Collection
from pathlib import Path

import pytest

from chordae.errors import MissingExtra
from chordae.mapping import codes_for
from chordae.terms import vocabulary
from chordae.vocabulary.audit import (
    SOURCES,
    Recorded,
    audit,
    check_coherence,
    outside_pairs,
    read_exceptions,
)
from chordae.vocabulary.coherence import Link, find_contradictions, links_of
from chordae.vocabulary.outside import OutsideTerm, Release, pinned, read_table
from chordae.vocabulary.packages import installed

DATA = Path(__file__).parent / "data"


def table(name: str) -> list[dict[str, str]]:
    lines = [one for one in (DATA / name).read_text(encoding="utf-8").splitlines() if not one.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t"))


PAIRS = table("hierarchy_pairs.tsv")


def excerpt(name: str) -> Release:
    return read_table((DATA / "releases" / name).read_text(encoding="utf-8"), name)


def release_of(curie: str) -> list[Release]:
    """Return the releases a pair was looked up in, oldest first."""
    source = curie.partition(":")[0]
    if source == "HP":
        return [excerpt("hp_2025-01-16.tsv"), excerpt("hp_2025-11-24.tsv")]
    return [excerpt(f"{source.lower().replace('.', '_')}.tsv")]


@pytest.mark.parametrize("pair", PAIRS, ids=lambda one: f"{one['narrow']}-{one['wide']}")
def test_the_pairs_stand_in_the_outside_hierarchies_as_recorded(pair: dict[str, str]) -> None:
    said = ["yes" if pair["wide"] in one.ancestors(pair["narrow"]) else "no" for one in release_of(pair["narrow"])]
    assert " / ".join(said) == pair["found"]


@pytest.mark.parametrize("source", ["HP", "MONDO", "ICD10CM", "icd11.code"])
def test_the_pairs_stand_so_in_the_installed_packages(source: str) -> None:
    try:
        release = installed(source)
    except MissingExtra as missing:
        pytest.skip(f"{missing.message} {missing.hint}")
    for pair in PAIRS:
        if pair["narrow"].startswith(f"{source}:"):
            said = "yes" if pair["wide"] in release.ancestors(pair["narrow"]) else "no"
            assert said == pair["found"].rpartition(" / ")[2], pair


def contradicts(pair: dict[str, str]) -> bool:
    return pair["expected"] != "?" and pair["found"].rpartition(" / ")[2] != pair["expected"]


def test_the_verdicts_of_the_pairs_are_as_counted() -> None:
    judged = [one for one in PAIRS if one["expected"] != "?"]
    assert (len(PAIRS), len(judged), sum(map(contradicts, PAIRS))) == (97, 75, 45)


def found_pairs() -> set[tuple[str, ...]]:
    links = links_of((term.slug for term in vocabulary()), codes_for)
    releases = {source: pinned(source) for source in SOURCES}
    known = vocabulary()
    found = find_contradictions(links, known.ancestors, releases, outside_pairs(), known.above)
    return {one.codes for one in found}


NOT_OURS = {
    # No term of ours has the meaning of one side.
    ("HP:0030853", "HP:0001507"): "growth abnormality is no term of ours",
    ("HP:0001642", "HP:0001641"): "stenosis at any level is no term of ours",
    ("HP:0001642", "HP:0001627"): "stenosis at any level is no term of ours",
    ("MONDO:0859565", "MONDO:0020290"): "familial defect is no term of ours",
    ("MONDO:0017991", "MONDO:0019512"): "an arteritis is no term of ours",
    # Judged by its text, one side means something else than its label; so read, the pair is no contradiction.
    ("HP:0001660", "HP:0001627"): "HPO's heart leaves the great vessels out",
    ("HP:0001650", "HP:0001627"): "HPO's heart leaves stenosis of valves out, which is found at HP:0001654",
    ("HP:0011540", "HP:0001669"): "HPO's transposition is any discordant connection by its text",
    ("MONDO:0016301", "MONDO:0000153"): "MONDO's transposition is close only",
    ("MONDO:0020437", "MONDO:0006664"): "MONDO's atrial septal defect is any communication by its text",
    ("MONDO:0020436", "MONDO:0006664"): "MONDO's atrial septal defect is any communication by its text",
    ("MONDO:0020439", "MONDO:0006664"): "MONDO's atrial septal defect is any communication by its text",
    ("MONDO:0015273", "MONDO:0859565"): "complete canal is close only",
    ("MONDO:0015661", "MONDO:0018677"): "visceral heterotaxy is close only",
    ("MONDO:0019862", "MONDO:0018677"): "levocardia means mirrored organs by MONDO's text",
    ("icd11.code:LA8E.2", "icd11.code:LA8E"): "anomaly of the atrial septum is only wider than ours",
    ("ICD10CM:Q21.12", "ICD10CM:Q21.1"): "atrial septal defect of ICD-10-CM is close only",
    ("ICD10CM:Q21.16", "ICD10CM:Q21.1"): "both are close only",
    # Follows from a contradiction that is told one step higher: MONDO's two classes of malformed hearts side by side.
    ("MONDO:0018090", "MONDO:0005453"): "told at MONDO:0019512",
    ("MONDO:0000153", "MONDO:0005453"): "told at MONDO:0019512",
}


def test_the_check_finds_by_itself_what_can_be_found_through_our_terms() -> None:
    known = {(one["narrow"], one["wide"]) for one in PAIRS if contradicts(one)}
    found = known & found_pairs()
    assert known - found == set(NOT_OURS)
    assert len(found) == 25
    assert ("MONDO:0018089", "MONDO:0002070") in found  # double outlet as a kind of septal defect
    assert ("HP:0001660", "HP:0011563") in found  # common trunk outside the ventriculoarterial connections


def test_nothing_contradicts_without_a_recorded_reason() -> None:
    assert [one.message for one in audit() if one.severity != "info"] == []


def test_every_recorded_exception_is_met_and_explained() -> None:
    recorded = [one for one in audit() if one.rule == "I-COH-07"]
    assert len(recorded) >= len(read_exceptions()) > 100
    assert all(len(row.reason) > 15 and row.recorded_on for row in read_exceptions())


def test_a_contradiction_without_exception_is_told_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("chordae.vocabulary.audit.read_exceptions", lambda: ())
    found = check_coherence(vocabulary(), {"MONDO": pinned("MONDO")})
    (one,) = [one for one in found if one.value == "MONDO:0018089 MONDO:0002070"]
    assert one.severity == "warning"
    assert one.message == (
        "In MONDO v2026-05-05, MONDO:0018089 (double outlet right ventricle) is below MONDO:0002070 (ventricular "
        'septal defect); with us "double outlet right ventricle" is no kind of "ventricular septal defect".'
    )


def test_an_exception_that_is_not_met_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    stale = Recorded("ours_only", ("a", "b"), ("HP:1", "HP:2"), "Some reason.", "2026-11-25", 7)
    monkeypatch.setattr("chordae.vocabulary.audit.read_exceptions", lambda: (stale,))
    assert "I-COH-08" in [one.rule for one in check_coherence(vocabulary(), {})]


# --- the rules by themselves, on a small hierarchy: a is a kind of b, b of c ---

ABOVE: dict[str, tuple[str, ...]] = {"a": ("b", "c"), "b": ("c",), "c": (), "d": ()}


def above(slug: str) -> Collection[str]:
    return ABOVE[slug]


def outside(**parents: str) -> Release:
    terms = {
        f"X:{name}": OutsideTerm(f"X:{name}", name, parents=tuple(f"X:{p}" for p in above_.split()))
        for name, above_ in parents.items()
    }
    return Release("X", "1", "kind", terms)


def link(slug: str, name: str, relation: str = "same", exact: bool = False) -> Link:
    return Link(slug, f"X:{name}", relation, exact)


def kinds(links: list[Link], release: Release) -> list[tuple[str, tuple[str, ...], tuple[str, ...]]]:
    return [(one.kind, one.terms, one.codes) for one in find_contradictions(links, above, {"X": release})]


def test_agreement_is_silent() -> None:
    assert kinds([link("a", "1"), link("b", "2")], outside(**{"1": "2", "2": ""})) == []


def test_ours_only() -> None:
    found = kinds([link("a", "1"), link("b", "2")], outside(**{"1": "", "2": ""}))
    assert found == [("ours_only", ("a", "b"), ("X:1", "X:2"))]


def test_outside_only() -> None:
    found = kinds([link("d", "1"), link("b", "2")], outside(**{"1": "2", "2": ""}))
    assert found == [("outside_only", ("d", "b"), ("X:1", "X:2"))]


def test_a_wider_match_counts_upwards_and_a_narrower_one_downwards() -> None:
    flat = outside(**{"1": "", "2": ""})
    assert kinds([link("a", "1", "narrow"), link("b", "2", "broad")], flat) == [
        ("ours_only", ("a", "b"), ("X:1", "X:2"))
    ]
    assert kinds([link("a", "1", "broad"), link("b", "2", "narrow")], flat) == []
    assert kinds([link("d", "1", "broad"), link("b", "1", "narrow")], flat) == [
        ("outside_only", ("d", "b"), ("X:1", "X:1"))
    ]


def test_close_and_related_matches_imply_nothing() -> None:
    flat = outside(**{"1": "", "2": ""})
    for relation in ("close", "related"):
        assert kinds([link("a", "1", relation), link("b", "2")], flat) == []


def test_what_follows_from_a_higher_contradiction_is_not_told_again() -> None:
    release = outside(**{"1": "2", "2": "", "3": ""})
    links = [link("a", "1"), link("b", "2"), link("c", "3")]
    assert kinds(links, release) == [("ours_only", ("b", "c"), ("X:2", "X:3"))]


def test_part_of_hierarchies_are_not_asked_for_more_than_ours() -> None:
    release = outside(**{"1": "2", "2": ""})
    mixed = Release("X", "1", "mixed", release.terms)
    assert kinds([link("d", "1"), link("b", "2")], mixed) == []


def test_two_to_one_and_one_to_two_and_chains() -> None:
    flat = outside(**{"1": "", "2": ""})
    assert ("two_to_one", ("b", "d"), ("X:1",)) in kinds([link("d", "1"), link("b", "1")], flat)
    assert ("one_to_two", ("d",), ("X:1", "X:2")) in kinds([link("d", "1"), link("d", "2")], flat)
    chained = [link("d", "1", exact=True), Link("d", "Y:9", "same", True)]
    assert ("chain", ("d",), ("X:1", "Y:9")) in kinds(chained, flat)
    through_two = [link("d", "1", exact=True), link("a", "1", exact=True), Link("a", "Y:9", "same", True)]
    assert ("chain", ("a", "d"), ("X:1", "Y:9")) in kinds(through_two, flat)


def test_first_judgements_by_label_go_against_mondo_in_ten_places() -> None:
    words = {"skos:exactMatch": "same", "skos:closeMatch": "close", "skos:broadMatch": "broad"}
    links = {
        Link(row["term"], row[side], words[row[f"{side}_match"]], False)
        for row in table("mondo_icd11_draft.tsv")
        for side in ("mondo", "icd11")
    }
    found = [
        one for one in find_contradictions(links, lambda slug: (), {}, outside_pairs()) if one.kind == "outside_mapping"
    ]
    assert sorted(one.terms[0] for one in found) == [
        "aortopulmonary_window",
        "double_inlet_left_ventricle",
        "double_inlet_ventricle",
        "double_outlet_right_ventricle_non_committed_defect",
        "ectopia_cordis",
        "mirror_imaged_atrial_arrangement",
        "right_sided_heart",
        "sinus_venosus_defect",
        "situs_inversus_totalis",
        "transposition",
    ]


def test_of_the_ten_only_what_is_recorded_is_left() -> None:
    left = {row.terms[0] for row in read_exceptions() if row.kind == "outside_mapping"}
    ten = {row["term"] for row in table("mondo_icd11_draft.tsv") if row["mondo_match"] != row["icd11_match"]}
    assert ten & left == {"double_outlet_right_ventricle_non_committed_defect"}


def test_no_outside_terms_are_chained_and_no_row_is_both_exact_and_wider() -> None:
    links = links_of((term.slug for term in vocabulary()), codes_for)
    found = find_contradictions(links, vocabulary().ancestors, {})
    assert [one for one in found if one.kind in ("chain", "two_to_one", "one_to_two")] == []
    pairs = [(one.slug, one.curie) for one in links]
    assert len(pairs) == len(set(pairs))
