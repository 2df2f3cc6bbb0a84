"""Words in tables that spreadsheet programs open: none of them may be taken for a formula.

::

    =HYPERLINK("x")   ->   '=HYPERLINK("x")    and back
    - (not seen)      ->   '- (not seen)       and back
    -   +   -3.5      ->   as they are: a sign alone and a number calculate nothing

The signs are those that OWASP lists under CSV injection.
"""

from __future__ import annotations

import re

__all__ = ["guarded", "unguarded"]

_FORMULA = re.compile(r"'*(?![+-]?[0-9]*[.,]?[0-9]*\Z)[=+@\t\r-].", re.DOTALL)


def guarded(text: str) -> str:
    """Return a text with an apostrophe before it if a spreadsheet program would calculate it.

    Examples
    --------
    >>> [guarded(one) for one in ("=1+1", "'=1+1", "-", "-3.5", "R -")]
    ["'=1+1", "''=1+1", '-', '-3.5', 'R -']
    """
    return f"'{text}" if _FORMULA.match(text) else text


def unguarded(text: str) -> str:
    """Return what :func:`guarded` was given.

    Examples
    --------
    >>> [unguarded(guarded(one)) for one in ("=1+1", "'=1+1", "'quoted'")]
    ['=1+1', "'=1+1", "'quoted'"]
    """
    return text[1:] if text.startswith("'") and _FORMULA.match(text) else text
