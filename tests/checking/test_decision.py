"""Zones of ISO 14253-1: only beyond all doubt does a reading pass or fail."""

from __future__ import annotations

import pytest

from evenpitch.checking.decision import decide, settling, worst


@pytest.mark.parametrize(
    ("value", "U", "most", "says"),
    [(45, 15, 62, "pass"), (45, 15, 44, "not proven"), (12, 4, 17, "pass"), (45, 30, 62, "not proven"), (80, 15, 62, "fail")],
)
def test_one_limit(value: float, U: float, most: float, says: str) -> None:
    """The first three are the worked example of the wheel: F_p 45 ± 15 against class 8 and 7, f_p 12 ± 4 (own figures)."""
    assert decide(value, U, most=most) == says


@pytest.mark.parametrize(
    ("value", "says"), [(49.303, "pass"), (49.323, "not proven"), (49.452, "fail"), (49.20, "fail"), (49.28, "not proven")]
)
def test_two_limits(value: float, says: str) -> None:
    assert decide(value, 0.008, least=49.278, most=49.328) == says


def test_a_doubt_wider_than_the_limits_proves_nothing_inside() -> None:
    assert decide(49.303, 0.03, least=49.278, most=49.328) == "not proven"
    assert decide(49.303, 0.03) == "not proven"


def test_the_worst_decides_and_nothing_is_not_proven() -> None:
    assert worst(("pass", "not proven", "fail")) == "fail"
    assert worst(("pass", "not proven")) == "not proven"
    assert worst(("pass",)) == "pass"
    assert worst(()) == "not proven"


def test_what_would_settle_it() -> None:
    assert settling(45, most=44) == 1
    assert settling(49.30, least=49.278, most=49.328) == pytest.approx(0.022)
