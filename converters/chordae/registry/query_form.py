"""Whether a query may be asked: it only reads, it is short, and it calls no server that is not allowed.

::

    look_at(text, peers) -> Query(form "SELECT", services (...,))      or QueryRefused with the reason

The query is parsed with rdflib's grammar of SPARQL 1.1 Query, which has no updates. Words that call another server are
also counted in the bare text: if the two counts differ, the query is refused, so that a difference between two
parsers opens no door.

References
----------
W3C SPARQL 1.1 Query Language and SPARQL 1.1 Federated Query, Recommendations of 21 March 2013.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Any

from chordae.errors import InputError

__all__ = ["FORMS", "LONGEST", "Query", "QueryRefused", "look_at"]

FORMS = ("SELECT", "ASK", "CONSTRUCT", "DESCRIBE")
LONGEST = 20_000
"""Longest query, in characters."""
_DEEPEST = 60
_TOKENS = re.compile(
    r"""(?P<comment>\#[^\n\r]*)|(?P<iri><[^<>"{}|^`\\\x00-\x20]*>)"""
    r"""|(?P<long>\"{3}(?:\"{0,2}(?:[^"\\]|\\.))*\"{3}|'{3}(?:'{0,2}(?:[^'\\]|\\.))*'{3})"""
    r"""|(?P<short>"(?:[^"\\\n\r]|\\.)*"|'(?:[^'\\\n\r]|\\.)*')""",
    re.DOTALL,
)


class QueryRefused(InputError):
    """A query that is not carried out."""


@dataclass(frozen=True, slots=True)
class Query:
    """A query that may be asked: its form, and the servers that it calls."""

    text: str
    form: str
    services: tuple[str, ...] = ()


def look_at(text: str, peers: Collection[str] = ()) -> Query:
    """Look at a query before it is asked.

    Parameters
    ----------
    text
        SPARQL 1.1 Query.
    peers
        Addresses that SERVICE may name.

    Raises
    ------
    QueryRefused
        It is not a query, is too long or too deep, or calls a server that is not allowed.

    Examples
    --------
    >>> look_at("SELECT ?s WHERE { ?s ?p ?o }").form
    'SELECT'
    >>> look_at("DROP ALL")
    Traceback (most recent call last):
        ...
    chordae.registry.query_form.QueryRefused: This is no SPARQL query... Only SELECT, ASK, CONSTRUCT and DESCRIBE ...
    """
    if len(text) > LONGEST:
        raise QueryRefused(f"The query has {len(text):,} characters; {LONGEST:,} are the most.", "Ask for less.")
    if "\\u" in text or "\\U" in text or "\0" in text:
        raise QueryRefused("The query holds escaped characters (\\u...).", "Write the characters themselves.")
    bare = _TOKENS.sub(" ", text)
    if _depth(bare) > _DEEPEST:
        raise QueryRefused(f"The query is nested deeper than {_DEEPEST} brackets.", "Ask in several queries.")
    tree = _parsed(text)
    form = tree.name.removesuffix("Query").upper()
    if form not in FORMS:
        raise QueryRefused(f"A query of the form {form} is not carried out.", f"Use one of {', '.join(FORMS)}.")
    services = tuple(_services(tree))
    if len(re.findall(r"\bservice\b", bare, re.IGNORECASE)) != len(services):
        raise QueryRefused("The word SERVICE stands where it calls no server.", "Rename what is called so.")
    for one in services:
        if one not in peers:
            raise QueryRefused(
                f"This registry does not ask {one[:100]}.",
                f"It asks: {', '.join(sorted(peers)) or 'no other registry'}.",
            )
    return Query(text, form, services)


def _parsed(text: str) -> Any:
    from rdflib.plugins.sparql.parser import parseQuery

    try:
        return parseQuery(text)[1]
    except RecursionError:
        raise QueryRefused("The query is nested too deep.", "Ask in several queries.") from None
    except Exception as error:  # the grammar raises errors of several libraries
        reason = " ".join(str(error).split())[:200]
        raise QueryRefused(
            f"This is no SPARQL query: {reason}",
            f"Only {', '.join(FORMS[:-1])} and {FORMS[-1]} of SPARQL 1.1 are carried out.",
        ) from None


def _services(tree: Any) -> Iterator[str]:
    """Yield the address of each SERVICE; ``?`` for one that a variable names."""
    from rdflib import URIRef
    from rdflib.plugins.sparql.parserutils import CompValue

    waiting = [tree]
    seen: set[int] = set()
    while waiting:
        node = waiting.pop()
        if id(node) in seen:
            continue
        seen.add(id(node))
        if isinstance(node, CompValue):
            if node.name == "ServiceGraphPattern":
                term = node.get("term")
                yield str(term) if isinstance(term, URIRef) else "?"
            waiting += node.values()
        elif isinstance(node, str | bytes | int | float):
            continue
        elif hasattr(node, "asList") or isinstance(node, list | tuple):
            waiting += list(node)


def _depth(bare: str) -> int:
    deepest = depth = 0
    for character in bare:
        if character in "{([":
            depth += 1
            deepest = max(deepest, depth)
        elif character in "})]":
            depth -= 1
    return deepest
