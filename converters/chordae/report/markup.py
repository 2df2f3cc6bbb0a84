"""From words to HTML: every piece of someone's text passes :func:`text`, and the types see to it.

``Html`` is text that is already HTML. Only :func:`text` makes it from a value, and the type checker refuses a
plain ``str`` where ``Html`` is expected.
"""

from __future__ import annotations

import html
from collections.abc import Iterable, Sequence
from typing import NewType

__all__ = ["Html", "join", "table", "tag", "text"]

Html = NewType("Html", str)

_VOID = frozenset({"input", "meta", "br", "hr"})


def text(value: object) -> Html:
    """Return a value as HTML text: escaped, with what cannot be seen (controls, turned writing) made visible.

    Examples
    --------
    >>> text("<b> & \\x07")
    '&lt;b&gt; &amp; \\\\u0007'
    """
    words = str(value)
    if not words.isprintable():
        words = "".join(one if one.isprintable() or one == "\n" else f"\\u{ord(one):04x}" for one in words)
    return Html(html.escape(words))


def tag(name: str, /, *content: Html, **attributes: object) -> Html:
    """Return an element.

    Parameters
    ----------
    name
        Its name.
    content
        What stands in it.
    attributes
        ``class_="x"`` and ``data_label="y"`` become ``class`` and ``data-label``; ``None`` and ``False`` leave the
        attribute out, ``True`` gives it no value. Values are escaped here.

    Examples
    --------
    >>> tag("a", text("A & B"), href="#x", class_=None)
    '<a href="#x">A &amp; B</a>'
    """
    given = "".join(
        f" {key.rstrip('_').replace('_', '-')}" + ("" if value is True else f'="{text(value)}"')
        for key, value in attributes.items()
        if value is not None and value is not False
    )
    return Html(f"<{name}{given}>" if name in _VOID else f"<{name}{given}>{''.join(content)}</{name}>")


def join(pieces: Iterable[Html], between: str = "") -> Html:
    """Put pieces together; ``between`` is plain text."""
    return Html(text(between).join(pieces))


def table(head: Sequence[str], rows: Iterable[Sequence[Html]], *, caption: str, numbers: Iterable[int] = ()) -> Html:
    """Return a table whose rows can be set as blocks on a narrow screen: each cell knows its heading.

    Parameters
    ----------
    head
        Words of the heading, one a column.
    rows
        Cells of each row; the first is the heading of its row.
    caption
        What the table shows.
    numbers
        Columns (from 0) that hold numbers.
    """
    right = set(numbers)

    def kind(column: int) -> str | None:
        return "n" if column in right else None

    heads = join(tag("th", text(one), scope="col", class_=kind(column)) for column, one in enumerate(head))
    body = [
        tag(
            "tr",
            *(
                tag("td", cell, data_label=head[column], class_=kind(column))
                if column
                else tag("th", cell, scope="row")
                for column, cell in enumerate(row)
            ),
        )
        for row in rows
    ]
    return tag(
        "table",
        tag("caption", text(caption)),
        tag("thead", tag("tr", heads)),
        tag("tbody", join(body)),
    )
