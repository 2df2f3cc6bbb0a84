"""Pieces of the sentences of issues: values as they may be shown, numbers with their noun, the nearest known word.

Whatever comes from a file is cut to a length and cleared of signs that steer a terminal.
"""

from __future__ import annotations

import re
import string
from collections.abc import Iterable, Mapping

__all__ = ["LONGEST", "counted", "fill", "nearest", "shown", "sound", "unfilled"]

_SHOWN = 80
_STEERING = re.compile("[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
LONGEST = 1000
_AS_NEAR = 0.03


def shown(value: object, limit: int = _SHOWN) -> str:
    """Return a value as text for a sentence: one line, control characters visible, at most ``limit`` long.

    Examples
    --------
    >>> shown("a" * 100, 10)
    'aaaaaaa...'
    """
    text = str(value)
    if len(text) > limit:
        text = text[: limit - 3] + "..."
    return "".join(one if one.isprintable() else _visible(one) for one in text)


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with the word for what is counted, in the singular or the plural.

    Examples
    --------
    >>> counted(1, "record"), counted(12000, "record"), counted(0, "entry", "entries")
    ('1 record', '12,000 records', '0 entries')
    """
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def unfilled(template: str) -> str:
    """Return a template as a reader is shown it: the words for many where it has words for one and for many.

    Examples
    --------
    >>> unfilled("{count} {count:cell was|cells were} read.")
    '{count} cells were read.'
    """
    return re.sub(r"\{\w+:[^{}|]*\|([^{}|]*)\}", r"\1", template)


def nearest(word: str, known: Iterable[str]) -> str:
    """Return ``' Did you mean "x"?'`` for the known word most like this one, or an empty text.

    Words that are as near, or almost, are named as well, so that a slip never turns left into right unseen.

    Examples
    --------
    >>> nearest("tricuspit", ["tricuspid", "mitral"])
    ' Did you mean "tricuspid"?'
    >>> nearest("cordant", ["concordant", "discordant", "mixed"])
    ' Did you mean "concordant" or "discordant"?'
    """
    from difflib import SequenceMatcher, get_close_matches

    asked = word.casefold()[:_SHOWN]
    found = get_close_matches(asked, dict.fromkeys(known), n=3, cutoff=0.6) if word else []
    if not found:
        return ""
    scores = [SequenceMatcher(None, one, asked).ratio() for one in found]
    near = sorted(f'"{one}"' for one, score in zip(found, scores, strict=True) if score >= scores[0] - _AS_NEAR)
    return f" Did you mean {' or '.join(near)}?"


def _visible(character: str) -> str:
    return " " if character in "\t\n\r\u2028\u2029" else f"\\u{ord(character):04x}"


def sound(text: str) -> str:
    """Make signs visible that a sentence must not hold: they steer a terminal, or cannot be written as UTF-8."""
    return text if text.isprintable() else _STEERING.sub(lambda one: _visible(one[0]), text)


class _Sentence(string.Formatter):
    """Fills in fields; ``{count:cell|cells}`` gives the word that goes with the number."""

    def format_field(self, value: object, format_spec: str) -> str:
        one, bar, many = format_spec.partition("|")
        if not bar:
            return format(value, format_spec)
        return one if str(value) == "1" else many


_SENTENCE = _Sentence()


def fill(template: str, known: Mapping[str, object]) -> str:
    """Return a template with its fields filled in.

    Examples
    --------
    >>> fill("{count} {count:cell was|cells were} read.", {"count": 1})
    '1 cell was read.'
    """
    return _SENTENCE.vformat(template, (), known) if template else ""
