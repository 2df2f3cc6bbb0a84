"""From a record to what follows from it: identities, connections, notation, sentence, malformations.

::

    record --> Heart (facts) --> identities --> arrangement --> connections --> valves --> holes, arteries
                                                     |               |
                    stated conclusions, notation ----+---------------+--> conclusions with their origin
                                                                              |
        notation, sentence in both schools, malformations, stated against derived, combinations, undetermined

:func:`derive` gives the JSON object that the command line promises; :func:`explain` puts it into words.
"""

from __future__ import annotations

from chordae.derive.derivation import derive
from chordae.derive.explanation import explain

__all__ = ["derive", "explain"]
