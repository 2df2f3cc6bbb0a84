"""Write the generated files from the LinkML schema, or say which of them are stale.

::

    python schema/generate.py            writes
    python schema/generate.py --check    writes nothing; exit 1 with the list of stale files

    schema/generated/   chordae.schema.json  chordae.context.jsonld  chordae.shacl.ttl
                        chordae.ontology.ttl  chordae_model.py  criteria.md
    converters/chordae/_generated/   tables.json  terms.json  short_form.json  knowledge.json  rule_examples.json
                                     emitter.py  rule_emitter.py  __init__.py

The same bytes on every machine: no dates, no paths. LinkML is needed here and nowhere else.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import sys
from pathlib import Path
from typing import Any

import yaml
from linkml_runtime import SchemaView

from build_mappings import TARGET as MAPPINGS
from build_mappings import compile_mappings
from build_vocabulary import OUTPUT, compile_vocabulary
from chordae.shapes.reads import what_rules_read
from chordae.shapes.shapes_graph import ShapesGraph, read_texts
from chordae.shapes.short import SHORTEN
from generators.by_linkml import make_json_schema, make_model, make_shapes
from generators.context import make_context
from generators.emitter import make_emitter
from generators.knowledge import make_criteria_page, make_knowledge
from generators.ontology import make_ontology
from generators.rule_emitter import make_rule_emitter
from generators.rule_examples import make_rule_examples
from generators.short_form import make_short_form
from generators.tables import make_tables

TOP = Path(__file__).resolve().parents[1]
SCHEMA = "schema/chordae.yaml"
PUBLIC = "schema/generated"
INNER = "converters/chordae/_generated"

_INIT = '"""Written by schema/generate.py and never edited: what the package needs of the schema at run time."""\n'


def make_files() -> dict[str, str]:
    """Return the content of every generated file by its name from the top of the repository."""
    with contextlib.chdir(TOP):
        tables = make_tables(SchemaView(SCHEMA), _yaml("schema/parts.yaml"))
        return {
            f"{PUBLIC}/chordae.schema.json": make_json_schema(SCHEMA, tables),
            f"{PUBLIC}/chordae.context.jsonld": _json(make_context(tables), indent=1),
            f"{PUBLIC}/chordae.shacl.ttl": make_shapes(SCHEMA),
            f"{PUBLIC}/chordae.ontology.ttl": make_ontology(tables),
            f"{PUBLIC}/chordae_model.py": make_model(SCHEMA),
            f"{INNER}/__init__.py": _INIT,
            f"{INNER}/tables.json": _json(tables, indent=0),
            f"{INNER}/emitter.py": make_emitter(tables),
            f"{INNER}/rule_emitter.py": make_rule_emitter(tables, what_rules_read(ShapesGraph(read_texts())), SHORTEN),
            OUTPUT: compile_vocabulary().decode("utf-8"),
            MAPPINGS: compile_mappings().decode("utf-8"),
            f"{INNER}/knowledge.json": make_knowledge(),
            f"{PUBLIC}/criteria.md": make_criteria_page(),
            f"{INNER}/rule_examples.json": make_rule_examples(TOP / "tests/rules", TOP / "tests/sets"),
            f"{INNER}/short_form.json": _json(make_short_form(_yaml("schema/short_form.yaml"), tables), indent=0),
        }


def stale(files: dict[str, str]) -> list[str]:
    """Return the names of the files that are missing or differ."""
    found = [
        name
        for name, content in files.items()
        if not (TOP / name).is_file() or (TOP / name).read_text(encoding="utf-8") != content
    ]
    return sorted(found)


def left_over(files: dict[str, str]) -> list[str]:
    """Return the names of files in the generated folders that nothing writes any more."""
    there = [path for folder in (PUBLIC, INNER) for path in (TOP / folder).glob("*") if path.is_file()]
    return sorted({path.relative_to(TOP).as_posix() for path in there} - files.keys())


def main(argv: list[str] | None = None) -> int:
    """Write or check; return 0, or 1 if something is stale."""
    parser = argparse.ArgumentParser(description="Write the generated files from the schema.")
    parser.add_argument("--check", action="store_true", help="write nothing; exit 1 if a file is stale")
    args = parser.parse_args(argv)
    files = make_files()
    found = stale(files)
    old = left_over(files)
    for name in old:
        print(f"left over, to be removed: {name}")
    if args.check:
        for name in found:
            print(f"stale: {name}")
        return 1 if found or old else 0
    for name in found:
        (TOP / name).parent.mkdir(parents=True, exist_ok=True)
        (TOP / name).write_text(files[name], encoding="utf-8", newline="\n")
        print(f"wrote {name}")
    return 0


def _yaml(name: str) -> Any:
    return yaml.safe_load((TOP / name).read_text(encoding="utf-8"))


def _json(value: Any, indent: int | None = None) -> str:
    separators = (",", ":") if indent is None else None
    return json.dumps(value, ensure_ascii=False, indent=indent, separators=separators) + "\n"


if __name__ == "__main__":
    sys.exit(main())
