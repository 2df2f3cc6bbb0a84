"""Lines of an explanation: a field with its name, a point of a list; about 100 characters wide."""

from __future__ import annotations

import textwrap

__all__ = ["bullet", "field", "wrapped"]

_WIDTH = 100


def field(name: str, text: str) -> list[str]:
    """Return ``name: text`` in indented lines; none for an empty text."""
    return wrapped(f"{name}: {text}", "  ") if text else []


def bullet(text: str) -> list[str]:
    """Return one point of a list."""
    return _lines(text, "    - ", "      ")


def wrapped(text: str, indent: str) -> list[str]:
    """Return a text in lines, those after the first indented by two more."""
    return _lines(text, indent, indent + "  ")


def _lines(text: str, first: str, later: str) -> list[str]:
    # Words are never broken, nor at their hyphens: a label is found again by searching for it.
    return textwrap.wrap(
        text, _WIDTH, initial_indent=first, subsequent_indent=later, break_long_words=False, break_on_hyphens=False
    )
