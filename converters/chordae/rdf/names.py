"""From the nodes of a graph to the ids of a record's parts, evidence and measurements.

The id of a named node is the last segment of its IRI. A blank node has none: a part then gets the conventional id
that its type and its own statements fit, or its type in words, with a number where that is taken.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from functools import cache
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote

from chordae.model import is_a, tables
from chordae.rdf.parse import Statements

if TYPE_CHECKING:
    from chordae.rdf.parse import Term

__all__ = ["Names", "last_segment"]

_TYPE = "http://www.w3.org/1999/02/22-rdf-syntax-ns#type"
_MODEL = "https://w3id.org/chordae/model/"
_LISTS = {"parts": "part", "evidence": "evidence", "measurements": "measurement"}


def last_segment(node: Any) -> str:
    """Return what stands after the last ``/``, ``#`` or ``:`` of an IRI, decoded; the text of a literal.

    Examples
    --------
    >>> from pyoxigraph import NamedNode
    >>> last_segment(NamedNode("https://example.org/record/MX%200012"))
    'MX 0012'
    """
    text = str(getattr(node, "value", node))
    return unquote(re.split(r"[/#:]", text)[-1]) if type(node).__name__ == "NamedNode" else text


class Names:
    """The ids of the nodes of one record."""

    def __init__(self, statements: Statements, record: Term) -> None:
        self._statements = statements
        self._ids: dict[Term, str] = {}
        self._next: dict[str, int] = {}
        for predicate, kind in _LISTS.items():
            nodes = list(statements.of(record).get(_MODEL + predicate, ()))
            named = [one for one in nodes if type(one).__name__ == "NamedNode"]
            taken = {last_segment(one) for one in named}
            self._ids.update({one: last_segment(one) for one in named})
            for one in self.in_order([one for one in nodes if type(one).__name__ == "BlankNode"]):
                self._ids[one] = self._new(one, kind, taken)
                taken.add(self._ids[one])

    def of(self, node: Term) -> str:
        """Return the id of a node."""
        return self._ids.get(node) or last_segment(node)

    def part_classes(self, node: Term) -> list[str]:
        """Return the classes of parts that a node has as types, the most special ones only, sorted."""
        types = {str(getattr(one, "value", "")) for one in self._statements.of(node).get(_TYPE, ())}
        found = [_classes()[iri] for iri in types if iri in _classes()]
        return sorted(one for one in found if not any(other != one and is_a(other, one) for other in found))

    def in_order(self, nodes: Collection[Term]) -> list[Term]:
        """Return nodes in the order of the numbers at the end of their IRIs; blank ones by what they say."""
        return sorted(nodes, key=lambda one: (*_number(one), self._content(one, 0)))

    def _new(self, node: Term, kind: str, taken: set[str]) -> str:
        names = [kind]
        if kind == "part":
            classes = self.part_classes(node)
            says = {
                predicate: {str(getattr(value, "value", "")) for value in values}
                for predicate, values in self._statements.of(node).items()
            }
            names = [
                one.id
                for one in tables().parts.values()
                if one.type in classes
                and all(
                    tables().slots[slot].values.get(value) in says.get(tables().slots[slot].iri, ())
                    for slot, value in one.default.items()
                )
            ]
            # The name that states most: right_sided_atrium before an atrium of which nothing is stated.
            names.sort(key=lambda one: -len(tables().parts[one].default))
            words = re.sub(r"(?<!^)(?=[A-Z])", "_", classes[0]).lower() if classes else kind
            names = [*names[:1], words]
        for name in names:
            if name not in taken:
                return name
        number = self._next.get(names[0], 2)
        while f"{names[0]}_{number}" in taken:
            number += 1
        self._next[names[0]] = number + 1
        return f"{names[0]}_{number}"

    def _content(self, node: Term, depth: int) -> str:
        """What a blank node says, in one order: its label means nothing."""
        if type(node).__name__ != "BlankNode" or depth > 3:
            return str(node) if type(node).__name__ != "BlankNode" else ""
        found = self._statements.of(node)
        return " ".join(
            f"{predicate} {' '.join(sorted(self._content(one, depth + 1) for one in values))}"
            for predicate, values in sorted(found.items())
        )


def _number(node: Term) -> tuple[int, str]:
    text = last_segment(node) if type(node).__name__ == "NamedNode" else ""
    return (int(text), "") if text.isdecimal() and len(text) < 10 else (0, text)


@cache
def _classes() -> dict[str, str]:
    return {one.iri: name for name, one in tables().classes.items() if "Part" in one.ancestors and not one.abstract}
