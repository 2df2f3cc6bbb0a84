"""Agreement over many hearts, reconciling two descriptions, hearts alike.

Checks from outside: coefficients in ``test_agreement.py``; Krippendorff's worked example for numbers; PROV-O read by
rdflib; the nearest heart of another collection is the same heart (``examples/exchange.tsv``).
"""

from __future__ import annotations

import csv
import json
import math
import xml.etree.ElementTree as ET
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import rdflib
import yaml
from hypothesis import given, settings

from chordae.cli import main
from chordae.compare.fields import agreement_of_fields
from chordae.compare.fields_told import to_json, to_text, to_tsv
from chordae.compare.information import content_of, lin
from chordae.compare.nearest import Hearts, terms_of
from chordae.compare.numbers import interval_alpha
from chordae.compare.plot import draw
from chordae.compare.reconcile import reconcile
from chordae.compare.sets import read_set
from chordae.compare.settled import Settled, read_settled
from chordae.derive import derive
from chordae.facts import each_fact
from chordae.rdf.emit import emit
from chordae.rdf.read import read_rdf
from chordae.record import Reading, Record
from chordae.shortform import expand
from chordae.structure import check_structure
from generate_records import make_records
from strategies import records

EXAMPLES = Path(__file__).parents[1] / "examples"
PROV = rdflib.Namespace("http://www.w3.org/ns/prov#")


@cache
def collection(name: str) -> tuple[Record, ...]:
    return tuple(read_set(str(EXAMPLES / name))[0])


@cache
def pairs() -> tuple[tuple[str, str], ...]:
    with (EXAMPLES / "exchange.tsv").open(encoding="utf-8", newline="") as stream:
        return tuple((row["veyhaven"], row["tolliver_bay"]) for row in csv.DictReader(stream, delimiter="\t"))


def short(id: str, **facts: Any) -> Record:
    return expand({"id": id, "facts": facts})[0]


# --- agreement -------------------------------------------------------------------------------------------------------


def test_krippendorff_interval_with_missing_readings() -> None:
    """Krippendorff K. Computing Krippendorff's alpha-reliability, 2011, section D, interval: alpha 0.849."""
    observers = [
        "1 2 3 3 2 1 4 1 2 . . .",
        "1 2 3 3 2 2 4 1 2 5 . 3",
        ". 3 3 3 2 3 4 2 2 5 1 .",
        "1 2 3 3 2 4 4 1 2 5 1 .",
    ]
    units = [
        [None if v == "." else float(v) for v in unit] for unit in zip(*(o.split() for o in observers), strict=True)
    ]
    assert interval_alpha(units) == pytest.approx(0.849, abs=0.0005)
    assert interval_alpha([[1.0, 1.0], [1.0, None]]) is None


@cache
def fields() -> tuple[Any, ...]:
    return tuple(agreement_of_fields([collection("veyhaven"), collection("tolliver_bay")], pairs(), 200))


def test_each_field_is_counted_over_the_hearts_that_both_read() -> None:
    found = {(one.area, one.slot): one for one in fields()}
    arrangement = found["conclusions", "atrial_arrangement"]
    assert arrangement.agreement.hearts == 16
    assert arrangement.agreement.raw.value == pytest.approx(15 / 16)  # 0055 and TB-0180 differ
    assert arrangement.agreement.prevalence["usual"] == pytest.approx(29 / 32)
    assert found["conclusions", "topology"].agreement.hearts < 16  # silent ones are left out


def test_cohen_of_a_field_is_that_of_scikit_learn() -> None:
    metrics = pytest.importorskip("sklearn.metrics", reason="scikit-learn (extra test) is the oracle here")
    sets = [{str(one["id"]): derive(one) for one in collection(name)} for name in ("veyhaven", "tolliver_bay")]
    values = [(sets[0][a]["va_connection"], sets[1][b]["va_connection"]) for a, b in pairs()]
    both = [pair for pair in values if all(pair)]
    expected = metrics.cohen_kappa_score([a for a, _ in both], [b for _, b in both])
    found = next(one for one in fields() if one.slot == "va_connection")
    assert found.agreement.cohen.value == pytest.approx(expected)


def test_a_wider_word_counts_in_part_and_apart() -> None:
    a = [short(f"{n}", va_connection="single_outlet_pulmonary_atresia") for n in range(4)]
    b = [short(f"{n}", va_connection="discordant" if n else "single_outlet_pulmonary_atresia") for n in range(4)]
    (found,) = [one for one in agreement_of_fields([a, b], None, 50) if one.slot == "va_connection"]
    assert found.partial == found.agreement.raw.value == 0.25  # neither of the two is above the other
    positions = [[{"id": "h", "parts": [{"id": "right_sided_ventricle", "type": "Ventricle", "side": "right_sided",
                  "ventricle_position": seen}]}] for seen in (["left_sided", "anterior"], ["anterior"])]  # fmt: skip
    (part,) = [one for one in agreement_of_fields(positions, None, 0) if one.slot == "ventricle_position"]
    assert (part.agreement.raw.value, part.partial) == (0.0, 0.5)


def test_few_hearts_get_no_interval() -> None:
    for one in fields():
        if one.agreement.hearts < 10:
            assert one.agreement.ac1.low is None


def test_readings_within_one_set_are_readers() -> None:
    found = agreement_of_fields([collection("tolliver_bay")], None, 50)
    arrangement = next(one for one in found if one.slot == "atrial_arrangement")
    assert arrangement.agreement.hearts >= 5


def test_three_readers_get_fleiss_and_no_cohen() -> None:
    sets = [[short(f"{n}", topology="right_hand" if n < 3 or reader == 2 else "left_hand") for n in range(6)]
            for reader in range(3)]  # fmt: skip
    (found,) = [one for one in agreement_of_fields(sets, None, 0) if one.slot == "topology"]
    assert found.agreement.cohen.value is None
    # By hand: 3 hearts 3/3, 3 hearts 2/3: raw (3*1 + 3*1/3)/6 = 2/3; shares 12/18, 6/18: chance 5/9; kappa 1/4.
    assert found.agreement.fleiss.value == pytest.approx(0.25)


def test_table_text_and_drawing_hold_every_field() -> None:
    some = list(fields())
    assert len(to_tsv(some).splitlines()) == len(some) + 1
    assert len(json.loads(to_json(some))) == len(some)
    assert "Ventricular topology" in to_text(some)
    drawing = ET.fromstring(draw(some))  # noqa: S314  our own drawing
    texts = [one.text for one in drawing.iter("{http://www.w3.org/2000/svg}text")]
    assert "Ventricular topology" in texts
    circles = list(drawing.iter("{http://www.w3.org/2000/svg}circle"))
    assert len(circles) == 1 + sum(one.agreement.ac1.value is not None for one in some)


def test_the_command_writes_table_and_drawing(tmp_path: Path) -> None:
    args = ["compare", "--agreement", str(EXAMPLES / "veyhaven"), str(EXAMPLES / "tolliver_bay"),
            "--pairs", str(EXAMPLES / "exchange.tsv"), "--rounds", "20", "--fail-on", "never"]  # fmt: skip
    for form in ("tsv", "svg"):
        assert main([*args, "--to", form, "--out", str(tmp_path / f"a.{form}")]) == 0
    assert (tmp_path / "a.svg").read_text(encoding="utf-8").startswith("<svg")
    assert "conclusions\ttopology" not in (tmp_path / "a.tsv").read_text(encoding="utf-8").splitlines()[0]


# --- information and likeness ----------------------------------------------------------------------------------------


def test_information_grows_downwards_and_likeness_is_symmetric() -> None:
    assert content_of("congenital_heart_malformation") < content_of("double_outlet_right_ventricle") <= 1
    assert lin("left_isomerism", "right_isomerism") == lin("right_isomerism", "left_isomerism")
    assert lin("left_isomerism", "left_isomerism") == 1.0
    assert lin("mitral_valve", "tetralogy_of_fallot") < lin("mitral_valve", "tricuspid_valve")


# --- reconciling -----------------------------------------------------------------------------------------------------


@cache
def reconciled(one: str, other: str) -> tuple[Record, Record, Record]:
    a = next(record for record in collection("veyhaven") if record["id"] == one)
    b = next(record for record in collection("tolliver_bay") if record["id"] == other)
    return a, b, reconcile(a, b, (), ("https://example.org/v/", "https://example.org/t/"), "2026-11-25")[0]


def said(record: Record) -> set[tuple[str, str]]:
    return {(fact.slot.partition(".")[0], str(fact.value)) for fact in each_fact(record)}


@pytest.mark.parametrize(("one", "other"), pairs())
def test_nothing_is_invented_and_every_fact_has_its_origin(one: str, other: str) -> None:
    a, b, third = reconciled(one, other)
    known = said(a) | said(b)
    # New are only: that this is a reconciled reading, its day, both observers in one, the other catalogue number.
    new = {
        pair for pair in said(third) - known if pair[0] not in ("reader", "described_on", "observer", "other_numbers")
    }
    assert new == set()
    origins = {row["what"] for row in third["reconciliation"]["origins"]}
    for fact in each_fact(third):
        if fact.area in ("description", "measurements") or fact.slot == "other_numbers":
            continue
        stem = f"{fact.area}.{fact.slot.partition('.')[0]}"
        place = f"{stem}.{fact.value}" if fact.slot == "diagnoses" else stem
        assert place in origins, fact
    assert not [issue for issue in check_structure(Reading(third)) if issue.severity == "violation"]


@pytest.mark.parametrize(("one", "other"), pairs())
def test_what_differs_is_an_open_question_and_no_fact(one: str, other: str) -> None:
    _, _, third = reconciled(one, other)
    facts = {f"{fact.area}.{fact.slot.partition('.')[0]}" for fact in each_fact(third)}
    for question in third["reconciliation"].get("open_questions", ()):
        assert len(question["answers"]) == 2
        if not question["what"].startswith(("measurements", "stated.diagnoses")):
            assert question["what"] not in facts


def test_a_settled_difference_has_name_and_reason() -> None:
    a, b, _ = reconciled("0029", "TB-0140")
    decision = Settled("0029", "aorta", "override_per_cent", "b", None, "measured again", "0000-0002-1825-0097")
    third, issues = reconcile(a, b, [decision], day="2026-11-25")
    assert issues == []
    aorta = next(part for part in third["parts"] if part["id"] == "aorta")
    assert aorta["override_per_cent"] == 40
    (origin,) = [row for row in third["reconciliation"]["origins"] if row["what"] == "aorta.override_per_cent"]
    assert (origin["settled_by"], origin["why"]) == ("0000-0002-1825-0097", "measured again")
    assert origin["attributed_to"] == "https://orcid.org/0000-0002-1825-0097"
    assert third["reconciliation"]["settled_by"] == "0000-0002-1825-0097"


def test_a_decision_on_what_does_not_differ_is_told() -> None:
    a, b, _ = reconciled("0003", "TB-0101")
    decision = Settled("0003", "aorta", "trunk_calibre", "a", None, "because", "A. Reader")
    _, issues = reconcile(a, b, [decision])
    assert [one.rule for one in issues] == ["I-RCN-01"]


def test_a_part_absent_to_one_stays_open_until_somebody_settles_it() -> None:
    a = {"id": "a", "parts": [{"id": "arterial_duct", "type": "ArterialDuct", "state": "absent"}]}
    b = {"id": "b", "parts": [{"id": "arterial_duct", "type": "ArterialDuct", "duct_patency": "patent"}]}
    third, _ = reconcile(a, b)
    assert "parts" not in third
    assert [one["what"] for one in third["reconciliation"]["open_questions"]] == ["arterial_duct.state"]
    third, _ = reconcile(a, b, [Settled("a", "arterial_duct", "state", "b", None, "probed", "A. Reader")])
    (duct,) = third["parts"]
    assert duct["duct_patency"] == "patent"


def test_decisions_are_read_strictly(tmp_path: Path) -> None:
    path = tmp_path / "settled.tsv"
    path.write_text(
        "heart\tpart\tproperty\ttake\tvalue\twhy\tby\n"
        "1\taorta\toverride_per_cent\tvalue\t45\tmeasured\tA.\n"
        "1\taorta\toverride_per_cent\tboth\t\twhy not\tA.\n"
        "1\taorta\toverride_per_cent\ta\t\t\tA.\n"
        "1\taorta\toverride_per_cent\ta\t\tbecause\t\n"
        "1\taorta\toverride_per_cent\tvalue\tmuch\tbecause\tA.\n",
        encoding="utf-8",
    )
    found, issues = read_settled(str(path))
    assert [(one.value, one.by) for one in found] == [(45, "A.")]
    assert [(one.rule, one.location.line) for one in issues] == [
        ("I-RCN-02", 3), ("I-RCN-03", 4), ("I-RCN-03", 5), ("I-XW-05", 6),
    ]  # fmt: skip


def test_the_origin_is_prov_o_and_comes_back_from_rdf() -> None:
    _, _, third = reconciled("0029", "TB-0140")
    text = emit(third, base="https://example.org/r/")
    graph = rdflib.Graph().parse(data=text, format="nt")
    record = rdflib.URIRef("https://example.org/r/0029.TB-0140")
    node = next(graph.objects(record, rdflib.URIRef("https://w3id.org/chordae/model/reconciliation")))
    assert {str(one) for one in graph.objects(node, PROV.wasDerivedFrom)} == {
        "https://example.org/v/0029",
        "https://example.org/t/TB-0140",
    }
    from_parts = {str(one) for one in graph.objects(None, PROV.wasDerivedFrom)}
    assert "https://example.org/v/0029/part/aorta" in from_parts
    assert all(isinstance(one, rdflib.URIRef) for one in graph.objects(None, PROV.wasDerivedFrom))
    (back,), issues = read_rdf(text.encode(), "ntriples")
    assert issues == []
    assert back.record == third


@settings(max_examples=30)
@given(records())
def test_a_heart_reconciled_with_itself_is_itself(record: Record) -> None:
    third, issues = reconcile(record, record)
    assert issues == []
    assert "open_questions" not in third.get("reconciliation", {})
    assert said(third) >= {
        pair for pair in said(record) if pair[0] not in ("reader", "note", "statement", "described_on")
    }


def test_the_command_reconciles_pairs(tmp_path: Path) -> None:
    out = tmp_path / "third.yaml"
    args = ["compare", "--reconcile", str(EXAMPLES / "veyhaven"), str(EXAMPLES / "tolliver_bay"), "--fail-on", "never",
            "--pairs", str(EXAMPLES / "exchange.tsv"), "--out", str(out), "--date", "2026-11-25"]  # fmt: skip
    assert main(args) == 0
    made = yaml.safe_load(out.read_text(encoding="utf-8"))
    assert [one["id"] for one in made] == [f"{one}.{other}" for one, other in pairs()]
    assert "https://example.org/veyhaven/record/0003" in made[0]["reconciliation"]["derived_from"]


# --- hearts alike ----------------------------------------------------------------------------------------------------


def test_the_nearest_heart_of_the_other_collection_is_the_same_heart() -> None:
    hearts = Hearts(collection("tolliver_bay"))
    known = {str(one["id"]): one for one in collection("veyhaven")}
    ranks = []
    for one, other in pairs():
        found = [alike.heart.removesuffix("-B") for alike in hearts.nearest(known[one], 20)]
        ranks.append(list(dict.fromkeys(found)).index(other) + 1 if other in found else math.inf)
    assert sum(rank == 1 for rank in ranks) >= 12, ranks
    assert sum(rank <= 3 for rank in ranks) >= 14, ranks


def test_likeness_is_simgic_worked_out_by_hand() -> None:
    """Three hearts with terms a, b, c: information by the share of hearts; shared by all of either."""
    sets = [frozenset("ab"), frozenset("abc"), frozenset("c")]
    hearts = Hearts.from_terms((f"h{at}", "", terms) for at, terms in enumerate(sets))
    found = {one.heart: one.likeness for one in hearts.nearest_to(frozenset("ab"))}
    two = math.log(4 / 2)  # each of a, b, c stands in two of three hearts; one is added to the number of hearts
    assert found == pytest.approx({"h0": 1.0, "h1": 2 * two / (3 * two)})


def test_with_and_without_numpy_the_order_is_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    some = [record for record, _ in make_records(120, seed=3)]
    fast = [(one.heart, round(one.likeness, 9)) for one in Hearts(some).nearest(some[7], 20)]
    monkeypatch.setattr("chordae.compare.nearest.find_spec", lambda name: None)
    slow = [(one.heart, round(one.likeness, 9)) for one in Hearts(some).nearest(some[7], 20)]
    assert sorted(fast) == sorted(slow) or [score for _, score in fast] == [score for _, score in slow]
    assert fast[0][1] <= 1.0
    assert some[7]["id"] not in [heart for heart, _ in fast]


def test_what_is_not_recorded_makes_no_two_hearts_alike() -> None:
    empty = {"id": "e"}
    assert terms_of(empty, derive(empty)) == frozenset()
    assert Hearts([{"id": "f"}, {"id": "g"}]).nearest(empty) == []


def test_the_command_ranks_and_says_why(capsys: pytest.CaptureFixture[str]) -> None:
    args = ["compare", str(EXAMPLES / "veyhaven"), str(EXAMPLES / "tolliver_bay"), "--nearest", "0012", "--most", "2"]
    assert main([*args, "--fail-on", "never"]) == 0
    assert "TB-0118" in capsys.readouterr().out
    assert main([*args, "--to", "json", "--fail-on", "never"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found[0]["heart"] == "TB-0118"
    assert "transposition" in found[0]["shared"]
