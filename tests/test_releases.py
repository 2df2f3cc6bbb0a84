"""Releases of outside terms: OBO Graph JSON, OBO and our own table, to the same terms.

Outside check: ``pronto`` (an independent reader of OBO Graph JSON and OBO) sees the same labels, parents, obsolete
terms and successors. Source of the format: OBO Graphs (https://github.com/geneontology/obographs), from memory.
"""

from __future__ import annotations

import io
import json
import warnings
from pathlib import Path
from typing import Any

import pytest

from chordae import cli
from chordae.formats.obograph import read_obograph
from chordae.formats.releases import read, write
from chordae.formats.settings import Settings
from chordae.formats.skos_terms import read as read_skos
from chordae.formats.skos_terms import read_published
from chordae.terms import vocabulary
from chordae.vocabulary.outside import OutsideTerm, pinned
from chordae.vocabulary.publish import publish

OBO = """format-version: 1.4
data-version: hp/releases/2026-01-31
ontology: hp

[Term]
id: HP:0001627
name: Abnormal heart morphology

[Term]
id: HP:0001719
name: Double outlet right ventricle
synonym: "DORV" EXACT []
is_a: HP:0001627 ! Abnormal heart morphology
is_a: HP:0011563

[Term]
id: HP:0011563
name: Abnormal ventriculoarterial connection
is_a: HP:0001627

[Term]
id: HP:0004960
name: obsolete Absent pulmonary artery
is_obsolete: true
replaced_by: HP:0001719
"""
P = "http://purl.obolibrary.org/obo/"
EXPECTED = {
    "HP:0001627": OutsideTerm("HP:0001627", "Abnormal heart morphology"),
    "HP:0001719": OutsideTerm("HP:0001719", "Double outlet right ventricle", False, None, ("HP:0001627", "HP:0011563")),
    "HP:0004960": OutsideTerm("HP:0004960", "obsolete Absent pulmonary artery", True, "HP:0001719"),
    "HP:0011563": OutsideTerm("HP:0011563", "Abnormal ventriculoarterial connection", False, None, ("HP:0001627",)),
}


def node(id: str, label: str | None = None, **more: Any) -> dict[str, Any]:
    return {"id": P + id, "type": "CLASS", **({"lbl": label} if label is not None else {}), **more}


def graph(nodes: list[Any], edges: Any = (), **more: Any) -> bytes:
    return json.dumps({"graphs": [{"id": P + "hp.json", "nodes": nodes, "edges": list(edges), **more}]}).encode()


GOOD = graph(
    [
        node("HP_0001627", "Abnormal heart morphology", meta={"definition": {"val": "Any."}}),
        node(
            "HP_0001719",
            "Double outlet right ventricle",
            meta={"synonyms": [{"pred": "hasExactSynonym", "val": "DORV"}]},
        ),
        node("HP_0011563", "Abnormal ventriculoarterial connection"),
        node(
            "HP_0004960",
            "obsolete Absent pulmonary artery",
            meta={"deprecated": True, "basicPropertyValues": [{"pred": P + "IAO_0100001", "val": P + "HP_0001719"}]},
        ),
        node("UBERON_0000948"),
        node("UBERON_0002037", "cerebellum"),
        {"id": P + "BFO_0000050", "type": "PROPERTY", "lbl": "part of"},
    ],
    [
        {"sub": P + "HP_0001719", "pred": "is_a", "obj": P + "HP_0001627"},
        {"sub": P + "HP_0001719", "pred": "is_a", "obj": P + "HP_0011563"},
        {"sub": P + "HP_0011563", "pred": "is_a", "obj": P + "HP_0001627"},
        {"sub": P + "HP_0001719", "pred": P + "BFO_0000050", "obj": P + "UBERON_0000948"},
    ],
    meta={"version": P + "hp/releases/2026-01-31/hp.json"},
)


def test_the_three_forms_give_the_same_release() -> None:
    from_graph, issues = read_obograph(GOOD, "hp.json")
    assert issues == []
    assert dict(from_graph.terms) == EXPECTED
    assert (from_graph.source, from_graph.version, from_graph.hierarchy) == ("HP", "2026-01-31", "kind")
    ((from_obo,), issues) = read(OBO.encode(), "hp.obo", "obo")
    assert issues == [] and dict(from_obo.terms) == EXPECTED and from_obo.version == "2026-01-31"
    table = b"".join(write([from_graph], Settings("outside-table")))
    ((again,), issues) = read(table, "hp.outside.tsv", "outside-table")
    assert issues == [] and dict(again.terms) == EXPECTED and again == from_graph


def test_another_reader_sees_the_same_terms() -> None:
    pronto = pytest.importorskip("pronto", reason="pronto is in the extra 'test'")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        other = pronto.Ontology(io.BytesIO(GOOD))
        seen = {
            one.id: OutsideTerm(
                one.id,
                one.name,
                one.obsolete,
                next((ours.id for ours in one.replaced_by), None),
                tuple(sorted(above.id for above in one.superclasses(1, with_self=False))),
            )
            for one in other.terms()
            if one.id.startswith("HP:")
        }
    assert seen == EXPECTED


def test_a_large_release_written_by_another_library_is_read_whole() -> None:
    """Our pinned part of MONDO, written as OBO Graph JSON by pronto, is the same release again."""
    pronto = pytest.importorskip("pronto", reason="pronto is in the extra 'test'")
    ours = pinned("MONDO")
    made = pronto.Ontology()
    for one in ours.terms.values():
        made.create_term(one.id).name = one.label
    for one in ours.terms.values():
        for above in one.parents:
            made[one.id].superclasses().add(made[above])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        text = made.dumps(format="json")
    found, issues = read_obograph(text.encode(), "mondo.json", "MONDO")
    assert issues == []
    assert {one.id: (one.label, one.parents) for one in found.terms.values()} == {
        one.id: (one.label, tuple(sorted(one.parents))) for one in ours.terms.values()
    }
    assert len(found.terms) > 100


@pytest.mark.parametrize(
    ("data", "rules"),
    [
        (b"{}", ["I-OUT-05"]),
        (b"[]", ["I-OUT-05"]),
        (b"null", ["I-OUT-05"]),
        (b'{"graphs": {}}', ["I-OUT-05"]),
        (b'{"graphs": [7]}', ["I-OUT-05"]),
        (b'{"graphs": [{"nodes": "x", "edges": 7}]}', ["I-OUT-05"]),
        (b'{"graphs": [', ["I-DOC-01"]),
        (graph([node("HP_1", "a"), node("HP_1", "b")]), ["I-OUT-06"]),
        (graph([node("HP_1", "a"), node("HP_2", ""), node("HP_3", meta={"x": 1})]), ["I-OUT-06", "I-OUT-06"]),
        (graph([node("HP_1", "a"), 7, {}, {"id": 7}]), ["I-OUT-06"] * 3),
        (graph([node("HP_1", "a"), node("HP_2", "b", meta={"deprecated": "yes"})]), ["I-OUT-06"]),
        (graph([node("HP_1", "a", meta=[]), node("HP_2", "b", meta="x")], [7, {}, {"sub": 1, "pred": "is_a"}]), []),
        (graph([]), ["I-OUT-05"]),
    ],
)
def test_nodes_are_terms_or_issues(data: bytes, rules: list[str]) -> None:
    _, issues = read_obograph(data, "x.json")
    assert [one.rule for one in issues] == rules


def test_a_circle_of_parents_does_no_harm() -> None:
    ring = [{"sub": P + f"HP_{at}", "pred": "is_a", "obj": P + f"HP_{(at + 1) % 500}"} for at in range(500)]
    found, issues = read_obograph(graph([node(f"HP_{at}", "x") for at in range(500)], ring), "x.json")
    assert issues == [] and len(found.ancestors("HP:0")) == 499


@pytest.mark.parametrize(
    ("data", "format"),
    [
        (b"\xff\xfe", "obo"),
        (b"", "obo"),
        (b"[Term]\nid: HP:1\nname: a\n\n[Term]\nid: HP:1\nname: b\n", "obo"),
        (b"", "outside-table"),
        (b"\xff", "outside-table"),
        (
            b"# source: HP\n# release: 1\n# parents: sideways\nid\tlabel\tobsolete\treplaced_by\tparents\n",
            "outside-table",
        ),
        (
            b"# source: HP\n# release: 1\n# parents: kind\nid\tlabel\tobsolete\treplaced_by\tparents\na\n",
            "outside-table",
        ),
        (
            b"# source: HP\n# release: 1\n# parents: kind\nid\tlabel\tobsolete\treplaced_by\tparents\n"
            + b"a\tb\t\t\t\n" * 2,
            "outside-table",
        ),
    ],
)
def test_what_is_no_release_is_told_so(data: bytes, format: str) -> None:
    found, issues = read(data, "x", format)
    assert found == [] and [one.rule for one in issues] == ["I-OUT-05"]


def test_the_command_line_takes_a_graph(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "hp.obograph.json").write_bytes(GOOD)
    assert cli.main(["write", str(tmp_path / "hp.obograph.json"), "--to", "outside-table"]) == 0
    assert "HP:0001719\tDouble outlet right ventricle" in capsys.readouterr().out
    assert cli.main(["check", "--mappings", "--drift", "HP", "pinned", str(tmp_path / "hp.obograph.json")]) == 0
    assert "  HP:0001627 " in capsys.readouterr().out
    (tmp_path / "bad.json").write_bytes(b"{}")
    assert cli.main(["check", "--mappings", "--drift", "HP", "pinned", str(tmp_path / "bad.json")]) == 2
    assert 'no list "graphs"' in capsys.readouterr().err


# -- SKOS ----------------------------------------------------------------------------------------------------------


def test_our_published_vocabulary_comes_back_as_the_terms_it_came_from() -> None:
    known = vocabulary()
    found, issues = read_published(publish("skos"), "chordae.skos.ttl")
    assert issues == []
    assert [one.slug for one in found] == sorted(known.slugs)
    for one in found:
        ours = known[one.slug]
        short = (*ours.european_abbreviations, *ours.north_american_abbreviations)
        names = {*ours.synonyms, *short} - {ours.european, ours.north_american}
        linked = {
            other
            for other in ours.related
            if other not in known.above(ours.slug) and ours.slug not in known.above(other)
        }
        linked |= {
            other.slug
            for other in known
            if ours.slug in other.related
            and ours.slug not in known.above(other.slug)
            and other.slug not in known.above(ours.slug)
        }
        assert (one.kind, one.european, one.north_american, one.plain) == (
            ours.kind,
            ours.european,
            ours.north_american,
            ours.plain,
        )
        assert (one.definition, one.scope_note) == (ours.definition.strip(), ours.scope_note.strip())
        assert (one.source, one.since, one.replaced_by) == (ours.source.replace(" ", "_"), ours.since, ours.replaced_by)
        assert (set(one.synonyms), set(one.broader), set(one.related)) == (names, set(ours.broader), linked)
        assert set(one.part_of) == set(ours.part_of)
        assert bool(one.deprecated) == bool(ours.deprecated)


def test_our_published_vocabulary_is_a_release_of_terms() -> None:
    ((found,), issues) = read_skos(publish("skos"), "chordae.skos.ttl")
    assert issues == []
    assert (found.source, found.version, len(found.terms)) == ("term", vocabulary().version, len(vocabulary()))
    assert found.ancestors("term:tricuspid_valve") == {
        f"term:{one}" for one in vocabulary().ancestors("tricuspid_valve")
    }


def test_concepts_are_terms_or_issues() -> None:
    text = """@prefix s: <http://www.w3.org/2004/02/skos/core#> . @prefix e: <https://example.org/> .
    e:1 a s:Concept ; s:prefLabel "Herz"@de, "heart"@en-GB ; s:broader e:1 . e:2 a s:Concept ; s:prefLabel "Klappe"@de .
    [] a s:Concept ; s:prefLabel "no name" . e:3 a s:Concept ; s:prefLabel "a", "b"@en .
    e:4 s:prefLabel "no concept" ."""
    ((found,), issues) = read_skos(text.encode(), "x.skos.ttl")
    assert {one.id: one.label for one in found.terms.values()} == {"https://example.org/1": "heart"}
    assert [one.rule for one in issues] == ["I-OUT-06"] * 3
    assert [one.rule for one in read_skos(b"<a> <b> <c> .", "x")[1]] == ["I-OUT-05"]
    assert [one.rule for one in read_published(text.encode(), "x")[1]] == ["I-OUT-06"] * 4
