"""Several records in one call of the fast engine: only what the rules read, under short IRIs.

::

    record + derived  ->  lines (r:0/..., r:1/...), nodes looked at  ->  engine  ->  results of each, long IRIs

The engine copies its shapes once a call, and reads every line it is given; both cost more than most rules do. That
what the rules do not read changes nothing follows from what SHACL means (nothing here closes a shape), and the tests
compare it on every case of every rule. The whole graph of a record is made only for what shows it: an audit, the
premises of a confirmation.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from chordae._generated import rule_emitter
from chordae.errors import ShapesError
from chordae.shapes.engines import CompiledShapes, plain_term
from chordae.shapes.paths import SH
from chordae.shapes.reads import what_rules_read
from chordae.shapes.result import Result
from chordae.shapes.shapes_graph import ShapesGraph, read_texts
from chordae.shapes.short import RECORD, long_path

__all__ = ["Looked", "check_emitter", "show", "validate_shown"]

Looked = list["str | tuple[str, str]"]
"""Names of classes, and pairs of slot and node, that rules have as targets (`chordae.shapes.looked`)."""


def show(record: Mapping[str, Any], derived: Mapping[str, Any], number: int) -> tuple[str, Looked]:
    """Write what the rules read of a record.

    Parameters
    ----------
    record
        A record, sound in structure.
    derived
        What was derived from it, in the form of the schema.
    number
        Its number among those checked together.

    Returns
    -------
    tuple[str, Looked]
        N-Triples, and the nodes that rules look at.

    Raises
    ------
    Ambiguous
        A word of it looks like a short IRI.
    AttributeError, KeyError, TypeError, ValueError
        It is not shaped like a record.
    """
    lines: list[str] = []
    looked: Looked = []
    iri = f"{RECORD}{number}"
    rule_emitter.emit_record(lines.append, looked.append, iri, {**record, "derived": derived}, iri)
    lines.append("")
    return "\n".join(lines), looked


def validate_shown(texts: Sequence[str], iris: Sequence[str], shapes: CompiledShapes) -> list[list[Result]]:
    """Check records written by :func:`show` under the numbers 0, 1, ...

    Parameters
    ----------
    texts, iris
        What was written of each, and its IRI.
    shapes
        The rules.

    Returns
    -------
    list[list[Result]]
        What is found in each record, sorted, as :func:`chordae.shapes.engines.validate` finds it in its whole graph.

    Raises
    ------
    ValueError
        The engine refuses the text (a lone surrogate, an IRI that is none), whichever record it stands in.
    """
    found: list[list[Result]] = [[] for _ in texts]
    for one in shapes.short.validate_text("".join(texts), "ntriples").results:
        number, slash, rest = one.focus_node[1 + len(RECORD) : -1].partition("/")
        value = plain_term(one.value, one.value_plain)
        if value.startswith(f"<{RECORD}"):
            head, between, tail = value[1 + len(RECORD) :].partition("/")
            value = f"<{iris[int(head.rstrip('>'))]}{between}{tail}" + ("" if between else ">")
        elif value.startswith("<"):
            value = long_path(value)
        found[int(number)].append(
            Result(
                focus=iris[int(number)] + slash + rest,
                path=long_path(one.path) if one.path else "",
                rule=(one.root_shape or one.source_shape or "")[1:-1],
                value=value,
                severity=one.severity_iri.removeprefix(SH),
                component=one.component_iri.removeprefix(SH),
            )
        )
    for results in found:
        results.sort()
    return found


@cache
def check_emitter() -> None:
    """See that the generated emitter shows all that the rules of the package read.

    Raises
    ------
    ShapesError
        The rules were changed and the emitter was not made anew.
    """
    missing = set(what_rules_read(ShapesGraph(read_texts())).names) - set(rule_emitter.READS)
    if missing:
        raise ShapesError(
            f"The rules read what they are not shown: {', '.join(sorted(missing))}.",
            "Run python schema/generate.py.",
        )
