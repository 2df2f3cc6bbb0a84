"""The tables that derivation reads, compiled, and the criteria as a page; the package itself knows how."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import yaml

__all__ = ["make_criteria_page", "make_knowledge"]

_TOP = Path(__file__).resolve().parents[2]


def make_knowledge() -> str:
    """Return the text of the compiled tables."""
    return str(_module("chordae.knowledge").compile_tables())


def make_criteria_page() -> str:
    """Return the page of criteria in Markdown."""
    criteria = yaml.safe_load((_TOP / "schema" / "criteria.yaml").read_text(encoding="utf-8"))
    return str(_module("chordae.derive.criteria_page").criteria_page(criteria))


def _module(name: str) -> Any:
    """Import a module of the checkout, installed or not."""
    from importlib import import_module

    source = str(_TOP / "converters")
    if source not in sys.path:
        sys.path.insert(0, source)
    return import_module(name)
