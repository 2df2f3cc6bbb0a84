"""From a word of a catalogue to the question that has to be answered before it may be taken for anything."""

from __future__ import annotations

from chordae import friends

__all__ = ["question_about"]


def question_about(word: str) -> str | None:
    """Return the question about a word that means different things to different people, else ``None``.

    Words that are a trap only in some context are left to that context (see :mod:`chordae.friends`).

    Examples
    --------
    >>> question_about("dextrocardia") is not None, question_about("tricuspid valve")
    (True, None)
    """
    return next((friend.ask for friend in friends.ask(word) if not friend.context), None)
