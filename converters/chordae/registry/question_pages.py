"""The pages of the ready questions: a form, and the answer as a table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from chordae.registry.page_frame import page
from chordae.registry.questions import Question
from chordae.report.markup import Html, table, tag, text
from chordae.terms import vocabulary

__all__ = ["answer_page", "question_page"]


def question_page(registry: str, one: Question) -> str:
    """Return the form of a ready question."""
    return page(registry, one.title, [tag("section", tag("p", text(one.say), class_="lead"), _form(one, {}))])


def answer_page(
    registry: str,
    one: Question,
    values: Mapping[str, str],
    head: Sequence[str],
    rows: Iterable[Sequence[str]],
    cut: bool,
) -> str:
    """Return the answer to a ready question."""
    # A page shows a term by its label, so a column of labels beside it would say it twice.
    shown_columns = [place for place, each in enumerate(head) if each != "label" or "term" not in head]
    head = [head[place] for place in shown_columns]
    cells = [[_cell(row[place]) for place in shown_columns] for row in rows]
    words = f"{len(cells):,} rows{', cut short' if cut else ''}."
    shown = table([each.replace("_", " ") for each in head], cells, caption="Answer") if cells else text("")
    told = [
        tag("p", text(one.say), class_="lead"),
        _form(one, values),
        tag("p", text(words)),
        tag("div", shown, class_="wide"),
    ]
    return page(registry, one.title, [tag("section", *told)])


def _form(one: Question, values: Mapping[str, str]) -> Html:
    fields = [
        tag(
            "label",
            text(each.say),
            tag("input", name=each.name, value=values.get(each.name, each.default or ""), maxlength="1000"),
        )
        for each in one.parameters
    ]
    button = tag("button", text("Ask"), type="submit", name="ask", value="1")
    return tag("form", *fields, button, class_="tools", method="get", action=f"/questions/{one.name}")


def _cell(value: str) -> Html:
    """Return a cell: a term by its label, a word of the model in plain letters, anything else as it is."""
    slug = value.removeprefix("https://w3id.org/chordae/term/")
    term = vocabulary().get(slug) if slug != value else None
    if term is not None:
        return tag("span", text(term.european), title=value)
    word = value.removeprefix("https://w3id.org/chordae/model/")
    return text(word.replace("_", " ")) if word != value else text(value)
