"""The main job: a collection's own catalogue becomes checked, coded, exchangeable descriptions in a deposit folder.

::

    find_catalogue(folder)  ->  exchange(catalogue, out, load_steps())  ->  Exchanged(folder, counts, page)
"""

from __future__ import annotations

from chordae.exchange.catalogue import Catalogue, find_catalogue
from chordae.exchange.run import Exchanged, exchange
from chordae.exchange.steps import Steps, load_steps

__all__ = ["Catalogue", "Exchanged", "Steps", "exchange", "find_catalogue", "load_steps"]
