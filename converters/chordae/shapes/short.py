"""Short IRIs for the fast engine, whose time grows with the length of what it reads; and the long ones again.

::

    https://w3id.org/chordae/model/side                     c:/model/side
    https://w3id.org/chordae/term/right_sided               c:/term/right_sided
    https://example.org/collection/0012/part/aorta          r:3/part/aorta     fourth of the records checked together

The ends of the IRIs stay, because queries look at them. Words of a record that begin like a short IRI would be
mistaken for one: a record that has them is checked under its long names.
"""

from __future__ import annotations

import re
from functools import lru_cache

from chordae.rdf.terms import is_iri, is_slug, text

__all__ = ["RECORD", "SHORTEN", "Ambiguous", "long_path", "shorten", "term", "uri"]

SHORTEN = {"https://w3id.org/chordae/model/": "c:/model/", "https://w3id.org/chordae/term/": "c:/term/"}
"""Beginning of an IRI -> what stands for it."""
RECORD = "r:"
"""Before the number of a record."""

_TERM = SHORTEN["https://w3id.org/chordae/term/"]
_SHORT = re.compile(r"<c:/(model|term)/")


class Ambiguous(ValueError):
    """Words of a record that look like a short IRI."""


def shorten(ntriples: str) -> str:
    """Return shapes with short IRIs."""
    for long, short in SHORTEN.items():
        ntriples = ntriples.replace(f"<{long}", f"<{short}")
    return ntriples


@lru_cache(maxsize=4096)
def long_path(text: str) -> str:
    """Return a term of the schema, a term of the vocabulary, or a path, with long IRIs.

    Examples
    --------
    >>> long_path("(<c:/model/stated>/<c:/model/topology>)")
    '(<https://w3id.org/chordae/model/stated>/<https://w3id.org/chordae/model/topology>)'
    """
    return _SHORT.sub(r"<https://w3id.org/chordae/\1/", text)


def term(value: object) -> str:
    """Return a term of the vocabulary as its short IRI; ends the line, as everything of `chordae.rdf.terms` does."""
    words = str(value)
    return f"<{_TERM}{words}> ." if is_slug(words) else text(words)


def uri(value: object) -> str:
    """Return an IRI of a record; words that are none stay text.

    Raises
    ------
    Ambiguous
        It begins like a short IRI.
    """
    words = str(value)
    if words.startswith(("c:", RECORD)):
        raise Ambiguous(words)
    return f"<{words}> ." if is_iri(words) else text(words)
