"""Imports go one way: a module imports only from its own layer or a lower one, and nothing imports in a circle.

The layers stand in DEVELOPERS.md, so that the picture a newcomer reads is the one that is tested.
"""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[1]
PACKAGE = TOP / "converters" / "chordae"


@cache
def layers() -> dict[str, int]:
    """Return the number of the layer of each module or folder named in DEVELOPERS.md."""
    text = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
    block = re.search(r"```text\n(0 .*?)```", text, re.DOTALL)
    assert block, "DEVELOPERS.md has no block of layers that begins with a line '0 ...'"
    found: dict[str, int] = {}
    for line in block[1].splitlines():
        number, *names = line.split()
        assert number.isdigit(), f"a line of layers begins with its number, not with {number!r}"
        for name in names:
            assert name not in found, f"{name} stands in two layers"
            found[name] = int(number)
    return found


def modules() -> dict[str, Path]:
    """Return every module of the package by its dotted name, without ``chordae.``."""
    found: dict[str, Path] = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        if name:
            found[name] = path
    return found


def layer(module: str) -> int:
    """Return the layer of a module: its own line in DEVELOPERS.md, or that of the folder around it."""
    name = module
    while name not in layers():
        name, dot, _ = name.rpartition(".")
        assert dot, f"{module} has no layer in DEVELOPERS.md"
    return layers()[name]


def imported(path: Path, *, at_import: bool = False) -> set[str]:
    """Return the modules of the package that a file imports; with ``at_import`` only those loaded with it."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = list(ast.walk(tree))
    if at_import:
        nodes = [node for node in tree.body if not isinstance(node, ast.If)]
    names: set[str] = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            names |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path.name}: write imports in full"
            names |= {f"{node.module}.{one.name}" for one in node.names} | {str(node.module)}
    known = modules()
    found = {one.removeprefix("chordae.") for one in names if one.startswith("chordae.")}
    return {one for one in found if one in known}


@pytest.mark.parametrize("module", modules())
def test_imports_come_from_the_same_layer_or_a_lower_one(module: str) -> None:
    own = layer(module)
    upward = {one: layer(one) for one in imported(modules()[module]) if layer(one) > own}
    assert upward == {}, f"{module} (layer {own}) imports from a higher layer"


def test_nothing_imports_in_a_circle() -> None:
    edges = {name: imported(path, at_import=True) - {name} for name, path in modules().items()}
    done: set[str] = set()

    def walk(name: str, trail: tuple[str, ...]) -> None:
        assert name not in trail, " -> ".join([*trail, name])
        if name not in done:
            for one in sorted(edges[name]):
                if not name.startswith(f"{one}."):  # a module inside a package loads that package first anyway
                    walk(one, (*trail, name))
            done.add(name)

    for name in edges:
        walk(name, ())


def test_every_layer_names_modules_that_are_there() -> None:
    missing = [name for name in layers() if name not in modules()]
    assert missing == []


def test_the_check_notices_an_import_that_goes_up(tmp_path: Path) -> None:
    bad = tmp_path / "bad.py"
    bad.write_text("def late() -> None:\n    from chordae.cli import main\n    main([])\n", encoding="utf-8")
    assert imported(bad) == {"cli"}
    assert imported(bad, at_import=True) == set()
    assert layer("cli") > layer("issues")
