"""From explanations in words to one small HTML page that opens offline.

::

    L-TGA                         a heading
      It may mean                 the lines below it, as they stand
        - ...
"""

from __future__ import annotations

from collections.abc import Iterable

from chordae.report.markup import Html, join, tag, text
from chordae.report.words import caution

__all__ = ["make_page"]

_STYLE = (
    "body{font:1rem/1.5 system-ui,sans-serif;max-width:62rem;margin:2rem auto;padding:0 1rem;overflow-wrap:anywhere}"
    "pre{font:inherit;white-space:pre-wrap;margin:0}h2{font-size:1.15rem;margin:1.5rem 0 .2rem}"
)


def make_page(explanations: Iterable[str]) -> str:
    """Return the page; each explanation begins with the line that becomes its heading.

    Examples
    --------
    >>> "<h2>ductus</h2><pre>  Ask: which?</pre>" in make_page(["ductus\\n  Ask: which?"])
    True
    """
    blocks = []
    for one in explanations:
        head, _, rest = one.partition("\n")
        blocks.append(join([tag("h2", text(head)), tag("pre", text(rest))]))
    head = tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("title", text("Explained")),
        tag("style", Html(_STYLE)),
    )
    body = tag("body", tag("h1", text("Explained")), join(blocks), tag("p", text(caution())))
    return f"<!doctype html>\n{tag('html', head, body, lang='en')}\n"
