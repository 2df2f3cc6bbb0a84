"""Progress of long work, on standard error and only on a terminal.

Elsewhere (a pipe, a log, a test) nothing is written at all.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sized
from typing import TypeVar

__all__ = ["track"]

T = TypeVar("T")


def track(items: Iterable[T], description: str, total: int | None = None) -> Iterator[T]:
    """Yield the items, and show on a terminal how far the work has come.

    Parameters
    ----------
    items
        What is worked through.
    description
        A few words, for example ``"Checking"``.
    total
        Number of items, if known; taken from ``len`` where there is one.
    """
    if not sys.stderr.isatty():
        yield from items
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    count = total if total is not None else (len(items) if isinstance(items, Sized) else None)
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(description, total=count)
        for item in items:
            yield item
            bar.advance(task)
