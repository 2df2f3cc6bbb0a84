"""Which rules make the fast engine slow, and why: microseconds a record of each, the dearest first.

::

    PYTHONPATH=converters:tests python tests/bench/bench_rules.py [--top 30] [RULE-ID ...]

Each rule is compiled alone with its conditions, twenty times over under other names, so that what it takes stands out
from reading the lines, which is taken off. Why a rule takes long is read off its shape and the records:

    nodes     nodes that it looks at, in a record
    parts     questions that it asks of every part of the record (some twenty), one after another
    walks     paths that it follows from a node to others
    query     SPARQL, behind conditions that spare most records the question
    results   findings, in a record: each takes about ten microseconds to write and to read
"""

from __future__ import annotations

import argparse
import re
import time
from collections.abc import Sequence
from typing import Any

import pyoxigraph
import shacl

from chordae.derive import derive
from chordae.rdf.derived import as_node
from chordae.record import Record
from chordae.shapes.checker import TOGETHER
from chordae.shapes.load import load_rules
from chordae.shapes.looked import Targets
from chordae.shapes.order import cheap_first
from chordae.shapes.paths import RDF, SH
from chordae.shapes.shapes_graph import RULE, ShapesGraph, read_texts
from chordae.shapes.short import shorten
from chordae.shapes.together import Looked, show, validate_shown
from generate_records import make_records
from rule_mutants import triples_of

COPIES = 20
IDLE = f"<urn:x> <{RDF}type> <{SH}NodeShape> .\n"


def cost(shapes: shacl.Shapes, text: str, records: int, runs: int = 8) -> float:
    """Processor seconds a record, the best of some runs."""
    best = float("inf")
    for _ in range(runs):
        begun = time.process_time()
        shapes.validate_text(text, "ntriples")
        best = min(best, time.process_time() - begun)
    return best / records


def copies(graph: ShapesGraph, shape: pyoxigraph.NamedNode) -> str:
    """A rule and its conditions, under twenty names."""
    alone = pyoxigraph.serialize(triples_of(graph, shape), format=pyoxigraph.RdfFormat.N_TRIPLES) or b""
    text = shorten(cheap_first(alone.decode()))
    found = []
    for number in range(COPIES):
        one = text.replace(f"<{shape.value}>", f"<urn:{number}>")
        one = re.sub(r"(<https://w3id.org/chordae/condition/[^>]*)>", rf"\g<1>-{number}>", one)
        found.append(re.sub(r"_:([A-Za-z0-9]+)", rf"_:\g<1>n{number}", one))
    return "".join(found)


def why(graph: ShapesGraph, shape: Any, seen: frozenset[Any] = frozenset()) -> dict[str, int]:
    """Questions of every part, walks and queries in a rule and its conditions."""
    counts = {"parts": 0, "walks": 0, "query": 0}
    for _, predicate, term in graph.inside(shape):
        if predicate == SH + "path":
            steps = graph.members(term)
            counts["walks"] += len(steps) > 1
        elif predicate == SH + "qualifiedValueShape":
            counts["parts"] += 1
        elif predicate == SH + "sparql":
            counts["query"] += 1
        elif getattr(term, "value", "").startswith("https://w3id.org/chordae/condition/") and term not in seen:
            for name, number in why(graph, term, seen | {term}).items():
                counts[name] += number
    return counts


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--top", type=int, default=30)
    parser.add_argument("rules", nargs="*", metavar="RULE-ID")
    chosen = parser.parse_args()
    records = [record for record, _ in make_records(2 * TOGETHER, seed=7, faults=0.3)]
    texts, looked = given(records)
    text = "".join(texts)
    rules, targets = load_rules(), Targets(load_rules().rules)
    tested = targets.by_rule(targets.seen([one for some in looked for one in some]))
    results = [row.rule for rows in validate_shown(texts, [f"urn:{n}" for n in range(len(texts))], rules.shapes)
               for row in rows]  # fmt: skip
    idle = cost(shacl.Shapes.from_text(IDLE, "ntriples"), text, len(texts), 20)
    whole = cost(rules.shapes.short, text, len(texts), 20)
    print(f"{len(texts)} records a call: reading {idle * 1e6:.0f} us a record, all rules {1e6 * (whole - idle):.0f} us")
    graph = ShapesGraph(read_texts())
    found = []
    for shape in graph.shapes():
        name = shape.value.removeprefix(RULE)
        if not shape.value.startswith(RULE) or (chosen.rules and name not in chosen.rules):
            continue
        compiled = shacl.Shapes.from_text(copies(graph, shape), "ntriples")
        found.append(((cost(compiled, text, len(texts), 4) - idle) / COPIES * 1e6, name, shape))
    total = sum(max(0.0, one) for one, _, _ in found)
    print(f"{len(found)} rules alone, added up: {total:.0f} us\n   us  share  rule")
    for microseconds, name, shape in sorted(found, key=lambda one: -one[0])[: chosen.top]:
        reasons = {"nodes": round(tested[name] / len(texts), 1), **why(graph, shape)}
        reasons["results"] = round(results.count(shape.value) / len(texts), 2)
        told = ", ".join(f"{key} {number}" for key, number in reasons.items() if number)
        print(f"{microseconds:5.1f} {microseconds / total:6.1%}  {name:<9} {rules.rules[name].label}: {told}")


def given(records: Sequence[Record]) -> tuple[list[str], list[Looked]]:
    """What the engine is given of each record, and what rules look at in it."""
    shown = [show(record, as_node(derive(record)), number) for number, record in enumerate(records)]
    return [text for text, _ in shown], [looked for _, looked in shown]


if __name__ == "__main__":
    main()
