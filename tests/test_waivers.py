"""Confirmations: what they silence, what they never silence, and when they end.

Outside reference: pySHACL, an independent engine. From nothing but the premises of a finding, and the classes of its
nodes, an engine finds the same again, for every rule; for a tenth of them the engine is pySHACL.
"""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from chordae.errors import InputError
from chordae.issues import Confirmation, Issue
from chordae.rdf.emit import emit, record_iri
from chordae.record import Reading, Record
from chordae.report.listing import list_issues
from chordae.shapes.checker import Checker
from chordae.shapes.engines import Engine, validate
from chordae.shapes.load import load_rules
from chordae.shapes.premises import premises, premises_digest
from chordae.shapes.profile import Profile
from chordae.shapes.shapes_graph import RULE
from chordae.shapes.waivers import confirm
from chordae.structure import check_structure
from generate_records import make_records
from rule_cases import cases, checker, full, graph_of

LEFT_HAND = {"stated": {"atrial_arrangement": "usual", "av_connection": "concordant", "topology": "left_hand"}}
WHY = {"reason": "The septal surface of both ventricles was looked at again", "by": "Reader A", "on": "2026-05-04"}


def look(record: Record, **options: Any) -> list[Issue]:
    """The issues of one record."""
    return Checker(**options).check_one(Reading(record)).issues


def confirmed(record: Record, rule: str, **options: Any) -> Record:
    """The record with one warning confirmed."""
    return confirm(record, Checker(premises=True).check_one(Reading(record)).findings, rule, **{**WHY, **options})


def test_a_confirmed_warning_is_for_the_record_and_says_who_when_and_why() -> None:
    heart = full(LEFT_HAND)
    before = copy.deepcopy(heart)
    waived = confirmed(heart, "R-TOPO-01")
    assert heart == before
    (found,) = look(waived)
    (plain,) = look(heart)
    assert (plain.rule, plain.severity, plain.confirmed) == ("R-TOPO-01", "warning", None)
    assert (found.rule, found.severity, found.hint) == ("R-TOPO-01", "info", "")
    assert found.confirmed == Confirmation("Reader A", "2026-05-04", WHY["reason"], "warning")
    assert found.message == f"{plain.message} Confirmed by Reader A on 2026-05-04: {WHY['reason']}."


def test_text_json_html_and_turtle_show_it_as_confirmed() -> None:
    found = look(confirmed(full(LEFT_HAND), "R-TOPO-01"))
    sentence = f"Confirmed by Reader A on 2026-05-04: {WHY['reason']}."
    for form in ("text", "json", "html", "ttl"):
        assert sentence in list_issues(found, form), form
    (told,) = json.loads(list_issues(found, "json"))
    assert told["severity"] == "info"
    assert told["confirmed"] == {"by": "Reader A", "on": "2026-05-04", "reason": WHY["reason"], "severity": "warning"}
    assert ">confirmed<" in list_issues(found, "html") and ">warning<" not in list_issues(found, "html")
    assert list_issues(found).splitlines()[-1] == "0 violations, 0 warnings, 1 for the record."


def test_a_confirmation_travels_with_the_record_and_has_its_shape() -> None:
    waived = confirmed(full(LEFT_HAND), "R-TOPO-01")
    assert set(waived["waivers"][0]) == {"rule", "reason", "confirmed_by", "confirmed_on", "premises_digest"}
    assert check_structure(Reading(waived)) == []
    triples = emit(waived)
    assert "/waiver/1> <https://w3id.org/chordae/model/premises_digest>" in triples
    assert look(json.loads(json.dumps(waived))) == look(waived)


@pytest.mark.parametrize(
    ("change", "rules"),
    [
        ({"stated": {**LEFT_HAND["stated"], "topology": "right_hand"}}, {"I-WAI-01"}),
        ({"stated": {**LEFT_HAND["stated"], "disharmony": "not_confirmed"}}, {"R-TOPO-01", "I-WAI-02"}),
        ({"stated": {**LEFT_HAND["stated"], "statement": "Left-hand topology."}}, {"R-TOPO-01"}),
        ({"remarks": [{"text": "photographed again"}]}, {"R-TOPO-01"}),
    ],
    ids=["the-rule-no-longer-speaks", "a-premise-changed", "another-fact-changed", "a-remark"],
)
def test_a_confirmation_ends_with_its_premises_and_with_nothing_else(change: Any, rules: set[str]) -> None:
    waived = {**confirmed(full(LEFT_HAND), "R-TOPO-01"), **change}
    found = {one.rule: one for one in look(waived)}
    assert set(found) == rules
    if "R-TOPO-01" in found:
        assert found["R-TOPO-01"].severity == ("warning" if "I-WAI-02" in rules else "info")
    if "I-WAI-02" in found:
        assert found["I-WAI-02"].severity == "warning" and found["I-WAI-02"].path == "/waivers/0"


def test_every_warning_of_the_cases_can_be_confirmed_and_no_violation() -> None:
    met: dict[str, set[str]] = {"warning": set(), "violation": set(), "info": set()}
    for case in cases():
        if case.kind != "failing":
            continue
        findings = Checker(premises=True).check_one(Reading(case.record)).findings
        for one in findings:
            rule, part, severity = one.issue.rule, one.issue.part, one.issue.severity
            if rule in met[severity]:
                continue
            met[severity].add(rule)
            if severity == "violation":
                with pytest.raises(InputError, match="impossible"):
                    confirm(case.record, findings, rule, part=part, **WHY)
                forged = {"rule": rule, "reason": "x", "confirmed_by": "x", "confirmed_on": "2026-05-04",
                          "premises_digest": one.premises, **({"part": part} if part else {})}  # fmt: skip
                after = look({**case.record, "waivers": [forged]})
                assert "violation" in {found.severity for found in after if found.rule == rule}, case.id
                assert "I-WAI-03" in {found.rule for found in after}, case.id
            elif len({found.issue.part for found in findings if found.issue.rule == rule}) == 1 or part:
                after = look(confirm(case.record, findings, rule, part=part, **WHY))
                kept = [found for found in after if found.rule == rule and found.part == part]
                assert kept and {found.severity for found in kept} == {"info"}, case.id
    rules = load_rules().rules.values()
    assert met["violation"] == {one.id for one in rules if one.severity == "violation"}
    assert met["warning"] == {one.id for one in rules if one.severity == "warning"}


def test_a_profile_that_makes_a_violation_of_it_ends_a_confirmation() -> None:
    waived = confirmed(full(LEFT_HAND), "R-TOPO-01")
    strict = Profile("p", rules={"R-TOPO-01": "violation"})
    assert {one.rule: one.severity for one in look(waived, profile=strict)} == {
        "R-TOPO-01": "violation",
        "I-WAI-03": "warning",
    }
    assert look(waived, profile=Profile("p", rules={"R-TOPO-01": "off"})) == []


@pytest.mark.parametrize("key", ["confirmed_by", "confirmed_on", "premises_digest"])
def test_a_confirmation_without_who_when_or_ground_is_not_applied(key: str) -> None:
    waived = confirmed(full(LEFT_HAND), "R-TOPO-01")
    del waived["waivers"][0][key]
    found = {one.rule: one.severity for one in look(waived)}
    assert found == {"R-TOPO-01": "warning", "I-WAI-04": "warning"}


@pytest.mark.parametrize(("key", "missing"), [("confirmed_by", "who confirmed it"), ("reason", "why")])
@pytest.mark.parametrize("word", ["", "   ", "?", "unknown", "not stated"])
def test_nobody_confirms_nothing(key: str, missing: str, word: str) -> None:
    waived = confirmed(full(LEFT_HAND), "R-TOPO-01")
    waived["waivers"][0][key] = word
    found = {one.rule: one for one in look(waived)}
    assert {rule: one.severity for rule, one in found.items()} == {"R-TOPO-01": "warning", "I-WAI-04": "warning"}
    assert f"does not say: {missing}." in found["I-WAI-04"].message
    with pytest.raises(InputError, match="says why, and who"):
        confirmed(full(LEFT_HAND), "R-TOPO-01", **{{"confirmed_by": "by"}.get(key, key): word})


def test_a_confirmation_of_a_rule_that_is_not_there() -> None:
    waiver = {"rule": "R-TOP-01", "reason": "x"}
    (found,) = look(full({"waivers": [waiver]}))
    assert found.rule == "I-WAI-05" and 'Did you mean "R-TOPO-01"?' in found.message


def test_what_cannot_be_confirmed_is_refused_with_words() -> None:
    heart = full(LEFT_HAND)
    for rule, words in (("R-VSD-10", "does not speak"), ("R-TOP-01", 'Did you mean "R-TOPO-01"')):
        with pytest.raises(InputError, match=words):
            confirmed(heart, rule)
    with pytest.raises(InputError, match="nothing to confirm"):
        confirmed(heart, "R-TOPO-01", part="mitral_valve")


def test_of_several_parts_one_is_named() -> None:
    """A heart with two communications of one kind, and a warning about each."""
    case = next(one for one in cases() if one.rule == "R-VSD-05M" and one.kind == "failing")
    part = next(one for one in case.record["parts"] if one["type"] == "InterventricularCommunication")
    heart = {**case.record, "parts": [*case.record["parts"], {**part, "id": f"{part['id']}_2"}]}
    with pytest.raises(InputError, match="--part"):
        confirmed(heart, case.rule)
    after = look(confirmed(heart, case.rule, part=part["id"]))
    assert {one.part: one.severity for one in after if one.rule == case.rule} == {
        part["id"]: "info",
        f"{part['id']}_2": "warning",
    }


def test_confirming_again_replaces_and_evidence_is_kept() -> None:
    heart = full({**LEFT_HAND, "evidence": [{"id": "e1", "source_file": "a.jpg"}]})
    waived = confirmed(confirmed(heart, "R-TOPO-01"), "R-TOPO-01", reason="Looked at a third time.", evidence=["e1"])
    (waiver,) = waived["waivers"]
    assert waiver["reason"] == "Looked at a third time." and waiver["evidence_refs"] == ["e1"]


def test_the_digest_does_not_depend_on_base_order_or_what_the_rule_does_not_read() -> None:
    heart = full({**LEFT_HAND, "parts": {"mitral_valve": {"leaflet_count": 2}, "tricuspid_valve": {}}})
    other = {key: heart[key] for key in reversed(heart)}
    other["parts"] = list(reversed(heart["parts"]))
    digests = {
        premises_digest(emit(one, checker().derive(one), base), record_iri(one["id"], base), "R-TOPO-01",
                        record_iri(one["id"], base))
        for one in (heart, other, {**heart, "id": "another"}, {**heart, "remarks": [{"text": "x"}]})
        for base in (None, "https://example.org/x/")
    }  # fmt: skip
    assert len(digests) == 1


def test_premises_carry_the_finding() -> None:
    shapes = load_rules().shapes
    seen: set[str] = set()
    for case in cases():
        if case.kind != "failing" or case.rule in seen:
            continue
        graph, iri = graph_of(case), record_iri(case.record["id"])
        found = [one for one in validate(graph, shapes) if one.rule == RULE + case.rule]
        if not found:
            continue
        seen.add(case.rule)
        kept = set(premises(graph, found[0].focus, case.rule, iri))
        typed = " <http://www.w3.org/1999/02/22-rdf-syntax-ns#type> "
        lines = [line for line in graph.splitlines() if _told(line, iri) in kept or typed in line]
        engine: Engine = "fast" if len(seen) % 10 else "reference_cached"
        again = validate("".join(f"{line}\n" for line in lines), shapes, engine)
        assert found[0] in again, f"{case.id}: {sorted(kept)}"
    assert seen == set(load_rules().rules)


def _told(line: str, iri: str) -> str:
    subject, predicate, value = line.removesuffix(" .").split(" ", 2)
    told = f"<{subject[1:-1].removeprefix(iri)}> {predicate[1:-1].removeprefix('https://w3id.org/chordae/model/')} "
    if value[1:-1] == iri or value.startswith(f"<{iri}/"):
        value = f"<{value[1:-1].removeprefix(iri)}>"
    return told + value


def test_confirming_everything_leaves_only_violations_and_what_is_for_the_record() -> None:
    for record, _ in make_records(20, seed=5, faults=0.3):
        for one in Checker(premises=True).check_one(Reading(record)).findings:
            if one.issue.severity == "warning":
                findings = Checker(premises=True).check_one(Reading(record)).findings
                record = confirm(record, findings, one.issue.rule, part=one.issue.part, **WHY)
        after = look(record)
        assert {one.severity for one in after} <= {"violation", "info"}
        assert not [one for one in after if one.rule.startswith("I-WAI")]


def test_an_issue_comes_back_from_its_json_with_its_confirmation() -> None:
    for one in (look(full(LEFT_HAND))[0], look(confirmed(full(LEFT_HAND), "R-TOPO-01"))[0]):
        assert Issue.from_json(json.loads(json.dumps(one.to_json()))) == one
