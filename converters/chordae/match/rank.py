"""From measured likeness to an order of candidates and a confidence that can be trusted.

The weights were fitted on one fixed half of a published gold set and the confidence was calibrated there, by
``tests/bench/bench_match.py --fit``; the other half is only for reporting. They lie in ``mappings/match_model.json``.

Sources: conditional logit over the candidates of one phrase (McFadden D, 1974, from memory); calibration by isotonic
steps (Zadrozny B, Elkan C, KDD 2002, from memory).
"""

from __future__ import annotations

import json
import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from chordae import resources
from chordae.errors import ResourceError
from chordae.match.likeness import FEATURES

__all__ = ["MEANING", "Model", "load_model"]

MEANING = ("meaning", "meaning3")
"""Features that the extra adds: likeness in meaning, 0 to 1, and its cube."""


@dataclass(frozen=True, slots=True)
class Model:
    """Weights of the likeness features and steps from share to confidence.

    ``weights`` are for features as measured, shape ``(len(FEATURES),)``. ``steps`` is sorted: from which share of the
    first candidate on (0 to 1) which confidence (0 to 1) holds.
    """

    weights: tuple[float, ...]
    steps: tuple[tuple[float, float], ...]

    def score(self, measured: Sequence[float]) -> float:
        """Weighted sum of the features."""
        return sum(w * x for w, x in zip(self.weights, measured, strict=True))

    def shares(self, scores: Sequence[float]) -> list[float]:
        """Share of each candidate, summing to one."""
        if not scores:
            return []
        top = max(scores)
        raised = [math.exp(score - top) for score in scores]
        whole = sum(raised)
        return [one / whole for one in raised]

    def confidence(self, share: float) -> float:
        """How often a first candidate with this share was right on the half used for fitting."""
        at = bisect_right([start for start, _ in self.steps], share) - 1
        return self.steps[max(at, 0)][1] if self.steps else 0.0


@cache
def load_model(meaning: bool = False) -> Model:
    """Load the fitted model.

    Parameters
    ----------
    meaning
        The one whose last two features are the likeness in meaning and its cube (:mod:`chordae.match.meaning`).

    Raises
    ------
    ResourceError
        The file is of another set of features.
    """
    data = json.loads(resources.read_text("mappings/match_model.json"))["with_meaning" if meaning else "plain"]
    if tuple(data["features"]) != (*FEATURES, *(MEANING if meaning else ())):
        raise ResourceError("mappings/match_model.json was fitted for other features.", "Run bench_match.py --fit.")
    return Model(tuple(data["weights"]), tuple((float(a), float(b)) for a, b in data["steps"]))
