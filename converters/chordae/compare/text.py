"""From comparisons to lines for a terminal: what changes the diagnosis first, agreement as a count."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from chordae.compare.hearts import Comparison, Item
from chordae.compare.told import VERDICTS, grouped, name_of, place_of, said_words

__all__ = ["make_text"]

_SAID = {
    "agree": "The two descriptions agree.",
    "differ": "The two descriptions differ.",
    "contradict": "The two descriptions contradict each other.",
}


def make_text(found: Sequence[Comparison], every: bool = False) -> str:
    """Return the comparisons as text.

    Parameters
    ----------
    found
        One or more comparisons.
    every
        Also list what agrees and on what one is silent.
    """
    return "\n".join(line for one in found for line in _heart(one, every)) + "\n"


def _heart(found: Comparison, every: bool) -> Iterator[str]:
    yield f"A  {name_of(found.a)}   {found.derived_a['notation']}"
    yield f"B  {name_of(found.b)}   {found.derived_b['notation']}"
    yield f"{_SAID[found.verdict]} {_counts(found)}"
    first = found.diagnostic
    if first:
        yield ""
        yield "What changes the diagnosis"
        for items in grouped(first):
            for item in items:
                yield from _item(item)
            for change in items[0].changes:
                yield f"      {change}"
    for title, verdicts in (
        ("What else differs", ("contradict", "differ", "more_specific", "less_specific")),
        ("What can no longer be seen", ("not_assessable_in_a", "not_assessable_in_b", "not_assessable_in_both")),
        ("On what one is silent", ("silent_in_a", "silent_in_b")),
        ("What agrees", ("agree",)),
    ):
        rest = [one for one in found.items if one.verdict in verdicts and not one.changes]
        if rest and (every or title == "What else differs"):
            yield ""
            yield title
            for item in rest:
                yield from _item(item)
    yield ""


def _item(item: Item) -> Iterator[str]:
    yield f"  {place_of(item)}: {VERDICTS[item.verdict]}"
    if item.verdict == "agree":
        yield f"      {said_words(item, item.a)}"
        return
    yield f"      A  {said_words(item, item.a)}"
    yield f"      B  {said_words(item, item.b)}"
    if item.because:
        yield f"      because of {item.because}"


def _counts(found: Comparison) -> str:
    return ", ".join(f"{count} {VERDICTS[name]}" for name, count in found.counts().items()) + "."
