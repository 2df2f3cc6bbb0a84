"""The ready questions: SPARQL files with a heading that says what they ask and what they need.

::

    # Hearts with a malformation
    # The hearts in whose current description a malformation was derived or stated.
    # $term    term    A malformation, as a term of the vocabulary.    tetralogy_of_fallot
    # $limit   count   How many at most.    1000
    PREFIX model: <https://w3id.org/chordae/model/>
    SELECT ... { ... $term ... }

A parameter is put in as a whole term of its kind, never as text of the query, so that its value can add nothing to it.
Kinds: term, collection, record (IRIs), text, time, count. The last column is the value used if none is given; ``-`` for
none.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cache

from chordae import resources
from chordae.errors import InputError, ResourceError
from chordae.issues import nearest
from chordae.rdf.terms import literal
from chordae.registry.provenance import collection_iri

__all__ = ["FOLDER", "Parameter", "Question", "find_question", "questions"]

FOLDER = "schema/registry"
KINDS = ("term", "collection", "record", "text", "time", "count")
_WORD = re.compile(r"[a-z][a-z0-9_]{0,127}")
_IRI = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:[^\x00-\x20<>\"{}|^`\\\x7f]{1,2000}")
_MOST = 100_000


@dataclass(frozen=True, slots=True)
class Parameter:
    """A value that a question needs; ``default`` is ``None`` if it must be given."""

    name: str
    kind: str
    say: str
    default: str | None


@dataclass(frozen=True, slots=True)
class Question:
    """A ready question."""

    name: str
    title: str
    say: str
    parameters: tuple[Parameter, ...]
    text: str

    def fill(self, values: Mapping[str, str]) -> str:
        """Return the query with its parameters.

        Raises
        ------
        InputError
            A value is missing, is not of its kind, or no such parameter is there.
        """
        known = {one.name for one in self.parameters}
        for name in values:
            if name not in known:
                raise InputError(
                    f"The question {self.name} has no parameter {name!r}.",
                    f"It has: {', '.join(sorted(known)) or 'none'}.",
                )
        terms: dict[str, str] = {}
        for one in self.parameters:
            value = values.get(one.name, one.default)
            if value is None:
                raise InputError(f"The question {self.name} needs a value for {one.name}: {one.say}")
            terms[one.name] = _term(one, value)
        # In one pass, so that a value is never looked at again.
        return re.sub(r"\$([a-z_]+)\b", lambda found: terms.get(found[1], found[0]), self.text)


@cache
def questions() -> Mapping[str, Question]:
    """Return the ready questions by name.

    Raises
    ------
    ResourceError
        A file has no heading, or a parameter of a kind that is not known.
    """
    entries = sorted(resources.find(FOLDER).iterdir(), key=lambda one: one.name)
    return {
        one.name.removesuffix(".rq"): _read(one.name.removesuffix(".rq"), one.read_text(encoding="utf-8"))
        for one in entries
        if one.name.endswith(".rq")
    }


def find_question(name: str) -> Question:
    """Return a question by its name; InputError with the nearest one if there is none."""
    found = questions().get(name)
    if found is None:
        raise InputError(
            f"There is no question {name[:80]!r}.{nearest(name, questions())}",
            f"Questions are: {', '.join(questions())}.",
        )
    return found


def _read(name: str, text: str) -> Question:
    head, said, parameters, body = "", [], [], []
    for line in text.splitlines():
        if not line.startswith("#"):
            body.append(line)
            continue
        words = line.lstrip("# ").strip()
        if words.startswith("$"):
            columns = re.split(r"\s{2,}|\t", words)
            if len(columns) != 4 or columns[1] not in KINDS:
                raise ResourceError(f"{FOLDER}/{name}.rq: the parameter {words!r} has not four columns, or no kind.")
            default = None if columns[3] == "-" else columns[3]
            parameters.append(Parameter(columns[0][1:], columns[1], columns[2], default))
        elif not head:
            head = words
        else:
            said.append(words)
    if not head or not said:
        raise ResourceError(f"{FOLDER}/{name}.rq does not begin with a title and a sentence.")
    return Question(name, head, " ".join(said), tuple(parameters), "\n".join(body).strip() + "\n")


def _term(parameter: Parameter, value: str) -> str:
    kind = parameter.kind
    if kind == "term" and _WORD.fullmatch(value):
        return f"<https://w3id.org/chordae/term/{value}>"
    if kind == "collection" and value:
        return f"<{collection_iri(value)}>"
    if kind == "record" and _IRI.fullmatch(value):
        return f"<{value}>"
    if kind == "text" and len(value) <= 1000:
        return literal(value)
    if kind == "time":
        try:
            at = datetime.fromisoformat(value)
        except ValueError:
            pass
        else:
            return f'"{at.strftime("%Y-%m-%dT%H:%M:%SZ")}"^^<http://www.w3.org/2001/XMLSchema#dateTime>'
    if kind == "count" and value.isdecimal() and value.isascii() and 0 < int(value) <= _MOST:
        return str(int(value))
    raise InputError(f"{parameter.name} is {value[:80]!r}; expected was: {parameter.say}")
