"""From well-formed JSON text to the line and column of every value, by JSON pointer: a scan, made when it is needed."""

from __future__ import annotations

import json
import re
from bisect import bisect_right

from chordae.intake.found import Mark, pointer

__all__ = ["Lines", "scan"]

_TOKEN = re.compile(
    r"""[ \t\n\r]*(?:(?P<string>"[^"\\]*(?:\\.[^"\\]*)*")|(?P<open>[\[{])|(?P<close>[\]}])"""
    r"""|(?P<comma>,)|(?P<colon>:)|(?P<word>[^\s,:\[\]{}"]+))"""
)


class Lines:
    """From an offset in a text to line and column."""

    def __init__(self, text: str, first: int = 1) -> None:
        self._text = text
        self._first = first
        self._starts: list[int] | None = None

    def __call__(self, offset: int) -> Mark:
        if self._starts is None:
            self._starts = [0, *(one.end() for one in re.finditer("\n", self._text))]
        line = bisect_right(self._starts, offset) - 1
        return (line + self._first, offset - self._starts[line] + 1)


class _Level:
    """An object or list being scanned; ``index`` is the number of the item, ``None`` in an object."""

    def __init__(self, path: str, index: int | None) -> None:
        self.path = path
        self.index = index


def scan(text: str, at: int, lines: Lines) -> dict[str, Mark]:
    """Return line and column for each pointer of the value at an offset of well-formed text."""
    marks: dict[str, Mark] = {}
    open_levels: list[_Level] = []
    path = ""
    key_mark: Mark | None = None
    key_next = False
    while token := _TOKEN.match(text, at):
        at = token.end()
        kind = str(token.lastgroup)
        if kind == "colon":
            continue
        if kind == "close":
            open_levels.pop()
            key_next = False
        elif kind == "comma":
            level = open_levels[-1]
            key_next = level.index is None
            if level.index is not None:
                level.index += 1
                path = pointer(level.path, level.index)
        elif kind == "string" and key_next:
            key = token[kind]
            path = pointer(open_levels[-1].path, json.loads(key) if "\\" in key else key[1:-1])
            key_mark = lines(token.start(kind))
            key_next = False
        else:
            if path not in marks:
                marks[path] = key_mark if kind == "open" and key_mark else lines(token.start(kind))
            key_mark = None
            if kind == "open":
                key_next = token[kind] == "{"
                open_levels.append(_Level(path, None if key_next else 0))
                path = path if key_next else pointer(path, 0)
        if not open_levels:
            break
    return marks
