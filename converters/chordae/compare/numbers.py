"""Agreement on numbers: Krippendorff's alpha for squared differences, with readings missing.

Krippendorff K. Content Analysis, 2nd ed., 2004, ch. 11 (interval difference).
"""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["interval_alpha"]


def interval_alpha(ratings: Sequence[Sequence[float | None]]) -> float | None:
    """Return Krippendorff's alpha for numbers: differences count by their square.

    Parameters
    ----------
    ratings
        Shape ``(n_hearts, n_readers)``; None for no reading. All in one unit.

    Returns
    -------
    float or None
        None where no heart was read twice, or all numbers are the same.
    """
    units = [found for row in ratings if len(found := [value for value in row if value is not None]) >= 2]
    values = [value for unit in units for value in unit]
    seen = sum(_squares(unit) / (len(unit) - 1) for unit in units)
    expected = _squares(values)
    return 1 - (len(values) - 1) * seen / expected if expected else None


def _squares(values: Sequence[float]) -> float:
    """Sum of squared differences over all ordered pairs, from the mean so that nothing cancels."""
    mean = sum(values) / len(values) if values else 0.0
    return 2 * len(values) * sum((value - mean) ** 2 for value in values)
