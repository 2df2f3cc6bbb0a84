"""IRIs: what is minted and what is let through, checked against two independent RDF libraries.

``pyoxigraph`` parses N-Triples by the W3C grammar and rejects what is no IRI; ``rdflib`` has a list of its own.
Characters: RFC 3987, and RDF 1.1 N-Triples, production IRIREF.
"""

from __future__ import annotations

import unicodedata
from urllib.parse import unquote

import pyoxigraph
import pytest
from hypothesis import given
from hypothesis import strategies as st
from rdflib.term import _is_valid_uri

from chordae import identifiers
from chordae.errors import VocabularyError

BASE = "https://museum.example/hearts/"


def parses(iri: str) -> bool:
    """Whether pyoxigraph takes the text as the subject of a triple, unchanged."""
    try:
        triples = list(pyoxigraph.parse(f"<{iri}> <urn:p:p> <urn:o:o> .", format=pyoxigraph.RdfFormat.N_TRIPLES))
    except SyntaxError:
        return False
    return [triple.subject for triple in triples] == [pyoxigraph.NamedNode(iri)]


def test_iris_of_the_package() -> None:
    assert identifiers.term_iri("tricuspid_valve") == "https://w3id.org/chordae/term/tricuspid_valve"
    assert identifiers.rule_iri("R-AV-13") == "https://w3id.org/chordae/rule/R-AV-13"
    assert identifiers.rule_iri("R-AV-14S").endswith("/rule/R-AV-14S")
    assert identifiers.model_iri("ArterialTrunk") == "https://w3id.org/chordae/model/ArterialTrunk"
    assert identifiers.source_iri("from memory") == "https://w3id.org/chordae/source/from_memory"
    assert identifiers.word_iri("north_american", "l_tga") == "https://w3id.org/chordae/word/north_american/l_tga"


@pytest.mark.parametrize("slug", ["", "Tricuspid", "a b", "a/b", "../x", "a#b", "ä", "a\n", "1a"])
def test_a_name_that_is_none_is_refused(slug: str) -> None:
    with pytest.raises(VocabularyError):
        identifiers.term_iri(slug)


def test_no_third_school() -> None:
    with pytest.raises(VocabularyError):
        identifiers.word_iri("martian", "heart")


def test_every_prefix_expands_and_contracts() -> None:
    needed = {"term", "model", "UBERON", "HP", "MONDO", "PATO", "european", "north_american"}
    assert needed <= identifiers.prefixes().keys()
    for prefix in identifiers.prefixes():
        iri = identifiers.expand(f"{prefix}:X1")
        assert parses(iri)
        assert identifiers.contract(iri) == f"{prefix}:X1"


def test_expand_published_identifiers() -> None:
    """UBERON and HPO publish their identifiers as OBO PURLs of this form (OBO Foundry identifier policy)."""
    assert identifiers.expand("UBERON:0000948") == "http://purl.obolibrary.org/obo/UBERON_0000948"
    assert identifiers.expand("HP:0001719") == "http://purl.obolibrary.org/obo/HP_0001719"


@pytest.mark.parametrize("curie", ["heart", "", "NOPE:1", "UBERON:", "HP:a b", "HP:<x>", ":x"])
def test_expand_refuses(curie: str) -> None:
    with pytest.raises(VocabularyError):
        identifiers.expand(curie)


def test_contract_leaves_a_stranger_alone() -> None:
    assert identifiers.contract("https://elsewhere.example/x") == "https://elsewhere.example/x"


@pytest.mark.parametrize(
    "iri",
    [
        BASE,
        "https://museum.example/ä/心",
        "urn:uuid:7a5f0f9e-0000-4000-8000-000000000000",
        "http://localhost:8080/x?y=z#f",
        "https://museum.example/a%20b",
        "tag:museum.example,2026:heart/12",
    ],
)
def test_safe(iri: str) -> None:
    assert identifiers.is_safe_iri(iri)
    assert parses(iri) and _is_valid_uri(iri)


@pytest.mark.parametrize(
    "iri",
    [
        "",
        "hearts/12",
        "javascript:alert(1)",
        "file:///etc/passwd",
        "data:text/html,x",
        "https://",
        "https:///x",
        "https://museum.example/a b",
        "https://museum.example/<x>",
        'https://museum.example/"',
        "https://museum.example/\\x",
        "https://museum.example/\n",
        "https://museum.example/\u2028",
        "https://museum.example/%zz",
        "https://museum.example:port/",
        "https://[::1/",
        "urn:",
        "urn://host/x",
        "https://museum.example/a#b#c",
        "https://museum.example/[x]",
        "https://museum.example/" + "x" * 3000,
    ],
)
def test_not_safe(iri: str) -> None:
    assert not identifiers.is_safe_iri(iri)


@given(st.from_regex(r"(https?|urn|tag|ark|doi|info):[/:@#?%41\[\]a.-]{1,8}", fullmatch=True))
def test_whatever_is_safe_parses_elsewhere_odd_shapes(iri: str) -> None:
    if identifiers.is_safe_iri(iri):
        assert parses(iri)


@given(st.text(min_size=1, max_size=60))
def test_whatever_is_safe_parses_elsewhere(text: str) -> None:
    iri = BASE + text
    if identifiers.is_safe_iri(iri):
        assert parses(iri) and _is_valid_uri(iri)


@given(st.lists(st.text(min_size=1, max_size=30), min_size=1, max_size=4))
def test_minted_iris_parse_stay_in_place_and_tell_their_segments(segments: list[str]) -> None:
    try:
        iri = identifiers.mint(BASE, *segments)
    except VocabularyError:
        return
    assert parses(iri) and identifiers.is_safe_iri(iri)
    parts = iri.removeprefix(BASE).split("/")
    assert len(parts) == len(segments)
    assert [unquote(part) for part in parts] == [unicodedata.normalize("NFC", one) for one in segments]


def test_mint() -> None:
    assert (
        identifiers.mint("https://museum.example", "heart", "0012/a b") == "https://museum.example/heart/0012%2Fa%20b"
    )
    assert identifiers.mint("https://museum.example/#", "12") == "https://museum.example/#12"
    assert identifiers.mint("urn:x:", "12") == "urn:x:12"


def test_mint_gives_composed_and_decomposed_letters_one_iri() -> None:
    assert identifiers.mint(BASE, "Käfer") == identifiers.mint(BASE, "Ka\u0308fer")


@pytest.mark.parametrize(
    ("base", "segment"), [("not a base", "x"), (BASE, ""), (BASE, ".."), (BASE, " "), (BASE, "\ud800")]
)
def test_mint_refuses(base: str, segment: str) -> None:
    with pytest.raises(VocabularyError):
        identifiers.mint(base, segment)


def test_mint_needs_a_segment() -> None:
    with pytest.raises(VocabularyError):
        identifiers.mint(BASE)


def test_slug_of() -> None:
    assert identifiers.slug_of("Ventriculo-infundibular fold (VIF)") == "ventriculo_infundibular_fold_vif"
    assert identifiers.slug_of("心") == ""
