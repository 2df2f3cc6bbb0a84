"""What the fast engine is shown of a record, under short IRIs, gives the same as its whole graph.

Outside reference: the whole graph goes through the same engine, and through pySHACL in `test_check.py`.
"""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest

from chordae._generated import rule_emitter
from chordae.derive import derive
from chordae.errors import InputError, ShapesError
from chordae.rdf.derived import as_node
from chordae.rdf.emit import emit, record_iri
from chordae.record import Reading, Record
from chordae.shapes import together
from chordae.shapes.checker import Checker
from chordae.shapes.engines import validate
from chordae.shapes.load import load_rules
from chordae.shapes.looked import Targets
from chordae.shapes.reads import what_rules_read
from chordae.shapes.result import Result
from chordae.shapes.shapes_graph import ShapesGraph, read_texts
from chordae.shapes.short import Ambiguous, long_path, shorten, uri
from chordae.shapes.together import Looked, check_emitter, show, validate_shown
from generate_records import make_records
from rule_cases import cases, full

SHAPES = load_rules().shapes
CROWD = 16
VALVE = {"septal_leaflet": "normal", "septal_chordal_attachment": "absent"}


def shown(records: Sequence[Record], base: str | None = None) -> tuple[list[list[Result]], list[Looked]]:
    """Results of records shown together, and what the rules looked at."""
    texts = [show(record, as_node(derive(record)), number) for number, record in enumerate(records)]
    iris = [record_iri(record["id"], base) for record in records]
    return validate_shown([text for text, _ in texts], iris, SHAPES), [looked for _, looked in texts]


def records() -> list[Record]:
    some = [case.record for case in cases()] + [record for record, _ in make_records(60, seed=31, faults=0.6)]
    random.Random(4).shuffle(some)
    return some


def test_every_case_of_every_rule_gives_what_its_whole_graph_gives() -> None:
    targets = Targets(load_rules().rules)
    rows = 0
    some = records()
    for first in range(0, len(some), CROWD):
        group = some[first : first + CROWD]
        for record, results, looked in zip(group, *shown(group), strict=True):
            graph = emit(record, derive(record))
            assert results == validate(graph, SHAPES), record["id"]
            assert targets.seen(looked) == targets.seen_in(graph), record["id"]
            rows += len(results)
    assert rows > 500


@pytest.mark.parametrize("base", ["https://example.org/c/", "https://example.org/c#", "urn:collection:"])
def test_results_stand_under_the_base_of_the_collection(base: str) -> None:
    group = records()[:CROWD]
    for record, results in zip(group, shown(group, base)[0], strict=True):
        assert results == validate(emit(record, derive(record), base), SHAPES)


@pytest.mark.parametrize("word", ["c:/term/absent", "r:0/part/aorta", "r:", "c:/model/side"])
def test_words_that_look_like_short_iris_are_not_taken_for_them(word: str) -> None:
    with pytest.raises(Ambiguous):
        uri(word)
    assert uri("https://example.org/r:0") == "<https://example.org/r:0> ."
    record = full({"parts": {"tricuspid_valve": {**VALVE, "note": f"<{word}>"}}})
    assert shown([record])[0][0] == validate(emit(record, derive(record)), SHAPES) != []


def test_a_rule_that_reads_what_is_not_shown_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    check_emitter()
    monkeypatch.setattr(rule_emitter, "READS", rule_emitter.READS[1:])
    together.check_emitter.cache_clear()
    with pytest.raises(ShapesError, match=rf"not shown: {what_rules_read(ShapesGraph(read_texts())).names[0]}"):
        check_emitter()
    monkeypatch.undo()
    together.check_emitter.cache_clear()
    check_emitter()


def test_text_that_is_no_text_stops_its_record_with_words() -> None:
    record = full({"parts": {"tricuspid_valve": {"note": "broken \ud800"}}})
    with pytest.raises(InputError, match="cannot be written"):
        Checker().check_many([Reading(full({})), Reading(record)])


def test_short_names_and_long_ones() -> None:
    assert shorten("<https://w3id.org/chordae/model/side> <https://w3id.org/chordae/term/left_sided>") == (
        "<c:/model/side> <c:/term/left_sided>"
    )
    assert long_path("<c:/term/left_sided>") == "<https://w3id.org/chordae/term/left_sided>"
    assert long_path("<https://example.org/c:/term/x>") == "<https://example.org/c:/term/x>"
