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
it is never shown as 0 or 1. Hearts with the same readings are counted together, so that resampling stays fast.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

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

Ratings: TypeAlias = Sequence[Sequence[str | None]]


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


@dataclass(frozen=True, slots=True)
class _Kind:
    """Hearts that were read in the same way: the row, how often each value stands in it, readings, hearts."""

    row: tuple[str | None, ...]
    counts: Counter[str]
    readings: int
    hearts: int


_Kinds: TypeAlias = Sequence[_Kind]
_Coefficient: TypeAlias = Callable[[_Kinds], float | None]


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
    kinds = _kinds(ratings)
    values: Counter[str] = Counter()
    for one in kinds:
        for value, n in one.counts.items():
            values[value] += n * one.hearts
    whole = values.total()
    hearts = sum(one.hearts for one in kinds)
    of_raw, of_cohen, of_fleiss, of_ac1, of_alpha = _resampled(kinds, _ALL, rounds, seed)
    prevalence = {value: n / whole for value, n in sorted(values.items())}
    return Agreement(hearts, whole, of_raw, of_cohen, of_fleiss, of_ac1, of_alpha, prevalence)


def raw(ratings: Ratings) -> float | None:
    """Mean share of equal pairs of readings, over hearts read at least twice."""
    return _raw(_kinds(ratings))


def cohen(ratings: Ratings) -> float | None:
    """Cohen's kappa of two readers; None for any other number of readers."""
    return _cohen(_kinds(ratings))


def fleiss(ratings: Ratings) -> float | None:
    """Fleiss' kappa."""
    return _fleiss(_kinds(ratings))


def ac1(ratings: Ratings) -> float | None:
    """Gwet's AC1; None when only one value occurs: chance agreement divides by the number of values less one."""
    return _ac1(_kinds(ratings))


def alpha(ratings: Ratings) -> float | None:
    """Krippendorff's alpha for nominal values."""
    return _alpha(_kinds(ratings))


def bootstrap(
    rows: Ratings, coefficient: Callable[[Ratings], float | None], rounds: int = 1000, seed: int = 1
) -> Interval:
    """Give a coefficient with its 95 % percentile interval over resampled hearts.

    Samples in which the coefficient is not defined are left out; with less than half of them left there is no interval.
    """
    public: Sequence[Callable[[Ratings], float | None]] = (raw, cohen, fleiss, ac1, alpha)
    return _resampled(_kinds(rows), (_ALL[public.index(coefficient)],), rounds, seed)[0]


def _resampled(kinds: _Kinds, coefficients: Sequence[_Coefficient], rounds: int, seed: int) -> list[Interval]:
    draw = random.Random(seed)  # noqa: S311  resampling for statistics, nothing secret
    hearts = sum(one.hearts for one in kinds)
    values = [coefficient(kinds) for coefficient in coefficients]
    found: list[list[float]] = [[] for _ in coefficients]
    places, weights = range(len(kinds)), [one.hearts for one in kinds]
    for _ in range(rounds if hearts else 0):
        drawn = Counter(draw.choices(places, weights, k=hearts))
        sample = [_Kind(kinds[at].row, kinds[at].counts, kinds[at].readings, n) for at, n in drawn.items()]
        for at, coefficient in enumerate(coefficients):
            if values[at] is not None and (one := coefficient(sample)) is not None:
                found[at].append(one)
    return [_percentiles(value, several, rounds) for value, several in zip(values, found, strict=True)]


def _percentiles(value: float | None, found: list[float], rounds: int) -> Interval:
    if value is None or len(found) < max(1, rounds // 2):
        return Interval(value, None, None)
    found.sort()
    return Interval(value, found[int(0.025 * len(found))], found[min(len(found) - 1, int(0.975 * len(found)))])


def _kinds(ratings: Ratings) -> list[_Kind]:
    """Return the hearts read at least twice, those read in the same way together."""
    made = []
    for row, hearts in Counter(tuple(row) for row in ratings).items():
        counts = Counter(value for value in row if value is not None)
        if counts.total() >= 2:
            made.append(_Kind(row, counts, counts.total(), hearts))
    return made


def _raw(kinds: _Kinds) -> float | None:
    hearts = sum(one.hearts for one in kinds)
    if not hearts:
        return None
    equal = sum(
        one.hearts * sum(k * (k - 1) for k in one.counts.values()) / (one.readings * (one.readings - 1))
        for one in kinds
    )
    return equal / hearts


def _cohen(kinds: _Kinds) -> float | None:
    if not kinds or any(len(one.row) != 2 for one in kinds):
        return None
    mine: Counter[str | None] = Counter()
    theirs: Counter[str | None] = Counter()
    same = pairs = 0
    for one in kinds:
        first, second = one.row
        mine[first] += one.hearts
        theirs[second] += one.hearts
        same += one.hearts * (first == second)
        pairs += one.hearts
    return _beyond(same / pairs, sum(mine[value] * theirs[value] for value in mine) / pairs**2)


def _fleiss(kinds: _Kinds) -> float | None:
    seen = _raw(kinds)
    if seen is None:
        return None
    values: Counter[str] = Counter()
    for one in kinds:
        for value, n in one.counts.items():
            values[value] += n * one.hearts
    whole = values.total()
    return _beyond(seen, sum((n / whole) ** 2 for n in values.values()))


def _ac1(kinds: _Kinds) -> float | None:
    seen = _raw(kinds)
    if seen is None:
        return None
    hearts = sum(one.hearts for one in kinds)
    means: dict[str, float] = {}
    for one in kinds:
        for value, n in one.counts.items():
            means[value] = means.get(value, 0.0) + one.hearts * n / one.readings / hearts
    if len(means) < 2:
        return None
    return _beyond(seen, sum(share * (1 - share) for share in means.values()) / (len(means) - 1))


def _alpha(kinds: _Kinds) -> float | None:
    whole: Counter[str] = Counter()
    differing = 0.0
    for one in kinds:
        for value, n in one.counts.items():
            whole[value] += n * one.hearts
        pairs = sum(k * (one.readings - k) for k in one.counts.values())
        differing += one.hearts * pairs / (one.readings - 1)
    total = whole.total()
    expected = sum(k * (total - k) for k in whole.values())
    return 1 - (total - 1) * differing / expected if expected else None


def _beyond(seen: float, chance: float) -> float | None:
    return (seen - chance) / (1 - chance) if chance < 1 else None


_ALL: tuple[_Coefficient, ...] = (_raw, _cohen, _fleiss, _ac1, _alpha)
