"""What all pages of a registry share: head, caution, links, and the one stylesheet, which is that of the report.

Pages only show: they need no script, and nothing from another server.
"""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources import files

from chordae.report.drawing import DEFINITIONS
from chordae.report.markup import Html, tag, text
from chordae.report.words import texts

__all__ = ["page", "stylesheet"]

_WIDE = "\nform.tools { display: flex; } .no-script form.tools { display: flex; }\n.wide { overflow-x: auto; }\n"


def stylesheet() -> str:
    """Return the stylesheet of all pages."""
    return files("chordae.report").joinpath("page.css").read_text(encoding="utf-8") + _WIDE


def page(registry: str, heading: str, sections: Sequence[Html]) -> str:
    """Return a whole page as HTML."""
    links = (("/", "Collections"), ("/terms", "Terms and codes"), ("/v1/openapi.json", "For programs"))
    body = [
        tag("a", text("To the content"), href="#main", class_="skip"),
        Html(DEFINITIONS),
        tag(
            "div",
            tag(
                "header",
                tag("p", text(registry), class_="over"),
                tag("h1", text(heading)),
                tag(
                    "aside",
                    *(tag("p", text(line)) for line in texts()["caution"]),
                    class_="caution",
                    aria_label="Caution",
                ),
            ),
            tag("nav", tag("ul", *(tag("li", tag("a", text(say), href=to)) for to, say in links)), aria_label="Pages"),
            tag("main", *sections, id="main"),
            class_="frame",
        ),
    ]
    head = [
        tag("meta", charset="utf-8"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", name="color-scheme", content="light dark"),
        tag("title", text(f"{heading} - {registry}")),
        Html('<link rel="stylesheet" href="/style.css">'),
    ]
    return f"<!doctype html>\n{tag('html', tag('head', *head), tag('body', *body), lang='en')}\n"
