"""From names to IRIs and back: terms, rules, model, sources, words, CURIEs, and the records of a collection.

::

    term_iri("tricuspid_valve")             https://w3id.org/chordae/term/tricuspid_valve
    rule_iri("R-AV-13")                     https://w3id.org/chordae/rule/R-AV-13
    expand("UBERON:0000948")                http://purl.obolibrary.org/obo/UBERON_0000948
    contract("http://.../UBERON_0000948")   UBERON:0000948
    mint("https://museum.example/", "heart", "0012/a")   https://museum.example/heart/0012%2Fa

Prefixes stand in ``mappings/prefixes.tsv``. Nothing is looked up on the network, and nothing dereferences.

Sources: RFC 3986 (URI syntax), RFC 3987 (IRIs), RDF 1.1 N-Triples (characters not allowed in an IRI),
W3C CURIE Syntax 1.0.
"""

from __future__ import annotations

import csv
import io
import re
import unicodedata
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from urllib.parse import quote, urlsplit

from chordae import resources
from chordae.errors import VocabularyError

__all__ = [
    "BASE",
    "contract",
    "expand",
    "is_safe_iri",
    "mint",
    "model_iri",
    "prefixes",
    "rule_iri",
    "slug_of",
    "source_iri",
    "term_iri",
    "word_iri",
]

BASE = "https://w3id.org/chordae/"

_SLUG = re.compile(r"[a-z][a-z0-9_]*")
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*")
_RULE = re.compile(r"[RSI]-[A-Z]+(-[0-9]{2}[A-Z]?)?")
# Letters beyond ASCII that RFC 3987 lets stand in a path (ucschar), without the space U+00A0.
_UCSCHAR = "\u00a1-\ud7ff\uf900-\ufdcf\ufdf0-\uffef\U000e1000-\U000efffd" + "".join(
    f"{chr(plane << 16)}-{chr((plane << 16) | 0xFFFD)}" for plane in range(1, 14)
)
_FORBIDDEN = re.compile(rf'[^\x21-\x7e{_UCSCHAR}]|[][<>"{{}}|\\^`\u2028\u2029]|#.*#')
_BAD_ESCAPE = re.compile(r"%(?![0-9A-Fa-f]{2})")
_SCHEME = re.compile(r"(https?|urn|tag|ark|doi|info):", re.IGNORECASE)
_MAX_LENGTH = 2000


def term_iri(slug: str) -> str:
    """IRI of a term of the vocabulary.

    Raises
    ------
    VocabularyError
        The slug is not lower-case letters, digits and underscores. Whether such a term exists is not asked.
    """
    return _local("term/", slug, _SLUG)


def rule_iri(rule: str) -> str:
    """IRI of a rule by its id, for example ``R-AV-13``."""
    return _local("rule/", rule, _RULE)


def model_iri(name: str) -> str:
    """IRI of a class or slot of the schema."""
    return _local("model/", name, _NAME)


def source_iri(key: str) -> str:
    """IRI of a source by its key in ``schema/sources.tsv``; a phrase such as "from memory" has one too."""
    return _local("source/", key.replace(" ", "_"), _NAME)


def word_iri(school: str, slug: str) -> str:
    """IRI of a word of one school (``european`` or ``north_american``) in the crosswalk between the schools."""
    if school not in ("european", "north_american"):
        raise VocabularyError(f"'{school}' is no school.", "Use european or north_american.")
    return _local(f"word/{school}/", slug, re.compile(r"[a-z0-9][a-z0-9_]*"))


def slug_of(text: str) -> str:
    """Turn a label into lower-case letters, digits and underscores; empty if nothing is left.

    >>> slug_of("Double outlet right ventricle, {S,D,D}")
    'double_outlet_right_ventricle_s_d_d'
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "_", plain).strip("_")


@cache
def prefixes() -> Mapping[str, str]:
    """The prefixes of ``mappings/prefixes.tsv`` and what each stands for."""
    rows = csv.DictReader(
        io.StringIO(resources.read_text("mappings/prefixes.tsv")), delimiter="\t", quoting=csv.QUOTE_NONE
    )
    return MappingProxyType({row["prefix"]: row["iri"] for row in rows})


def expand(curie: str) -> str:
    """Return the IRI that a CURIE stands for.

    Raises
    ------
    VocabularyError
        The prefix is not in ``mappings/prefixes.tsv``, or the result would not be an IRI.
    """
    prefix, colon, local = curie.partition(":")
    if not colon or prefix not in prefixes():
        raise VocabularyError(
            f"The prefix of '{curie[:80]}' is not known.", "Add it to mappings/prefixes.tsv, or correct the code."
        )
    iri = prefixes()[prefix] + local
    if not local or not is_safe_iri(iri):
        raise VocabularyError(f"'{curie[:80]}' is not a code that can be written as an address.")
    return iri


def contract(iri: str) -> str:
    """Return the CURIE of an IRI by the longest prefix that fits; the IRI itself if none does.

    >>> contract("http://purl.obolibrary.org/obo/UBERON_0000948")
    'UBERON:0000948'
    """
    fits = [(len(start), prefix) for prefix, start in prefixes().items() if iri.startswith(start) and iri != start]
    if not fits:
        return iri
    length, prefix = max(fits)
    return f"{prefix}:{iri[length:]}"


def is_safe_iri(text: str) -> bool:
    """Whether a text may be written into RDF as an absolute IRI, as it stands.

    Refused: another scheme than http, https, urn, tag, ark, doi or info; white space, control characters and the
    characters that RFC 3987 or N-Triples forbid; a second ``#``; a half percent escape; http without a host, or with
    a host in brackets; more than 2,000 characters.
    """
    if len(text) > _MAX_LENGTH or not (scheme := _SCHEME.match(text)):
        return False
    if _FORBIDDEN.search(text) or _BAD_ESCAPE.search(text) or scheme.end() == len(text):
        return False
    if not scheme[1].lower().startswith("http"):
        return not text.startswith("//", scheme.end())
    try:
        parts = urlsplit(text)
        return bool(parts.hostname) and (parts.port is None or parts.port > 0)
    except ValueError:
        return False


def mint(base: str, *segments: str) -> str:
    """Put segments behind a collection's own base IRI; a segment never breaks out of its place.

    Parameters
    ----------
    base
        Absolute IRI. Without ``/``, ``#`` or ``:`` at its end it gets a ``/``.
    segments
        At least one; each is normalised (NFC) and percent-encoded whole, slashes included.

    Raises
    ------
    VocabularyError
        The base is not an absolute IRI, or a segment is empty, ``.`` or ``..``.
    """
    if not is_safe_iri(base):
        raise VocabularyError(
            f"'{base[:80]}' cannot be the base address of a collection.",
            "Give an absolute address such as https://museum.example/hearts/",
        )
    if not segments:
        raise VocabularyError("An address of a record needs at least one part behind the base.")
    start = base if base.endswith(("/", "#", ":")) else base + "/"
    return start + "/".join(_segment(one) for one in segments)


def _segment(text: str) -> str:
    normal = unicodedata.normalize("NFC", text)
    if normal.strip() in ("", ".", ".."):
        raise VocabularyError(f"'{text}' cannot be part of an address.", "Give the specimen or part a real number.")
    try:
        return quote(normal, safe="")
    except UnicodeEncodeError:
        raise VocabularyError("A number of the collection holds characters that are no text.") from None


def _local(path: str, name: str, allowed: re.Pattern[str]) -> str:
    if not allowed.fullmatch(name):
        raise VocabularyError(f"'{name[:80]}' cannot be the name behind {BASE}{path}.")
    return f"{BASE}{path}{name}"
