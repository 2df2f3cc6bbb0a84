"""The N-Triples emitter as Python source: one function a class, string work only, made from the tables.

A plan that is interpreted for every value costs about a third more than code in which the plan is written out;
both are some hundred times faster than building a graph. Each function takes ``add`` (what takes a line),
``iri`` (of the node, without brackets), ``node`` (the mapping) and ``top`` (IRI of the record).
"""

from __future__ import annotations

from typing import Any

__all__ = ["called", "make_emitter", "slot_lines"]

_RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
_MODEL = "https://w3id.org/chordae/model/"

_HEAD = '''"""From a record to lines of N-Triples. Written by schema/generate.py; never edit it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from chordae.rdf.terms import date, decimal, integer, keyed, many, name, term, text, uri

Add = Callable[[str], None]
Node = Mapping[str, Any]
'''


def make_emitter(tables: dict[str, Any]) -> str:
    """Return the source of ``converters/chordae/_generated/emitter.py``."""
    parts = [_HEAD]
    used = {slot["enum"] for slot in tables["slots"].values() if slot["kind"] == "enum"}
    for enum in sorted(used):
        values = tables["enums"][enum]["values"]
        rows = [f'    "{word}": "<{value["iri"]}> .",' for word, value in values.items()]
        parts.append("\n".join([f"{enum}: dict[object, str] = {{", *rows, "}"]) + "\n")
    concrete = [name for name, one in tables["classes"].items() if not one.get("abstract")]
    for name in concrete:
        parts.append("\n" + _function(name, tables))
    for name, one in tables["classes"].items():
        if one.get("abstract"):
            rows = [f'    "{sub}": {called(sub)},' for sub in concrete if name in tables["classes"][sub]["ancestors"]]
            body = "\n".join([f"{name.upper()}: dict[object, Callable[[Add, str, Node, str], None]] = {{", *rows, "}"])
            parts.append("\n" + body + "\n")
    return "\n".join(parts)


def called(name: str) -> str:
    """Return the name of the function of a class."""
    words = "".join(f"_{one.lower()}" if one.isupper() else one for one in name).strip("_")
    return f"emit_{words}"


def _function(name: str, tables: dict[str, Any]) -> str:
    one = tables["classes"][name]
    lines = [
        f"def {called(name)}(add: Add, iri: str, node: Node, top: str) -> None:",
        f'    """{one["description"]}"""',
        '    this = f"<{iri}> "',
        "    get = node.get",
    ]
    for ancestor in one["ancestors"]:
        lines.append(f'    add(this + "<{_RDF}type> <{tables["classes"][ancestor]["iri"]}> .")')
    for slot_name in one["slots"]:
        lines += [f"    {line}" for line in slot_lines(slot_name, tables["slots"][slot_name], tables)]
    return "\n".join(lines) + "\n"


def slot_lines(name: str, slot: dict[str, Any], tables: dict[str, Any], sinks: str = "add") -> list[str]:
    """Return the code that writes one slot; ``sinks`` are the first arguments of the functions of inner nodes."""
    kind = slot["kind"]
    if kind in {"identifier", "type"}:
        return []
    start = f'this + "<{slot["iri"]}> '
    if kind == "node":
        return _inner(name, slot, start, tables, sinks)
    if kind == "enum":
        line = f'add({start}" + ({slot["enum"]}.get(value) or text(value)))'
    elif kind == "reference":
        segment = "evidence" if slot["class"] == "Evidence" else "part"
        line = f'add({start}<" + top + "/{segment}/" + name(value) + "> .")'
    else:
        line = f'add({start}" + {kind}(value))'
    if not slot["multivalued"]:
        return [f'if (value := get("{name}")) is not None:', f"    {line}"]
    lines = [f'if values := many(get("{name}")):', "    for value in values:", f"        {line}"]
    if slot["ordered"]:
        lines += [f"    {one}" for one in _sequence(name, slot)]
    return lines


def _sequence(name: str, slot: dict[str, Any]) -> list[str]:
    return [
        f'order = f"<{{iri}}/{name}> "',
        f'add(order + "<{_RDF}type> <{_RDF}Seq> .")',
        f'add(order + "<{_MODEL}in_order_of> <" + iri + "> .")',
        f'add(order + "<{_MODEL}feature> " + text("{name}"))',
        "for number, value in enumerate(values, 1):",
        f'    add(order + f"<{_RDF}_{{number}}> " + ({slot["enum"]}.get(value) or text(value)))',
    ]


def _inner(name: str, slot: dict[str, Any], start: str, tables: dict[str, Any], sinks: str) -> list[str]:
    target, segment = slot["class"], slot["segment"]
    abstract = bool(tables["classes"][target].get("abstract"))
    call = f'{target.upper()}[inner["type"]]' if abstract else called(target)
    if not slot["multivalued"]:
        return [
            f'if (inner := get("{name}")) is not None:',
            f'    add({start}<" + iri + "/{segment}> .")',
            f'    {call}({sinks}, iri + "/{segment}", inner, top)',
        ]
    if key := slot.get("key"):
        loop, last = f'for last, inner in keyed(inners, "{key}"):', "last"
    else:
        loop, last = "for number, inner in enumerate(inners, 1):", "number"
    return [
        f'if inners := many(get("{name}")):',
        f"    {loop}",
        f'        where = f"{{iri}}/{segment}/{{{last}}}"',
        f'        add({start}<" + where + "> .")',
        f"        {call}({sinks}, where, inner, top)",
    ]
