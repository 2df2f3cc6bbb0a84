"""From agreement on many fields to one drawing (SVG): a line a field, its coefficients with their intervals.

::

    Ventricular topology        58  |                       --o--  ×       ▲
                                    -0.2   0   0.2  0.4  0.6  0.8  1

Circle: Gwet's AC1 with its interval. Triangle: Krippendorff's alpha with its interval. Tick: raw agreement. The bar at
the end is the share of the most frequent value: where it is nearly full, kappa and alpha are low for that alone. Shapes
tell the coefficients apart; colour only adds to it.
"""

from __future__ import annotations

from collections.abc import Sequence

from chordae.compare.agreement import Interval
from chordae.compare.fields import Field
from chordae.compare.grounds import grounds
from chordae.report.markup import text

__all__ = ["draw"]

_ROW, _TOP, _LEFT, _SCALE, _BAR = 22, 64, 470, 500, 140
_LOW, _HIGH = -0.2, 1.0
_WIDTH = _LEFT + _SCALE + 40 + _BAR + 20
_STYLE = (
    "text{font:13px system-ui,sans-serif;fill:#1d2226}.h{font-weight:600}.s{fill:#566069}.g{stroke:#d5d2c6}"
    ".z{stroke:#8a8675}.a{fill:#0b5c8a;stroke:#0b5c8a}.k{fill:#b0560a;stroke:#b0560a}.r{stroke:#1d2226;stroke-width:2}"
    ".b{fill:#ecebe4}.p{fill:#8a8675}line{stroke-width:1.4}"
)


def draw(found: Sequence[Field]) -> str:
    """Return the drawing; fields of numbers, and fields without any coefficient, have the tick only.

    Parameters
    ----------
    found
        In the order in which they are drawn.
    """
    rows: list[str] = []
    at = _TOP
    segment = ""
    labels = dict(grounds().segments)
    for one in found:
        if one.segment != segment:
            segment = one.segment
            rows.append(f'<text x="10" y="{at + 15}" class="h">{text(labels[segment])}</text>')
            at += _ROW
        rows.append(_line(one, at))
        at += _ROW
    grid = [
        f'<line x1="{_x(value):g}" y1="{_TOP - 8}" x2="{_x(value):g}" y2="{at}" class="{"z" if not value else "g"}"/>'
        f'<text x="{_x(value):g}" y="{_TOP - 14}" text-anchor="middle" class="s">{value:g}</text>'
        for value in (-0.2, 0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDTH} {at + 10}" width="{_WIDTH}" height="{at + 10}" '
        f'role="img" aria-label="Agreement of readers, field by field"><style>{_STYLE}</style>'
        f'<rect width="{_WIDTH}" height="{at + 10}" fill="#fffffd"/>{_key()}{"".join(grid)}{"".join(rows)}</svg>\n'
    )


def _key() -> str:
    return (
        '<text x="10" y="20" class="h">Agreement of readers</text>'
        f'<text x="{_LEFT - 62}" y="50" class="s">hearts</text>'
        f'{_circle(_LEFT + 6, 16)}<text x="{_LEFT + 16}" y="20">AC1</text>'
        f'{_triangle(_LEFT + 70, 16)}<text x="{_LEFT + 80}" y="20">alpha</text>'
        f'<line x1="{_LEFT + 140}" y1="10" x2="{_LEFT + 140}" y2="22" class="r"/>'
        f'<text x="{_LEFT + 148}" y="20">raw agreement</text>'
        f'<text x="{_LEFT + 270}" y="20" class="s">lines: 95 % interval</text>'
        f'<text x="{_LEFT + _SCALE + 40}" y="50" class="s">most frequent value</text>'
    )


def _line(one: Field, top: int) -> str:
    middle = top + _ROW / 2
    told = one.agreement
    name = one.label if len(one.label) < 54 else one.label[:52] + "…"
    parts = [
        f'<text x="24" y="{middle + 4:g}">{text(name)}</text>',
        f'<text x="{_LEFT - 22}" y="{middle + 4:g}" text-anchor="end" class="s">{told.hearts}</text>',
        _span(told.alpha, middle + 4, "k"),
        _span(told.ac1, middle - 4, "a"),
    ]
    if told.raw.value is not None:
        x = _x(told.raw.value)
        parts.append(f'<line x1="{x:g}" y1="{middle - 7:g}" x2="{x:g}" y2="{middle + 7:g}" class="r"/>')
    alpha = told.alpha.value if told.alpha.value is not None else one.numbers
    if alpha is not None:
        parts.append(_triangle(_x(alpha), middle + 4))
    if told.ac1.value is not None:
        parts.append(_circle(_x(told.ac1.value), middle - 4))
    if told.prevalence:
        left, share = _LEFT + _SCALE + 40, max(told.prevalence.values())
        parts.append(f'<rect x="{left}" y="{middle - 5:g}" width="{_BAR}" height="10" class="b"/>')
        parts.append(f'<rect x="{left}" y="{middle - 5:g}" width="{share * _BAR:.1f}" height="10" class="p"/>')
    return "".join(parts)


def _span(interval: Interval, y: float, kind: str) -> str:
    if interval.low is None or interval.high is None:
        return ""
    return f'<line x1="{_x(interval.low):.1f}" y1="{y:g}" x2="{_x(interval.high):.1f}" y2="{y:g}" class="{kind}"/>'


def _circle(x: float, y: float) -> str:
    return f'<circle cx="{x:.1f}" cy="{y:g}" r="4" class="a"/>'


def _triangle(x: float, y: float) -> str:
    return f'<path d="M{x:.1f} {y - 5:g}l5 9h-10z" class="k"/>'


def _x(value: float) -> float:
    """Where a coefficient lies; one below the scale is drawn at its end."""
    return _LEFT + (max(_LOW, min(_HIGH, value)) - _LOW) / (_HIGH - _LOW) * _SCALE
