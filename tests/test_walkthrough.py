"""The walkthrough of the examples: every command on the page is run, and prints what the page says.

::

    ```console
    $ chordae explain L-TGA
    L-TGA
    ...                            lines that were cut out of the page
    [exit code 1]                  if it is not 0
    ```
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PAGE = (ROOT / "examples" / "walkthrough.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```console\n\$ (.+)\n((?:(?!```).*\n)*)```$", PAGE, re.MULTILINE)


def run(command: str, folder: Path) -> list[str]:
    """Return the lines that a command prints, and its exit code if that is not 0."""
    words = shlex.split(command)
    if words[0] == "chordae":
        words = [sys.executable, "-m", *words]
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "converters"), "COLUMNS": "100"}
    done = subprocess.run(
        words, cwd=folder, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False
    )
    lines = [line.rstrip() for line in done.stdout.rstrip("\n").split("\n")] if done.stdout.strip() else []
    return [*lines, f"[exit code {done.returncode}]"] if done.returncode else lines


def fits(shown: list[str], printed: list[str]) -> bool:
    """Say whether the lines shown are the lines printed, where ``...`` stands for any number of them.

    Examples
    --------
    >>> fits(["a", "...", "d"], ["a", "b", "c", "d"]), fits(["a", "d"], ["a", "b", "c", "d"])
    (True, False)
    """
    pattern = "".join(r"(?:.*\n)*?" if line == "..." else re.escape(line) + r"\n" for line in shown)
    return re.fullmatch(pattern, "".join(line + "\n" for line in printed)) is not None


def test_the_page_shows_the_main_commands() -> None:
    shown = {shlex.split(command)[1] for command, _ in BLOCKS if command.startswith("chordae ")}
    assert shown >= {"read", "derive", "explain", "exchange"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the examples in it, in which all commands run one after another."""
    made = tmp_path_factory.mktemp("walkthrough")
    shutil.copytree(ROOT / "examples", made / "examples", ignore=shutil.ignore_patterns("__pycache__"))
    return made


def test_every_command_prints_what_the_page_says(folder: Path) -> None:
    for command, text in BLOCKS:
        shown, printed = text.rstrip("\n").split("\n") if text.strip() else [], run(command, folder)
        assert fits(shown, printed), f"$ {command}\n" + "\n".join(printed)
