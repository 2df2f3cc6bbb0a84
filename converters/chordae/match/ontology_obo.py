"""From an ontology in OBO or OBO Graph JSON to targets, read by pronto (MIT; extra ``ontologies-read``)."""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterator

from chordae.errors import FormatError, MissingExtra
from chordae.formats.obograph import read_obograph
from chordae.intake.encoding import decode
from chordae.match.targets import Name, Scope, Target

__all__ = ["from_obo"]

_HINT = "Is it whole, and OBO 1.4?"
_SCOPES: dict[str, Scope] = {"EXACT": "exact", "BROAD": "broad", "NARROW": "narrow", "RELATED": "related"}


def from_obo(data: bytes, name: str) -> Iterator[Target]:
    """Give each term that has a name and is not obsolete.

    Parameters
    ----------
    data
        The file, UTF-8.
    name
        Its name, for messages.

    Raises
    ------
    FormatError
        It is not well formed.
    MissingExtra
        pronto is not installed.
    """
    try:
        from pronto.ontology import Ontology
    except ImportError:
        raise MissingExtra("ontologies-read", "reading OBO and OBO Graph JSON") from None
    _look(data, name)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            ontology = Ontology(io.BytesIO(data), import_depth=0, threads=1)
    except (ValueError, SyntaxError, KeyError, TypeError, AttributeError, RecursionError, EOFError) as error:
        told = " ".join(str(error).split())[:120]
        raise FormatError(f"{name} cannot be read as an ontology: {told}.", _HINT) from None
    except BaseException as error:
        # pronto's parser is written in Rust; where it gives up, it raises an exception that is no Exception.
        if type(error).__name__ != "PanicException":
            raise
        raise FormatError(f"{name} cannot be read as an ontology.", _HINT) from None
    for term in ontology.terms():
        if term.obsolete or not term.name:
            continue
        names = [Name(term.name, "label")]
        for one in sorted(term.synonyms, key=lambda one: (one.scope or "", one.description)):
            short = one.type is not None and "abbreviation" in one.type.id.lower()
            scope = _SCOPES.get(one.scope or "", "related")
            names.append(Name(one.description, "abbreviation" if short else "synonym", scope=scope))
        yield Target(term.id, term.name, tuple(dict.fromkeys(names)), str(term.definition or ""), _source(term.id))


def _look(data: bytes, name: str) -> None:
    """Refuse what pronto would unpack, or would read without end: it goes by the content, not by the name."""
    text, _ = decode(data, name)
    start = text.lstrip()[:1]
    if start == "<":
        raise FormatError(f"{name} is XML, not OBO.", "Name the file .owl if it is OWL.")
    if start in ("{", "["):
        _, issues = read_obograph(data, name)
        fault = next((one for one in issues if one.severity == "violation"), None)
        if fault is not None:
            raise FormatError(f"{name} cannot be read as an ontology. {fault.message}", fault.hint)


def _source(curie: str) -> str:
    return curie.partition(":")[0]
