"""Profiles: what a registry may ask for, what it may not, and every mistake in its file with place and suggestion.

Outside reference: PyYAML's own composer gives line and column of the nodes that mistakes are reported at.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from chordae.cli import main
from chordae.errors import InputError
from chordae.issues import Issue, Location
from chordae.record import Reading
from chordae.resources import find
from chordae.shapes.check import check_records
from chordae.shapes.checker import Checker
from chordae.shapes.load import load_rules
from chordae.shapes.profile import DEFAULT, Profile
from chordae.shapes.profile_file import FOLDER, parse_profile, read_profile
from rule_cases import cases, full

DISHARMONY = full({"stated": {"atrial_arrangement": "usual", "av_connection": "concordant", "topology": "left_hand"}})


def one(text: str) -> Issue:
    """The only mistake of a profile."""
    profile, issues = parse_profile(text.encode(), "p.yaml")
    assert profile is None
    (found,) = issues
    return found


@pytest.mark.parametrize("entry", sorted(find(FOLDER).iterdir()), ids=lambda entry: entry.name)
def test_profiles_of_the_package_are_sound_and_known_by_name(entry: Path) -> None:
    name = entry.name.removesuffix(".yaml")
    assert read_profile(name).id == name
    assert read_profile(entry) == read_profile(name)
    assert entry.read_text(encoding="utf-8").startswith("#"), "says what it is for"


def test_the_default_profile_changes_nothing() -> None:
    shipped = read_profile("default")
    assert (shipped.rules, shipped.require, shipped.parts) == ({}, {}, {})
    readings = [Reading(case.record) for case in cases()[::20]]
    assert check_records(readings, profile=shipped).issues == check_records(readings).issues


@pytest.mark.parametrize(
    ("text", "rule", "place", "words"),
    [
        ("id: p\nrulse: {}\n", "I-PRO-02", (2, 8), 'Did you mean "rules"?'),
        ("id: p\nrules:\n  R-TOP-01: info\n", "I-PRO-03", (3, 13), 'Did you mean "R-TOPO-01"?'),
        ("id: p\nrules: {R-SET-5: info}\n", "I-PRO-03", (2, 18), 'Did you mean "R-SET-05"?'),
        ("id: p\nrules:\n  R-TOPO-01: warnign\n", "I-PRO-04", (3, 14), 'Did you mean "warning"?'),
        ("id: p\nrules:\n  R-AV-13: 'off'\n", "I-PRO-05", (3, 12), "finds contradictions"),
        ("id: p\nrules:\n  R-AV-13: info\n", "I-PRO-05", (3, 12), "A tricuspid valve has septal cords"),
        ("id: p\nrequire:\n  stated: [topologie]\n", "I-PRO-06", (3, 12), 'Did you mean "topology"?'),
        ("id: p\nrequire:\n  specimn: [sex]\n", "I-PRO-02", (3, 3), 'Did you mean "specimen"?'),
        ("id: p\nrequire: {parts: {Ventricel: [state]}}\n", "I-PRO-06", (2, 19), 'Did you mean "Ventricle"?'),
        ("id: p\nrequire: {parts: {heart_positon: [apex]}}\n", "I-PRO-06", (2, 19), 'Did you mean "heart_position"?'),
        ("id: p\nrequire: {parts: {heart_position: [apx]}}\n", "I-PRO-06", (2, 36), 'Did you mean "apex"?'),
        ("id: p\nrequire: {stated: topology}\n", "I-PRO-07", (2, 19), "a list of names in brackets"),
        ("id: p\nmissing: error\n", "I-PRO-04", (2, 10), "violation, warning, info"),
        ("title: p\n", "I-PRO-07", (1, 1), "a name of the profile"),
        ("id: 7\n", "I-PRO-07", (1, 5), "text in quotes"),
        ("id: p\nrules: [R-TOPO-01]\n", "I-PRO-07", (2, 8), "lines such as"),
        ("- id: p\n- id: q\n", "I-PRO-07", (1, 1), "one mapping"),
        ("id: p\nid: q\n", "I-DOC-03", (2, 1), "stands twice"),
        ("id: &a p\n", "I-DOC-02", (1, 5), "alias or anchor"),
        ("id: [p\n", "I-DOC-01", (2, 1), "cannot be read as YAML"),
    ],
)
def test_a_mistake_is_told_with_its_place_and_what_to_do(
    text: str, rule: str, place: tuple[int, int], words: str
) -> None:
    found = one(text)
    assert found.rule == rule
    assert found.location.line == place[0] and found.location.file == "p.yaml"
    assert words in found.message and found.hint


def test_columns_are_those_of_the_value() -> None:
    text = "id: p\nrules:\n  R-TOPO-01: info\n  R-AV-13: info\nrequire:\n  stated: [topology, topologie]\n"
    _, issues = parse_profile(text.encode(), "p.yaml")
    marks = {
        node.value: (node.start_mark.line + 1, node.start_mark.column + 1)
        for node in _scalars(yaml.compose(text))
    }
    assert [(one.location.line, one.location.column) for one in issues] == [(4, 12), marks["topologie"]]


def _scalars(node: yaml.Node) -> list[yaml.Node]:
    if isinstance(node, yaml.ScalarNode):
        return [node]
    inner = [part for pair in node.value for part in (pair if isinstance(pair, tuple) else [pair])]
    return [found for part in inner for found in _scalars(part)]


def test_every_mistake_is_told_at_once_and_nothing_is_checked(tmp_path: Path) -> None:
    path = tmp_path / "p.yaml"
    path.write_text("id: p\nrulse: {}\nrules: {R-NO-01: info, R-AV-13: info}\nmissing: no\n", encoding="utf-8")
    with pytest.raises(InputError, match=r"4 mistakes") as error:
        read_profile(path)
    assert all(f"{path}:{line}" in error.value.message for line in (2, 3, 4))
    with pytest.raises(InputError, match=r'Did you mean "default"'):
        read_profile("defualt")


def test_bytes_that_are_no_text_are_told() -> None:
    assert parse_profile(b"\xff\xfe")[1][0].rule == "I-PRO-07"


def test_a_registry_may_keep_its_own_keys_in_the_same_file() -> None:
    text = b"id: p\nrefuse_on: violation\nlicences: []\nnewer: refuse\nrequire: {collection: [id], specimen: [sex]}\n"
    profile, issues = parse_profile(text)
    assert issues == [] and profile is not None and profile.require == {"specimen": ("sex",)}


def test_severity_of_a_rule_can_be_raised_lowered_and_turned_off() -> None:
    def found(**rules: str) -> dict[str, str]:
        profile = Profile("p", rules={name.replace("_", "-"): word for name, word in rules.items()})
        return {one.rule: one.severity for one in Checker(profile=profile).check_one(Reading(DISHARMONY)).issues}

    assert found() == {"R-TOPO-01": "warning"}
    assert found(R_TOPO_01="violation") == {"R-TOPO-01": "violation"}
    assert found(R_TOPO_01="info") == {"R-TOPO-01": "info"}
    assert found(R_TOPO_01="off") == {}


def test_a_rule_that_is_off_is_not_called_untested() -> None:
    off = Profile("p", rules={"R-TOPO-01": "off"})
    assert "R-TOPO-01" in check_records([]).untested
    assert "R-TOPO-01" not in check_records([], profile=off).untested


@pytest.mark.parametrize("word", ["warning", "info", "off"])
def test_no_contradiction_is_made_less_but_rules_of_one_school_can_be(word: str) -> None:
    for rule in load_rules().rules.values():
        if rule.severity == "violation":
            profile, issues = parse_profile(f"id: p\nrules: {{{rule.id}: '{word}'}}\n".encode())
            assert (profile is None) == (rule.school == "both"), rule.id
            assert [one.rule for one in issues] == (["I-PRO-05"] if rule.school == "both" else [])


@pytest.mark.parametrize(
    ("record", "missing"),
    [
        ({"stated": {"topology": "right_hand"}, "parts": {"heart_position": {"apex": "left"}}}, []),
        ({"stated": {"topology": "undetermined"}, "parts": {"heart_position": {"apex": "not_assessable"}}}, []),
        ({"parts": {"heart_position": {"apex": "left"}}}, ["topology of the observer's conclusions"]),
        ({"stated": {"topology": "right_hand"}}, ["position of the heart is not recorded"]),
        ({"stated": {"topology": "right_hand"}, "parts": {"heart_position": {}}}, ["apex of the"]),
        ({"stated": {"topology": "right_hand"}, "parts": {"heart_position": {"state": "absent"}}}, []),
        ({"stated": {"topology": "right_hand"}, "parts": {"heart_position": {"apex": "left"}, "mitral_valve": {}}},
         ["leaflet count of the"]),
        ({"stated": {"topology": "right_hand"}, "parts": {"heart_position": {"apex": "left"},
          "mitral_valve": {"observed": [{"feature": "leaflet_count", "state": "not_examined"}]}}}, []),
    ],
)  # fmt: skip
def test_what_is_required_is_asked_for_and_any_state_is_an_answer(
    record: dict[str, object], missing: list[str]
) -> None:
    profile = Profile(
        "p",
        require={"stated": ("topology",), "description": ("observer",)},
        parts={"heart_position": ("apex",), "AtrioventricularValve": ("leaflet_count",)},
        missing="violation",
    )
    found = list(profile.missing_in(Reading(full(record))))
    assert [one.severity for one in found] == ["violation"] * len(missing)
    assert all(words in one.message for words, one in zip(missing, found, strict=True))


def test_a_missing_value_is_placed_at_its_part() -> None:
    record = full({"parts": {"mitral_valve": {}}})
    place = Location("hearts.csv", 14, 7)
    profile = Profile("p", parts={"AtrioventricularValve": ("leaflet_count",)})
    (found,) = profile.missing_in(Reading(record, {"": Location("hearts.csv", 14), "/parts/0": place}))
    assert (found.part, found.path, found.location) == ("mitral_valve", "/parts/0/leaflet_count", place)
    assert DEFAULT.missing == "warning" == found.severity


HEART = "- {id: a, facts: {atrial_arrangement: usual, av_connection: concordant, topology: left_hand}}\n"


def test_the_command_takes_a_profile_by_name_or_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    hearts, strict = tmp_path / "h.yaml", tmp_path / "strict.yaml"
    hearts.write_text(HEART, encoding="utf-8")
    strict.write_text("id: strict\nrules: {R-TOPO-01: violation}\nrequire: {specimen: [consent]}\n", encoding="utf-8")
    assert main(["check", str(hearts)]) == 0
    capsys.readouterr()
    assert main(["check", str(hearts), "--profile", str(strict)]) == 1
    text = capsys.readouterr().out
    assert any("!!" in line and "(R-TOPO-01)" in line for line in text.splitlines())
    assert 'The consent of the specimen is not recorded; the profile "strict" asks for it. (I-PRO-01)' in text
    assert main(["check", str(hearts), "--profile", "strict_registry"]) == 1
    assert 'the profile "strict_registry" asks for it' in capsys.readouterr().out


def test_the_command_tells_every_mistake_of_a_profile_and_checks_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    hearts, broken = tmp_path / "h.yaml", tmp_path / "broken.yaml"
    hearts.write_text(HEART, encoding="utf-8")
    broken.write_text("id: p\nrules: {R-TOP-01: violation, R-AV-13: info}\n", encoding="utf-8")
    assert main(["check", str(hearts), "--profile", str(broken)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "broken.yaml:2:" in told.err and "2 mistakes" in told.err and 'Did you mean "R-TOPO-01"?' in told.err
