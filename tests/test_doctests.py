"""The examples in the docstrings show what they say: every module's doctests, each module imported on its own."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path

import pytest

import chordae

PACKAGE = Path(chordae.__file__).parent
MODULES = sorted(
    "chordae." + ".".join(path.relative_to(PACKAGE).with_suffix("").parts)
    for path in PACKAGE.rglob("*.py")
    if path.name != "__init__.py" and "_generated" not in path.parts
)


@pytest.mark.parametrize("name", MODULES)
def test_examples_in_docstrings(name: str) -> None:
    found = doctest.testmod(import_module(name), optionflags=doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE)
    assert found.failed == 0


def test_there_are_examples() -> None:
    finder = doctest.DocTestFinder(exclude_empty=True)
    count = sum(len(one.examples) for name in MODULES for one in finder.find(import_module(name)))
    assert count > 60
