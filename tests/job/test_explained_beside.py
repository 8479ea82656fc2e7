"""What the readings are explained by beside themselves: what the eye saw, what was to be expected, what the log of the link shows."""

from __future__ import annotations

import math

import pytest

from evenpitch.job.explaining import NOTHING_KNOWN, Known
from evenpitch.job.found_beside import Logged
from evenpitch.job.judging import Verdict, judge
from evenpitch.job.plan import Plan
from evenpitch.job.predicting import expected_of
from evenpitch.job.seen import Contact, Seen
from evenpitch.link.prediction import Expected, Quantile
from evenpitch.store.files.readings import read_inspection
from job.inspection_cases import scattered, steps, table, the_wheel
from job.shop import pinion


def _judged(rows: list[str], known: Known = NOTHING_KNOWN, made: Plan | None = None) -> Verdict:
    return judge(made or the_wheel(), read_inspection(table(rows)), known=known)


def _first(marks: float | None = None, contact: Contact | None = None, made: Plan | None = None) -> tuple[str, str]:
    span = (made or the_wheel()).gears[0].form_cut
    found = _judged([f"span,1,,,{span.span:.3f},{span.spanned}"], Known(Seen(marks, contact)), made)
    return found.causes[-1].code, found.causes[-1].evidence


def test_marks_are_held_against_the_feed_for_a_turn_and_for_a_tooth() -> None:
    """83 rpm and 3 in/min (the wheel's own figures): 76.2/83 = 0.918 mm a turn, twelve teeth: 0.0765 mm a tooth. 0.4 mm is neither:
    76.2 mm/min past marks of 0.4 mm are 3.2 in a second.
    """
    assert _first(0.92)[0] == "cutter runs out"
    assert "a turn of the cutter is 0.92 mm, a tooth 0.077" in _first(0.92)[1]
    assert _first(0.0765)[0] == "feed marks"
    assert _first(0.4)[0] == "chatter"
    assert "they come 3.2 times a second" in _first(0.4)[1]


@pytest.mark.parametrize(
    ("contact", "helical", "code"),
    [("one end", False, "axes"), ("one end", True, "lead"), ("tips", False, "form"), ("roots", True, "form")],
)
def test_where_the_blue_rubs(contact: Contact, helical: bool, code: str) -> None:
    found, evidence = _first(contact=contact, made=pinion() if helical else None)
    assert found == code
    if code == "lead":
        assert "µm over the face" in evidence


def test_an_even_contact_is_no_cause() -> None:
    span = the_wheel().gears[0].form_cut
    assert _judged([f"span,1,,,{span.span:.3f},8"], Known(Seen(contact="even"))).causes == ()


@pytest.mark.parametrize(("more", "says"), [(0.04, "heavy at the tips"), (-0.04, "hollow at the tips"), (0.005, "")])
def test_spans_over_few_and_many_teeth_tell_the_form(more: float, says: str) -> None:
    """Each stands against its own limits: depth moves both alike, so what is left between them is the form."""
    few, many = (
        judge(the_wheel(), read_inspection(table([f"span,1,,,{value},{k}"]))).sizes[0] for k, value in ((6, 36.8), (10, 62.05))
    )
    at = [(one.least + one.most) / 2 for one in (few, many)]
    rows = [f"span,{space},,,{value:.4f},{k}" for k, value in ((6, at[0]), (10, at[1] + more)) for space in (1, 25, 49, 73)]
    found = [cause for cause in _judged(rows).causes if cause.code == "form"]
    assert bool(found) == bool(says)
    if says:
        assert says in found[0].cause
        assert "was expected to leave the tips" in found[0].evidence


def _slip(um: float, first: int) -> list[str]:
    places = [um if space >= first else 0.0 for space in range(1, 98)]
    return steps(lambda space: places[space % 97] - places[space - 1] + scattered(space), 4)


def test_what_the_log_lost_is_named_first_where_the_spacing_shows_it() -> None:
    log = (Logged(9, "lost pulses", -35.0, 117.0),)
    found = _judged(_slip(-117.0, 10), Known(log=log))
    assert found.causes[0].code == "logged slip"
    assert "35 lost pulses in space 9, 117 µm" in found.causes[0].cause
    assert [line.says for line in found.beside] == ["the same loss"]
    assert all(cause.rank > 1 for cause in found.causes[1:] if abs(cause.size - found.causes[0].size) < 1e-9)


def test_a_log_that_shows_another_loss_or_none_says_so() -> None:
    elsewhere = _judged(_slip(-117.0, 10), Known(log=(Logged(60, "lost pulses", -35.0, 117.0),)))
    assert "logged slip" not in {cause.code for cause in elsewhere.causes}
    assert elsewhere.beside[0].found == "not seen"
    clean = _judged(_slip(-117.0, 10), Known(log=()))
    assert clean.beside[0].says == "what jumps in the spacing is not of the pulses"


def _quantile(name: str, symbol: str, p50: float, p95: float) -> Quantile:
    return Quantile(name, symbol, p50, p95, tuple(range(1, 12)))


def test_more_than_was_to_be_expected_is_said() -> None:
    told = Expected((_quantile("single_pitch", "f_p", 5, 8), _quantile("cumulative_pitch", "F_p", 20, 900)), (0.0,) * 11, 9, 1000)
    rows = steps(lambda space: 60.0 * math.sin(2 * math.pi * 3 * space / 97) + scattered(space), 4)
    lines = {line.what: line for line in _judged(rows, Known(predicted=told)).beside}
    assert lines["single pitch, right flank"].odd
    assert "something beside the known errors" in lines["single pitch, right flank"].says
    assert not lines["total pitch, right flank"].odd


def test_what_this_rig_leaves_is_drawn_as_the_prediction_draws_it() -> None:
    """The same figures as `predict`, which draws more of them: within what a thousand draws scatter."""
    made = the_wheel()
    few, many = (expected_of(made.order, made.gears[0], draws) for draws in (1000, 8000))
    for name in ("single_pitch", "cumulative_pitch"):
        assert few.quantile(name).p95 == pytest.approx(many.quantile(name).p95, rel=0.06)
