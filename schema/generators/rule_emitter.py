"""The emitter for the fast engine of the rules, as Python source: only what some rule reads, under short IRIs.

The engine's time is spent on reading lines, and grows with their number and length. So the functions are those of
`generators.emitter` with three changes: slots and classes that no rule names are left out, but everything of a part is
kept (a query may ask for it); IRIs of the schema and of terms are short; each function has a second argument ``look``,
which takes the name of each class, and the pair of name and node of each slot, that is the target of a rule.
"""

from __future__ import annotations

import re
from typing import Any

from chordae.shapes.reads import Reads
from generators.emitter import called, slot_lines

__all__ = ["make_rule_emitter"]

_RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_MODEL = "https://w3id.org/chordae/model/"
_SINKS = "add, look"

_WORDS = {
    "chordae.rdf.terms": ("date", "decimal", "integer", "keyed", "many", "name", "text"),
    "chordae.shapes.short": ("term", "uri"),
}

_HEAD = '''"""From a record to the lines that the rules read. Written by schema/generate.py; never edit it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

$imports

Add = Callable[[str], None]
Look = Callable[[str | tuple[str, str]], None]
Node = Mapping[str, Any]
'''


def make_rule_emitter(tables: dict[str, Any], reads: Reads, shorten: dict[str, str]) -> str:
    """Return the source of ``converters/chordae/_generated/rule_emitter.py``.

    Parameters
    ----------
    tables
        The tables of the schema.
    reads
        What the rules read.
    shorten
        Beginning of an IRI -> what stands for it.
    """
    plan = _Plan(tables, reads)
    concrete = [name for name, one in tables["classes"].items() if not one.get("abstract") and name in plan.speaking]
    body = [plan.function(name) for name in concrete]
    for name, one in tables["classes"].items():
        if one.get("abstract") and name in plan.speaking:
            rows = [f'    "{sub}": {called(sub)},' for sub in concrete if name in tables["classes"][sub]["ancestors"]]
            head = f"{name.upper()}: dict[object, Callable[[Add, Look, str, Node, str], None]] = {{"
            body.append("\n".join([head, *rows, "}"]) + "\n")
    enums = []
    for enum in sorted(plan.enums):
        rows = [f'    "{word}": "<{value["iri"]}> .",' for word, value in tables["enums"][enum]["values"].items()]
        enums.append("\n".join([f"{enum}: dict[object, str] = {{", *rows, "}"]) + "\n")
    names = "".join(f'    "{name}",\n' for name in reads.names)
    code = "".join(body)
    head = _HEAD.replace("$imports", "\n".join(_imported(module, words, code) for module, words in _WORDS.items()))
    source = "\n".join([head, f"READS = (\n{names})\n", *enums, *(f"\n{one}" for one in body)])
    for long, short in shorten.items():
        source = source.replace(f"<{long}", f"<{short}")
    return source


def _imported(module: str, words: tuple[str, ...], code: str) -> str:
    used = ", ".join(word for word in words if re.search(rf"\b{word}\(", code))
    return f"from {module} import {used}"


class _Plan:
    """Which classes have anything to say to the rules."""

    def __init__(self, tables: dict[str, Any], reads: Reads) -> None:
        self.tables, self.reads, self.names = tables, reads, set(reads.names)
        self.classes: dict[str, dict[str, Any]] = tables["classes"]
        self.speaking: set[str] = set()
        self.enums: set[str] = set()
        while more := {name for name in self.classes if name not in self.speaking and self._speaks(name)}:
            self.speaking |= more

    def _speaks(self, name: str) -> bool:
        if self.names.intersection(self.classes[name]["ancestors"]):
            return True
        if any(name in one["ancestors"] and sub in self.speaking for sub, one in self.classes.items()):
            return True
        return any(self._shown(name, slot) or self._inner(slot) for slot in self.classes[name]["slots"])

    def _shown(self, name: str, slot: str) -> bool:
        """Whether the statement itself is shown."""
        one = self.tables["slots"][slot]
        if one["kind"] in {"identifier", "type"}:
            return False
        return "Part" in self.classes[name]["ancestors"] or one["iri"].removeprefix(_MODEL) in self.names

    def _inner(self, slot: str) -> bool:
        """Whether what stands under it is shown."""
        one = self.tables["slots"][slot]
        return one["kind"] == "node" and one["class"] in self.speaking

    def function(self, name: str) -> str:
        one = self.classes[name]
        lines = [
            f"def {called(name)}(add: Add, look: Look, iri: str, node: Node, top: str) -> None:",
            f'    """{one["description"]}"""',
            '    this = f"<{iri}> "',
            "    get = node.get",
        ]
        for ancestor in one["ancestors"]:
            if ancestor in self.names:
                lines.append(f'    add(this + "<{_RDF}type> <{self.classes[ancestor]["iri"]}> .")')
            if ancestor in self.reads.target_classes:
                lines.append(f'    look("{ancestor}")')
        for slot in one["slots"]:
            lines += [f"    {line}" for line in self._slot(name, slot)]
        return "\n".join(lines) + "\n"

    def _slot(self, name: str, slot: str) -> list[str]:
        one = self.tables["slots"][slot]
        shown, inner = self._shown(name, slot), self._inner(slot)
        if not shown and not inner:
            return []
        lines = slot_lines(slot, one, self.tables, _SINKS)
        if one["kind"] == "enum":
            self.enums.add(one["enum"])
        if one["kind"] == "node":
            last = called(one["class"]) if not self.classes[one["class"]].get("abstract") else one["class"].upper()
            lines = [
                line
                for line in lines
                if (shown or "add(this" not in line) and (inner or not line.lstrip().startswith(last))
            ]
        local = one["iri"].removeprefix(_MODEL)
        if local in self.reads.target_slots:
            lines.insert(1, f'    look(("{local}", iri))')
        return lines
