"""Words in tables that spreadsheet programs open: none of them may be taken for a formula.

::

    =HYPERLINK("x")   ->   '=HYPERLINK("x")    and back
    - (not seen)      ->   '- (not seen)       and back
    -   +   -3.5      ->   as they are, where ``bare`` says so: a sign alone and a number calculate nothing

The signs are those that OWASP lists under CSV injection, and those with which some programs begin a command.
"""

from __future__ import annotations

import re

__all__ = ["SIGNS", "guarded", "unguarded"]

SIGNS = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%")
_BARE = re.compile(r"[+-]?[0-9]*[.,]?[0-9]*|.", re.DOTALL)


def guarded(text: str, *, bare: bool = False) -> str:
    """Return a text with an apostrophe before it if a spreadsheet program might calculate it.

    Parameters
    ----------
    bare
        Leave a sign alone and a number as they are: in the tables that a curator fills in they are words.

    Examples
    --------
    >>> [guarded(one) for one in ("=1+1", "'=1+1", "-", "R -")]
    ["'=1+1", "''=1+1", "'-", 'R -']
    >>> [guarded(one, bare=True) for one in ("=1+1", "-", "-3.5")]
    ["'=1+1", '-', '-3.5']
    """
    if not text.lstrip("'").startswith(SIGNS) or (bare and _BARE.fullmatch(text)):
        return text
    return f"'{text}"


def unguarded(text: str) -> str:
    """Return what :func:`guarded` was given.

    Examples
    --------
    >>> [unguarded(guarded(one)) for one in ("=1+1", "'=1+1", "'quoted'")]
    ['=1+1', "'=1+1", "'quoted'"]
    """
    return text[1:] if text.startswith("'") and text.lstrip("'").startswith(SIGNS) else text
