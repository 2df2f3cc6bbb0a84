"""The selector of a piece of evidence: a region of a picture, an interval of a sequence, or both.

::

    xywh=percent:30,20,45,50       box (30, 20, 45, 50) in per cent of the picture
    xywh=10,20,200,100             box in pixels
    t=12.5,20                      from 12.5 s to 20 s;  t=12.5 to the end;  t=,20 from the beginning
    t=8,9&xywh=percent:0,0,50,50   both

Source: W3C Media Fragments URI 1.0; the form is checked by the schema (slot ``selector``).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

__all__ = ["Selector", "format_time", "parse_selector"]

_NUMBER = r"[0-9]+(?:\.[0-9]*)?|\.[0-9]+"
_BOX = re.compile(rf"xywh=(?:(pixel|percent):)?({_NUMBER}),({_NUMBER}),({_NUMBER}),({_NUMBER})")
_TIME = re.compile(rf"t=(?:npt:)?({_NUMBER})?(?:,({_NUMBER})?)?")
_LONGEST = 359_999.0
"""Latest second that is written as hours, minutes and seconds: 99 hours, 59 minutes, 59 seconds."""


@dataclass(frozen=True, slots=True)
class Selector:
    """What a selector picks. ``box`` is left, top, width, height in ``unit``; ``end`` is ``None``: to the end."""

    unit: str = "pixel"
    box: tuple[float, float, float, float] | None = None
    start: float | None = None
    end: float | None = None

    @property
    def timed(self) -> bool:
        """Whether it picks an interval."""
        return self.start is not None


def parse_selector(text: str | None) -> Selector | None:
    """Return what a selector picks, ``None`` where there is none or it has another form.

    Examples
    --------
    >>> parse_selector("t=8,19.5")
    Selector(unit='pixel', box=None, start=8.0, end=19.5)
    >>> parse_selector("xywh=percent:30,20,45,50").box
    (30.0, 20.0, 45.0, 50.0)
    >>> parse_selector("t=20,8") is None
    True
    """
    unit, box, start, end = "pixel", None, None, None
    for piece in (text or "").split("&"):
        if found := _BOX.fullmatch(piece):
            left, top, width, height = (float(one) for one in found.groups()[1:])
            unit, box = found[1] or "pixel", (left, top, width, height)
        elif (found := _TIME.fullmatch(piece)) and (found[1] or found[2]):
            start, end = float(found[1] or 0), float(found[2]) if found[2] else None
        else:
            return None
    if (start is not None and end is not None and end <= start) or (start or 0) >= _LONGEST:
        return None
    return Selector(unit, box, start, end)


def format_time(seconds: float) -> str:
    """Return seconds as a WebVTT timestamp.

    Examples
    --------
    >>> format_time(3671.5), format_time(1e9)
    ('01:01:11.500', '99:59:59.000')
    """
    thousandths = round(min(seconds, _LONGEST) * 1000)
    minutes, rest = divmod(thousandths, 60_000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{rest // 1000:02}.{rest % 1000:03}"
