"""How often one client may ask: a bucket a client that fills again with time.

::

    Buckets(rate 10 a second, size 40).take("198.51.100.7") -> 0.0, or the seconds to wait
"""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable

__all__ = ["Buckets"]

_MOST = 50_000


class Buckets:
    """Token buckets, one a client; the clients seen longest ago are forgotten.

    Parameters
    ----------
    rate
        Requests a second that a bucket gains.
    size
        Requests that may come at once.
    clock
        Seconds; for tests.
    """

    def __init__(self, rate: float, size: float, clock: Callable[[], float] = time.monotonic) -> None:
        self._rate, self._size, self._clock = rate, size, clock
        self._known: OrderedDict[str, tuple[float, float]] = OrderedDict()
        self._lock = threading.Lock()

    def take(self, client: str, cost: float = 1.0) -> float:
        """Take from a client's bucket; returns 0, or the seconds until there is enough.

        Examples
        --------
        >>> buckets = Buckets(1, 2, clock=lambda: 0.0)
        >>> [buckets.take("a"), buckets.take("a"), buckets.take("a"), buckets.take("b")]
        [0.0, 0.0, 1.0, 0.0]
        """
        with self._lock:
            at = self._clock()
            left, seen = self._known.pop(client, (self._size, at))
            left = min(self._size, left + (at - seen) * self._rate)
            wait = 0.0 if left >= cost else (cost - left) / self._rate
            self._known[client] = (left - cost if not wait else left, at)
            while len(self._known) > _MOST:
                self._known.popitem(last=False)
            return wait
