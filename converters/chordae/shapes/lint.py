"""Faults of the rule files, found before anything is checked: a shapes graph in, sentences out.

A shape with a misspelt word passes every heart in silence: engines ignore what they do not know. So each rule file
is read word by word against the SHACL vocabulary, the schema, the vocabulary of terms and the table of sources:

* words of the ``sh:`` vocabulary that the rules do not use or SHACL does not have;
* classes, slots, terms and sources that do not exist;
* a rule without label, sentence, message, remedy, severity, source, reason, school, version, or slot to point to;
* a rule with no target, with no constraint, or with more than one; an id given twice; a message that is no sentence;
* shapes without a name outside lists and nested places; conditions that nothing uses;
* a query that does not parse.

Source: W3C Recommendation SHACL (2017), sections 2 to 5, for the words and where they may stand.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from string import Formatter
from typing import TYPE_CHECKING

from chordae.model import tables
from chordae.resources import read_text
from chordae.shapes.lint_paths import lint_paths, lint_queries
from chordae.shapes.lint_values import lint_values
from chordae.shapes.load import RULE_ID, SEVERITIES
from chordae.shapes.paths import SH
from chordae.shapes.shapes_graph import BOOK, CONDITION, DCTERMS, MODEL, RULE, SKOS, SOURCE, TERM, ShapesGraph, plain
from chordae.terms import vocabulary

if TYPE_CHECKING:
    from chordae.shapes.shapes_graph import Term

CONSTRAINTS = frozenset(
    {"and", "class", "datatype", "disjoint", "equals", "hasValue", "in", "lessThan", "lessThanOrEquals"}
    | {"maxCount", "maxExclusive", "maxInclusive", "maxLength", "minCount", "minExclusive", "minInclusive", "minLength"}
    | {"node", "nodeKind", "not", "or", "pattern", "property", "sparql", "uniqueLang", "xone"}
    | {"qualifiedMaxCount", "qualifiedMinCount", "qualifiedValueShape"}
)
TARGETS = frozenset({"targetClass", "targetSubjectsOf", "targetObjectsOf"})
OTHER = frozenset(
    {"NodeShape", "PropertyShape", "Violation", "Warning", "Info", "IRI", "Literal", "path", "inversePath"}
    | {"alternativePath", "zeroOrMorePath", "oneOrMorePath", "zeroOrOnePath", "flags", "severity", "message", "name"}
    | {"description", "select"}
)
PARAMETERS = {"qualifiedMinCount": "qualifiedValueShape", "qualifiedMaxCount": "qualifiedValueShape"}
"""Parameters that belong to one constraint with another one."""

ONCE = {
    "label": SH + "name",
    "sentence (sh:description)": SH + "description",
    "message": SH + "message",
    "severity": SH + "severity",
    "reason (skos:scopeNote)": SKOS + "scopeNote",
    "remedy": BOOK + "remedy",
    "school": BOOK + "school",
    "version (since)": BOOK + "since",
}
SCHOOLS = frozenset({"both", "european", "north_american"})
BESIDE_THE_SCHEMA = frozenset({"in_order_of"})
"""Properties that the graph of a record has beside the slots of the schema."""


@dataclass(frozen=True, slots=True)
class Names:
    """What a rule may speak of: local names of classes, slots and terms, keys of sources; and the rules with cases.

    ``cases`` is ``None`` where it does not matter whether a rule has cases.
    """

    classes: frozenset[str]
    slots: frozenset[str]
    terms: frozenset[str]
    sources: frozenset[str]
    cases: frozenset[str] | None = None

    @classmethod
    def of_the_package(cls) -> Names:
        """The names of the schema, the vocabulary and the table of sources that come with the package."""
        schema = tables()
        words = {value["iri"].removeprefix(TERM) for enum in schema.enums.values() for value in enum.values()}
        rows = read_text("schema/sources.tsv").splitlines()
        return cls(
            classes=frozenset(schema.classes),
            slots=frozenset(slot.iri.removeprefix(MODEL) for slot in schema.slots.values()) | BESIDE_THE_SCHEMA,
            terms=frozenset(words | vocabulary().slugs),
            sources=frozenset(row.split("\t", 1)[0] for row in rows[1:]),
            cases=frozenset(json.loads(read_text("_generated/rule_examples.json"))),
        )


def lint(graph: ShapesGraph, names: Names) -> list[str]:
    """Return every fault of the rule files, as sentences that begin with the file and the rule.

    Parameters
    ----------
    graph
        The shapes of all files together.
    names
        What the rules may speak of.

    Returns
    -------
    list[str]
        Sorted; empty if the files can be used.
    """
    faults = [*_ids(graph), *_words(graph, names), *_loose(graph)]
    for shape in graph.shapes():
        where = f"{min(graph.files[shape])}, {shape.value.rpartition('/')[2]}"
        checks = _condition(graph, shape) if shape.value.startswith(CONDITION) else _rule(graph, shape, names)
        faults += [f"{where}: {fault}" for fault in (*checks, *lint_values(graph, shape))]
    return sorted(faults)


def _ids(graph: ShapesGraph) -> Iterator[str]:
    for prefix in ("rule", "cond"):
        met = Counter(
            found
            for text in graph.texts.values()
            for found in re.findall(rf"^{prefix}:(\S+)\s+a\s", text, re.MULTILINE)
        )
        yield from (
            f"{name}: written {number} times; an id is given once." for name, number in met.items() if number > 1
        )
    for shape in graph.shapes():
        if not shape.value.startswith((RULE, CONDITION)):
            yield f"{min(graph.files[shape])}, {shape.value}: neither a rule nor a condition."


def _words(graph: ShapesGraph, names: Names) -> Iterator[str]:
    known = {
        SH: (CONSTRAINTS | TARGETS | OTHER, "word of SHACL that rules may use"),
        TERM: (names.terms, "term of the vocabulary"),
        MODEL: (names.classes | names.slots, "class or slot of the schema"),
        SOURCE: (names.sources, "source of schema/sources.tsv"),
    }
    for subject, predicates in graph.found.items():
        for predicate, objects in predicates.items():
            iris = [predicate, *(plain(one) for one in objects if type(one).__name__ == "NamedNode")]
            for iri in iris:
                for base, (allowed, what) in known.items():
                    if iri.startswith(base) and (name := iri.removeprefix(base)) not in allowed:
                        yield f"{min(graph.files[subject])}, {_named(graph, subject)}: {name} is no {what}."


def _named(graph: ShapesGraph, subject: Term) -> str:
    for shape in graph.shapes():
        if shape == subject or any(node == subject for node, _, _ in graph.inside(shape)):
            return shape.value.rpartition("/")[2]
    return "a shape without a name"


def _loose(graph: ShapesGraph) -> Iterator[str]:
    held = {term for predicates in graph.found.values() for objects in predicates.values() for term in objects}
    for subject, predicates in graph.found.items():
        if type(subject).__name__ == "BlankNode" and subject not in held:
            yield f"{min(graph.files[subject])}: a shape without a name stands by itself."
        if type(subject).__name__ == "BlankNode" and any(SH + target in predicates for target in TARGETS):
            yield f"{min(graph.files[subject])}: a shape without a name has a target of its own."


def _condition(graph: ShapesGraph, shape: Term) -> Iterator[str]:
    if not graph.values(shape, SH + "name"):
        yield "a condition needs a label."
    if any(graph.values(shape, SH + word) for word in TARGETS | {"severity", "message"}):
        yield "a condition has no target, severity or message."
    if not any(shape in objects for predicates in graph.found.values() for objects in predicates.values()):
        yield "no rule uses this condition."


def _rule(graph: ShapesGraph, shape: Term, names: Names) -> Iterator[str]:
    if not RULE_ID.fullmatch(plain(shape).removeprefix(RULE)):
        yield "the id does not have the form R-XX-00."
    if names.cases is not None and plain(shape).removeprefix(RULE) not in names.cases:
        yield "has no cases in tests/rules (run schema/generate.py after writing them)."
    for what, predicate in ONCE.items():
        if len(graph.values(shape, predicate)) != 1:
            yield f"needs one {what}, has {len(graph.values(shape, predicate))}."
    yield from _sentences(graph, shape, names)
    if graph.value(shape, SH + "severity") not in SEVERITIES:
        yield "the severity is neither sh:Violation, sh:Warning nor sh:Info."
    if graph.value(shape, BOOK + "school") not in SCHOOLS:
        yield "the school is neither both, european nor north_american."
    if not graph.values(shape, DCTERMS + "source"):
        yield "needs a source."
    if not any(graph.values(shape, SH + target) for target in TARGETS):
        yield "has no target: it would look at nothing."
    for name in graph.values(shape, SH + "targetClass"):
        if name.removeprefix(MODEL) not in names.classes:
            yield f"the target {name.removeprefix(MODEL)} is no class of the schema."
    yield from _constraint(graph, shape)
    if not (graph.values(shape, BOOK + "about") or graph.values(shape, SH + "path")):
        yield "does not say which slot an issue points to (book:about)."
    yield from lint_paths(graph, shape, names)
    yield from lint_queries(graph, shape, names)


def _sentences(graph: ShapesGraph, shape: Term, names: Names) -> Iterator[str]:
    texts = {
        "message": graph.value(shape, SH + "message"),
        "remedy": graph.value(shape, BOOK + "remedy"),
        "sentence": graph.value(shape, SH + "description"),
    }
    for what, text in texts.items():
        if not re.fullmatch(r"[A-Z0-9].*[.?]", text, re.DOTALL):
            yield f"the {what} is no sentence with capital and full stop."
        if ("{" in text and what != "remedy") or "http" in text or RULE_ID.search(text):
            yield f"the {what} holds a place to fill in, an address or a rule id."
    for place in fields(graph.value(shape, BOOK + "template")):
        head, _, tail = place.rpartition(".")
        if head not in {"", "stated", "derived", "specimen"} or (tail not in names.slots and place not in FILLED):
            yield f"the template asks for {{{place}}}, which is no slot."


FILLED = frozenset({"value", "found"})
"""Places of a template that are filled from the finding itself."""


def fields(template: str) -> list[str]:
    """The names in braces of a template.

    Examples
    --------
    >>> fields("The valve is called {stated_valve_type}.")
    ['stated_valve_type']
    """
    try:
        return [name for _, name, _, _ in Formatter().parse(template) if name]
    except ValueError:
        return [template]


def _constraint(graph: ShapesGraph, shape: Term) -> Iterator[str]:
    found = {word for word in CONSTRAINTS if graph.values(shape, SH + word)}
    own = found - {"minCount"} if "in" in found else found
    own -= {PARAMETERS[word] for word in found & PARAMETERS.keys()}
    if len(own) != 1:
        yield f"needs one constraint, has {len(own)}: {', '.join(sorted(own)) or 'none'}."
    if "property" in own:
        yield "its constraint is a property shape without a name: give the rule itself the path."
    if graph.values(shape, SH + "path") and len(graph.values(shape, SH + "path")) > 1:
        yield "has two paths."
