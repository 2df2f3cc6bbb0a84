"""The walkthrough of the examples: every command on the page is run, and prints what the page says.

When wording has changed on purpose, ``python tests/walkthrough.py`` writes the page anew.
"""

from __future__ import annotations

from pathlib import Path

import pytest

import walkthrough

BLOCKS = [
    (found["command"], found["shown"].splitlines())
    for found in walkthrough.BLOCK.finditer(walkthrough.PAGE.read_text(encoding="utf-8"))
]


def test_the_page_shows_the_main_commands() -> None:
    shown = {command.split()[1] for command, _ in BLOCKS if command.startswith("chordae ")}
    assert shown >= {"read", "derive", "check", "explain", "exchange"}


def test_lines_of_dots_stand_for_any_lines_and_nothing_else_does() -> None:
    printed = ["a", "b", "c", "d"]
    assert walkthrough.fits(["a", "...", "d"], printed)
    assert walkthrough.fits(printed, printed)
    assert not walkthrough.fits(["a", "d"], printed)
    assert not walkthrough.fits(["a", "...", "c"], printed)


def test_the_confirmation_shows_on_the_page() -> None:
    (shown,) = [lines for command, lines in BLOCKS if "--confirm R-VSD-10" in command]
    assert {"  waivers:", "  - rule: R-VSD-10", "    confirmed_by: Curator A"} <= set(shown)


def test_what_stands_between_dots_is_found_by_its_first_line() -> None:
    shown = ["1", "...", "waivers:", "- old", "...", "9"]
    assert walkthrough.cut(shown, ["one", "2", "waivers:", "- new", "5", "nine"]) == [
        "one", "...", "waivers:", "- new", "...", "nine",
    ]  # fmt: skip
    with pytest.raises(ValueError, match="waivers"):
        walkthrough.cut(shown, ["one", "nine"])


def test_every_command_prints_what_the_page_says(tmp_path: Path) -> None:
    folder = walkthrough.make_folder(tmp_path)
    for command, shown in BLOCKS:
        printed = walkthrough.run(command, folder)
        assert walkthrough.fits(shown, printed), f"$ {command}\n" + "\n".join(printed)
