"""RDF: what is written is read back, by us and by two other libraries; the same bytes every time.

Checks from outside: the specifications of RDF 1.1 N-Triples, N-Quads, Turtle, TriG and JSON-LD 1.1 as rdflib and
pyoxigraph implement them, and RDFC-1.0 (W3C Recommendation, 2024) as pyoxigraph implements it.
"""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
from pathlib import Path
from typing import Any

import pyoxigraph
import pytest
import rdflib
from hypothesis import given, settings
from hypothesis import strategies as st

from chordae.canonical import canonical
from chordae.errors import FormatError, InputError
from chordae.rdf.canonical import canonical_nquads, digest
from chordae.rdf.contexts import CONTEXT_IRI
from chordae.rdf.emit import emit, record_iri
from chordae.rdf.parse import FORMATS
from chordae.rdf.read import read_rdf
from chordae.rdf.write import write_rdf
from chordae.record import Reading, Record
from chordae.structure import check_structure
from generate_records import make_records
from strategies import records

TOP = Path(__file__).resolve().parents[1]
BASES = [None, "https://example.org/collection/", "https://example.org/c#", "urn:invented:collection:"]
DERIVED = {
    "record": "1",
    "notation": "{S,D,S}",
    "arrangement": "usual",
    "topology": "right_hand",
    "av_connection": None,
    "va_connection": "undetermined",
    "statement": {"european": "Usual arrangement.", "north_american": "Situs solitus."},
    "identities": [
        {
            "part": "aorta",
            "identity": "aorta",
            "basis": ["aorta.gives_coronary_arteries = present"],
            "confidence": "decided",
        }
    ],
    "diagnoses": [{"term": "tetralogy_of_fallot", "label": "tetralogy of Fallot", "codes": [], "premises": ["a", "b"]}],
    "undetermined": [{"what": "av_connection", "why": "The junctions were not recorded."}],
}


def written(record: Record, format: str, base: str | None = None, derived: Any = None) -> bytes:
    return b"".join(write_rdf([(record, derived)], format, base))


def statements(data: bytes, format: str) -> set[str]:
    """The triples of a document as pyoxigraph reads them, without graph names."""
    kind = {"jsonld": pyoxigraph.RdfFormat.JSON_LD, "ntriples": pyoxigraph.RdfFormat.N_TRIPLES}.get(format)
    kind = kind or getattr(pyoxigraph.RdfFormat, {"nquads": "N_QUADS", "turtle": "TURTLE", "trig": "TRIG"}[format])
    return {f"{quad.triple} ." for quad in pyoxigraph.parse(data, format=kind)}


@pytest.mark.parametrize("format", FORMATS)
@settings(max_examples=60, deadline=None)
@given(record=records())
def test_what_is_written_is_read_back(format: str, record: Record) -> None:
    readings, issues = read_rdf(written(record, format), format)
    assert issues == []
    assert [one.record for one in readings] == [record]


@settings(max_examples=80, deadline=None)
@given(record=records(), base=st.sampled_from(BASES))
def test_all_formats_say_the_same_triples(record: Record, base: str | None) -> None:
    expected = statements(emit(record, base=base).encode(), "ntriples")
    assert len(expected) == emit(record, base=base).count("\n")
    for format in FORMATS:
        assert statements(written(record, format, base), format) == expected, format


@settings(max_examples=60, deadline=None)
@given(record=records())
def test_the_text_is_its_own_canonical_form(record: Record) -> None:
    text = emit(record).encode()
    assert canonical_nquads(text) == text


@settings(max_examples=60, deadline=None)
@given(record=records(), seed=st.integers())
def test_order_of_keys_and_of_parts_does_not_matter(record: Record, seed: int) -> None:
    shuffled = shuffle(record, random.Random(seed))
    assert emit(shuffled) == emit(record)
    assert canonical(shuffled) == canonical(record) == record


def shuffle(value: Any, rng: random.Random) -> Any:
    """The same record with its keys, parts, evidence and measurements in another order."""
    if not isinstance(value, dict):
        return value
    keys = list(value)
    rng.shuffle(keys)
    found = {key: shuffle(value[key], rng) for key in keys}
    for name in ("parts", "evidence", "measurements", "examination", "preparation"):
        if isinstance(found.get(name), list):
            found[name] = [shuffle(one, rng) for one in found[name]]
            rng.shuffle(found[name])
    return found


def test_rdflib_reads_the_same_triples_from_every_format() -> None:
    names = {"ntriples": "nt", "nquads": "nquads", "turtle": "turtle", "trig": "trig", "jsonld": "json-ld"}
    before = rdflib.NORMALIZE_LITERALS
    rdflib.NORMALIZE_LITERALS = False
    try:
        for record, _ in make_records(3, seed=4):
            expected = rdflib.Graph().parse(data=emit(record), format="nt")
            for format, name in names.items():
                found = rdflib.Dataset(default_union=True).parse(data=written(record, format), format=name)
                triples = {triple[:3] for triple in found}
                assert triples == set(expected), format
    finally:
        rdflib.NORMALIZE_LITERALS = before


def test_same_bytes_under_six_hash_seeds() -> None:
    program = (
        "import sys; sys.path[:0] = ['tests', 'converters']\n"
        "from generate_records import make_records\n"
        "from chordae.rdf.write import write_rdf\n"
        "for format in ('ntriples', 'nquads', 'turtle', 'trig', 'jsonld'):\n"
        "    for piece in write_rdf(((one, None) for one, _ in make_records(5, 3)), format):\n"
        "        sys.stdout.buffer.write(piece)\n"
    )
    outputs = set()
    for seed in range(6):
        environment = {**os.environ, "PYTHONHASHSEED": str(seed)}
        done = subprocess.run(
            [sys.executable, "-c", program], env=environment, cwd=TOP, capture_output=True, check=True
        )
        outputs.add(done.stdout)
    assert len(outputs) == 1
    assert len(outputs.pop()) > 100_000


def test_no_blank_nodes_and_full_types() -> None:
    for record, _ in make_records(20, seed=5):
        quads = list(pyoxigraph.parse(emit(record), format=pyoxigraph.RdfFormat.N_TRIPLES))
        nodes = [term for quad in quads for term in (quad.subject, quad.object)]
        assert not any(isinstance(node, pyoxigraph.BlankNode) for node in nodes)
        model = "https://w3id.org/chordae/model/"
        typed = {}
        for quad in quads:
            if quad.predicate.value.endswith("#type"):
                typed.setdefault(quad.subject.value, set()).add(quad.object.value.removeprefix(model))
        assert typed[record_iri(record["id"]) + "/part/right_sided_atrium"] == {"Atrium", "Part"}
        assert typed[record_iri(record["id"]) + "/stated"] == {"StatedConclusions", "Conclusions"}


def test_derived_statements_stand_apart_from_stated_ones() -> None:
    record = {"id": "1", "stated": {"topology": "left_hand"}, "parts": [{"id": "aorta", "type": "ArterialTrunk"}]}
    text = emit(record, DERIVED)
    model, term, root = "https://w3id.org/chordae/model/", "https://w3id.org/chordae/term/", record_iri("1")
    assert f"<{root}/stated> <{model}topology> <{term}left_hand_topology> .\n" in text
    assert f"<{root}/derived> <{model}topology> <{term}right_hand_topology> .\n" in text
    assert f"<{root}/derived/identity/aorta> <{model}identity> <{term}aorta> .\n" in text
    assert f'<{root}/derived/diagnosis/tetralogy_of_fallot> <{model}premises> "a" .\n' in text
    assert f"<{root}/derived/undetermined/av_connection>" in text
    assert 'va_connection> "undetermined"' not in text
    (reading,), issues = read_rdf(text, "ntriples")
    assert issues == []
    assert reading.record["derived"]["arrangement"] == "usual"
    assert reading.record["stated"] == {"topology": "left_hand"}
    assert statements(written(record, "jsonld", derived=DERIVED), "jsonld") == statements(text.encode(), "ntriples")


def test_provenance_stands_beside_the_record() -> None:
    text = emit({"id": "1"}, provenance={"file": "hearts.csv", "place": "line 3", "tool": "chordae 0.1.0"})
    root = record_iri("1")
    label = "http://www.w3.org/2000/01/rdf-schema#label"
    assert f'<{root}/provenance> <{label}> "file: hearts.csv; place: line 3; tool: chordae 0.1.0" .\n' in text
    (reading,), issues = read_rdf(text, "ntriples")
    assert (reading.record, issues) == ({"id": "1"}, [])


@pytest.mark.parametrize(
    ("value", "written_as"),
    [
        (12, '"12"^^<http://www.w3.org/2001/XMLSchema#decimal>'),
        (12.5, '"12.5"^^<http://www.w3.org/2001/XMLSchema#decimal>'),
        (1e-7, '"0.0000001"^^<http://www.w3.org/2001/XMLSchema#decimal>'),
        (1e22, '"10000000000000000000000"^^<http://www.w3.org/2001/XMLSchema#decimal>'),
    ],
)
def test_decimals_stand_as_digits(value: float, written_as: str) -> None:
    record = {"id": "1", "measurements": [{"id": "m", "quantity": "weight", "value": value}]}
    assert f"value> {written_as} ." in emit(record)


@pytest.mark.parametrize(
    ("words", "kind"),
    [("1987", "gYear"), ("1987-04", "gYearMonth"), ("1987-04-30", "date"), ("1987-02-30", None), ("1960s", None)],
)
def test_dates_have_the_type_of_their_form(words: str, kind: str | None) -> None:
    suffix = f"^^<http://www.w3.org/2001/XMLSchema#{kind}>" if kind else ""
    assert f'acquired> "{words}"{suffix} .' in emit({"id": "1", "specimen": {"acquired": words}})


def test_identifiers_are_safe_in_iris() -> None:
    record = {"id": "a/b <c>", "parts": [{"id": "x y", "type": "AtrialSeptum"}]}
    (reading,), issues = read_rdf(emit(record), "ntriples")
    assert "<https://example.org/chordae/record/a%2Fb%20%3Cc%3E/part/x%20y>" in emit(record)
    assert (reading.record, issues) == (canonical(record), [])


def test_order_of_arch_branches_is_kept() -> None:
    branches = ["left_subclavian", "left_common_carotid", "right_brachiocephalic", "left_subclavian"]
    record = {"id": "1", "parts": [{"id": "aortic_arch", "type": "AorticArch", "arch_branches": branches}]}
    for format in FORMATS:
        (reading,), issues = read_rdf(written(record, format), format)
        assert reading.record["parts"][0]["arch_branches"] == branches
        assert issues == []


def test_words_that_are_no_terms_stay_words() -> None:
    record = {"id": "1", "stated": {"topology": "D loop", "diagnoses": ["Some Words"]}}
    assert 'topology> "D loop" .' in emit(record)
    (reading,), _ = read_rdf(emit(record), "ntriples")
    assert reading.record == record
    assert [one.rule for one in check_structure(Reading(reading.record))] == ["S-VAL", "S-PAT"]


@pytest.mark.parametrize("base", ["", "collection", "https://example.org/no-end", "https://example.org/a b/", "<x>/"])
def test_a_base_that_is_no_iri_is_refused(base: str) -> None:
    with pytest.raises(FormatError):
        emit({"id": "1"}, base=base)


@pytest.mark.parametrize(
    "record",
    [
        {},
        {"id": "1", "parts": "none"},
        {"id": "1", "parts": [{"id": "a"}]},
        {"id": "1", "parts": ["a"]},
        {"id": "1", "stated": "words"},
        {"id": "1", "stated": {"diagnoses": "words"}},
        {"id": "1", "measurements": [{"id": "m", "quantity": "weight", "value": float("nan")}]},
        {"id": "1", "description": {"observer": "\ud800"}},
    ],
)
def test_a_record_without_the_shape_is_refused_with_a_sentence(record: Any) -> None:
    with pytest.raises(InputError, match="cannot be written"):
        emit(record)


TURTLE = """
@prefix m: <https://w3id.org/chordae/model/> . @prefix t: <https://w3id.org/chordae/term/> .
<https://elsewhere.example/hearts#41> a m:Record ; m:parts
    [ a m:Part, m:Atrium ; m:side t:right_sided ; m:appendage_shape t:triangular_appendage ],
    [ a m:Atrium ; m:side t:left_sided ;
      m:observed [ a m:FeatureObservation ; m:feature "appendage_shape" ; m:state t:not_assessable ] ],
    _:rv, [ a m:AtrioventricularJunction ; m:side t:right_sided ;
      m:opens_into [ m:ventricle _:rv ; m:per_cent 100.0 ] ] .
_:rv a m:Ventricle ; m:stated_ventricular_identity t:morphologically_right_ventricle .
"""


def test_turtle_of_others_with_blank_nodes_is_read() -> None:
    (reading,), issues = read_rdf(TURTLE, "turtle", "hearts.ttl")
    assert issues == []
    assert reading.record == {
        "id": "41",
        "parts": [
            {"id": "right_sided_atrium", "type": "Atrium", "side": "right_sided", "appendage_shape": "triangular"},
            {
                "id": "left_sided_atrium",
                "type": "Atrium",
                "side": "left_sided",
                "observed": [{"feature": "appendage_shape", "state": "not_assessable"}],
            },
            {
                "id": "right_sided_junction",
                "type": "AtrioventricularJunction",
                "side": "right_sided",
                "opens_into": [{"ventricle": "morphologically_right_ventricle", "per_cent": 100.0}],
            },
            {
                "id": "morphologically_right_ventricle",
                "type": "Ventricle",
                "stated_ventricular_identity": "morphologically_right_ventricle",
            },
        ],
    }
    assert check_structure(reading) == []


@settings(max_examples=40, deadline=None)
@given(record=records(), seed=st.integers())
def test_order_of_statements_and_labels_of_blank_nodes_do_not_matter(record: Record, seed: int) -> None:
    lines = [f"{line}\n" for line in emit(record).split("\n") if line]
    random.Random(seed).shuffle(lines)
    (reading,), issues = read_rdf("".join(lines), "ntriples")
    assert (reading.record, issues) == (record, [])


MODEL = "https://w3id.org/chordae/model/"
BAD = {
    "ntriples": ("<https://e/1> <https://e/p> .", ["I-RDF-01"]),
    "turtle": ("@prefix m: <https://w3id.org/chordae/model/> . <https://e/1> a m:Record", ["I-RDF-01"]),
    "nquads": ("not quads at all", ["I-RDF-01"]),
    "trig": ("{ <a> <b> ", ["I-RDF-01"]),
    "jsonld": ("{", ["I-RDF-01"]),
}


@pytest.mark.parametrize("format", BAD)
def test_rdf_that_is_not_well_formed_is_an_issue_with_its_place(format: str) -> None:
    text, rules = BAD[format]
    _, issues = read_rdf(text, format, "bad.file")
    assert [one.rule for one in issues] == rules
    assert (issues[0].location.file, issues[0].location.line) == ("bad.file", 1)


def test_bytes_in_another_encoding_are_an_issue() -> None:
    _, issues = read_rdf(b'<https://e/1> <https://e/p> "\xe9t\xe9" .\n', "ntriples")
    assert [one.rule for one in issues] == ["I-RDF-01"]


@pytest.mark.parametrize(
    ("text", "rules"),
    [
        ("<https://e/1> <https://e/p> <https://e/2> .", ["I-RDF-05", "I-RDF-06"]),
        (f"<https://e/1> a <{MODEL}Record> ; <{MODEL}topology> <https://e/x> .", ["I-RDF-06"]),
        (f"<https://e/1> a <{MODEL}Record> ; <{MODEL}vocabulary_version> '0.1.0', '0.2.0' .", ["I-RDF-08", "I-RDF-08"]),
        (f"<https://e/1> a <{MODEL}Record> ; <{MODEL}parts> 'a' .", ["I-RDF-09"]),
        (f"<https://e/1> a <{MODEL}Record> ; <{MODEL}parts> <https://e/2> .", ["I-RDF-10"]),
        (f"<https://e/1> a <{MODEL}Record> ; <{MODEL}collection> 'Musée'@fr .", ["I-RDF-12"]),
        (
            f"<https://e/1> a <{MODEL}Record> ; <{MODEL}stated> <https://e/s> . "
            f"<https://e/2> a <{MODEL}Record> ; <{MODEL}stated> <https://e/s> . "
            f"<https://e/s> a <{MODEL}StatedConclusions> .",
            ["I-RDF-07"],
        ),
        (
            f"<https://e/1> a <{MODEL}Record> ; <{MODEL}measurements> <https://e/m> . "
            f"<https://e/m> <{MODEL}value> 'twelve' .",
            ["I-RDF-09"],
        ),
    ],
)
def test_what_cannot_be_taken_over_is_named(text: str, rules: list[str]) -> None:
    _, issues = read_rdf(text, "turtle")
    assert sorted(one.rule for one in issues) == rules
    assert all(one.message and one.hint for one in issues)


def test_words_where_a_number_belongs_stay_as_a_remark() -> None:
    record = f"<https://e/1> a <{MODEL}Record> ; <{MODEL}measurements> <https://e/m> ."
    text = f"{record} <https://e/m> <{MODEL}value> 'twelve' ."
    (reading,), _ = read_rdf(text, "turtle")
    assert reading.record["remarks"] == [{"text": "twelve", "place": "m.value"}]


def test_a_context_elsewhere_is_refused_and_ours_is_known() -> None:
    document = {"@context": "https://schema.example/context", "id": "1"}
    readings, issues = read_rdf(json.dumps(document), "jsonld")
    assert (readings, [one.rule for one in issues]) == ([], ["I-RDF-02"])
    nested = {"@context": {"x": {"@id": "https://e/x", "@context": "https://schema.example/context"}}}
    assert [one.rule for one in read_rdf(json.dumps(nested), "jsonld")[1]] == ["I-RDF-02"]
    imported = {"@context": {"@import": "https://schema.example/context"}}
    assert [one.rule for one in read_rdf(json.dumps(imported), "jsonld")[1]] == ["I-RDF-02"]
    ours = {"@context": CONTEXT_IRI, "id": "https://e/7", "type": "Record", "stated": {"topology": "left_hand"}}
    (reading,), issues = read_rdf(json.dumps(ours), "jsonld")
    assert (reading.record, issues) == ({"id": "7", "stated": {"topology": "left_hand"}}, [])


def test_what_jsonld_would_drop_in_silence_is_named() -> None:
    document = {
        "@context": CONTEXT_IRI,
        "id": "https://e/7",
        "type": "Record",
        "apexx": "left",
        "stated": {"id": "a b"},
    }
    _, issues = read_rdf(json.dumps(document), "jsonld")
    assert {one.rule for one in issues} == {"I-RDF-03", "I-RDF-04"}


def test_what_readers_of_json_would_lose_or_change_is_named() -> None:
    ours = f'"@context": "{CONTEXT_IRI}", "id": "https://e/7", "type": "Record"'
    twice = f'{{{ours}, "stated": {{"topology": "left_hand", "topology": "right_hand"}}}}'
    (reading,), issues = read_rdf(twice, "jsonld")
    assert [(one.rule, one.path) for one in issues] == [("I-DOC-03", "/stated/topology")]
    assert reading.record["stated"] == {"topology": "left_hand"}
    number = f'{{{ours}, "measurements": [{{"quantity": "weight", "value": 12345678901234567890123}}]}}'
    (reading,), issues = read_rdf(number, "jsonld")
    assert [one.rule for one in issues] == ["I-DOC-06", "I-RDF-09"]
    assert reading.record["remarks"][0]["text"] == "12345678901234567890123"
    assert [one.rule for one in read_rdf(f'{{{ours}, "collection": "\\ud800"}}', "jsonld")[1]] == ["I-RDF-01"]


def test_jsonld_nested_without_end_is_refused() -> None:
    text = '{"@context": {}, "a": ' + "[" * 300 + "]" * 300 + "}"
    assert [one.rule for one in read_rdf(text, "jsonld")[1]] == ["I-DOC-04"]


@settings(max_examples=200, deadline=None)
@given(data=st.binary(max_size=200), format=st.sampled_from(list(FORMATS)))
def test_no_input_breaks_the_reader(data: bytes, format: str) -> None:
    readings, issues = read_rdf(data, format)
    assert readings == []
    assert all(one.rule.startswith(("I-RDF", "I-DOC")) for one in issues)


def test_poison_graph_is_refused_in_time() -> None:
    nodes = range(12)
    text = "\n".join(f"_:a{one} <https://e/p> _:a{other} ." for one in nodes for other in nodes if one != other)
    with pytest.raises(InputError, match="could not be told apart"):
        digest(text, limit=1.0)


def test_digest_does_not_see_order_prefixes_and_labels() -> None:
    relabelled = TURTLE.replace("_:rv", "_:other").replace("m:", "model:").replace("@prefix model", "@prefix model")
    assert digest(TURTLE, "turtle") == digest(relabelled, "turtle")
    assert digest(TURTLE, "turtle") != digest(TURTLE.replace("right_sided", "left_sided"), "turtle")
    record, _ = next(make_records(1))
    assert digest(emit(record)) == digest(written(record, "turtle"), "turtle")
