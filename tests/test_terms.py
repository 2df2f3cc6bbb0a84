"""The table of terms at run time, and what it says of changes between versions."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import orjson
import pytest
import yaml

from chordae import resources
from chordae.errors import VocabularyError
from chordae.terms import COMPILED, Change, Vocabulary, key_of, vocabulary

TOP = Path(__file__).parents[1]
sys.path.insert(0, str(TOP / "schema"))

from build_vocabulary import OUTPUT, compile_vocabulary  # noqa: E402 - lives beside the schema, found by the line above


def slugs(text: str, school: Any = None) -> list[str]:
    return [term.slug for term in vocabulary().by_label(text, school)]


def test_compiled_table_is_fresh() -> None:
    assert (TOP / OUTPUT).read_bytes() == compile_vocabulary()
    assert resources.read_bytes(COMPILED) == compile_vocabulary()


def test_compiled_table_holds_what_the_files_say() -> None:
    theme = yaml.safe_load((TOP / "schema/vocabulary/atrioventricular_valves.yaml").read_text(encoding="utf-8"))
    written, term = theme["terms"]["mitral_valve"], vocabulary()["mitral_valve"]
    assert (term.kind, term.european, term.plain) == (written["kind"], written["european"], written["plain"])
    assert term.definition == " ".join(written["definition"].split())
    assert term.theme == "atrioventricular_valves"
    assert term.european_abbreviations == tuple(written["abbreviations"]["european"])
    assert term.iri == "https://w3id.org/chordae/term/mitral_valve"


def test_same_bytes_under_every_hash_seed() -> None:
    script = (
        "import sys; sys.path.insert(0, 'schema'); import build_vocabulary as b;"
        "import hashlib; print(hashlib.sha256(b.compile_vocabulary()).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", script],
            cwd=TOP,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": "converters"},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "7", "4242")
    }
    assert len(digests) == 1


def test_reading_terms_reads_no_yaml() -> None:
    script = "import sys; from chordae.terms import vocabulary; vocabulary(); print('yaml' in sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", script],
        env={"PYTHONPATH": str(TOP / "converters")},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == "False"


def test_get_and_getitem() -> None:
    table = vocabulary()
    assert table.get("nothing_of_the_kind") is None
    assert "tricuspid_valve" in table
    with pytest.raises(VocabularyError) as error:
        table["tricuspit_valve"]
    assert "tricuspid_valve" in error.value.hint


def test_iteration_gives_every_term_once() -> None:
    all_slugs = [term.slug for term in vocabulary()]
    assert len(all_slugs) == len(set(all_slugs)) == len(vocabulary())


@pytest.mark.parametrize(
    ("text", "school", "expected"),
    [
        ("superior vena cava", None, ["superior_caval_vein"]),
        ("Superior  VENA-cava", None, ["superior_caval_vein"]),
        ("superior vena cava", "european", []),
        ("superior caval vein", "european", ["superior_caval_vein"]),
        ("IVC", None, ["inferior_caval_vein", "interventricular_communication"]),
        ("IVC", "north_american", ["inferior_caval_vein"]),
        ("IVC", "european", ["interventricular_communication"]),
        ("RAA", "north_american", ["right_aortic_arch", "morphologically_right_atrial_appendage"]),
        ("criss cross heart", None, ["criss_cross_heart"]),
        ("situs inversus", "north_american", ["mirror_imaged_atrial_arrangement"]),
        ("no such word", None, []),
        ("", None, []),
    ],
)
def test_by_label(text: str, school: Any, expected: list[str]) -> None:
    assert sorted(slugs(text, school)) == sorted(expected)


def test_preferred_labels_come_before_synonyms_and_abbreviations() -> None:
    assert slugs("atrioventricular canal")[0] == "embryonic_atrioventricular_canal"
    for term in vocabulary():
        assert slugs(term.european, "european")[0] == term.slug
        assert slugs(term.north_american, "north_american")[0] == term.slug


def test_up_and_down_the_tree() -> None:
    table = vocabulary()
    assert table.is_a("straddling_mitral_valve", "straddling_atrioventricular_valve")
    assert table.is_a("mitral_valve", "mitral_valve")
    assert not table.is_a("atrioventricular_valve", "mitral_valve")
    assert not table.is_a("nothing", "nothing")
    assert {"atrioventricular_valve", "cardiac_valve"} <= table.ancestors("mitral_valve")
    assert "mitral_valve" in table.narrower("atrioventricular_valve")
    assert "mitral_valve" in table.descendants("cardiac_valve")
    for term in table:
        assert all(term.slug in table.narrower(above) for above in term.broader)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("tricuspit valve", "tricuspid_valve"),
        ("ventricle morphologicaly right", "morphologically_right_ventricle"),
        ("dubble outlet right ventrical", "double_outlet_right_ventricle"),
        ("coarctacion of the aorta", "coarctation_of_aorta"),
        ("isomerism, left", "left_isomerism"),
        ("congenitaly corected transposition", "congenitally_corrected_transposition"),
    ],
)
def test_nearest(text: str, expected: str) -> None:
    assert vocabulary().nearest(text, 1)[0].slug == expected


def test_nearest_of_nonsense_is_nothing() -> None:
    assert vocabulary().nearest("xqzzqx wwvvkk") == []
    assert vocabulary().nearest("   ") == []
    assert len(vocabulary().nearest("valve" * 400, 3)) <= 3


def test_key_folds_case_accents_hyphens() -> None:
    assert key_of("  Ventriculo–Infundibular   FOLD ") == "ventriculo infundibular fold"
    assert key_of("Pérforate") == "perforate"


# -- changes: an invented vocabulary of four terms ---------------------------------------------------------------------


def small(folder: Path, changes: list[dict[str, str]], deprecated: dict[str, str] | None = None) -> Path:
    """Write an invented ``schema`` folder with four terms a, b, c, d."""
    words = folder / "vocabulary"
    words.mkdir(parents=True)
    base = {"kind": "thing", "plain": "p", "definition": "Made up for a test.", "source": "from memory"}
    terms: dict[str, Any] = {
        slug: {**base, "european": f"{slug} one", "north_american": f"{slug} two", "since": "0.1.0"} for slug in "abcd"
    }
    terms["a"]["broader"] = ["b"]
    terms["b"] |= deprecated or {}
    theme = {"theme": "small", "title": "t", "description": "d", "terms": terms}
    (words / "small.yaml").write_text(yaml.safe_dump(theme), encoding="utf-8")
    (words / "kinds.yaml").write_text("kinds: {thing: a thing}\n", encoding="utf-8")
    (words / "changes.yaml").write_text(yaml.safe_dump({"changes": changes}), encoding="utf-8")
    (folder / "false_friends.yaml").write_text("friends: []\n", encoding="utf-8")
    shutil.copy(TOP / "schema" / "sources.tsv", folder / "sources.tsv")
    return folder


HISTORY = [
    {"version": "0.2.0", "slug": "a", "change": "relabelled", "note": "spelling"},
    {"version": "0.10.0", "slug": "b", "change": "deprecated", "successor": "c", "note": "split"},
]


def aged(tmp_path: Path) -> Vocabulary:
    folder = small(tmp_path / "schema", HISTORY, {"deprecated": "0.10.0", "replaced_by": "c"})
    return Vocabulary(orjson.loads(compile_vocabulary(folder)), "0.10.0")


@pytest.mark.parametrize(
    ("version", "changed"), [("0.1.0", ["a", "b"]), ("0.2.0", ["b"]), ("0.9.9", ["b"]), ("0.10.0", [])]
)
def test_changes_since(tmp_path: Path, version: str, changed: list[str]) -> None:
    assert [one.slug for one in aged(tmp_path).changes_since(version)] == changed


def test_changes_of_the_terms_that_a_record_uses(tmp_path: Path) -> None:
    assert aged(tmp_path).changes_since("0.1.0", used=["b", "d"]) == [Change("0.10.0", "b", "deprecated", "c", "split")]


def test_deprecated_term_stays_and_names_its_successor(tmp_path: Path) -> None:
    table = aged(tmp_path)
    assert table["b"].deprecated == "0.10.0"
    assert table["b"].replaced_by == "c"
    successor = table.successor("b")
    assert successor is not None and successor.slug == "c"
    assert table.successor("d") == table["d"]
    assert table.successor("gone") is None


@pytest.mark.parametrize("version", ["", "1", "0.1", "a.b.c", "0.1.0.0", "-1.0.0", "0.1.0\n", "9" * 30 + ".0.0"])
def test_a_version_that_is_none_is_refused(version: str) -> None:
    with pytest.raises(VocabularyError):
        vocabulary().changes_since(version)


def test_a_newer_version_is_refused_with_advice() -> None:
    with pytest.raises(VocabularyError) as error:
        vocabulary().changes_since("999.0.0")
    assert "newer" in error.value.hint


def test_this_version_has_nothing_after_it() -> None:
    assert vocabulary().changes_since(vocabulary().version) == []


# -- what the build refuses ------------------------------------------------------------------------------------------


def edit(folder: Path, slug: str, **changes: Any) -> None:
    path = folder / "vocabulary" / "small.yaml"
    theme = yaml.safe_load(path.read_text(encoding="utf-8"))
    theme["terms"][slug] |= changes
    path.write_text(yaml.safe_dump(theme), encoding="utf-8")


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"definition": ""}, "definition"),
        ({"plain": 3}, "plain"),
        ({"kind": "gadget"}, "gadget"),
        ({"source": "NOBODY99"}, "NOBODY99"),
        ({"broader": ["nowhere"]}, "nowhere"),
        ({"broader": ["a"]}, "kind or a part of itself"),
        ({"broader": "a"}, "list"),
        ({"abbreviations": {"martian": ["x"]}}, "martian"),
        ({"colour": "red"}, "colour"),
        ({"replaced_by": "c"}, "not marked deprecated"),
    ],
)
def test_build_refuses_a_faulty_term(tmp_path: Path, changes: dict[str, Any], says: str) -> None:
    folder = small(tmp_path / "schema", [])
    edit(folder, "b", **changes)
    with pytest.raises(VocabularyError, match=says):
        compile_vocabulary(folder)


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ({"version": "0.2.0", "slug": "zz", "change": "added"}, "nothing is ever deleted"),
        ({"version": "0.2.0", "slug": "a", "change": "deleted"}, "deleted"),
        ({"version": "0.2.0", "slug": "a", "change": "deprecated", "successor": "c"}, "not marked deprecated"),
    ],
)
def test_build_refuses_a_faulty_change(tmp_path: Path, entry: dict[str, str], says: str) -> None:
    with pytest.raises(VocabularyError, match=says):
        compile_vocabulary(small(tmp_path / "schema", [entry]))


def test_build_refuses_a_term_in_two_themes(tmp_path: Path) -> None:
    folder = small(tmp_path / "schema", [])
    text = (folder / "vocabulary" / "small.yaml").read_text(encoding="utf-8").replace("theme: small", "theme: twin")
    (folder / "vocabulary" / "twin.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(VocabularyError, match="is also in"):
        compile_vocabulary(folder)


def test_build_says_which_file_is_no_yaml(tmp_path: Path) -> None:
    folder = small(tmp_path / "schema", [])
    (folder / "vocabulary" / "small.yaml").write_text("terms: {a: [", encoding="utf-8")
    with pytest.raises(VocabularyError, match=r"small\.yaml"):
        compile_vocabulary(folder)
