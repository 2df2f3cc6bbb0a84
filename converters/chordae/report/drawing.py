"""From a chain of segments to a small drawing (inline SVG): atria, ventricles, trunks, from above to below.

::

      RIGHT SIDE               LEFT SIDE          box   solid frame   decided by features
     [ right atrium ]      [ left atrium ]              thin frame    supported, or only stated
            |  100 %              |                     broken frame  not determined
     [ right ventricle ]   [ left ventricle ]     line  solid  recorded    dashed  by the name of the connection
             \\              /                           crossed  imperforate or atretic
     [ aorta ]           [ pulmonary trunk ]

The right side of the body is on the left. Morphology is told by words and by the pattern of the box (coarse dots
for right, fine lines for left); colour only adds to it. The same is said in words for a reader who does not see it.
"""

from __future__ import annotations

from collections.abc import Callable

from chordae.report.chain import Chain, Join, Node
from chordae.report.markup import text

__all__ = ["DEFINITIONS", "draw", "tell"]

WIDTH, HEIGHT = 400, 336
_BOX = (176, 58)
_TOPS = (30, 142, 254)
_MARGIN = 14
_ROW_NAMES = ("atrium", "ventricle", "trunk")

DEFINITIONS = """<svg width="0" height="0" aria-hidden="true" focusable="false" class="defs"><defs>
<pattern id="coarse" width="12" height="12" patternUnits="userSpaceOnUse"><rect width="12" height="12" class="p-right"/>
<circle cx="3" cy="3" r="1.9" class="p-ink"/><circle cx="9" cy="9" r="1.9" class="p-ink"/></pattern>
<pattern id="fine" width="5" height="5" patternUnits="userSpaceOnUse"><rect width="5" height="5" class="p-left"/>
<path d="M0 5 5 0" class="p-line"/></pattern></defs></svg>"""
"""The patterns, once a page."""

Say = Callable[[str], str]


def draw(chain: Chain, name: str, say: Say) -> str:
    """Draw one heart.

    Parameters
    ----------
    chain
        What is drawn.
    name
        Name of the heart, for the title; escaped here.
    say
        From an identity to the words of the box, for example ``"aorta"`` -> ``"Aorta"``.

    Returns
    -------
    str
        An ``<svg>`` element that needs :data:`DEFINITIONS` on the same page; ``""`` for an empty chain.
    """
    if not chain.nodes:
        return ""
    nodes = {node.key: node for node in chain.nodes}
    lines = [_line(join, nodes) for join in chain.joins]
    title = text(f"Chain of segments of {name}")
    words = text(" ".join(tell(chain, say)))
    return (
        f'<svg class="chain" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" aria-label="{title}. {words}">'
        f'<text x="{_MARGIN}" y="17" class="side">right side</text>'
        f'<text x="{WIDTH - _MARGIN}" y="17" class="side end">left side</text>'
        + "".join(lines)
        + "".join(_box(node, say) for node in chain.nodes)
        + "</svg>"
    )


def tell(chain: Chain, say: Say) -> list[str]:
    """Say in sentences what the drawing shows."""
    nodes = {node.key: node for node in chain.nodes}
    said = [f"{_name(node, say)}, {_where(node, chain)}{_firm(node)}." for node in chain.nodes]
    for join in chain.joins:
        upper = _name(nodes[join.upper], say) if join.upper in nodes else "An atrium or ventricle that is not named"
        lower = _name(nodes[join.lower], say).lower() if join.lower in nodes else "a chamber that is not named"
        share = "" if join.share is None else f", {join.share:g} per cent"
        said.append(f"{upper} to {lower}{share}{', closed' if join.closed else ''} ({join.ground}).")
    return said


def _name(node: Node, say: Say) -> str:
    return say(node.identity) if node.identity else f"Unnamed {_ROW_NAMES[node.row]}"


def _where(node: Node, chain: Chain) -> str:
    if node.row in chain.unknown or node.place is None:
        return "side not recorded"
    return "right side" if node.place < 0.4 else "left side" if node.place > 0.6 else "middle"


def _firm(node: Node) -> str:
    words = [word for word in (node.note, node.firmness) if word]
    return f" ({', '.join(words)})" if words else ""


def _middle(node: Node) -> float:
    half = _BOX[0] / 2
    return _MARGIN + half + (node.place if node.place is not None else 0.5) * (WIDTH - 2 * (_MARGIN + half))


def _box(node: Node, say: Say) -> str:
    width, height = _BOX if not node.small else (_BOX[0] - 22, _BOX[1] - 6)
    left, top = _middle(node) - width / 2, _TOPS[node.row] + (_BOX[1] - height) / 2
    words = _name(node, say)
    head, _, tail = words.rpartition(" ") if len(words) > 20 else (words, "", "")
    said = [one for one in (head or words, tail) if one]
    foot = {"stated": "as stated", "derived": "by connection"}.get(node.firmness, node.firmness)
    if foot == "undetermined":
        foot = "not determined"
    said.append(", ".join(one for one in (node.note, foot) if one) or "not named")
    first = top + height / 2 - (len(said) - 1) * 7.5 + 4
    texts = "".join(
        f'<text x="{_middle(node):g}" y="{first + 15 * index:g}" class="{kind}">{text(one)}</text>'
        for index, (one, kind) in enumerate(zip(said, [*["name"] * (len(said) - 1), "foot"], strict=True))
    )
    return (
        f'<g class="node k-{node.kind} f-{text(node.firmness or "none")}">'
        f'<rect x="{left:g}" y="{top:g}" width="{width}" height="{height}" rx="7"/>'
        f'<rect x="{left + 8:g}" y="{first - 13:g}" width="{width - 16}" height="{15 * len(said) + 3}" rx="4"'
        f' class="plate"/>'
        f"{texts}</g>"
    )


def _line(join: Join, nodes: dict[str, Node]) -> str:
    upper, lower = nodes.get(join.upper or ""), nodes.get(join.lower or "")
    if upper is None and lower is None:
        return ""
    row = upper.row if upper is not None else lower.row - 1 if lower is not None else 0
    start, end = _TOPS[row] + _BOX[1], _TOPS[row + 1]
    x1 = _middle(upper) if upper is not None else WIDTH / 2
    x2 = _middle(lower) if lower is not None else WIDTH / 2
    y1, y2 = (start, end) if upper is not None and lower is not None else _stub(upper is not None, start, end)
    bend = (y1 + y2) / 2
    kind = "recorded" if join.ground == "recorded" else "named"
    width = 2.0 if join.share is None else 1.2 + 3.6 * max(0.0, min(100.0, join.share)) / 100
    path = f'<path d="M{x1:g} {y1:g}C{x1:g} {bend:g} {x2:g} {bend:g} {x2:g} {y2:g}" stroke-width="{width:.2f}"/>'
    # A label at a third of the way keeps the labels of crossing lines apart.
    share = 0.3
    at_x, at_y = _on_curve(x1, x2, y1, y2, share)
    label = (
        "" if join.share is None else f'<text x="{at_x:g}" y="{at_y + 4:g}" class="share">{join.share:g}&#8202;%</text>'
    )
    cross = ""
    if join.closed:
        mid_x, mid_y = _on_curve(x1, x2, y1, y2, 0.62)
        cross = f'<path class="shut" d="M{mid_x - 6:g} {mid_y - 6:g}l12 12m0-12l-12 12"/>'
    return f'<g class="join {kind}">{path}{label}{cross}</g>'


def _stub(from_upper: bool, start: float, end: float) -> tuple[float, float]:
    """An open end stops half way."""
    return (start, start + (end - start) * 0.6) if from_upper else (start + (end - start) * 0.4, end)


def _on_curve(x1: float, x2: float, y1: float, y2: float, t: float) -> tuple[float, float]:
    ease = 3 * t * t - 2 * t * t * t
    bend = (y1 + y2) / 2
    y = (1 - t) ** 3 * y1 + 3 * (1 - t) ** 2 * t * bend + 3 * (1 - t) * t * t * bend + t**3 * y2
    return x1 + (x2 - x1) * ease, y
