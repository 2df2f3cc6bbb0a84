"""The schema itself, and what is generated from it.

Checks from outside: the shapes that LinkML writes from the schema, run by two SHACL engines over what our emitter
writes; the Pydantic model that LinkML writes; JSON Schema draft 2019-09 as jsonschema-rs implements it.
"""

from __future__ import annotations

import csv
import importlib.util
import json
import re
import subprocess
import sys
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any

import jsonschema_rs
import pyoxigraph
import pytest
import yaml
from hypothesis import given, settings

from chordae.model import STATES, class_slots, tables
from chordae.rdf.emit import emit
from chordae.record import Record
from chordae.shapes.engines import CompiledShapes, validate
from generate_records import make_records
from strategies import records

TOP = Path(__file__).resolve().parents[1]
GENERATED = TOP / "schema" / "generated"
PHRASES = {"common_practice", "from_memory"}
PROV_O = "http://www.w3.org/ns/prov#"
CLASSES, SLOTS, ENUMS = tables().classes, tables().slots, tables().enums
THEMES = sorted((TOP / "schema").glob("*.yaml"))


@cache
def linkml_files() -> dict[str, Any]:
    found = {path.name: yaml.safe_load(path.read_text(encoding="utf-8")) for path in THEMES}
    return {name: one for name, one in found.items() if "default_prefix" in one}


@cache
def sources() -> set[str]:
    with (TOP / "schema" / "sources.tsv").open(encoding="utf-8", newline="") as stream:
        return {row["key"] for row in csv.DictReader(stream, delimiter="\t")}


def test_generated_files_are_what_the_schema_gives() -> None:
    done = subprocess.run(
        [sys.executable, "schema/generate.py", "--check"], cwd=TOP, capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (0, ""), done.stderr


def test_generated_files_hold_no_path_of_a_machine() -> None:
    for path in [*GENERATED.iterdir(), *(TOP / "converters" / "chordae" / "_generated").glob("*.*")]:
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"/(home|root|work|tmp|Users)/", text), path.name


@pytest.mark.parametrize("name", CLASSES)
def test_each_class_is_defined_and_sourced(name: str) -> None:
    one = CLASSES[name]
    assert one.description.endswith(".")
    assert one.source in sources() | PHRASES
    assert one.iri == f"https://w3id.org/chordae/model/{name}"
    assert one.slots
    assert not one.related or all(re.fullmatch(r"[a-z_]+", slug) for slug in one.related)


@pytest.mark.parametrize("name", SLOTS)
def test_each_slot_is_defined_and_sourced(name: str) -> None:
    slot = SLOTS[name]
    assert slot.description.endswith(".")
    assert slot.source in sources() | PHRASES
    # Where a fact comes from is said in PROV-O itself, so that any reader of provenance understands it.
    home = PROV_O if name in ("derived_from", "attributed_to") else "https://w3id.org/chordae/model/"
    assert slot.iri.startswith(home)
    assert name == "record" or any(name in one.slots for one in CLASSES.values()), "a slot that no class has"


@pytest.mark.parametrize("name", ENUMS)
def test_each_word_of_an_enum_is_a_term_of_its_own(name: str) -> None:
    values = ENUMS[name]
    iris = [value["iri"] for value in values.values()]
    assert len(set(iris)) == len(iris)
    for word, value in values.items():
        assert value["description"], word
        assert value["source"] in sources() | PHRASES, word
        slug = value["iri"].removeprefix("https://w3id.org/chordae/term/")
        assert re.fullmatch(r"[a-z][a-z0-9_]*", slug), word
        if word in STATES[2:]:
            assert slug == word, "the state of a feature is the same term everywhere"


def test_each_meaning_and_each_structure_is_in_the_vocabulary() -> None:
    terms: set[str] = set()
    for path in (TOP / "schema" / "vocabulary").glob("*.yaml"):
        terms |= set(yaml.safe_load(path.read_text(encoding="utf-8")).get("terms") or {})
    used = {value["iri"].rsplit("/", 1)[1] for values in ENUMS.values() for value in values.values()}
    used |= {slug for one in CLASSES.values() for slug in one.related}
    assert sorted(used - terms) == []


def test_each_file_has_one_theme_and_says_what_it_is() -> None:
    assert len(linkml_files()) >= 10
    for name, one in linkml_files().items():
        assert {"id", "title", "description", "license", "version", "prefixes", "imports"} <= one.keys(), name
        assert len((TOP / "schema" / name).read_text(encoding="utf-8").splitlines()) <= 500, name


def test_every_number_has_a_unit_or_is_a_count() -> None:
    counts = re.compile(r"_(count|lobes|to_left_atrium)$")
    for name, slot in SLOTS.items():
        if slot.kind in {"integer", "decimal"} and name != "value":
            assert slot.unit or counts.search(name), name


def test_conventional_parts_fit_the_schema() -> None:
    for name, part in tables().parts.items():
        assert part.type in CLASSES and not CLASSES[part.type].abstract, name
        for slot, value in part.default.items():
            assert slot in class_slots(part.type), f"{name}.{slot}"
            assert value in SLOTS[slot].values, f"{name}.{slot} = {value}"
    covered = {part.type for part in tables().parts.values()}
    concrete = {name for name, one in CLASSES.items() if "Part" in one.ancestors and not one.abstract}
    assert concrete == covered


@cache
def shapes() -> CompiledShapes:
    return CompiledShapes((GENERATED / "chordae.shacl.ttl").read_text(encoding="utf-8"))


@settings(max_examples=60, deadline=None)
@given(record=records())
def test_what_we_emit_conforms_to_the_shapes_of_linkml(record: Record) -> None:
    assert validate(emit(record), shapes()) == []


def test_both_engines_find_realistic_records_conforming() -> None:
    for record, _ in make_records(3, seed=2):
        assert validate(emit(record), shapes(), "fast") == []
        assert validate(emit(record), shapes(), "reference") == []


def test_the_shapes_of_linkml_do_find_faults() -> None:
    faulty = emit({"id": "1", "parts": [{"id": "a", "type": "Atrium", "appendage_shape": "square"}]})
    assert [one.component for one in validate(faulty, shapes())] == ["InConstraintComponent"]


@cache
def model() -> ModuleType:
    spec = importlib.util.spec_from_file_location("chordae_model", GENERATED / "chordae_model.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["chordae_model"] = module
    spec.loader.exec_module(module)
    return module


def test_the_model_for_others_reads_records_and_refuses_faults() -> None:
    pytest.importorskip("pydantic", reason="pydantic comes with the test extra, through linkml")
    import pydantic

    record, _ = next(make_records(1))
    read = model().Record.model_validate(record)
    assert [type(part).__name__ for part in read.parts] == [part["type"] for part in record["parts"]]
    record["parts"][0]["apex"] = "sideways"
    with pytest.raises(pydantic.ValidationError) as caught:
        model().Record.model_validate(record)
    assert [error["loc"][:3] for error in caught.value.errors()] == [("parts", 0, "HeartPosition")]


@settings(max_examples=60, deadline=None)
@given(record=records())
def test_the_json_schema_takes_generated_records(record: Record) -> None:
    json_schema().validate(record)


@cache
def json_schema() -> jsonschema_rs.Draft201909Validator:
    schema = json.loads((GENERATED / "chordae.schema.json").read_text(encoding="utf-8"))
    return jsonschema_rs.Draft201909Validator(schema, validate_formats=True)


def test_the_ontology_is_turtle_and_holds_every_class_and_slot() -> None:
    text = (GENERATED / "chordae.ontology.ttl").read_text(encoding="utf-8")
    quads = list(pyoxigraph.parse(text, format=pyoxigraph.RdfFormat.TURTLE))
    kinds = {"Class", "ObjectProperty", "DatatypeProperty"}
    named = {quad.subject.value for quad in quads if str(quad.object.value).rsplit("#", 1)[-1] in kinds}
    wanted = {one.iri for one in CLASSES.values()}
    wanted |= {slot.iri for slot in SLOTS.values() if slot.kind not in {"identifier", "type"}}
    wanted = {iri for iri in wanted if not iri.startswith(PROV_O)}  # defined there
    assert not [iri for iri in named if "#" in iri]
    assert wanted <= named
    above = {(quad.subject.value, quad.object.value) for quad in quads if quad.predicate.value.endswith("#subClassOf")}
    assert (CLASSES["Atrium"].iri, CLASSES["Part"].iri) in above


def test_linkmls_own_dumper_gives_the_same_values() -> None:
    """LinkML names the nodes otherwise and leaves out types; every predicate with its word or term is the same."""
    from linkml.generators.pythongen import PythonGenerator
    from linkml_runtime import SchemaView
    from linkml_runtime.dumpers import rdflib_dumper
    from linkml_runtime.loaders import json_loader

    path = str(TOP / "schema" / "chordae.yaml")
    module, view = PythonGenerator(path).compile_module(), SchemaView(path)
    for record, _ in make_records(5, seed=9):
        loaded = json_loader.load(record, target_class=module.Record)
        theirs = rdflib_dumper.as_rdf_graph(loaded, view, prefix_map={"@base": "https://example.org/r/"})
        text = emit(record)
        ours = pyoxigraph.parse(text, format=pyoxigraph.RdfFormat.N_TRIPLES)
        assert _said((str(p), str(o)) for _, p, o in theirs if not str(p).endswith("/type")) == _said(
            (quad.predicate.value, quad.object.value) for quad in ours if "/arch_branches" not in quad.subject.value
        )


def _said(pairs: Iterable[tuple[str, str]]) -> set[tuple[str, str]]:
    """Predicates of the model with a literal or a term; inner nodes are left out, for their names differ."""
    model, term = "https://w3id.org/chordae/model/", "https://w3id.org/chordae/term/"
    return {
        (predicate.removeprefix(model), _rounded(value.removeprefix(term)))
        for predicate, value in pairs
        if predicate.startswith(model) and not value.startswith("https://example.org/") and not _is_label(value)
    }


def _rounded(value: str) -> str:
    """LinkML writes 217.3 with the forty digits of its binary form; we write it as it stands."""
    return str(round(float(value), 6)) if re.fullmatch(r"[0-9]+[.][0-9]+", value) else value


def _is_label(value: str) -> bool:
    """Whether this is rdflib's label of a blank node."""
    return re.fullmatch(r"N[0-9a-f]{32}", value) is not None
