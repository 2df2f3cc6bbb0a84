"""Agreement on many fields as text, table and JSON; every number that is not defined is shown as such."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from chordae.compare.agreement import Interval
from chordae.compare.fields import Field
from chordae.compare.grounds import grounds

__all__ = ["to_json", "to_text", "to_tsv"]

_COEFFICIENTS = ("raw", "cohen", "fleiss", "ac1", "alpha")


def to_text(found: Sequence[Field]) -> str:
    """Return the table for a terminal, with 95 % intervals of AC1 and alpha."""
    head = f"{'field':<58}{'hearts':>7}{'raw':>6}{'kappa':>7}{'AC1':>6}{'':>15}{'alpha':>7}{'':>15}{'partial':>8}"
    lines = [f"{head}  prevalence"]
    labels = dict(grounds().segments)
    segment = ""
    for one in found:
        if one.segment != segment:
            segment = one.segment
            lines += ["", labels[segment]]
        told = one.agreement
        kappa = told.cohen if told.cohen.value is not None else told.fleiss
        shown = f"{one.label[:56]:<58}{told.hearts:>7}{_two(told.raw.value):>6}"
        if one.numbers is not None or one.mean_difference is not None:
            mean = f"mean difference {one.mean_difference:.1f}" if one.mean_difference is not None else ""
            lines.append(f"{shown}{'':>7}{'':>6}{'':>15}{_two(one.numbers):>7}{'':>15}{'':>8}  {mean}")
            continue
        most = sorted(told.prevalence.items(), key=lambda item: -item[1])[:3]
        prevalence = ", ".join(f"{value.replace('_', ' ')} {100 * share:.0f} %" for value, share in most)
        lines.append(
            f"{shown}{_two(kappa.value):>7}{_two(told.ac1.value):>6}{_range(told.ac1):>15}"
            f"{_two(told.alpha.value):>7}{_range(told.alpha):>15}{_two(one.partial):>8}  {prevalence}"
        )
    lines += ["", *(f"{line}" for line in _NOTES)]
    return "\n".join(lines) + "\n"


_NOTES = (
    "raw: share of equal pairs of readings. kappa: Cohen's of two readers, Fleiss' of more. AC1: Gwet's. alpha:",
    "Krippendorff's, of squared differences for numbers. In brackets: 95 % bootstrap interval over hearts, from ten",
    "hearts on. partial: a wider word for the same counts in part. A dash: not defined (one value only). Silence is",
    "left out.",
)


def to_tsv(found: Sequence[Field]) -> str:
    """Return every number as a table, tab-separated; an empty cell where a number is not defined."""
    head = ["segment", "part", "property", "hearts", "readings"]
    head += [f"{name}{end}" for name in _COEFFICIENTS for end in ("", "_low", "_high")]
    head += ["partial_credit", "alpha_numbers", "mean_difference", "prevalence"]
    lines = ["\t".join(head)]
    for one in found:
        told = one.agreement
        cells: list[Any] = [one.segment, one.area, one.slot, told.hearts, told.readings]
        for name in _COEFFICIENTS:
            interval: Interval = getattr(told, name)
            cells += [_four(interval.value), _four(interval.low), _four(interval.high)]
        prevalence = "; ".join(f"{value} {share:.4f}" for value, share in told.prevalence.items())
        cells += [_four(one.partial), _four(one.numbers), _four(one.mean_difference), prevalence]
        lines.append("\t".join(" ".join(str(cell).split()) for cell in cells))
    return "\n".join(lines) + "\n"


def to_json(found: Sequence[Field]) -> str:
    """Return every number as JSON; ``null`` where a number is not defined."""
    import orjson

    rows = []
    for one in found:
        told = one.agreement
        row: dict[str, Any] = {
            "segment": one.segment, "part": one.area, "property": one.slot, "label": one.label,
            "hearts": told.hearts, "readings": told.readings,
        }  # fmt: skip
        for name in _COEFFICIENTS:
            interval: Interval = getattr(told, name)
            row[name] = {"value": interval.value, "low": interval.low, "high": interval.high}
        row |= {
            "partial_credit": one.partial, "alpha_numbers": one.numbers,
            "mean_difference": one.mean_difference, "prevalence": told.prevalence,
        }  # fmt: skip
        rows.append(row)
    return orjson.dumps(rows, option=orjson.OPT_INDENT_2).decode() + "\n"


def _two(value: float | None) -> str:
    return "-" if value is None else f"{value:.2f}"


def _four(value: float | None) -> str:
    return "" if value is None else f"{value:.4f}"


def _range(interval: Interval) -> str:
    return "" if interval.low is None or interval.high is None else f"[{interval.low:.2f} {interval.high:.2f}]"
