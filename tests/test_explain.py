"""What ``chordae explain`` says of words, terms, codes and rules."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from chordae import mapping
from chordae.cli import main
from chordae.terms import vocabulary
from chordae.vocabulary.codes import codes_text
from chordae.vocabulary.explain import explain_term, explain_word, look_up

TOP = Path(__file__).parents[1]


def said(text: str) -> str:
    return " ".join(explain_word(text).split())


def test_a_trap_says_what_it_may_mean_never_implies_and_what_to_ask() -> None:
    text = said("L-TGA")
    assert "may mean - congenitally corrected transposition (North American school)" in text
    assert "never implies - left-hand ventricular topology - aorta to the left" in text
    assert "Ask: Does the letter L speak of the loop or of the aortic valve" in text
    assert "Source: DG16: Dogan V" in text and "(passage read)" in text
    assert "Definition" not in text


def test_another_spelling_leads_to_the_word() -> None:
    assert explain_word("levo-transposition").startswith("levo-transposition (see L-TGA)")


def test_a_term_gives_both_schools_definition_and_source() -> None:
    text = said("arterial duct")
    term = vocabulary()["arterial_duct"]
    assert "European school: arterial duct (AD)" in text
    assert "North American school: ductus arteriosus (DA)" in text
    assert f"Definition: {term.definition}" in text
    assert "Source: common practice" in text
    assert said("ductus arteriosus") == text == said("arterial_duct")


def test_codes_say_whether_anyone_reviewed_them() -> None:
    codes = mapping.codes_for("double_outlet_right_ventricle")
    assert codes and not any(code.reviewed for code in codes)
    text = said("double_outlet_right_ventricle")
    assert "Codes in open vocabularies (reviewed: no)" in text
    for code in codes:
        assert f"{code.curie} {code.label}" in text


def test_direction_of_a_wider_code_is_said_in_words() -> None:
    slug = "double_outlet_right_ventricle_intact_septum"
    wider = [code for code in mapping.codes_for(slug) if code.predicate == "broad"]
    assert wider
    assert all(f"wider: {code.curie}" in said(slug) for code in wider)


def test_an_outside_code_leads_to_its_term() -> None:
    """HP:0001719 is double outlet right ventricle in HPO (release in the header of mappings/chordae-hpo.sssom.tsv)."""
    assert [term.slug for term in look_up("HP:0001719").terms] == ["double_outlet_right_ventricle"]


def test_a_code_says_first_what_it_is_to_ours_and_that_nobody_signed() -> None:
    text = said("HP:0001719")
    assert text.startswith("HP:0001719 Double outlet right ventricle [2025-11-24] To our terms it is (reviewed: no")
    assert "- the same as: double outlet right ventricle" in text
    assert (
        "- wider than: double outlet right ventricle with intact ventricular septum - With or without a hole." in text
    )
    assert f"Definition: {vocabulary()['double_outlet_right_ventricle'].definition}" in text


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("hp:0001719", "HP:0001719"),
        ("HP_0001719", "HP:0001719"),
        ("http://purl.obolibrary.org/obo/HP_0001719", "HP:0001719"),
        ("Q20.1", "ICD10CM:Q20.1"),
        ("la85.2", "icd11.code:LA85.2"),
        ("HP:9999999", ""),
        ("NOSUCH:1", ""),
    ],
)
def test_codes_are_known_however_they_are_written(text: str, code: str) -> None:
    assert look_up(text).code == code


def test_a_code_that_looks_right_is_shown_as_never_to_be_used_from_both_sides() -> None:
    """UBERON gives the moderator band 'septomarginal trabecula' as a synonym (UBERON:8470002)."""
    ours = said("septomarginal_trabeculation")
    assert "Looks right and must never be used (reviewed: no) - UBERON:8470002 moderator band - the moderator" in ours
    theirs = said("UBERON:8470002")
    assert "- the same as: moderator band" in theirs
    assert "- never to be used for: septomarginal trabeculation - the moderator band carries" in theirs


def test_a_search_in_vain_says_where_and_what_was_near() -> None:
    (found,) = mapping.searched_for("commitment")
    assert f"Looked for in vain - Human Phenotype Ontology [2025-11-24]: {found.comment}" in said("commitment")


def test_every_row_of_the_sets_can_be_shown() -> None:
    for term in vocabulary():
        text = " ".join("\n".join(codes_text(term.slug)).split())
        for code in (*mapping.codes_for(term.slug), *mapping.never_for(term.slug)):
            assert f"{code.curie} {' '.join(code.label.split())}" in text
            assert any(
                slug == term.slug for slug, _ in (*mapping.rows_for(code.curie), *mapping.never_rows_for(code.curie))
            )
        assert text.count("reviewed: no") == bool(mapping.codes_for(term.slug)) + bool(mapping.never_for(term.slug))


def test_a_word_of_several_terms_asks_which() -> None:
    text = explain_word("RSA right")
    assert "no word" in text
    several = look_up("commissure of a valve")
    assert not several.friends
    assert explain_word("atrioventricular canal").startswith("atrioventricular canal (see AVC)")


def test_a_trap_of_one_context_is_shown_with_its_term() -> None:
    text = said("VSD")
    assert "Several meanings in a heart with double outlet" in text
    assert f"Definition: {vocabulary()['ventricular_septal_defect'].definition}" in text


def test_unknown_words_get_the_nearest() -> None:
    text = explain_word("tricuspit valve")
    assert "has no word 'tricuspit valve'" in text
    assert "- tricuspid valve: " in text
    assert look_up("tricuspit").nearest[0].slug == "tricuspid_valve"
    assert "communication (Taussig-Bing): Both trunks" in said("taussig")
    assert explain_word("xqzzqx wwvvkk").endswith("Nothing in it is spelt nearly so.")


def test_hostile_words_do_no_harm() -> None:
    words = ("", " ", "\x00", "\n" * 50, "a" * 100_000, "../../etc/passwd", "HP:", ":", "{S,D,S}", "%s %n", "\ud800")
    for word in words:
        assert len(explain_word(word)) < 6_000


def test_every_term_can_be_explained_in_lines_of_a_screen() -> None:
    for term in vocabulary():
        text = explain_term(term)
        assert text.startswith(term.european)
        assert max(map(len, text.splitlines())) <= 110
        assert "w3id" not in text


def test_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "L-TGA", "mitral valve"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("L-TGA\n") and "\n\nmitral valve\n" in out
    assert main(["explain", "tricuspit valve"]) == 1
    assert "Nearest:" in capsys.readouterr().out


def test_command_line_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "--report", "json", "IVC", "nonsensical wordage"]) == 1
    first, second = json.loads(capsys.readouterr().out)
    assert {one["term"] for one in first["false_friends"][0]["meanings"]} == {
        "inferior_caval_vein",
        "interventricular_communication",
    }
    assert second["known"] is False and second["terms"] == [] and second["code"] is None


def test_codes_come_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "--report", "json", "UBERON:8470002", "septomarginal_trabeculation"]) == 0
    code, term = json.loads(capsys.readouterr().out)
    assert [one["term"] for one in code["code"]["matches"]] == ["moderator_band"]
    assert [one["term"] for one in code["code"]["never"]] == ["septomarginal_trabeculation"]
    (never,) = term["terms"][0]["never"]
    assert (never["code"], never["reviewed"]) == ("UBERON:8470002", False)


@pytest.mark.parametrize("rule", ["R-AV-13", "r-av-13", "I-DOC-02"])
def test_command_line_explains_rules(rule: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", rule]) == 0
    out = capsys.readouterr().out
    assert out.startswith(rule.upper())
    assert "Do: " in out and "w3id" not in out


def test_an_unknown_rule_is_an_unknown_word(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "R-AV-99"]) == 1
    assert "has no word 'R-AV-99'" in capsys.readouterr().out


def test_explaining_a_word_reads_no_yaml_and_no_rdf() -> None:
    script = (
        "import sys; from chordae.cli import main; main(['explain', 'L-TGA']);"
        "print([m for m in ('yaml', 'rdflib', 'pyshacl', 'linkml') if m in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", script],
        env={"PYTHONPATH": str(TOP / "converters")},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.splitlines()[-1] == "[]"
