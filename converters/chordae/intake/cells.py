"""From the text of one cell to a number, a percentage, a measured value or a date, in its declared style.

::

    number        3   2.5   -1             with decimal_comma: 2,5
    percent       30   30%   30 %          0 to 100
    measurement   12   12 mm   12mm        the unit, if given, must be the declared one
    date          d.m.y  d/m/y  m/d/y  y-m-d  m.y  y; several styles as d.m.y|y; written back as y-m-d, y-m or y

Nothing is guessed: a cell in any other form is refused, with a reason.
"""

from __future__ import annotations

import re
from calendar import monthrange
from dataclasses import dataclass

from chordae.intake.scalars import exact_number

__all__ = ["Refusal", "parse_date", "parse_measurement", "parse_number", "parse_percent"]

_PLAIN = re.compile(r"[-−+]?[0-9]+(?:\.[0-9]+)?")
_COMMA = re.compile(r"[-−+]?[0-9]+(?:,[0-9]+)?")
_UNIT = r"(?![x×]\s*[0-9])(?:[^\W\d_]|[%°])(?:[^-−–+0-9]*[^-−–+0-9\s])?[23]?"  # no unit: -3, x 5
_WITH_UNIT = re.compile(rf"([-−+]?[0-9][0-9.,]*)\s*({_UNIT})?")
_STYLES = {
    "d.m.y": re.compile(r"(?P<d>[0-9]{1,2})\. ?(?P<m>[0-9]{1,2})\. ?(?P<y>[0-9]{4})"),
    "d/m/y": re.compile(r"(?P<d>[0-9]{1,2})/(?P<m>[0-9]{1,2})/(?P<y>[0-9]{4})"),
    "m/d/y": re.compile(r"(?P<m>[0-9]{1,2})/(?P<d>[0-9]{1,2})/(?P<y>[0-9]{4})"),
    "y-m-d": re.compile(r"(?P<y>[0-9]{4})-(?P<m>[0-9]{1,2})-(?P<d>[0-9]{1,2})"),
    "m.y": re.compile(r"(?P<m>[0-9]{1,2})\.(?P<y>[0-9]{4})"),
    "y": re.compile(r"(?P<y>[1-9][0-9]{3})"),  # 0012 is a catalogue number
}
_STORED = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?:T.*)?")
_UNITS = {"μl": "uL", "ml": "mL", "mm²": "mm2", "cm²": "cm2", "gram": "g", "grams": "g", "kilogram": "kg"}


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a cell is not what it should be: a rule, and what was found."""

    rule: str
    found: str = ""


def parse_number(text: str, style: str = "") -> int | float | Refusal:
    """Return the number in a cell; with the style ``decimal_comma`` the comma is the decimal sign.

    Examples
    --------
    >>> parse_number("2,5", "decimal_comma"), parse_number("3")
    (2.5, 3)
    >>> parse_number("2,5")
    Refusal(rule='I-CEL-06', found='')
    """
    shape = _COMMA if style == "decimal_comma" else _PLAIN
    if shape.fullmatch(text) is None:
        return Refusal("I-CEL-06")
    plain = text.replace(",", ".").replace("−", "-").lstrip("+")
    sign = "-" if plain.startswith("-") else ""
    whole, dot, rest = plain.lstrip("-").partition(".")
    try:
        return exact_number(f"{sign}{whole.lstrip('0') or '0'}{dot}{rest}")
    except ValueError:
        return Refusal("I-CEL-06")


def parse_percent(text: str, style: str = "") -> int | float | Refusal:
    """Return the percentage in a cell, with or without its sign.

    Examples
    --------
    >>> parse_percent("30 %"), parse_percent("130%")
    (30, Refusal(rule='I-CEL-07', found=''))
    """
    number = parse_number(text.removesuffix("%").rstrip(), style)
    if isinstance(number, Refusal):
        return number
    return number if 0 <= number <= 100 else Refusal("I-CEL-07")


def parse_measurement(text: str, unit: str, style: str = "") -> int | float | Refusal:
    """Return the measured value in a cell; a unit in the cell must be the declared one.

    Examples
    --------
    >>> parse_measurement("12 mm", "mm"), parse_measurement("1.2 cm", "mm")
    (12, Refusal(rule='I-CEL-10', found='cm'))
    >>> parse_measurement("2-3", "mm"), parse_measurement("2 - 3 mm", "mm"), parse_measurement("-2", "mm")
    (Refusal(rule='I-CEL-06', found=''), Refusal(rule='I-CEL-06', found=''), -2)
    """
    shape = _WITH_UNIT.fullmatch(text)
    if shape is None:
        return Refusal("I-CEL-06")
    number = parse_number(shape[1], style)
    given = (shape[2] or "").rstrip(".")
    if isinstance(number, Refusal) or not given:
        return number
    return number if _UNITS.get(given.casefold(), given) == unit else Refusal("I-CEL-10", given)


def parse_date(text: str, style: str, *, stored: bool = False) -> str | Refusal:
    """Return a date as year-month-day, year-month or year.

    Parameters
    ----------
    text
        The cell.
    style
        One or more styles, separated by ``|``.
    stored
        Whether the cell was stored as a date, not as text; it is then year-month-day whatever the style.

    Examples
    --------
    >>> parse_date("7.3.1998", "d.m.y"), parse_date("31.2.1998", "d.m.y")
    ('1998-03-07', Refusal(rule='I-CEL-05', found=''))
    >>> parse_date("3/7/98", "m/d/y")
    Refusal(rule='I-CEL-04', found='')
    """
    if stored and (found := _STORED.fullmatch(text)):
        return found[1]
    for one in style.split("|"):
        if (found := _STYLES[one].fullmatch(text)) is not None:
            parts = found.groupdict()
            year, month, day = (int(parts.get(key) or 0) for key in ("y", "m", "d"))
            if "m" in parts and not 1 <= month <= 12:
                return Refusal("I-CEL-05")
            if year < 1 or ("d" in parts and not 1 <= day <= monthrange(year, month)[1]):
                return Refusal("I-CEL-05")
            return "-".join([f"{year:04}"] + [f"{int(parts[key]):02}" for key in ("m", "d") if key in parts])
    return Refusal("I-CEL-04")
