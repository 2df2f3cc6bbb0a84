"""A record of an older vocabulary is told what has changed, and nothing else."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from chordae.cli import main
from chordae.issues import Location
from chordae.record import Reading
from chordae.terms import Vocabulary, vocabulary
from chordae.versions import check_version, terms_of

# An invented later state of three terms of this vocabulary.
WORDS = {"kind": "thing", "theme": "t", "plain": "p", "definition": "D.", "source": "from memory", "since": "0.1.0"}
LATER = Vocabulary(
    {
        "terms": {
            "left_sided": {**WORDS, "european": "left-sided", "north_american": "left"},
            "common_atrium": {
                **WORDS,
                "european": "common atrium",
                "north_american": "single atrium",
                "deprecated": "0.3.0",
                "replaced_by": "interatrial_communication",
            },
            "interatrial_communication": {**WORDS, "european": "interatrial communication", "north_american": "ASD"},
        },
        "changes": [
            {"version": "0.2.0", "slug": "left_sided", "change": "relabelled", "successor": "", "note": "spelling"},
            {
                "version": "0.3.0",
                "slug": "common_atrium",
                "change": "deprecated",
                "successor": "interatrial_communication",
                "note": "one idea, two terms",
            },
        ],
    },
    "0.3.0",
)


def record(version: Any, **more: Any) -> Reading:
    parts = [{"id": "left_sided_atrium", "type": "Atrium", "side": "left_sided"}]
    made = {"id": "7", "vocabulary_version": version, "parts": parts, **more}
    return Reading(made, {"/vocabulary_version": Location("hearts.yaml", 2, 1)})


def told(reading: Reading) -> list[tuple[str, str]]:
    return [(one.rule, one.message) for one in check_version(reading, LATER)]


def test_an_older_record_is_told_of_its_own_terms_only() -> None:
    assert told(record("0.1.0")) == [
        (
            "I-VOC-01",
            'Since the record was written, in version 0.2.0, the term "left-sided" was relabelled: spelling.',
        )
    ]


def test_a_term_given_up_names_its_successor() -> None:
    found = check_version(record("0.2.0", stated={"diagnoses": ["common_atrium"]}), LATER)
    assert [one.rule for one in found] == ["I-VOC-02"]
    assert found[0].message == 'The term "common atrium" was given up in version 0.3.0: one idea, two terms.'
    assert found[0].hint == 'In the next revision of the description: use "interatrial communication".'
    assert found[0].location == Location("hearts.yaml", 2, 1)
    assert (found[0].record, found[0].path) == ("7", "/vocabulary_version")


def test_a_record_of_this_version_is_told_nothing() -> None:
    assert told(record("0.3.0")) == []
    assert check_version(record(vocabulary().version)) == []


def test_a_record_without_a_version_is_told_nothing() -> None:
    reading = record("0.1.0")
    del reading.record["vocabulary_version"]
    assert told(reading) == []


@pytest.mark.parametrize("version", ["9.9.9", "soon", 3, ["0.1.0"], ""])
def test_a_version_that_cannot_be_is_a_warning(version: Any) -> None:
    found = check_version(record(version), LATER)
    assert [(one.rule, one.severity) for one in found] == [("I-VOC-03", "warning")]
    assert found[0].hint


def test_terms_of_a_record() -> None:
    reading = record("0.1.0", specimen={"material": "isolated_heart"}, stated={"av_connection": "mixed"})
    assert terms_of(reading.record) == {"left_sided", "isolated_heart", "mixed_atrioventricular_connections"}
    assert terms_of({"parts": [None, 3, {"side": {"deep": ["left_sided"]}}], "unheard_of": "left_sided"}) == frozenset()


def test_terms_of_a_record_are_terms() -> None:
    reading = record("0.1.0", stated={"diagnoses": ["tetralogy_of_fallot"]})
    assert terms_of(reading.record) <= vocabulary().slugs


def test_the_command_tells(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "heart.yaml"
    path.write_text("id: '7'\nvocabulary_version: 99.0.0\nparts: []\n", encoding="utf-8")
    main(["read", str(path)])
    assert "I-VOC-03" in capsys.readouterr().err
