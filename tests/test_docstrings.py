"""Every public name says what it is, and every exception from the checkers says why."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import chordae

PACKAGE = Path(chordae.__file__).parent
ROOT = PACKAGE.parents[1]
MODULES = sorted(path for path in PACKAGE.rglob("*.py") if "_generated" not in path.parts)
EXCEPTION = re.compile(r"# (?:type: ignore\[[a-z,-]+\]|noqa: [A-Z0-9, ]*[0-9])(?P<why>.*)$")


def _undocumented(path: Path) -> Iterator[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    if not ast.get_docstring(tree):
        yield "the module"
    listed = [
        ast.literal_eval(node.value)
        for node in tree.body
        if isinstance(node, ast.Assign)
        and any(isinstance(one, ast.Name) and one.id == "__all__" for one in node.targets)
    ]
    public = set(listed[0]) if listed else None
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)
    for node in tree.body:
        if not isinstance(node, kinds) or (node.name.startswith("_") if public is None else node.name not in public):
            continue
        inside = node.body if isinstance(node, ast.ClassDef) else []
        methods = [one for one in inside if isinstance(one, kinds) and not one.name.startswith("_")]
        for one in (node, *methods):
            if not ast.get_docstring(one):
                yield one.name


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_every_public_name_says_what_it_is(path: Path) -> None:
    assert list(_undocumented(path)) == []


def test_every_exception_from_a_checker_says_why() -> None:
    """In the line itself, or in a comment in the line above."""
    silent = []
    for path in [*MODULES, *sorted((ROOT / "schema").glob("*.py")), *sorted((ROOT / "tests").glob("*.py"))]:
        before = ""
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            found = EXCEPTION.search(line)
            if found and not re.search(r"[a-z]{3}", found["why"]) and not before.lstrip().startswith("#"):
                silent.append(f"{path.relative_to(ROOT)}:{number}")
            before = line
    assert silent == []
