"""From a record to sorted N-Triples: IRIs for every node, no blank nodes, the same bytes every time.

::

    <base><id>                                    the record
      /part/<id>            /observed/<feature>   /opens_into/<n>   /arises_from/<n>   /arch_branches
      /evidence/<id>        /shows/<n>
      /measurement/<id>
      /specimen             /material_states/<n>
      /description
      /stated               /conclusion_basis/<n>
      /derived              /identity/<part>      /diagnosis/<term> /undetermined/<what>
      /waiver/<n>           /remark/<n>           /provenance

Each node has the type of its class and of all classes above it, so no reasoner is needed. Words of an enum are
IRIs of terms. Numbers in IRIs count from 1. A list whose order means something (the arch branches) stands twice:
as plain triples, and as an rdf:Seq of its own. The lines are in the order, and escaped in the way, of RDFC-1.0:
the text is its own canonical form. The code that does it is generated (``schema/generate.py``).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from chordae._generated.emitter import emit_derived_conclusions, emit_record
from chordae.errors import FormatError, InputError
from chordae.rdf.derived import as_node
from chordae.rdf.terms import literal, name

__all__ = ["DEFAULT_BASE", "check_base", "emit", "emit_lines", "record_iri"]

DEFAULT_BASE = "https://example.org/chordae/record/"
"""Where records stand whose collection has no base IRI of its own; nothing answers there."""

_BASE = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:[^\x00-\x20<>\"{}|^`\\\x7f]*[/#:]")
_MODEL = "https://w3id.org/chordae/model/"
_PROV = "http://www.w3.org/ns/prov#"
_TYPE = "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type>"
_SAID = ("file", "place", "tool", "crosswalk")
_LABEL = "<http://www.w3.org/2000/01/rdf-schema#label>"


def emit(
    record: Mapping[str, Any],
    derived: Mapping[str, Any] | None = None,
    base: str | None = None,
    provenance: Mapping[str, str] | None = None,
) -> str:
    """Return a record as N-Triples.

    Parameters
    ----------
    record
        A record without structural faults (:func:`chordae.structure.check_structure`); values that are no words
        of their list become plain text, keys that the schema does not know make no triple.
    derived
        What ``chordae derive`` says of it, in place of what the record holds under ``derived``.
    base
        IRI under which the collection mints its records, ending in ``/``, ``#`` or ``:``.
    provenance
        Where the record was read and by what: any of ``file``, ``place``, ``tool``, ``crosswalk`` with plain words.

    Returns
    -------
    str
        Sorted lines, each ending with a newline; each triple once.

    Raises
    ------
    FormatError
        The base is not an absolute IRI of the required form.
    InputError
        The record is not shaped like a record.
    """
    return "".join(f"{line}\n" for line in emit_lines(record, derived, base, provenance))


def emit_lines(
    record: Mapping[str, Any],
    derived: Mapping[str, Any] | None = None,
    base: str | None = None,
    provenance: Mapping[str, str] | None = None,
) -> list[str]:
    """Return the lines of :func:`emit`, without newlines."""
    lines: list[str] = []
    add = lines.append
    try:
        iri = record_iri(record["id"], base)
        if derived is None:
            emit_record(add, iri, record, iri)
        else:
            emit_record(add, iri, {key: value for key, value in record.items() if key != "derived"}, iri)
            add(f"<{iri}> <{_MODEL}derived> <{iri}/derived> .")
            emit_derived_conclusions(add, f"{iri}/derived", as_node(derived), iri)
        if provenance:
            _emit_provenance(lines, iri, provenance)
        lines = sorted(set(lines))
        "".join(lines).encode()
    except (AttributeError, KeyError, TypeError, ValueError) as error:
        raise InputError(
            f"The record {str(record.get('id'))!r} cannot be written: {error!r}.",
            "Check its structure first; a value does not have the form that the schema gives it.",
        ) from None
    return lines


def record_iri(record_id: object, base: str | None = None) -> str:
    """Return the IRI of a record.

    Examples
    --------
    >>> record_iri("0012")
    'https://example.org/chordae/record/0012'
    """
    return check_base(base) + name(str(record_id))


def check_base(base: str | None) -> str:
    """Return the base, or the default one.

    Raises
    ------
    FormatError
        It is not an absolute IRI ending in ``/``, ``#`` or ``:``.
    """
    if base is None:
        return DEFAULT_BASE
    if not _BASE.fullmatch(base):
        raise FormatError(
            f"{base!r} cannot be the base of record IRIs.",
            "Give an absolute IRI that ends in a slash or a hash, such as https://example.org/collection/ .",
        )
    return base


def _emit_provenance(lines: list[str], iri: str, provenance: Mapping[str, str]) -> None:
    node = f"<{iri}/provenance> "
    lines.append(f"{node}{_TYPE} <{_PROV}Activity> .")
    lines.append(f"{node}<{_PROV}generated> <{iri}> .")
    words = "; ".join(f"{key}: {provenance[key]}" for key in _SAID if key in provenance)
    lines.append(f"{node}{_LABEL} {literal(words)} .")
