"""JSON-LD before it is read: the shipped context put in place, every other one refused, what would be lost named.

JSON-LD drops, by its own rules, keys that its context does not know and identifiers that are no IRIs; readers of JSON
keep the last of two equal keys, and round long numbers. All of them are named in issues, for a record must not lose
anything in silence.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from chordae import resources
from chordae.errors import InputError
from chordae.files import MAX_DEPTH
from chordae.intake.encoding import decode
from chordae.intake.json_text import find_value
from chordae.issues import Issue, Location, issue

__all__ = ["CONTEXT_FILE", "CONTEXT_IRI", "MAX_JSONLD", "localised", "shipped_context"]

CONTEXT_FILE = "schema/generated/chordae.context.jsonld"
CONTEXT_IRI = "https://w3id.org/chordae/context/chordae.context.jsonld"
"""A document may name the shipped context by this IRI; it is read from the package."""
MAX_JSONLD = 64 * 1024 * 1024
"""Longest document in JSON-LD, in bytes: it takes some thirty times its length to read, and minutes."""

_UNSAFE = re.compile(r"[\x00-\x20<>\"{}|^`\\]")
_KEYWORDS = frozenset({"id", "type"})


@cache
def shipped_context() -> dict[str, Any]:
    """Return the context that is shipped with chordae, without the key around it."""
    import orjson

    found: dict[str, Any] = orjson.loads(resources.read_bytes(CONTEXT_FILE))["@context"]
    return found


def localised(data: bytes, name: str | None, issues: list[Issue]) -> bytes | None:
    """Put the shipped context in the place of its IRI; refuse any other that would have to be fetched."""
    import orjson

    place = Location(name)
    if len(data) > MAX_JSONLD:
        problem = f"it is longer than {MAX_JSONLD // 1024 // 1024} MB; write so many records as N-Quads"
        issues.append(issue("I-RDF-01", location=place, format="JSON-LD", problem=problem))
        return None
    try:
        text, _ = decode(data, name or "the document")
    except InputError as error:
        issues.append(issue("I-RDF-01", location=place, format="JSON-LD", problem=error.message.rstrip(".")))
        return None
    found = find_value(text)
    for one in found.faults:
        where = Location(name, *one.mark)
        if one.rule == "I-DOC-01":
            issues.append(issue("I-RDF-01", location=where, format="JSON-LD", problem=one.fields["problem"]))
        else:
            issues.append(issue(one.rule, location=where, path=one.path or None, value=one.value, **one.fields))
    if found.refused:
        return None
    work = _Contexts()
    document = work.walk(found.value, 0)
    if work.deep:
        issues.append(issue("I-DOC-04", location=place, limit=MAX_DEPTH))
    for refused in sorted(work.refused):
        issues.append(issue("I-RDF-02", location=place, value=refused))
    if work.deep or work.refused:
        return None
    for key in sorted(work.keys - work.known) if not work.open else ():
        issues.append(issue("I-RDF-03", location=place, value=key))
    for value in sorted(work.unsafe):
        issues.append(issue("I-RDF-04", location=place, value=value))
    try:
        return orjson.dumps(document)
    except TypeError:
        problem = "it holds half of a character"
        issues.append(issue("I-RDF-01", location=place, format="JSON-LD", problem=problem))
        return None


class _Contexts:
    """One walk over a JSON-LD document: contexts put in place, keys and identifiers looked at."""

    def __init__(self) -> None:
        self.refused: set[str] = set()
        self.known: set[str] = set(_KEYWORDS)
        self.keys: set[str] = set()
        self.unsafe: set[str] = set()
        self.open = False
        self.deep = False

    def walk(self, value: Any, depth: int) -> Any:
        if depth > MAX_DEPTH:
            self.deep = True
            return None
        if isinstance(value, list):
            return [self.walk(one, depth + 1) for one in value]
        if not isinstance(value, dict):
            return value
        found: dict[str, Any] = {}
        for key, inner in value.items():
            if key == "@context":
                found[key] = self.context(inner, depth + 1)
                continue
            if key in {"id", "@id"} and isinstance(inner, str) and _UNSAFE.search(inner):
                self.unsafe.add(inner)
            if not key.startswith("@") and ":" not in key:
                self.keys.add(key)
            found[key] = self.walk(inner, depth + 1)
        return found

    def context(self, value: Any, depth: int) -> Any:
        """Look through a context, and the contexts inside its terms."""
        if depth > MAX_DEPTH:
            self.deep = True
            return None
        if isinstance(value, list):
            return [self.context(one, depth + 1) for one in value]
        if value == CONTEXT_IRI:
            self.known |= shipped_context().keys()
            return shipped_context()
        if isinstance(value, str):
            self.refused.add(value)
        if not isinstance(value, dict):
            return value
        found: dict[str, Any] = {}
        self.open = self.open or "@vocab" in value
        for key, inner in value.items():
            if key == "@import":
                self.refused.add(str(inner))
            if isinstance(inner, dict) and "@context" in inner:
                inner = {**inner, "@context": self.context(inner["@context"], depth + 1)}
            found[key] = inner
        self.known |= value.keys()
        return found
