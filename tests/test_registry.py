"""The registry: what it takes in and what it refuses, its ledger, its store, and how two become one.

Outside checks: rdflib reads what the store holds, SQLite itself refuses changes of the ledger, ``sha256sum`` reads the
list of an export; the words of PROV-O are those of W3C PROV-O (Recommendation of 30 April 2013).
"""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import orjson
import pytest
import rdflib

from chordae.cli import main
from chordae.errors import InputError
from chordae.registry import Registry, judge, submit
from chordae.registry.ask import Asker
from chordae.registry.backup import back_up, restore
from chordae.registry.convert import convert
from chordae.registry.entry import START
from chordae.registry.package import deposit_digest, pack, unpack
from chordae.registry.place import create
from chordae.registry.profile import EXAMPLE, parse_profile
from chordae.registry.query_form import QueryRefused, look_at
from chordae.registry.query_pool import QueryTooLong
from chordae.registry.questions import find_question, questions
from chordae.registry.stores import frozen_view, open_store
from chordae.registry.transfer import adopt, export, merge, resolve
from chordae.registry.verify import verify
from generate_records import FAULTS
from registry_data import BASE, deposit, hearts, registry

PROFILE = parse_profile(EXAMPLE.encode())


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Deposits: two versions of one collection, another collection, and one with contradictions."""
    top = tmp_path_factory.mktemp("deposits")
    stated = hearts(range(2), "dunmere")
    found = stated[1]["stated"]
    found["va_connection"] = "concordant" if found["va_connection"] == "discordant" else "discordant"
    return {
        "first": deposit(top / "first", hearts(range(6), "aldermoor")),
        "second": deposit(top / "second", hearts(range(1, 7), "aldermoor")),
        "third": deposit(top / "third", hearts(range(8), "aldermoor", seed=3)),
        "other": deposit(top / "other", hearts(range(20, 24), "birchholt"), "birchholt"),
        "stated": deposit(top / "stated", stated, "dunmere"),
        "faulty": deposit(top / "faulty", hearts(range(40, 46), "cawood", faults=1.0), "cawood"),
    }


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return registry(tmp_path / "registry")


def taken_in(folder: Path, *deposits: Path) -> list[str]:
    with Registry.open(folder, write=True) as opened:
        found = [submit(opened, one, agent="A. Keeper").entry.outcome for one in deposits]
        with open_store(opened):
            pass
    return found


def rules(report: bytes) -> set[str]:
    return {one["rule"] for one in orjson.loads(report)["issues"]}


# --- the gate -------------------------------------------------------------------------------------------------------


def test_what_is_sound_is_accepted_and_what_contradicts_is_refused(folder: Path, made: dict[str, Path]) -> None:
    with Registry.open(folder, write=True) as opened:
        good = submit(opened, made["first"])
        bad = submit(opened, made["faulty"])
    assert good.entry.accepted
    assert bad.entry.outcome == "refused"
    assert set(FAULTS) & rules(bad.report), "the planted contradictions are the reasons"
    assert opened.deposit(bad.entry.deposit).is_dir(), "a refused deposit is kept too"


@pytest.mark.parametrize("name", ["first", "faulty"])
def test_the_report_at_home_is_the_report_of_the_registry(name: str, folder: Path, made: dict[str, Path]) -> None:
    at_home = judge(made[name], PROFILE).report()
    with Registry.open(folder, write=True) as opened:
        assert submit(opened, made[name]).report == at_home


def test_a_deposit_twice_is_one(folder: Path, made: dict[str, Path]) -> None:
    with Registry.open(folder, write=True) as opened:
        one, two = submit(opened, made["first"]), submit(opened, made["first"])
        refused, again = submit(opened, made["faulty"]), submit(opened, made["faulty"])
        assert len(opened.ledger.entries()) == 2
    assert (one.entry.digest, two.again) == (two.entry.digest, True)
    assert (refused.entry.digest, again.again) == (again.entry.digest, True)


def test_a_changed_file_is_found_though_the_deposit_says_it_is_known(
    folder: Path, made: dict[str, Path], tmp_path: Path
) -> None:
    changed = tmp_path / "changed"
    shutil.copytree(made["first"], changed)
    records = changed / "data/records.ndjson"
    records.write_bytes(records.read_bytes().replace(b"usual", b"mirror_image", 1))
    with Registry.open(folder, write=True) as opened:
        assert submit(opened, made["first"]).entry.accepted
        done = submit(opened, changed)
        assert done.entry.outcome == "refused"
        assert "I-DEP-03" in rules(done.report)
        assert verify(opened) == [], "the deposit that was accepted is still the one that was handed in"


@pytest.mark.parametrize(
    ("about", "rule"),
    [
        ({"licence": ""}, "I-REG-01"),
        ({"custodian": ""}, "I-REG-01"),
        ({"base_iri": "https://example.org/without-an-end"}, "I-REG-13"),
    ],
)
def test_what_must_be_said_of_a_collection(about: dict[str, str], rule: str, tmp_path: Path) -> None:
    if rule == "I-REG-13":
        sound = deposit(tmp_path / "d", hearts(range(2), "dunmere"), "dunmere")
        report = sound / "data/report.json"
        report.write_bytes(report.read_bytes().replace(b"dunmere/record/", b"dunmere"))
        _seal_again(sound)
    else:
        sound = deposit(tmp_path / "d", hearts(range(2), "dunmere"), "dunmere", **about)
    verdict = judge(sound, PROFILE)
    assert (verdict.outcome, rule in {one.rule for one in verdict.issues}) == ("refused", True)


def test_consent_must_be_recorded_unless_the_profile_says_otherwise(tmp_path: Path) -> None:
    records = hearts(range(3), "dunmere")
    del records[1]["specimen"]["consent"]
    sound = deposit(tmp_path / "d", records, "dunmere")
    found = [one for one in judge(sound, PROFILE).issues if one.rule == "I-PRO-01"]
    assert [(one.record, one.severity) for one in found] == [("INV-000001", "violation")]
    easy = parse_profile(b"id: easy\nrequire: {specimen: [accession]}\n")
    assert judge(sound, easy).outcome != "refused"


def test_a_licence_that_is_not_taken(made: dict[str, Path]) -> None:
    strict = parse_profile(b"id: strict\nlicences: [CC0-1.0]\n")
    assert "I-REG-10" in {one.rule for one in judge(made["first"], strict).issues}


def test_a_newer_version_is_refused_or_warned_of(made: dict[str, Path], tmp_path: Path) -> None:
    newer = tmp_path / "newer"
    shutil.copytree(made["first"], newer)
    versions = newer / "data/versions.json"
    told = orjson.loads(versions.read_bytes())
    told["vocabulary"]["version"] = "99.0.0"
    versions.write_bytes(orjson.dumps(told))
    _seal_again(newer)
    assert judge(newer, PROFILE).outcome == "refused"
    mild = judge(newer, parse_profile(b"id: mild\nnewer: warn\n"))
    assert mild.outcome == "accepted_with_warnings"
    assert "I-REG-03" in {one.rule for one in mild.issues}


def test_the_profile_of_a_registry_decides_on_warnings_and_never_on_contradictions(made: dict[str, Path]) -> None:
    before = judge(made["first"], PROFILE)
    warned = sorted({one.rule for one in before.issues if one.severity == "warning" and one.rule.startswith("R-")})
    assert warned, "the generated hearts have warnings"
    for word, outcome in (("violation", "refused"), ("info", "accepted")):
        text = "id: other\nrules:\n" + "".join(f"  {rule}: {word}\n" for rule in warned)
        assert judge(made["first"], parse_profile(text.encode())).outcome == outcome
    with pytest.raises(InputError, match="R-AV-13"):
        parse_profile(b"id: blind\nrules: {R-AV-13: info}\n")


@pytest.mark.parametrize(
    "text",
    [
        "refuse: violation",
        "refuse_on: sometimes",
        "require: {specimen: [colour]}",
        "licences: CC0",
        "newer: perhaps",
        "collection: [colour]",
        "a: &x [*x]",
        "- a list",
    ],
)
def test_a_profile_is_checked_itself(text: str) -> None:
    with pytest.raises(InputError):
        parse_profile(f"id: bad\n{text}\n".encode())


def test_an_empty_deposit_is_refused(tmp_path: Path, made: dict[str, Path]) -> None:
    empty = tmp_path / "empty"
    shutil.copytree(made["first"], empty)
    (empty / "data/records.ndjson").write_bytes(b"\n")
    report = empty / "data/report.json"
    report.write_bytes(report.read_bytes().replace(b'"records": 6', b'"records": 0', 1))
    _seal_again(empty)
    verdict = judge(empty, PROFILE)
    assert (verdict.outcome, "I-REG-11" in {one.rule for one in verdict.issues}) == ("refused", True)


def test_the_same_identifier_in_two_collections_is_refused(folder: Path, tmp_path: Path, made: dict[str, Path]) -> None:
    taken = deposit(
        tmp_path / "t", hearts(range(2), "thief"), "thief", base_iri="https://example.org/aldermoor/record/"
    )
    with Registry.open(folder, write=True) as opened:
        submit(opened, made["first"])
        done = submit(opened, taken)
    assert (done.entry.outcome, "I-REG-04" in rules(done.report)) == ("refused", True)


def test_the_same_heart_under_another_number(folder: Path, tmp_path: Path, made: dict[str, Path]) -> None:
    told = hearts(range(3), "birchholt")
    told[0]["specimen"] |= {"accession": "B-1", "other_numbers": ["00000"], "loan_from": "aldermoor"}
    told[1]["specimen"] |= {"accession": "B-2", "other_numbers": ["00001"]}
    told[2]["specimen"] |= {"accession": "B-3"}
    for one, name in zip(told, ("b-1", "b-2", "b-3"), strict=True):
        one["id"] = name
    with Registry.open(folder, write=True) as opened:
        submit(opened, made["first"])
        done = submit(opened, deposit(tmp_path / "b", told, "birchholt"))
    found = {(one["rule"], one["record"]) for one in orjson.loads(done.report)["issues"] if "I-REG" in one["rule"]}
    assert {("I-REG-05", "b-1"), ("I-REG-06", "b-2")} <= found
    assert ("I-REG-06", "b-3") not in found


def test_the_exchange_loan_of_the_examples_is_found(folder: Path, tmp_path: Path) -> None:
    """The sixteen hearts of examples/exchange.tsv, by their numbers; every pair named by a number is one of these."""
    top = Path(__file__).parents[1] / "examples"
    pairs = {tuple(line.split("\t")[:2]) for line in (top / "exchange.tsv").read_text().splitlines()[1:]}
    registry_folder = registry(tmp_path / "examples", "never")
    for name in ("veyhaven", "tolliver_bay"):
        assert main(["exchange", str(top / name), "--out", str(tmp_path / name), "--fail-on", "never"]) == 0
    with Registry.open(registry_folder, write=True) as opened:
        submit(opened, tmp_path / "veyhaven")
        report = orjson.loads(submit(opened, tmp_path / "tolliver_bay").report)
    by_number = {
        (one["message"].split(" with heart ")[1].split()[0], one["record"].removesuffix("-B"))
        for one in report["issues"]
        if one["rule"] == "I-REG-06"
    }
    assert by_number == pairs


# --- the ledger -----------------------------------------------------------------------------------------------------


def test_lines_are_never_changed_or_removed(folder: Path, made: dict[str, Path]) -> None:
    taken_in(folder, made["first"], made["other"])
    with sqlite3.connect(folder / "ledger.sqlite") as raw:
        for statement in ("UPDATE entries SET outcome = 'refused'", "DELETE FROM entries"):
            with pytest.raises(sqlite3.IntegrityError, match="never"):
                raw.execute(statement)


def test_a_line_that_is_forged_breaks_the_chain(folder: Path, made: dict[str, Path]) -> None:
    taken_in(folder, made["first"], made["other"])
    with sqlite3.connect(folder / "ledger.sqlite") as raw:
        raw.execute("DROP TRIGGER no_change")
        raw.execute("UPDATE entries SET body = replace(body, 'A. Keeper', 'Somebody') WHERE number = 1")
    with Registry.open(folder) as opened:
        assert verify(opened) == ["Line 2 of the ledger does not follow the one before it."]


def test_versions_follow_one_another(folder: Path, made: dict[str, Path]) -> None:
    taken_in(folder, made["first"], made["second"])
    with Registry.open(folder, write=True) as opened:
        one, two = opened.ledger.entries()
        assert (one.previous, two.previous) == (START, one.digest)
        assert two.body["supersedes"] == one.graph == f"{BASE}version/{one.deposit}"
        assert opened.ledger.head("aldermoor").number == 2
        late = submit(opened, made["third"], follows=one.deposit)
        assert (late.entry.outcome, "I-REG-09" in rules(late.report)) == ("refused", True)
        assert submit(opened, made["third"], follows=two.deposit).entry.accepted
    report = orjson.loads((opened.made(2) / "report.json").read_bytes())
    assert [one["record"] for one in report["issues"] if one["rule"] == "I-REG-08"] == ["INV-000000"]


# --- store, provenance, questions -----------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory, made: dict[str, Path]) -> Path:
    """A registry with two versions of one collection, another collection, and one with a contradiction."""
    folder = registry(tmp_path_factory.mktemp("full") / "registry", "never")
    taken_in(folder, made["first"], made["other"], made["second"], made["stated"])
    return folder


@pytest.fixture(scope="module")
def asker(full: Path) -> Iterator[Asker]:
    with Registry.open(full) as opened, Asker.of(opened) as asking:
        yield asking


def rows(asker: Asker, name: str, **values: str) -> list[dict[str, str]]:
    found = orjson.loads(asker.question(name, values, seconds=120).data)
    return [{key: one["value"] for key, one in row.items()} for row in found["results"]["bindings"]]


def test_the_store_holds_prov_o_that_rdflib_reads(asker: Asker, full: Path) -> None:
    query = "CONSTRUCT { ?s ?p ?o } WHERE { GRAPH <https://w3id.org/chordae/registry/ledger> { ?s ?p ?o } }"
    found = asker.ask(query, seconds=120)
    graph = rdflib.Graph().parse(data=found.data, format="nt")
    prov = rdflib.Namespace("http://www.w3.org/ns/prov#")
    with Registry.open(full) as opened:
        entries = opened.ledger.entries()
    for entry in entries:
        version = rdflib.URIRef(entry.graph)
        activity = graph.value(version, prov.wasGeneratedBy)
        assert (activity, rdflib.RDF.type, prov.Activity) in graph
        assert str(graph.value(activity, prov.endedAtTime)).startswith(entry.body["at"][:10])
        agents = graph.objects(activity, prov.wasAssociatedWith)
        said = {str(graph.value(one, rdflib.RDFS.label)) for one in agents}
        assert said == {"A. Keeper", f"chordae {entry.body['software']}"}
        assert (version, prov.wasDerivedFrom, None) in graph
    assert list(graph.subject_objects(prov.wasRevisionOf)) == [
        (rdflib.URIRef(entries[2].graph), rdflib.URIRef(entries[0].graph))
    ]


def test_each_version_is_one_graph_and_only_current_ones_are_asked(asker: Asker) -> None:
    assert {(one["collection"], one["descriptions"]) for one in rows(asker, "counts")} == {
        ("aldermoor", "6"),
        ("birchholt", "4"),
        ("dunmere", "2"),
    }
    query = "SELECT (COUNT(DISTINCT ?g) AS ?n) { GRAPH ?g { ?r a <https://w3id.org/chordae/model/Record> } }"
    assert orjson.loads(asker.ask(query, seconds=120).data)["results"]["bindings"][0]["n"]["value"] == "4"


def test_ready_questions_are_answered_as_the_derived_statements_say(asker: Asker, made: dict[str, Path]) -> None:
    """Against the files of the deposits, read here without any store."""
    expected = set()
    for name in ("second", "other", "stated"):
        for line in (made[name] / "data/derived.ndjson").read_bytes().splitlines():
            one = orjson.loads(line)
            inferred = "inferred" in (one["origins"]["av_connection"], one["origins"]["va_connection"])
            if (one["av_connection"], one["va_connection"]) == ("concordant", "concordant") and not inferred:
                expected.add(one["record"])
    found = rows(
        asker,
        "hearts_with_connections",
        av="concordant_atrioventricular_connections",
        va="concordant_ventriculoarterial_connections",
    )
    assert {one["record"].rpartition("/")[2] for one in found} == expected
    assert expected
    differ = {
        (one["record"].rpartition("/")[2], one["conclusion"].rpartition("/")[2]) for one in rows(asker, "disagreements")
    }
    assert differ == {("INV-000001", "va_connection")}
    record = "https://example.org/aldermoor/record/INV-000002"
    assert {one["kind"] for one in rows(asker, "evidence_for", record=record)} >= {"derived identity", "seen in"}
    assert len(rows(asker, "history", collection="aldermoor")) == 2
    assert len(rows(asker, "changed_since", since="2020-01-01")) == 4
    assert rows(asker, "changed_since", since="2999-01-01") == []
    coverage = {one["term"].rpartition("/")[2]: one for one in rows(asker, "coding_coverage")}
    assert all(int(one["hearts"]) > 0 for one in coverage.values())


def test_every_question_can_be_asked_and_says_what_it_asks(asker: Asker) -> None:
    values = {"term": "tetralogy_of_fallot", "collection": "aldermoor"}
    other = {"record": "https://example.org/aldermoor/record/INV-000002", "code": "http://purl.obolibrary.org/obo/HP_1"}
    for one in questions().values():
        assert one.title and one.say.endswith(".")
        if one.name == "in_both_registries":
            continue  # asked over two served registries in test_registry_service.py
        needed = {each.name: {**values, **other}[each.name] for each in one.parameters if each.default is None}
        assert isinstance(rows(asker, one.name, **needed), list)


@pytest.mark.parametrize(
    "value", ["x> } ; DROP ALL", "tetralogy_of_fallot }", "Tetralogy", "", "a b", "x\n", "../x", "x" * 200]
)
def test_a_parameter_can_add_nothing_to_a_question(value: str) -> None:
    with pytest.raises(InputError):
        find_question("hearts_with").fill({"term": value})


def test_text_of_a_parameter_stays_text() -> None:
    hostile = 'x" } } ; DROP ALL # $limit'
    query = find_question("history").fill({"collection": hostile})
    assert look_at(query).form == "SELECT"
    assert "DROP" not in query.replace("%20DROP%20", "")


@pytest.mark.parametrize(
    "query",
    [
        "DROP ALL",
        "INSERT DATA { <a:a> <a:a> <a:a> }",
        "DELETE WHERE { ?s ?p ?o }",
        "LOAD <http://127.0.0.1/>",
        "CLEAR DEFAULT",
        "SELECT * { ?s ?p ?o } ; DROP ALL",
        "SELECT * { SERVICE <http://127.0.0.1:22/> { ?s ?p ?o } }",
        "SELECT * { SERVICE SILENT <http://127.0.0.1/> { ?s ?p ?o } }",
        "SELECT * { VALUES ?x { <http://127.0.0.1/> } SERVICE ?x { ?s ?p ?o } }",
        "SELECT * { { SELECT * { OPTIONAL { SERVICE <http://127.0.0.1/> { ?s ?p ?o } } } } }",
        "SELECT * { FILTER EXISTS { SERVICE <http://127.0.0.1/> { ?s ?p ?o } } }",
        "SELECT * { \\u0053ERVICE <http://127.0.0.1/> { ?s ?p ?o } }",
        "SELECT * { ?s ?p ?o " + "{" * 100 + "}" * 100 + " }",
        "SELECT * { ?s ?p '" + "x" * 30_000 + "' }",
        "",
        "\0",
    ],
)
def test_queries_that_are_not_asked(query: str) -> None:
    with pytest.raises(QueryRefused):
        look_at(query, peers=("https://example.org/v1/sparql",))


@pytest.mark.parametrize(
    "query",
    [
        "ASK {}",
        "DESCRIBE <https://example.org/x>",
        "# service of words\nSELECT ?service { ?service ?p 'SERVICE <x>' }".replace("?service", "?s"),
        "SELECT * { SERVICE <https://example.org/v1/sparql> { ?s ?p ?o } }",
    ],
)
def test_queries_that_are_asked(query: str) -> None:
    assert look_at(query, peers=("https://example.org/v1/sparql",)).text == query


def test_a_query_that_takes_too_long_is_ended_and_the_next_is_answered(asker: Asker) -> None:
    product = "SELECT (COUNT(*) AS ?n) { ?a ?b ?c . ?d ?e ?f . ?g ?h ?i }"
    with pytest.raises(QueryTooLong):
        asker.ask(product, seconds=1)
    assert orjson.loads(asker.ask("ASK { ?s ?p ?o }", seconds=120).data)["boolean"] is True


def test_an_answer_is_cut_at_its_limit_and_says_so(asker: Asker) -> None:
    found = asker.ask("SELECT * { ?s ?p ?o }", rows=10, seconds=120)
    assert (found.rows, found.cut, orjson.loads(found.data)["cut"]) == (10, True, True)
    assert asker.ask("CONSTRUCT { ?s ?p ?o } { ?s ?p ?o }", rows=7, seconds=120).rows == 7
    assert asker.ask("SELECT * { ?s ?p ?o }", "csv", rows=3, seconds=120).data.count(b"\r\n") == 4


# --- packages -------------------------------------------------------------------------------------------------------


def test_a_package_is_the_same_bytes_and_comes_back(made: dict[str, Path], tmp_path: Path) -> None:
    pack(made["first"], tmp_path / "one.zip")
    pack(made["first"], tmp_path / "two.zip")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    unpack(tmp_path / "one.zip", tmp_path / "back")
    assert deposit_digest(tmp_path / "back") == deposit_digest(made["first"])


@pytest.mark.parametrize("kind", ["no zip", "bomb", "up", "absolute", "link", "twice", "cut"])
def test_archives_that_are_not_unpacked(kind: str, made: dict[str, Path], tmp_path: Path) -> None:
    path = tmp_path / "x.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        if kind == "bomb":
            out.writestr("data/records.ndjson", b"\0" * 64 * 1024 * 1024)
        elif kind in ("up", "absolute"):
            out.writestr({"up": "../../evil", "absolute": "/etc/evil"}[kind], b"x")
        elif kind == "link":
            told = zipfile.ZipInfo("data/link")
            told.external_attr = 0o120777 << 16
            out.writestr(told, "/etc/passwd")
        elif kind == "twice":
            out.writestr("bagit.txt", b"a")
            with pytest.warns(UserWarning, match="Duplicate"):
                out.writestr("bagit.txt", b"b")
    if kind == "no zip":
        path.write_bytes(b"not a zip file")
    elif kind == "cut":
        pack(made["first"], path)
        path.write_bytes(path.read_bytes()[:-200])
    with pytest.raises(InputError):
        unpack(path, tmp_path / "out")
    assert not (tmp_path / "evil").exists()


# --- between registries ---------------------------------------------------------------------------------------------


def test_an_export_is_adopted_byte_for_byte(full: Path, tmp_path: Path) -> None:
    with Registry.open(full) as opened:
        export(opened, tmp_path / "export")
        lines = [one.text for one in opened.ledger.entries()]
    if shutil.which("sha256sum"):
        done = subprocess.run(
            ["sha256sum", "--strict", "--quiet", "-c", "manifest-sha256.txt"],
            cwd=tmp_path / "export",
            capture_output=True,
            timeout=60,
            check=False,
        )
        assert done.returncode == 0, done.stderr
    adopt(tmp_path / "export", tmp_path / "copy")
    with Registry.open(tmp_path / "copy", write=True) as opened, open_store(opened) as store:
        assert [one.text for one in opened.ledger.entries()] == lines
        assert verify(opened, store) == []


def test_a_changed_export_is_refused(full: Path, tmp_path: Path) -> None:
    with Registry.open(full) as opened:
        export(opened, tmp_path / "export")
    lines = tmp_path / "export/lines.ndjson"
    lines.write_bytes(lines.read_bytes().replace(b"A. Keeper", b"Somebody"))
    with pytest.raises(InputError, match=r"lines\.ndjson is not as it was written"):
        adopt(tmp_path / "export", tmp_path / "copy")
    assert not (tmp_path / "copy").exists()


def test_two_registries_merged_lose_nothing_and_list_their_conflicts(made: dict[str, Path], tmp_path: Path) -> None:
    here = registry(tmp_path / "here", name="Here")
    there = registry(tmp_path / "there", name="There", base="https://example.org/registry-b/")
    taken_in(here, made["first"], made["second"])
    taken_in(there, made["first"], made["third"], made["other"], made["faulty"])
    with Registry.open(there) as opened:
        export(opened, tmp_path / "export")
        theirs = opened.ledger.entries()
    with Registry.open(here, write=True) as opened:
        done = merge(opened, tmp_path / "export")
        assert (done.added, done.known) == (4, 0)
        assert len(done.conflicts) == 1 and "aldermoor went its own way" in done.conflicts[0]
        again = merge(opened, tmp_path / "export")
        assert (again.added, again.known) == (0, 4)
        entries = opened.ledger.entries()
        assert {one.origin for one in entries} >= {one.digest for one in theirs}
        assert {one.graph for one in entries} >= {one.graph for one in theirs if one.accepted}
        for one in theirs:
            assert deposit_digest(opened.deposit(one.deposit)) == one.deposit
        assert opened.ledger.head("aldermoor").deposit == deposit_digest(made["second"])
        assert opened.ledger.head("birchholt").deposit == deposit_digest(made["other"])
        with open_store(opened) as store:
            assert verify(opened, store) == []
        resolve(opened, "aldermoor", deposit_digest(made["third"]), "A. Curator")
        with open_store(opened) as store:
            assert verify(opened, store) == []
        assert opened.ledger.head("aldermoor").deposit == deposit_digest(made["third"])
        with Asker.of(opened) as asking:
            counts = {one["collection"]: one["descriptions"] for one in rows(asking, "counts")}
        assert counts == {"aldermoor": "8", "birchholt": "4"}
        with pytest.raises(InputError, match="no accepted version"):
            resolve(opened, "aldermoor", deposit_digest(made["faulty"]), "A. Curator")


def test_a_registry_that_is_ahead_brings_its_versions(made: dict[str, Path], tmp_path: Path) -> None:
    here, there = registry(tmp_path / "here"), registry(tmp_path / "there", base="https://example.org/registry-b/")
    taken_in(here, made["first"])
    taken_in(there, made["first"], made["second"])
    with Registry.open(there) as opened:
        export(opened, tmp_path / "export")
    with Registry.open(here, write=True) as opened:
        assert merge(opened, tmp_path / "export").conflicts == ()
        assert opened.ledger.head("aldermoor").deposit == deposit_digest(made["second"])


# --- keeping --------------------------------------------------------------------------------------------------------


def test_a_backup_is_restored_and_verified(full: Path, tmp_path: Path) -> None:
    with Registry.open(full) as opened:
        about = back_up(opened, tmp_path / "backup")
    restore(tmp_path / "backup", tmp_path / "again")
    with Registry.open(tmp_path / "again", write=True) as opened, open_store(opened) as store:
        assert opened.ledger.last().digest == about["last"]
        assert verify(opened, store) == []
        assert frozen_view(opened) is not None
    victim = next((tmp_path / "backup/made").rglob("graph.nt.gz"))
    victim.write_bytes(victim.read_bytes()[:-1] + b"\xff")
    with pytest.raises(InputError, match="not as it was written"):
        restore(tmp_path / "backup", tmp_path / "third")
    assert not (tmp_path / "third").exists()


def test_damage_is_found(full: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy"
    shutil.copytree(full, copy)
    (copy / "made/00000001/report.json").write_bytes(b"{}")
    next((copy / "deposits").rglob("records.ndjson")).write_bytes(b"{}\n")
    with Registry.open(copy) as opened:
        faults = verify(opened)
    assert any("What was made for line 1" in one for one in faults)
    assert any("not as it was deposited" in one for one in faults)


def test_an_older_ledger_is_converted(full: Path, tmp_path: Path) -> None:
    """Version 1 had no numbers and no heads; it was never published, and stands here for any older one."""
    copy = tmp_path / "copy"
    shutil.copytree(full, copy)
    with sqlite3.connect(copy / "ledger.sqlite") as raw:
        raw.executescript("DROP TABLE numbers; DROP TABLE heads; PRAGMA user_version=1;")
    raw.close()
    with pytest.raises(InputError, match="has version 1"), Registry.open(copy):
        pass
    assert convert(copy) == 1
    assert (copy / "ledger.version-1").is_file()
    with Registry.open(copy, write=True) as opened, Registry.open(full) as before, open_store(opened) as store:
        assert [one.text for one in opened.ledger.entries()] == [one.text for one in before.ledger.entries()]
        assert [one.number for one in opened.ledger.heads()] == [one.number for one in before.ledger.heads()]
        assert opened.ledger.elsewhere("said", "own:00001", "birchholt", 9) == before.ledger.elsewhere(
            "said", "own:00001", "birchholt", 9
        )
        assert verify(opened, store) == []
    assert convert(copy) == 2


@pytest.mark.parametrize("damage", ["no ledger", "not a ledger", "newer", "no registry"])
def test_what_is_no_registry(damage: str, tmp_path: Path) -> None:
    folder = registry(tmp_path / "r")
    path = folder / "ledger.sqlite"
    if damage == "no ledger":
        path.unlink()
    elif damage == "not a ledger":
        path.write_bytes(b"x" * 4096)
    elif damage == "newer":
        with sqlite3.connect(path) as raw:
            raw.execute("PRAGMA user_version=99")
    else:
        (folder / "registry.json").unlink()
    with pytest.raises(InputError), Registry.open(folder):
        pass


def test_the_command_line(made: dict[str, Path], tmp_path: Path, capsysbinary: Any) -> None:
    folder = str(tmp_path / "r")
    assert main(["registry", "create", folder, "--name", "Invented", "--base", BASE]) == 0
    assert main(["registry", "check", str(made["faulty"])]) == 1
    assert b"REFUSED" in capsysbinary.readouterr().out
    assert main(["registry", "submit", str(made["first"]), "--to", folder, "--report", "json"]) == 0
    assert orjson.loads(capsysbinary.readouterr().out)["outcome"].startswith("accepted")
    assert main(["registry", "submit", str(made["faulty"]), "--to", folder]) == 1
    capsysbinary.readouterr()
    assert main(["registry", "list", folder]) == 0
    listed = capsysbinary.readouterr().out.decode().splitlines()
    assert [one.split("\t")[2] for one in listed] == ["aldermoor", "cawood"]
    assert main(["registry", "ask", folder, "counts"]) == 0
    assert b"aldermoor,6,6" in capsysbinary.readouterr().out
    assert main(["registry", "ask", folder, "hearts_with", "term=no such term"]) == 2
    assert main(["registry", "verify", folder]) == 0
    assert main(["registry", "backup", folder, str(tmp_path / "b")]) == 0
    assert main(["registry", "restore", str(tmp_path / "b"), str(tmp_path / "c")]) == 0
    assert main(["registry", "export", folder, str(tmp_path / "e")]) == 0
    assert main(["registry", "import", str(tmp_path / "e"), str(tmp_path / "f")]) == 0
    assert main(["registry", "merge", str(tmp_path / "c"), str(tmp_path / "e")]) == 0
    assert main(["registry", "questions"]) == 0
    assert main(["registry", "list", str(tmp_path / "nowhere")]) == 2
    assert "Traceback" not in capsysbinary.readouterr().err.decode()


def test_a_registry_needs_an_absolute_iri(tmp_path: Path) -> None:
    with pytest.raises(InputError):
        create(tmp_path / "r", "x", "no iri")


def _seal_again(folder: Path) -> None:
    """Take the digests anew, as somebody would who changes a deposit on purpose."""
    import bagit

    bag = bagit.Bag(str(folder))
    bag.save(manifests=True)
