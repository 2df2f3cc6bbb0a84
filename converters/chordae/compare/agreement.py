"""From many readings of many hearts to coefficients of agreement, one field at a time.

::

    ratings: one row a heart, one place a reader, None = this reader is silent      shape (n_hearts, n_readers)

        [["usual", "usual"],
         ["usual", "mirror_image"],
         ["left_isomerism", None]]

Coefficients (nominal categories; all leave out what is missing, none fills it in):

* raw: share of pairs of readings of one heart that are equal, averaged over hearts.
* cohen: two readers, each with own marginals. Cohen J. Educ Psychol Meas 1960;20:37-46.
* fleiss: any number of readers, pooled marginals. Fleiss JL. Psychol Bull 1971;76:378-382; with readings missing,
  chance agreement is taken over the readings that are there.
* ac1: Gwet KL. Br J Math Stat Psychol 2008;61:29-48; chance agreement stays low when one value is common.
* alpha: Krippendorff K. Content Analysis, 2nd ed., 2004, ch. 11; nominal difference, with missing readings.

A coefficient is None where it is not defined (one category only and full agreement by chance, or no heart read twice):
it is never shown as 0 or 1.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

__all__ = [
    "Agreement",
    "Interval",
    "Ratings",
    "ac1",
    "agreement",
    "alpha",
    "bootstrap",
    "cohen",
    "fleiss",
    "raw",
]

Ratings = Sequence[Sequence[str | None]]


@dataclass(frozen=True, slots=True)
class Interval:
    """A coefficient with its percentile bootstrap interval over hearts; None where it is not defined."""

    value: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Agreement:
    """Agreement on one field.

    ``hearts`` were read by at least two readers; ``prevalence`` is the share of each value among all readings of them.
    """

    hearts: int
    readings: int
    raw: Interval
    cohen: Interval
    fleiss: Interval
    ac1: Interval
    alpha: Interval
    prevalence: dict[str, float]


def agreement(ratings: Ratings, rounds: int = 1000, seed: int = 1) -> Agreement:
    """Compute every coefficient with its 95 % interval.

    Parameters
    ----------
    ratings
        Shape ``(n_hearts, n_readers)``; None for no reading.
    rounds
        Bootstrap samples of hearts.
    seed
        Start of the random numbers, so that a report can be repeated.
    """
    rows = _read_twice(ratings)
    values = Counter(value for row in rows for value in row if value is not None)
    whole = sum(values.values())

    def interval(coefficient: Callable[[Ratings], float | None]) -> Interval:
        return bootstrap(rows, coefficient, rounds, seed)

    return Agreement(
        hearts=len(rows),
        readings=whole,
        raw=interval(raw),
        cohen=interval(cohen),
        fleiss=interval(fleiss),
        ac1=interval(ac1),
        alpha=interval(alpha),
        prevalence={value: n / whole for value, n in sorted(values.items())},
    )


def raw(ratings: Ratings) -> float | None:
    """Mean share of equal pairs of readings, over hearts read at least twice."""
    rows = _read_twice(ratings)
    return sum(_equal_pairs(_counts(row)) for row in rows) / len(rows) if rows else None


def cohen(ratings: Ratings) -> float | None:
    """Cohen's kappa of two readers; None for any other number of readers."""
    if any(len(row) != 2 for row in ratings):
        return None
    pairs = [(one, other) for one, other in ratings if one is not None and other is not None]
    if not pairs:
        return None
    mine, theirs = Counter(one for one, _ in pairs), Counter(other for _, other in pairs)
    seen = sum(one == other for one, other in pairs) / len(pairs)
    return _beyond(seen, sum(mine[value] * theirs[value] for value in mine) / len(pairs) ** 2)


def fleiss(ratings: Ratings) -> float | None:
    """Fleiss' kappa."""
    rows = _read_twice(ratings)
    seen = raw(rows)
    return None if seen is None else _beyond(seen, sum(share * share for share in _shares(rows).values()))


def ac1(ratings: Ratings) -> float | None:
    """Gwet's AC1; None when only one value occurs: chance agreement divides by the number of values less one."""
    rows = _read_twice(ratings)
    seen = raw(rows)
    if seen is None:
        return None
    means: dict[str, float] = {}
    for row in rows:
        counts = _counts(row)
        for value, n in counts.items():
            means[value] = means.get(value, 0.0) + n / counts.total() / len(rows)
    if len(means) < 2:
        return None
    return _beyond(seen, sum(share * (1 - share) for share in means.values()) / (len(means) - 1))


def alpha(ratings: Ratings) -> float | None:
    """Krippendorff's alpha for nominal values."""
    rows = _read_twice(ratings)
    whole: Counter[str] = Counter()
    differing = 0.0
    for row in rows:
        counts = _counts(row)
        n = counts.total()
        whole.update(counts)
        differing += sum(k * (n - k) for k in counts.values()) / (n - 1)
    total = whole.total()
    expected = sum(k * (total - k) for k in whole.values())
    return 1 - (total - 1) * differing / expected if expected else None


def bootstrap(
    rows: Ratings, coefficient: Callable[[Ratings], float | None], rounds: int = 1000, seed: int = 1
) -> Interval:
    """Give a coefficient with its 95 % percentile interval over resampled hearts.

    Samples in which the coefficient is not defined are left out; with less than half of them left there is no interval.
    """
    value = coefficient(rows)
    if value is None:
        return Interval(None, None, None)
    draw = random.Random(seed)  # noqa: S311  resampling for statistics, nothing secret
    found = [one for one in (coefficient(draw.choices(rows, k=len(rows))) for _ in range(rounds)) if one is not None]
    if len(found) < max(1, rounds // 2):
        return Interval(value, None, None)
    found.sort()
    return Interval(value, found[int(0.025 * len(found))], found[min(len(found) - 1, int(0.975 * len(found)))])


def _read_twice(ratings: Ratings) -> list[Sequence[str | None]]:
    return [row for row in ratings if sum(value is not None for value in row) >= 2]


def _counts(row: Sequence[str | None]) -> Counter[str]:
    return Counter(value for value in row if value is not None)


def _equal_pairs(counts: Counter[str]) -> float:
    n = counts.total()
    return sum(k * (k - 1) for k in counts.values()) / (n * (n - 1))


def _shares(rows: Ratings) -> dict[str, float]:
    values = Counter(value for row in rows for value in row if value is not None)
    return {value: n / values.total() for value, n in values.items()}


def _beyond(seen: float, chance: float) -> float | None:
    return (seen - chance) / (1 - chance) if chance < 1 else None
