"""From rows to records: one statement for each decision, none without one, and rows in = records out + rows refused."""

from __future__ import annotations

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae import model
from chordae.intake.build import Built, build
from chordae.intake.cells import Refusal, parse_date, parse_number
from chordae.intake.table import read_table
from chordae.issues import Issue, Location
from crosswalks import ID, built, crosswalk, tsv

COLUMNS = f"""
{ID}
Reader   | description     | reader                    | identifier
Date     | description     | described_on              | date        | d.m.y&y
Leaflets | tricuspid_valve | leaflet_count             | number
Cords    | tricuspid_valve | septal_chordal_attachment | value
Chambers |                 |                           | value       | list_semicolon
VA       | stated          | va_connection             | value
Ao LV    | aorta           | arises_from.morphologically_left_ventricle | percent
Weight   | record          | weight                    | measurement | decimal_comma | g | | whole heart
AoV      | aortic_valve    | diameter                  | measurement | | mm
Notes    |                 |                           | remark
Sets     |                 |                           | notation
Photo    | record          | evidence.photograph       | text
Septum   | specimen        | material_states.atrial_septum | value
Sinus    | systemic_veins  | coronary_sinus            | value
Duct     | arterial_duct   |                           | value
Donor    |                 |                           | ignore
european | description     | school                    | constant
"""
VALUES = """
VA       | TGA        | | | discordant       | | exact | A. Reader
VA       | DORV       | | | double_outlet_rv | | close | A. Reader
VA       | normal     | | | concordant       | | exact |
VA       | ventricular inversion | | | | | ambiguous | | Of the atria or of the ventricles?
Cords    | to septum  | | | | present | exact | A. Reader
Cords    | none       | | | | absent  | exact | A. Reader
Cords    | maybe      | | | | present | exact | A. Reader | | possible
Chambers | small RV   | morphologically_right_ventricle | ventricle_size | hypoplastic | | exact | A. Reader
Chambers | small RV   | morphologically_right_ventricle | completeness   | incomplete  | | exact | A. Reader
Chambers | coarse     | morphologically_right_ventricle | apical_trabeculation | coarse | | exact | A. Reader
Chambers | big RV     | morphologically_right_ventricle | ventricle_size | dilated     | | exact | A. Reader
Septum   | gone       | | | removed_at_dissection | not_assessable | exact | A. Reader
Duct     | no duct    | | | | absent | exact | A. Reader
*        | not seen   | | | | not_examined | exact | A. Reader
*        | cut        | | | transected | not_assessable | exact | A. Reader
*        | -          | | | | not_recorded | exact | A. Reader
"""


def row(**cells: str) -> Built:
    """Build the record of one row with these cells; ``Cat. no.`` is 0012."""
    names = {"id": "Cat. no.", "ao": "Ao LV"}
    known = {line.split("|")[0].strip() for line in COLUMNS.strip().splitlines()}
    head = {
        names.get(key, key.capitalize().replace("Va", "VA").replace("Aov", "AoV")): text for key, text in cells.items()
    }
    head.setdefault("Cat. no.", "0012")
    assert head.keys() <= known, head
    return built(COLUMNS, VALUES, " | ".join(head) + "\n" + " | ".join(head.values()))


def part(found: Built, name: str) -> dict[str, Any]:
    """Return a part of the only record."""
    return {one["id"]: one for one in found.readings[0].record["parts"]}[name]


def about(found: Built) -> list[Issue]:
    """Return the issues about cells (not those about crosswalk rows that this row does not need)."""
    return [one for one in found.issues if not one.rule.startswith("I-XW")]


def rules(found: Built) -> list[str]:
    return [one.rule for one in about(found)]


def test_one_word_makes_several_statements_and_a_cell_holds_several_words() -> None:
    found = row(chambers="Small  rv; coarse")
    assert part(found, "morphologically_right_ventricle") == {
        "id": "morphologically_right_ventricle",
        "type": "Ventricle",
        "stated_ventricular_identity": "morphologically_right_ventricle",
        "apical_trabeculation": "coarse",
        "ventricle_size": "hypoplastic",
        "completeness": "incomplete",
    }
    assert about(found) == []


def test_the_four_states_and_silence_stay_apart() -> None:
    """Recorded present, recorded absent, not assessable, not examined, and nothing at all: five different records."""
    found = [row(cords=text) for text in ("to septum", "none", "cut", "not seen", "-", "")]
    parts = [{one["id"]: one for one in each.readings[0].record.get("parts", [])} for each in found]
    values = [one.get("tricuspid_valve", {}).get("septal_chordal_attachment") for one in parts]
    assert values == ["present", "absent", "not_assessable", "not_examined", None, None]
    assert parts[2]["tricuspid_valve"]["observed"] == [
        {"feature": "septal_chordal_attachment", "state_reason": "transected"}
    ]
    assert all("tricuspid_valve" not in one for one in parts[4:])
    assert [about(one) for one in found] == [[]] * 6


def test_the_state_of_a_number_stands_under_observed() -> None:
    found = row(leaflets="cut")
    assert part(found, "tricuspid_valve")["observed"] == [
        {"feature": "leaflet_count", "state": "not_assessable", "state_reason": "transected"}
    ]
    assert "leaflet_count" not in part(found, "tricuspid_valve")


def test_the_state_of_a_whole_part_and_of_the_material() -> None:
    found = row(duct="no duct", septum="gone")
    assert part(found, "arterial_duct") == {"id": "arterial_duct", "type": "ArterialDuct", "state": "absent"}
    assert found.readings[0].record["specimen"]["material_states"] == [
        {"structure": "atrial_septum", "state": "not_assessable", "state_reason": "removed_at_dissection"}
    ]
    cut = part(row(duct="cut"), "arterial_duct")
    assert (cut["state"], cut["state_reason"]) == ("not_assessable", "transected")


def test_how_sure_the_observer_was() -> None:
    valve = part(row(cords="maybe"), "tricuspid_valve")
    assert valve["septal_chordal_attachment"] == "present"
    assert valve["observed"] == [{"feature": "septal_chordal_attachment", "certainty": "possible"}]


def test_a_match_that_is_not_exact_keeps_the_word() -> None:
    found = row(va="DORV")
    assert found.readings[0].record["stated"] == {"va_connection": "double_outlet_rv"}
    assert found.readings[0].record["remarks"] == [{"text": "DORV", "place": "VA"}]
    assert rules(found) == ["I-CEL-11"]


def test_shares_of_a_root_measurements_evidence_notation_and_remarks() -> None:
    found = row(ao="70 %", weight="12,5", aov="11 mm", sets="TGA {S,D,D}", photo="plate_3.jpg", notes="waxed, 1962")
    record = found.readings[0].record
    assert about(found) == []
    assert part(found, "aorta")["arises_from"] == [{"ventricle": "morphologically_left_ventricle", "per_cent": 70}]
    assert "morphologically_left_ventricle" in {one["id"] for one in record["parts"]}
    assert record["measurements"] == [
        {"id": "weight", "quantity": "weight", "value": 12.5, "unit": "g", "site": "whole heart"},
        {"id": "aortic_valve_diameter", "part": "aortic_valve", "quantity": "diameter", "value": 11, "unit": "mm"},
    ]
    assert record["evidence"] == [{"id": "photograph_1", "evidence_kind": "photograph", "source_file": "plate_3.jpg"}]
    assert record["stated"] == {"notation": "TGA {S,D,D}"}
    assert record["remarks"] == [{"text": "waxed, 1962", "place": "Notes"}]
    assert record["description"] == {"school": "european"}


def test_parts_stand_in_the_order_of_the_analysis_and_places_follow_them() -> None:
    found = row(aov="11", leaflets="3", chambers="coarse", sinus="not seen")
    reading = found.readings[0]
    names = [one["id"] for one in reading.record["parts"]]
    order = list(model.tables().parts)
    assert names == sorted(names, key=order.index) and len(names) == 4
    number = names.index("tricuspid_valve")
    assert reading.places[f"/parts/{number}/leaflet_count"] == Location("hearts.tsv", 2, 2)
    assert reading.places[f"/parts/{names.index('systemic_veins')}/coronary_sinus"] == Location("hearts.tsv", 2, 4)
    assert reading.places["/measurements/0/value"] == Location("hearts.tsv", 2, 1)
    assert reading.places[""] == Location("hearts.tsv", 2)


@pytest.mark.parametrize(
    ("cell", "text", "rule", "severity"),
    [
        ("va", "transposed", "I-CEL-02", "warning"),
        ("va", "Ventricular inversion", "I-CEL-03", "warning"),
        ("date", "3/7/1998", "I-CEL-04", "violation"),
        ("date", "31.2.1998", "I-CEL-05", "violation"),
        ("date", "7.3.98", "I-CEL-04", "violation"),
        ("leaflets", "three", "I-CEL-06", "violation"),
        ("leaflets", "3,0", "I-CEL-06", "violation"),
        ("leaflets", "2.5", "I-CEL-12", "violation"),
        ("leaflets", "9", "I-CEL-12", "violation"),
        ("ao", "130", "I-CEL-07", "violation"),
        ("weight", "12.5", "I-CEL-06", "violation"),
        ("aov", "1.1 cm", "I-CEL-10", "violation"),
        ("aov", "about 11", "I-CEL-06", "violation"),
        ("cords", "=B3", "I-CEL-02", "warning"),
    ],
)
def test_what_is_not_taken_over_has_an_issue_at_its_cell(cell: str, text: str, rule: str, severity: str) -> None:
    found = row(**{"notes": "x", cell: text})
    assert [(one.rule, one.severity, one.record, one.value) for one in about(found)] == [(rule, severity, "0012", text)]
    assert about(found)[0].location == Location("hearts.tsv", 2, 2)
    assert found.readings[0].record.keys() <= {"id", "vocabulary_version", "description", "specimen", "remarks"}


def test_an_ambiguous_word_brings_its_question() -> None:
    assert "Of the atria or of the ventricles?" in about(row(va="ventricular inversion"))[0].message


def test_a_word_with_two_meanings_needs_a_reviewed_exact_decision() -> None:
    """``normal`` is mapped but nobody signed for it; ``TGA`` is signed."""
    rows = "Cat. no. | VA\n1 | normal\n2 | TGA"
    found = built(COLUMNS, VALUES, rows, ask=lambda word: f"What does {word} mean here?")
    assert [one.record.get("stated") for one in found.readings] == [None, {"va_connection": "discordant"}]
    assert rules(found) == ["I-CEL-03"] and "What does normal mean here?" in about(found)[0].message
    found = built(COLUMNS, VALUES, rows)
    assert found.readings[0].record["stated"] == {"va_connection": "concordant"} and about(found) == []


def test_the_list_of_such_words_that_comes_with_the_package_is_asked_by_default() -> None:
    columns = f"{ID}\nVA | stated | va_connection | value"
    table, _ = read_table("a.tsv", data=tsv("Cat. no. | VA\n1 | TGA"), delimiter="\t")
    for reviewer, rule in (("", ["I-CEL-03"]), ("A. Reader", [])):
        found = build(table, crosswalk(columns, f"VA | TGA | | | discordant | | exact | {reviewer}")[0])
        assert rules(found) == rule


def test_two_cells_that_contradict_each_other() -> None:
    found = row(chambers="small RV; big RV")
    assert part(found, "morphologically_right_ventricle")["ventricle_size"] == "hypoplastic"
    assert rules(found) == ["I-CEL-09"]
    assert "hypoplastic" in about(found)[0].message and "dilated" in about(found)[0].message
    columns = f"{ID}\nA | tricuspid_valve | leaflet_count | number\nB | tricuspid_valve | leaflet_count | number"
    found = built(columns, "* | - | | | | not_recorded | exact", "Cat. no. | A | B\n1 | 3 | 3\n2 | 3 | 2")
    assert [(one.rule, one.record, one.location.column) for one in about(found)] == [("I-CEL-09", "2", 3)]


def test_identifiers() -> None:
    rows = """
    Cat. no. | Reader | Notes
    0012     | A      | x
    0012     | B      | x
    0012     | A      | again
    H 7/98 é |        | x
             | C      | lost
    """
    found = built(COLUMNS, VALUES, rows)
    assert [one.record["id"] for one in found.readings] == ["0012-A", "0012-B", "H-7-98"]
    assert [one.record["specimen"]["accession"] for one in found.readings] == ["0012", "0012", "H 7/98 é"]
    assert [one.record["description"].get("reader") for one in found.readings] == ["A", "B", None]
    assert [(one.rule, one.location.line) for one in about(found)] == [("I-REC-01", 4), ("I-CEL-08", 6)]
    assert (found.rows, found.refused) == (5, 2)


def test_columns_that_are_not_in_the_crosswalk_and_the_other_way_round() -> None:
    head, _ = crosswalk(f"{ID}\nLeaflet | tricuspid_valve | leaflet_count | number")
    table, _ = read_table("a.tsv", data=tsv("Cat. no. | Leaflets | Extra\n1 | 3 | x\n2 | 3 |"), delimiter="\t")
    found = build(table, head)
    assert [(one.rule, one.location) for one in found.issues] == [
        ("I-CEL-01", Location("a.tsv", 1, 2)),
        ("I-CEL-01", Location("a.tsv", 1, 3)),
        ("I-XW-09", Location("columns.tsv", 3, 1)),
    ]
    assert dict(found.unmapped_columns) == {"Leaflets": 2, "Extra": 1}
    assert 'Did you mean "Leaflets"?' in found.issues[2].message


def test_unmapped_words_are_counted_and_the_nearest_is_named() -> None:
    found = built(COLUMNS, VALUES, "Cat. no. | Cords\n1 | to septun\n2 | to septun\n3 | to septum")
    assert dict(found.unmapped) == {("Cords", "to septun"): 2}
    assert all('Did you mean "to septum"?' in one.message for one in about(found))
    assert [one.location.line for one in about(found)] == [2, 3]


def test_dates_stored_as_dates_need_no_style() -> None:
    assert parse_date("1998-03-07", "d.m.y", stored=True) == "1998-03-07"
    assert parse_date("1998-03-07", "d.m.y") == Refusal("I-CEL-04")
    assert parse_date("29.2.2000", "d.m.y") == "2000-02-29"
    assert parse_date("29.2.1900", "d.m.y") == Refusal("I-CEL-05")
    assert [parse_date(text, "d.m.y|m.y|y") for text in ("7.3.1998", "3.1998", "1998")] == [
        "1998-03-07",
        "1998-03",
        "1998",
    ]


@given(st.dates())
def test_dates_in_every_style_against_the_standard_library(day: Any) -> None:
    year, month, number = f"{day.year:04}", day.month, day.day
    assert parse_date(f"{number}.{month}.{year}", "d.m.y") == day.isoformat()
    assert parse_date(f"{number:02}/{month:02}/{year}", "d/m/y") == day.isoformat()
    assert parse_date(f"{month}/{number}/{year}", "m/d/y") == day.isoformat()
    assert parse_date(f"{year}-{month:02}-{number:02}", "y-m-d") == day.isoformat()


@given(st.integers(-(10**9), 10**9), st.integers(0, 9999))
def test_numbers_with_point_and_comma(whole: int, rest: int) -> None:
    assert parse_number(f"{whole}.{rest:04}") == float(f"{whole}.{rest:04}")
    assert parse_number(f"{whole},{rest:04}", "decimal_comma") == float(f"{whole}.{rest:04}")
    assert isinstance(parse_number(f"{whole},{rest:04}"), Refusal)


WORDS = [line.split("|")[1].strip() for line in VALUES.strip().splitlines()]
CELLS = [*WORDS, "", "3", "70 %", "7.3.1998", "what?", "12,5", "TGA {S,D,D}", "0012", "0013", "A"]


def test_rows_in_are_records_out_and_rows_refused_whatever_stands_in_them() -> None:
    """Made-up tables: every row and every filled cell is accounted for."""
    generator = random.Random(11)
    heads = [line.split("|")[0].strip() for line in COLUMNS.strip().splitlines() if "constant" not in line]
    for _ in range(60):
        lines = [[generator.choice(CELLS) for _ in heads] for _ in range(generator.randint(1, 12))]
        lines = [line for line in lines if any(line)]
        text = "\n".join("\t".join(line) for line in [heads, *lines])
        table, more = read_table("a.tsv", data=text.encode(), delimiter="\t")
        found = build(table, crosswalk(COLUMNS, VALUES)[0])
        refused = [one for one in [*found.issues, *more] if one.rule in ("I-CEL-08", "I-REC-01", "I-TAB-01")]
        assert found.rows == len(lines) == len(found.readings) + found.refused
        assert len(refused) == found.refused
        for reading in found.readings:
            line = reading.places[""].line
            cells = next(one for one in table.rows if one.line == line)
            said = {place.column for place in reading.places.values() if place.line == line}
            complained = {one.location.column for one in found.issues if one.location.line == line}
            silent = {index + 1 for index, text in enumerate(cells.cells) if text in ("", "-")}
            ignored = {heads.index("Donor") + 1}
            assert said | complained | silent | ignored >= set(range(1, len(heads) + 1))
