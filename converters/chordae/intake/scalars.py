"""From the text of one value to the value, the same way in YAML and JSON.

::

    null ~ (nothing)      None
    true false            bool
    12  -3                int     (0012, 1_000, 0o12, 0x1F stay text)
    1.50  2e3             float   (a number that a float cannot hold to its last digit is a fault)
    anything else         text    (no, on, Yes, NULL, 2026-11-25, 1:30, .inf stay text)

This is JSON's own reading. YAML 1.1 readers make ``False`` of a bare ``no`` and 10 of 0012, and a catalogue
number or an answer is lost.
"""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation

__all__ = ["LARGEST", "bad_characters", "exact_number", "plain"]

LARGEST = 2**53 - 1
"""Largest whole number that every JSON reader keeps (RFC 8259, section 6)."""

_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]+)?")
_WORDS: dict[str, bool | None] = {"": None, "~": None, "null": None, "true": True, "false": False}
_STARTS = frozenset("-0123456789")
_SHORT = 15
_LONGEST = 400
_BAD = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")


def plain(text: str) -> str | int | float | bool | None:
    """Return the value of an unquoted YAML scalar.

    Raises
    ------
    ValueError
        It is a number that cannot be kept exactly.

    Examples
    --------
    >>> [plain(one) for one in ("0012", "12", "1.50", "no", "true", "~", "?")]
    ['0012', 12, 1.5, 'no', True, None, '?']
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in _STARTS or _NUMBER.fullmatch(text) is None:
        return text
    return exact_number(text)


def exact_number(text: str) -> int | float:
    """Return the number that a JSON number stands for.

    Raises
    ------
    ValueError
        It has more digits than can be kept, or is not a JSON number.

    Examples
    --------
    >>> exact_number("1.50"), exact_number("-7")
    (1.5, -7)
    """
    shape = _NUMBER.fullmatch(text)
    if shape is None or len(text) > _LONGEST:
        raise ValueError(text)
    if shape.group(1) is None and shape.group(2) is None:
        whole = int(text)
        if abs(whole) > LARGEST:
            raise ValueError(text)
        return whole
    number = float(text)
    try:
        kept = (len(text) <= _SHORT and not shape.group(2)) or Decimal(text) == Decimal(repr(number))
    except InvalidOperation:  # an exponent of more digits than a decimal has
        kept = False
    if not kept:
        raise ValueError(text)
    return number


def bad_characters(text: str) -> str:
    """Name the characters that cannot be stored as text or shown: control characters, halves of pairs.

    Returns
    -------
    str
        For example ``"U+0007"``; empty if there are none.

    Examples
    --------
    >>> bad_characters("a\\x07b"), bad_characters("tab\\tand line\\n")
    ('U+0007', '')
    """
    if text.isprintable():
        return ""
    return ", ".join(sorted({f"U+{ord(one):04X}" for one in _BAD.findall(text)}))
