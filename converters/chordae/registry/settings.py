"""The limits of the service; each may be set by an option of ``chordae registry serve``."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Settings"]


@dataclass(frozen=True, slots=True)
class Settings:
    """Numbers that hold for every client.

    ``rate`` and ``burst`` are requests a second and at once for one client, ``logins`` failed tokens at once (one a
    minute comes back), ``upload`` bytes of one deposit, ``seconds`` and ``rows`` limits of one query, ``workers`` how
    many queries run at a time, ``body`` bytes of any other request.
    """

    rate: float = 10.0
    burst: float = 60.0
    logins: float = 10.0
    upload: int = 2 * 1024**3
    seconds: float = 10.0
    rows: int = 10_000
    workers: int = 2
    body: int = 64 * 1024
    echo: bool = True
