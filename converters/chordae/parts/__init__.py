"""Catalogues in many files, worked through by many processes or machines: the same results, in the same order.

::

    folder of .ndjson and .parquet files -> plan -> slices (file, bytes) -> workers -> results in order -> one report

A worker is sent the name of a file and a range of bytes, never the text; it writes what it finds beside the others'
in a work folder that all see. What is finished there stays: a run that is broken off goes on where it was.
"""

from __future__ import annotations

from chordae.parts.check import check_parts
from chordae.parts.exchange import exchange_parts
from chordae.parts.plan import Slice, is_parts, plan
from chordae.parts.spread import Spread

__all__ = ["Slice", "Spread", "check_parts", "exchange_parts", "is_parts", "plan"]
