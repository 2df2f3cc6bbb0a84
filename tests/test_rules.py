"""Every rule of morphology speaks where it must, and nowhere else; both engines say the same.

Outside references: pySHACL (an independent SHACL engine) for every case; the published hearts of
``tests/data/published_cases.yaml``, each with its citation, which no rule may call impossible.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from chordae.knowledge import table
from chordae.record import Reading
from chordae.shapes.engines import CompiledShapes, validate
from chordae.shapes.load import load_rules
from chordae.shapes.shapes_graph import RULE, read_texts
from chordae.shortform import expand
from chordae.structure import check_structure
from rule_cases import FOLDER, KINDS, Case, cases, checker, graph_of, spoke
from rule_mutants import spared_queries, survivors

TOP = Path(__file__).resolve().parents[1]
BASE = {
    "ASS": 9, "ATR": 14, "AV": 21, "TOPO": 4, "VEN": 5, "VSD": 10, "VA": 12, "NOT": 5, "VAL": 6, "COR": 7, "ARC": 8,
    "CON": 2, "MEA": 7,
}  # fmt: skip
"""The rules that the first reading of the literature gave, by group: 110, numbered from 01."""
RARE = {"C05": "R-VSD-10", "C07": "R-TOPO-01", "C08": "R-TOPO-01"}
"""Published hearts that are rare and real: a warning that can be confirmed, never a violation."""
HALF_NAMED = {"N01": "R-AV-11"}
"""A heart printed under half of its name: the absent connection, without the valve that both ventricles share."""
MEANT = {"R-ASS-17"}
"""Rules on records whose structure is faulty on purpose, where the structure check speaks as well."""


def test_the_hundred_and_ten_rules_are_there_or_listed_with_a_reason() -> None:
    left_out = yaml.safe_load((TOP / "schema/shapes/not_expressed.yaml").read_text(encoding="utf-8"))["rules"]
    wanted = {f"R-{group}-{number:02d}" for group, last in BASE.items() for number in range(1, last + 1)}
    assert sum(BASE.values()) == 110
    assert wanted - set(load_rules().rules) == {row["id"] for row in left_out}
    assert all(len(row["reason"]) > 40 for row in left_out)
    assert len(load_rules().rules) >= 150


def test_every_rule_has_a_file_of_cases_and_every_file_a_rule() -> None:
    assert {path.stem for path in FOLDER.glob("*.yaml")} == set(load_rules().rules)
    assert all(case.rule in load_rules().rules for case in cases())


@pytest.mark.parametrize("rule", load_rules().rules)
def test_rule_has_each_kind_of_case(rule: str) -> None:
    own = [case for case in cases() if case.rule == rule]
    assert {case.kind for case in own} == set(KINDS)
    assert all(case.says and case.why for case in own)
    assert [name for name, number in Counter(case.says for case in own).items() if number > 1] == []
    for case in own:
        assert (rule in case.expect) == (case.kind == "failing"), case.id


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.id)
def test_exactly_these_rules_speak(case: Case) -> None:
    assert spoke(case) == case.expect, f"{case.says}: {case.why}"


def test_records_of_cases_have_a_sound_structure() -> None:
    faulty = {
        case.id: [issue.message for issue in check_structure(Reading(case.record)) if issue.severity == "violation"]
        for case in cases()
        if case.rule not in MEANT
    }
    assert {name: found for name, found in faulty.items() if found} == {}


@cache
def shapes_of(file: str) -> CompiledShapes:
    texts = read_texts()
    return CompiledShapes(texts["conditions.ttl"] + "\n" + texts[file])


@pytest.mark.parametrize("file", [name for name in read_texts() if name != "conditions.ttl"])
def test_both_engines_say_the_same_of_the_cases_of_each_file(file: str) -> None:
    """Rules of one file on the cases of these rules: every case of every rule, in all six fields."""
    rules = load_rules().rules
    graph = "".join(graph_of(case) for case in cases() if rules[case.rule].file == file)
    fast = validate(graph, shapes_of(file), "fast")
    assert {found.rule.removeprefix(RULE) for found in fast} == {
        rule.id for rule in rules.values() if rule.file == file
    }
    assert validate(graph, shapes_of(file), "reference_cached") == fast


def test_both_engines_say_the_same_of_a_tenth_of_the_cases_with_all_rules() -> None:
    graph = "".join(graph_of(case) for case in cases()[::10])
    shapes = load_rules().shapes
    assert validate(graph, shapes, "reference_cached") == validate(graph, shapes, "fast")


def test_pyshacl_as_shipped_says_the_same() -> None:
    shapes = load_rules().shapes
    for case in [case for case in cases() if case.rule in {"R-AV-13", "R-AV-09"}][:4]:
        assert validate(graph_of(case), shapes, "reference") == validate(graph_of(case), shapes, "fast"), case.id


def test_one_record_at_a_time_or_all_in_one_graph() -> None:
    graphs = [graph_of(case) for case in cases()]
    alone = sorted(found for graph in graphs for found in validate(graph, load_rules().shapes))
    assert validate("".join(graphs), load_rules().shapes) == alone


def published() -> list[dict[str, Any]]:
    text = (TOP / "tests/data/published_cases.yaml").read_text(encoding="utf-8")
    found: list[dict[str, Any]] = yaml.safe_load(text)["cases"]
    return found


@pytest.mark.parametrize("heart", published(), ids=lambda heart: f"{heart['id']}-{heart['source']}")
def test_no_rule_calls_a_published_heart_impossible(heart: dict[str, Any]) -> None:
    record, _ = expand({"id": heart["id"], "facts": heart["facts"]})
    issues = checker().check_one(Reading(record)).issues
    impossible = {issue.rule for issue in issues if issue.severity == "violation"}
    assert impossible == ({HALF_NAMED[heart["id"]]} if heart["id"] in HALF_NAMED else set())
    if heart["id"] in RARE:
        assert RARE[heart["id"]] in {issue.rule for issue in issues if issue.severity == "warning"}


def test_notation_rule_takes_every_prefix_that_is_read() -> None:
    """The grammar of the rule and the table of the notation reader name the same prefixes (SCH13; VP64)."""
    pattern = re.compile(_pattern("R-NOT-01"))
    known = set(table("notation")["prefixes"]) | set(table("notation")["spellings"])
    assert {name for name in known if not pattern.search(f"{name} {{S,D,D}}")} == set()
    assert not pattern.search("{S,D,D}")


def test_origin_rule_of_coronary_arteries_takes_published_codes() -> None:
    """Codes as printed: LEI18 (1R-2LCx), AY24 (1LRCA2Cx)."""
    pattern = re.compile(_pattern("R-COR-01"))
    assert all(pattern.search(code) for code in ("1R-2LCx", "1LRCA2Cx", "1LCx-2R", "1R-2LADCx"))


def _pattern(rule: str) -> str:
    from chordae.shapes.paths import SH
    from chordae.shapes.shapes_graph import ShapesGraph

    graph = ShapesGraph(read_texts())
    (shape,) = [shape for shape in graph.shapes() if shape.value == RULE + rule]
    return graph.value(shape, SH + "pattern")


def test_every_small_fault_in_a_rule_is_noticed_by_a_case() -> None:
    """Mutation test: see ``tests/rule_mutants.py``; about 2,500 mutants."""
    number, alive = survivors()
    assert number > 10 * len(load_rules().rules)
    assert alive == []


def test_a_condition_before_a_query_changes_nothing_but_the_time() -> None:
    with_queries, changed = spared_queries()
    assert len(with_queries) >= 5
    assert changed == []
