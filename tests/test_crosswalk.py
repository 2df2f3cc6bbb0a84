"""Crosswalks: what a curator may write, and every mistake as an issue at its place with the nearest right word."""

from __future__ import annotations

import pytest

from chordae import model
from chordae.errors import InputError
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.targets import AREAS, Target, find_target
from crosswalks import ID, crosswalk, tsv

GOOD = f"""
{ID}
Reader         | description     | reader                     | identifier
Date           | description     | described_on               | date        | d.m.y
TV / leaflets  | tricuspid_valve | leaflet_count              | number
TV / cords     | tricuspid_valve | septal_chordal_attachment  | value
Ventricles     |                 |                            | value       | list_semicolon
VA connection  | stated          | va_connection              | value
Ao over LV     | aorta           | arises_from.morphologically_left_ventricle | percent
Weight         | record          | weight                     | measurement | decimal_comma | g | | all | balance
Notes          |                 |                            | remark
Sets           |                 |                            | notation
Photo          | record          | evidence.photograph        | text
Septum         | specimen        | material_states.atrial_septum | value
Donor          |                 |                            | ignore
european       | description     | school                     | constant
"""
WORDS = """
VA connection | TGA        |       |               | discordant | | exact | A. Reader | |
VA connection | TGA/DORV   |       |               |            | | ambiguous | | Which of the two? |
Ventricles    | small RV   | morphologically_right_ventricle | ventricle_size | hypoplastic | | exact | A. Reader | |
Ventricles    | small RV   | morphologically_right_ventricle | completeness   | incomplete  | | exact | A. Reader | |
Ventricles    | no word yet |      |               |            | |       |  | 3 times |
TV / cords    | yes        |       |               |            | present | exact | A. Reader | |
TV / cords    | maybe      |       |               |            | present | exact | A. Reader | | possible
Septum        | cut away   |       |               | removed_at_dissection | not_assessable | exact | A. Reader | |
*             | not seen   |       |               |            | not_examined | exact | A. Reader | |
*             | -          |       |               |            | not_recorded | exact | A. Reader | |
*             | cut        |       |               | transected | not_assessable | exact | A. Reader | |
"""


def test_a_crosswalk_without_mistakes() -> None:
    found, issues = crosswalk(GOOD, WORDS)
    assert issues == []
    assert found.columns["TV / leaflets"][0].target == Target("tricuspid_valve", "leaflet_count")
    assert found.columns["Ao over LV"][0].target == Target("aorta", "arises_from", "morphologically_left_ventricle")
    weight = found.columns["Weight"][0]
    assert (weight.quantity, weight.unit, weight.part) == ("weight", "g", "")
    assert weight.extras == {"site": "all", "method": "balance"}
    assert [rule.column for rule in found.constants] == ["european"]
    assert len(found.decisions("Ventricles", " Small  rv ")) == 2
    assert found.decisions("Ventricles", "no word yet") == ()
    assert found.decisions("TV / leaflets", "CUT")[0].value == "transected"


def only(columns: str, values: str | None = None) -> tuple[str, int | None, int | None, str]:
    """Return rule, line, column and message of the one issue of a crosswalk."""
    issues = crosswalk(columns, values)[1]
    assert len(issues) == 1, [one.message for one in issues]
    return issues[0].rule, issues[0].location.line, issues[0].location.column, issues[0].message


@pytest.mark.parametrize(
    ("row", "rule", "column", "words"),
    [
        ("X | tricuspit_valve | leaflet_count | number", "I-XW-03", 2, 'Did you mean "tricuspid_valve"?'),
        ("X | tricuspid_valve | leaflet_cuont | number", "I-XW-04", 3, 'Did you mean "leaflet_count"?'),
        ("X | tricuspid_valve | id | text", "I-XW-04", 3, "no property"),
        ("X | stated | va_conection | value", "I-XW-04", 3, 'Did you mean "va_connection"?'),
        ("X | aorta | arises_from.left_ventricle | percent", "I-XW-05", 3, "left_ventricle"),
        ("X | specimen | material_states | value", "I-XW-04", 3, "material_states.X"),
        ("X | tricuspid_valve | leaflet_count | nunber", "I-XW-02", 4, 'Did you mean "number"?'),
        ("X | tricuspid_valve | leaflet_count | ", "I-XW-10", 4, "kind"),
        ("X | | | number", "I-XW-10", 2, "part and the property"),
        ("X | tricuspid_valve | | number", "I-XW-10", 3, "part and the property"),
        (" | tricuspid_valve | leaflet_count | number", "I-XW-10", 1, "name of the column"),
        ("X | tricuspid_valve | leaflet_count | percent", "I-XW-17", 4, "number"),
        ("X | tricuspid_valve | cleft | text", "I-XW-17", 4, "value"),
        ("X | description | described_on | date", "I-XW-10", 5, "d.m.y"),
        ("X | description | described_on | date | dd.mm.yyyy", "I-XW-06", 5, "d.m.y"),
        ("X | description | described_on | date | d/m/y&m/d/y", "I-XW-06", 5, "told apart"),
        ("X | tricuspid_valve | leaflet_count | number | comma", "I-XW-06", 5, "decimal_comma"),
        ("X | aortic_valve | diametre | measurement | | mm", "I-XW-05", 3, 'Did you mean "diameter"?'),
        ("X | aortic_valve | diameter | measurement | | inch", "I-XW-15", 6, "mm"),
        ("X | aortic_valv | diameter | measurement | | mm", "I-XW-03", 2, 'Did you mean "aortic_valve"?'),
        ("X | record | weight | measurement | | g | | | | fixt", "I-XW-05", 10, "fixt"),
        ("europaean | description | school | constant", "I-XW-05", 1, 'Did you mean "european"?'),
    ],
)
def test_a_mistake_in_columns(row: str, rule: str, column: int, words: str) -> None:
    found = only(f"{ID}\n{row}")
    assert found[:3] == (rule, 3, column)
    assert words in found[3]


@pytest.mark.parametrize(
    ("row", "rule", "column", "words"),
    [
        ("VA | x | | | concordnt | | exact", "I-XW-05", 5, 'Did you mean "concordant"?'),
        ("VA | x | | | | present | exact", "I-XW-05", 6, "present"),
        ("VA | x | | | | seen | exact", "I-XW-08", 6, "not_examined"),
        ("VA | x | | | concordant | | exat", "I-XW-07", 7, 'Did you mean "exact"?'),
        ("VA | x | | | concordant | | exact | | | sure", "I-XW-18", 10, "certain"),
        ("VA | x | | | | | exact", "I-XW-10", 5, "value or a state"),
        ("VA |  | | | concordant | | exact", "I-XW-10", 2, "local word"),
        ("Wa | x | | | concordant | | exact", "I-XW-19", 1, "Wa"),
        ("VA | x | aortta | state | | absent | exact", "I-XW-03", 3, 'Did you mean "aorta"?'),
        ("VA | x | aorta | sate | | absent | exact", "I-XW-04", 4, 'Did you mean "state"?'),
        ("VA | x | | | cutt | not_assessable | exact", "I-XW-05", 5, "cutt"),
        ("D | x | | | tetralogy | | exact", "I-XW-05", 5, 'Did you mean "tetralogy_of_fallot"?'),
        ("VA | x | | | transected | not_examined | exact", "I-XW-05", 5, "transected"),
        ("VA | x | tricuspid_valve | leaflet_count | 9 | | exact", "I-XW-05", 5, "from 0 to 8"),
        ("VA | x | tricuspid_valve | leaflet_count | 2.5 | | exact", "I-XW-05", 5, "whole number"),
        ("VA | x | interatrial_communication | patency | closed | absent | exact", "I-XW-16", 6, "closed"),
        ("Free | x | | | concordant | | exact", "I-XW-10", 3, "part and the property"),
        ("* | x | | | concordant | | exact", "I-XW-10", 3, "part and the property"),
    ],
)
def test_a_mistake_in_values(row: str, rule: str, column: int, words: str) -> None:
    columns = f"{ID}\nVA | stated | va_connection | value\nFree | | | value\nD | stated | diagnoses | value"
    found = only(columns, row)
    assert found[:3] == (rule, 2, column)
    assert words in found[3]


def test_two_decisions_for_one_word_are_both_set_aside() -> None:
    columns = f"{ID}\nVA | stated | va_connection | value"
    found, issues = crosswalk(columns, "VA | x | | | concordant | | exact\nVA | X | | | discordant | | exact")
    assert [(one.rule, one.location.line) for one in issues] == [("I-XW-12", 3)]
    assert {rule.match for rule in found.decisions("VA", "x")} == {"ambiguous"}


def test_the_same_row_twice_is_named() -> None:
    columns = f"{ID}\nVA | stated | va_connection | value"
    assert only(columns + "\nVA | stated | va_connection | value")[:2] == ("I-XW-11", 4)
    assert only(columns, "VA | x | | | concordant | | exact\nVA | x | | | concordant | | exact")[:2] == ("I-XW-11", 3)


def test_several_values_of_a_list_are_no_contradiction() -> None:
    rows = "D | both | | | tetralogy_of_fallot | | exact\nD | both | | | right_aortic_arch | | exact"
    found, issues = crosswalk(f"{ID}\nD | stated | diagnoses | value", rows)
    assert issues == [] and len(found.decisions("D", "both")) == 2


def test_a_crosswalk_needs_an_identifier() -> None:
    assert only("VA | stated | va_connection | value")[0] == "I-XW-13"


def test_unknown_headings_are_named_and_missing_ones_stop_the_reading() -> None:
    data = tsv("column | part | property | kindd | kind\nA | | | | identifier")
    issues = read_crosswalk("columns.tsv", data=(data, None))[1]
    assert [(one.rule, one.location.column) for one in issues] == [("I-XW-01", 4)]
    assert 'Did you mean "kind"?' in issues[0].message
    with pytest.raises(InputError, match="kind"):
        read_crosswalk("columns.tsv", data=(tsv("column | part\nA | aorta"), None))


def test_every_part_and_slot_a_cell_may_fill_is_found() -> None:
    """The whole schema against the look-up: each class offers something, and each offer resolves."""
    areas = {**AREAS, **{part: row.type for part, row in model.tables().parts.items()}}
    for area, name in areas.items():
        offered = [one for one in model.class_slots(name) if isinstance(find_target(area, one), Target)]
        assert offered, f"nothing can be said of {area}"
    assert isinstance(find_target("interventricular_communication_3", "geography"), Target)
    assert not isinstance(find_target("stated", "notations"), Target)
