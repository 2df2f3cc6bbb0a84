"""Numbers, dates and words of the short form, each as its slot wants it; what does not fit is not taken.

::

    "3"        leaflet_count       3          "60 %"     a share             60
    2026       described_on        "2026"     "May"      described_on        nothing
"""

from __future__ import annotations

import json
import math
import re
from typing import Any

from chordae.model import Slot

__all__ = ["NUMBERS", "as_text", "per_cent", "plain_value", "plain_word"]

NUMBERS = frozenset({"integer", "decimal"})
"""Kinds of slots that hold a number."""

_MONTH, _DAY = "(0[1-9]|1[0-2])", "(0[1-9]|[12][0-9]|3[01])"
_FORMS = {
    "decade": re.compile("[0-9]{3}0s"),
    "year": re.compile("[0-9]{4}"),
    "month": re.compile(f"[0-9]{{4}}-{_MONTH}"),
    "date": re.compile(f"[0-9]{{4}}-{_MONTH}-{_DAY}"),
}
_NUMBER = re.compile(r"-?[0-9]{1,9}([.][0-9]{1,9})?")


def plain_word(value: object) -> str:
    """Return words in lower case with single underscores.

    Examples
    --------
    >>> plain_word("Right-hand"), plain_word(True), plain_word(" D loop. ")
    ('right_hand', 'true', 'd_loop')
    """
    return "_".join(re.findall(r"[^\W_]+", str(value).casefold()))


def plain_value(value: Any, slot: Slot) -> Any | None:
    """Return a value as a slot without a list of words holds it, ``None`` if it does not fit.

    Parameters
    ----------
    value
        Text, a number or true/false.
    slot
        Of kind integer, decimal, date, text, uri or reference; an inner node never fits.
    """
    if slot.kind in NUMBERS:
        number = _number(value)
        if number is None or (slot.kind == "integer" and not isinstance(number, int)):
            return None
        low, high = slot.minimum, slot.maximum
        outside = (low is not None and number < low) or (high is not None and number > high)
        return None if outside else number
    words = isinstance(value, str | int | float) and not isinstance(value, bool)
    return str(value) if slot.kind != "node" and words and _fits(str(value), slot) else None


def per_cent(value: Any) -> int | float | None:
    """Return a share in per cent, ``None`` if it is no number.

    Examples
    --------
    >>> per_cent("60 %"), per_cent(12.5), per_cent("most")
    (60, 12.5, None)
    """
    text = str(value).strip().removesuffix("per cent").rstrip("%").strip()
    try:
        number = float(text)
    except ValueError:
        return None
    if isinstance(value, bool) or number != number:
        return None
    return int(number) if number.is_integer() else number


def as_text(value: Any) -> str:
    """Return a value as the words that a remark keeps."""
    if isinstance(value, str):
        return value
    if isinstance(value, list) and all(isinstance(one, str) for one in value):
        return ", ".join(value)
    return json.dumps(value, ensure_ascii=False, default=str)


def _fits(words: str, slot: Slot) -> bool:
    if slot.kind == "date":
        return any(_FORMS[form].fullmatch(words) for form in slot.forms)
    return slot.pattern is None or re.search(slot.pattern, words) is not None


def _number(value: Any) -> int | float | None:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return int(value) if value == value // 1 else (value if math.isfinite(value) else None)
    if isinstance(value, str) and _NUMBER.fullmatch(value.strip()):
        return float(value) if "." in value else int(value)
    return None
