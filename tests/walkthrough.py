"""Run every command of walkthrough.md again and write down what it prints now.

::

    ```console
    $ chordae explain L-TGA
    L-TGA
    ...                            lines that are cut out of the page
    [exit code 1]                  if it is not 0
    ```

As many lines stay at the beginning and at the end as there were. What stands between dots begins, as before, with the
same line (``waivers:``) and has as many lines as before. Run ``python tests/walkthrough.py`` in the root
of the checkout after a change of wording, and read the difference before it is committed.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parent.parent
PAGE = ROOT / "examples" / "walkthrough.md"
BLOCK = re.compile(r"^```console\n\$ (?P<command>.+)\n(?P<shown>(?:(?!```).*\n)*)```$", re.MULTILINE)
CUT = "..."


def make_folder(folder: Path) -> Path:
    """Copy the examples into a folder in which all commands run one after another."""
    shutil.copytree(ROOT / "examples", folder / "examples", ignore=shutil.ignore_patterns("__pycache__"))
    return folder


def run(command: str, folder: Path) -> list[str]:
    """Return the lines that a command prints, and its exit code if that is not 0."""
    words = shlex.split(command)
    if words[0] == "chordae":
        words = [sys.executable, "-m", *words]
    paths = os.pathsep.join([str(ROOT / "converters"), os.environ.get("PYTHONPATH", "")])
    environment = {**os.environ, "PYTHONPATH": paths, "COLUMNS": "100"}
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
    pattern = "".join(r"(?:.*\n)*?" if line == CUT else re.escape(line) + r"\n" for line in shown)
    return re.fullmatch(pattern, "".join(line + "\n" for line in printed)) is not None


def cut(shown: list[str], printed: list[str]) -> list[str]:
    """Return what is printed now, cut as the page was.

    Raises
    ------
    ValueError
        What stood between dots begins with a line that is not printed any more.

    Examples
    --------
    >>> cut(["a", "...", "x:", "1", "...", "z"], ["A", "b", "x:", "2", "c", "Z"])
    ['A', '...', 'x:', '2', '...', 'Z']
    """
    pieces: list[list[str]] = [[]]
    for line in shown:
        if line == CUT:
            pieces.append([])
        else:
            pieces[-1].append(line)
    if len(pieces) == 1:
        return printed
    at = len(pieces[0])
    kept = printed[:at]
    for piece in pieces[1:-1]:
        at = printed.index(piece[0], at)
        kept += [CUT, *printed[at : at + len(piece)]]
        at += len(piece)
    return [*kept, CUT, *(printed[-len(pieces[-1]) :] if pieces[-1] else [])]


def main() -> None:
    """Rewrite the page."""
    with tempfile.TemporaryDirectory() as made:
        folder = make_folder(Path(made))

        def again(found: re.Match[str]) -> str:
            lines = cut(found["shown"].splitlines(), run(found["command"], folder))
            return "\n".join(["```console", f"$ {found['command']}", *lines, "```"])

        PAGE.write_text(BLOCK.sub(again, PAGE.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    main()
