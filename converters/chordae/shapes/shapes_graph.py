"""The triples of the rule files, by subject and predicate; and the names that rules are written with.

::

    schema/shapes/*.ttl  ->  name of a file -> its text  ->  ShapesGraph: subject -> predicate -> objects
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from chordae import resources
from chordae.errors import ShapesError
from chordae.shapes.paths import RDF, SH

if TYPE_CHECKING:
    from pyoxigraph import BlankNode, Literal, NamedNode, Triple

    Term = NamedNode | BlankNode | Literal | Triple

__all__ = [
    "BASE",
    "BOOK",
    "CONDITION",
    "DCTERMS",
    "MODEL",
    "RULE",
    "SKOS",
    "SOURCE",
    "TERM",
    "ShapesGraph",
    "plain",
    "read_texts",
]

FOLDER = "schema/shapes"
BASE = "https://w3id.org/chordae/"
RULE, CONDITION, BOOK = BASE + "rule/", BASE + "condition/", BASE + "rulebook/"
MODEL, TERM, SOURCE = BASE + "model/", BASE + "term/", BASE + "source/"
SKOS = "http://www.w3.org/2004/02/skos/core#"
DCTERMS = "http://purl.org/dc/terms/"


class ShapesGraph:
    """The triples of some shape files, by subject and predicate.

    Parameters
    ----------
    texts
        Name of the file -> its Turtle text.

    Raises
    ------
    ShapesError
        A file is not Turtle; the message names the file and the line.
    """

    def __init__(self, texts: Mapping[str, str]) -> None:
        import pyoxigraph

        self.texts = dict(sorted(texts.items()))
        self.found: dict[Term, dict[str, list[Term]]] = {}
        self.files: dict[Term, set[str]] = {}
        faults = []
        for name, text in self.texts.items():
            try:
                for triple in pyoxigraph.parse(text, format=pyoxigraph.RdfFormat.TURTLE):
                    values = self.found.setdefault(triple.subject, {})
                    values.setdefault(triple.predicate.value, []).append(triple.object)
                    self.files.setdefault(triple.subject, set()).add(name)
            except SyntaxError as error:
                faults.append(f"{name}: {error}")
        if faults:
            raise ShapesError("The rule files cannot be read:\n" + "\n".join(faults))

    def objects(self, subject: Term, predicate: str) -> list[Term]:
        """All objects of one predicate of one subject."""
        return self.found.get(subject, {}).get(predicate, [])

    def values(self, subject: Term, predicate: str) -> list[str]:
        """The objects as plain text (IRI or characters), sorted."""
        return sorted(plain(term) for term in self.objects(subject, predicate))

    def value(self, subject: Term, predicate: str) -> str:
        """The first of the objects as plain text, or ``""``."""
        return next(iter(self.values(subject, predicate)), "")

    def members(self, node: Term) -> list[Term]:
        """The members of the RDF list that starts at a node; none if it is no list."""
        members, seen = [], set()
        while node not in seen and (first := self.objects(node, RDF + "first")):
            seen.add(node)
            members.append(first[0])
            node = next(iter(self.objects(node, RDF + "rest")), node)
        return members

    def shapes(self) -> list[NamedNode]:
        """The named shapes: every IRI that is declared a shape, sorted."""
        import pyoxigraph

        kinds = {SH + "NodeShape", SH + "PropertyShape"}
        return sorted(
            (
                subject
                for subject in self.found
                if isinstance(subject, pyoxigraph.NamedNode) and kinds & set(self.values(subject, RDF + "type"))
            ),
            key=lambda subject: subject.value,
        )

    def inside(self, shape: Term) -> Iterator[tuple[Term, str, Term]]:
        """Every triple of a shape and of the blank nodes under it."""
        import pyoxigraph

        queue, seen = [shape], {shape}
        while queue:
            subject = queue.pop()
            for predicate, objects in self.found.get(subject, {}).items():
                for term in objects:
                    yield subject, predicate, term
                    if isinstance(term, pyoxigraph.BlankNode) and term not in seen:
                        seen.add(term)
                        queue.append(term)


def plain(term: Term) -> str:
    """A term as text: the IRI, the characters of a literal, the label of a blank node."""
    return str(getattr(term, "value", term))


def read_texts() -> dict[str, str]:
    """Name -> text of every rule file of the package."""
    folder = resources.find(FOLDER)
    return {
        entry.name: entry.read_text(encoding="utf-8")
        for entry in sorted(folder.iterdir(), key=lambda entry: entry.name)
        if entry.name.endswith(".ttl")
    }
