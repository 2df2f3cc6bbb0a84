"""The compiled tables are those of the data files."""

from __future__ import annotations

from pathlib import Path

import chordae
from chordae.knowledge import COMPILED, SOURCES, compile_tables, table


def test_the_compiled_file_is_that_of_the_sources() -> None:
    # After a change of schema/*.yaml or schema/vocabulary: python schema/generate.py
    committed = Path(chordae.__file__).parent.joinpath(COMPILED).read_text(encoding="utf-8")
    assert committed == compile_tables()


def test_every_source_is_there() -> None:
    assert all(table(name) for name in SOURCES)
