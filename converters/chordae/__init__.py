"""Sequential segmental descriptions of malformed hearts: checked, coded, compared and exchanged."""

from __future__ import annotations

__version__ = "0.1.0"
