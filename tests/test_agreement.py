"""Coefficients of agreement against worked examples that others published."""

from __future__ import annotations

import pytest

from chordae.compare.agreement import ac1, agreement, alpha, bootstrap, cohen, fleiss, raw


def _two(table: dict[tuple[str, str], int]) -> list[list[str | None]]:
    return [[one, other] for (one, other), n in table.items() for _ in range(n)]


def test_krippendorff_nominal_with_missing_readings() -> None:
    """Krippendorff K. Computing Krippendorff's alpha-reliability, 2011, section C: alpha 0.743."""
    observers = [
        "1 2 3 3 2 1 4 1 2 . . .",
        "1 2 3 3 2 2 4 1 2 5 . 3",
        ". 3 3 3 2 3 4 2 2 5 1 .",
        "1 2 3 3 2 4 4 1 2 5 1 .",
    ]
    rows = [
        [None if v == "." else v for v in unit] for unit in zip(*(o.split() for o in observers), strict=True)
    ]
    assert alpha(rows) == pytest.approx(0.743, abs=0.0005)


def test_fleiss_ten_subjects_fourteen_raters() -> None:
    """Worked example of textbooks after Fleiss JL, Psychol Bull 1971;76:378: kappa 0.210 (table from memory)."""
    table = [
        (0, 0, 0, 0, 14), (0, 2, 6, 4, 2), (0, 0, 3, 5, 6), (0, 3, 9, 2, 0), (2, 2, 8, 1, 1),
        (7, 7, 0, 0, 0), (3, 2, 6, 3, 0), (2, 5, 3, 2, 2), (6, 5, 2, 1, 0), (0, 2, 2, 3, 7),
    ]  # fmt: skip
    rows = [[str(at) for at, n in enumerate(row) for _ in range(n)] for row in table]
    assert fleiss(rows) == pytest.approx(0.210, abs=0.0005)


def test_gwet_paradox_table() -> None:
    """Gwet KL. Stat Methods Inter-Rater Reliab Assess 2002;1: 118/5/2/0, kappa -0.0234, AC1 0.9408 (from memory)."""
    rows = _two({("yes", "yes"): 118, ("yes", "no"): 5, ("no", "yes"): 2, ("no", "no"): 0})
    assert raw(rows) == pytest.approx(0.944)
    assert cohen(rows) == pytest.approx(-0.0234, abs=0.00005)
    assert ac1(rows) == pytest.approx(0.9408, abs=0.00005)


def test_cohen_agrees_with_scikit_learn() -> None:
    metrics = pytest.importorskip("sklearn.metrics", reason="scikit-learn (extra test) is the oracle here")
    rows = _two({("a", "a"): 20, ("a", "b"): 5, ("b", "a"): 10, ("b", "b"): 15, ("c", "b"): 3, ("c", "c"): 7})
    expected = metrics.cohen_kappa_score([r[0] for r in rows], [r[1] for r in rows])
    assert cohen(rows) == pytest.approx(expected)


def test_one_value_only_is_not_a_number() -> None:
    rows: list[list[str | None]] = [["usual", "usual"]] * 5
    assert raw(rows) == 1.0
    assert (cohen(rows), fleiss(rows), ac1(rows), alpha(rows)) == (None, None, None, None)


def test_a_silent_reader_is_left_out_not_counted_as_a_value() -> None:
    rows: list[list[str | None]] = [["a", "a", None], ["b", None, "b"], [None, None, "a"], ["a", "b", None]]
    found = agreement(rows, rounds=200)
    assert found.hearts == 3
    assert found.readings == 6
    assert found.raw.value == pytest.approx(2 / 3)
    assert found.cohen.value is None
    assert found.prevalence == {"a": 0.5, "b": 0.5}


def test_interval_holds_the_value_and_can_be_repeated() -> None:
    rows = _two({("a", "a"): 30, ("a", "b"): 6, ("b", "b"): 20})
    one, again = bootstrap(rows, fleiss, 500, 3), bootstrap(rows, fleiss, 500, 3)
    assert one == again
    assert one.value is not None and one.low is not None and one.high is not None
    assert one.low < one.value < one.high
