"""From the data files that derivation reads (``schema/*.yaml``) to one compiled table, and back to them at run time.

::

    schema/notation.yaml      symbols of the segmental notation
    schema/criteria.yaml      what decides, supports and never decides an identity
    schema/combinations.yaml  topology table, connection tables, combinations
    schema/diagnoses.yaml     malformations and the facts they follow from
    schema/phrases.yaml       the sentence in both schools' words
    schema/parts.yaml         how a message names a part
    schema/consequences.yaml  which finding of a rule may follow from which
        |  compile_tables()            when the data change (``python schema/generate.py``)
        v
    chordae/_generated/knowledge.json
        |  table("notation")           at run time; no YAML is read
        v
    dict

The compiled file is committed; a test compares it with the sources.
"""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files
from typing import Any

from chordae import resources
from chordae.errors import ResourceError

__all__ = ["COMPILED", "SOURCES", "compile_tables", "table"]

SOURCES = ("notation", "criteria", "combinations", "diagnoses", "phrases", "parts", "consequences")
"""Names of the data files, without folder and ending."""

COMPILED = "_generated/knowledge.json"
"""Name of the compiled file inside the package."""


def compile_tables() -> str:
    """Read the data files and return the text of the compiled file.

    Raises
    ------
    ResourceError
        A data file is missing.
    """
    import yaml

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

    compiled: dict[str, Any] = {}
    for name in SOURCES:
        compiled[name] = yaml.load(resources.read_text(f"schema/{name}.yaml"), Loader=loader)  # noqa: S506 - safe, in C
    return json.dumps(compiled, ensure_ascii=False, separators=(",", ":")) + "\n"


@cache
def table(name: str) -> dict[str, Any]:
    """Return one compiled data file by its name, for example ``notation``; not to be changed."""
    found: dict[str, Any] = _compiled()[name]
    return found


@cache
def _compiled() -> dict[str, Any]:
    try:
        text = files("chordae").joinpath(*COMPILED.split("/")).read_text(encoding="utf-8")
    except FileNotFoundError:
        raise ResourceError(f"{COMPILED} is missing.", "Run: python schema/generate.py") from None
    loaded: dict[str, Any] = json.loads(text)
    return loaded
