"""One digest for one graph, whatever its order, its prefixes and the labels of its blank nodes (W3C RDFC-1.0).

A graph without blank nodes is its sorted lines. With blank nodes the work can grow beyond all bounds on graphs made
for that purpose, so it is done in a process of its own, which is ended when its time is up.
"""

from __future__ import annotations

import hashlib
import subprocess
import sys

from chordae.errors import InputError
from chordae.rdf.parse import FORMATS

__all__ = ["TIME_LIMIT", "canonical_nquads", "digest"]

TIME_LIMIT = 10.0
"""Seconds that a graph with blank nodes may take."""

_CHILD = """
import sys, pyoxigraph
kind = getattr(pyoxigraph.RdfFormat, sys.argv[1])
data = pyoxigraph.Dataset(pyoxigraph.parse(sys.stdin.buffer.read(), format=kind))
data.canonicalize(pyoxigraph.CanonicalizationAlgorithm.RDFC_1_0)
sys.stdout.buffer.write(pyoxigraph.serialize(data, format=pyoxigraph.RdfFormat.N_QUADS))
"""
_KINDS = {"ntriples": "N_TRIPLES", "nquads": "N_QUADS", "turtle": "TURTLE", "trig": "TRIG"}


def digest(data: bytes | str, format: str = "ntriples", limit: float = TIME_LIMIT) -> str:
    """Return the SHA-256 of the canonical form, in hex.

    Examples
    --------
    >>> one = '_:a <http://e/p> _:b .'
    >>> digest(one) == digest(one.replace("_:a", "_:other"))
    True
    """
    return hashlib.sha256(canonical_nquads(data, format, limit)).hexdigest()


def canonical_nquads(data: bytes | str, format: str = "ntriples", limit: float = TIME_LIMIT) -> bytes:
    """Return the canonical form as sorted N-Quads.

    Parameters
    ----------
    data
        A graph or dataset; JSON-LD is not taken: read it first (:func:`chordae.rdf.parse.parse`).
    format
        ntriples, nquads, turtle or trig.
    limit
        Seconds that blank nodes may take.

    Raises
    ------
    InputError
        The document is not well formed, or its blank nodes took longer than the limit.
    """
    raw = data.encode() if isinstance(data, str) else data
    if format not in _KINDS:
        raise InputError(f"A digest is made of {', '.join(_KINDS)}, not of {format!r}.")
    import pyoxigraph

    try:
        quads = list(pyoxigraph.parse(raw, format=getattr(pyoxigraph.RdfFormat, _KINDS[format])))
    except SyntaxError as error:
        raise InputError(f"This cannot be read as {FORMATS[format]}: {error.msg}.") from None
    if any(_blank(quad) for quad in quads):
        text = _in_child(raw, _KINDS[format], limit)
    else:
        text = pyoxigraph.serialize(quads, format=pyoxigraph.RdfFormat.N_QUADS) or b""
    return b"".join(sorted(set(text.splitlines(keepends=True))))


def _blank(quad: object) -> bool:
    import pyoxigraph

    nodes = (getattr(quad, name) for name in ("subject", "object", "graph_name"))
    return any(isinstance(node, pyoxigraph.BlankNode | pyoxigraph.Triple) for node in nodes)


def _in_child(data: bytes, kind: str, limit: float) -> bytes:
    command = [sys.executable, "-I", "-c", _CHILD, kind]
    try:
        # -I: the child sees the installed packages and nothing of the working folder.
        done = subprocess.run(command, input=data, capture_output=True, timeout=limit, check=False)  # noqa: S603 - our own words
    except subprocess.TimeoutExpired:
        raise InputError(
            f"The blank nodes of this graph could not be told apart within {limit:g} seconds.",
            "Give the nodes IRIs; graphs of this kind are made to keep a machine busy.",
        ) from None
    if done.returncode:
        raise InputError("The digest of this graph could not be made.", done.stderr.decode(errors="replace")[-200:])
    return done.stdout
