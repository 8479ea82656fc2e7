"""Pictures of the link: words inside and apart, light, and the figures that count said in words."""

from __future__ import annotations

import itertools
import math

import pytest

from evenpitch.sheet.drawing import Drawing, Label, Path
from evenpitch.sheet.drawings.axes import marks, rounded_range
from evenpitch.sheet.drawings.lettering import box
from evenpitch.sheet.drawings.link_timing import link_timing
from evenpitch.sheet.drawings.log_plot import Mark, log_plot
from evenpitch.sheet.drawings.rate_chart import Limit, rate_chart
from evenpitch.sheet.drawings.spacing import Share, spacing_bars
from evenpitch.sheet.print_svg import svg

TRACK = [(k * 0.4, math.sin(k / 5) - 1.0, math.sin(k / 5) + 0.4) for k in range(106)]
LATE = [(k * 0.4, -0.5 - 40 * k, 0.2 - 40 * k) for k in range(106)]
LIMITS = (
    Limit(376.0, "delay"),
    Limit(2057.0, "pulse rate"),
    Limit(2572.0, "motor speed"),
    Limit(1500.0, "count rate"),
    Limit(9e4, "torque"),
)
POINTS = [(k * 0.1, 20 * math.sin(k / 11) - (25 if k > 300 else 0)) for k in range(600)]
FITTED = [(k * 0.1, 20 * math.sin(k / 11)) for k in range(600)]
EVENTS = [
    Mark(30.05, "−4 pulses"),
    Mark(31.0, "rotor slip, −32"),
    Mark(58.0, "gap in the log"),
    Mark(2.0, "+3 pulses"),
    Mark(9.0, "more"),
]
PICTURES = [
    link_timing(TRACK, 42.35),
    link_timing(LATE, 42.35, 0.31),
    link_timing([], 10.0),
    rate_chart(60.0, 373.0, 14.0, LIMITS, 2540.0),
    rate_chart(3.0, 2e5, 7500.0, LIMITS[:1]),
    rate_chart(900.0, 60.0, 2.0, ()),
    log_plot(POINTS, FITTED, EVENTS, "arcsec"),
    log_plot(POINTS[:12], [], [], "pulses"),
    log_plot([(0.0, 1e5), (0.0, -1e5)], [], EVENTS[:1], "arcsec"),
    spacing_bars([Share("scale, too long", 3.0, "scale"), Share("worm", 7.0, "head")], 12.0, "class 8"),
]


def _labels(drawing: Drawing) -> list[Label]:
    return [item for item in drawing.items if isinstance(item, Label)]


@pytest.mark.parametrize("drawing", PICTURES, ids=lambda drawing: drawing.key)
def test_frame_words_and_weight(drawing: Drawing) -> None:
    boxes = [box(item) for item in _labels(drawing)]
    for item, (x0, y0, x1, y1) in zip(_labels(drawing), boxes, strict=True):
        assert x0 >= -0.5, item
        assert x1 <= 360.5, item
        assert y0 >= -0.5, item
        assert y1 <= drawing.height + 0.5, item
    for (a, one), (b, two) in itertools.combinations(zip(_labels(drawing), boxes, strict=True), 2):
        apart = one[2] <= two[0] or two[2] <= one[0] or one[3] <= two[1] or two[3] <= one[1]
        assert apart, (a, b)
    for item in drawing.items:
        if isinstance(item, Path):
            assert all(-1 <= x <= 361 and -1 <= y <= drawing.height + 1 for x, y in item.points)
    assert drawing.says.endswith(".")
    assert drawing.caption.endswith(".")
    assert len(svg(drawing)) < 14_000


def test_what_they_say() -> None:
    assert "held back" not in link_timing(TRACK, 42.35).says
    assert "from 0.31 mm on" in link_timing(LATE, 42.35, 0.31).says
    assert "pulse rate at 2057 mm/min" in rate_chart(60.0, 373.0, 14.0, LIMITS).says
    assert "and 1 more" in log_plot(POINTS, FITTED, EVENTS, "arcsec").says
    assert "nothing was lost" in log_plot(POINTS, FITTED, [], "arcsec").says


def test_round_marks() -> None:
    assert marks((0.0, 60.0)) == pytest.approx((0, 10, 20, 30, 40, 50, 60))
    low, high = rounded_range([-3.3, 1.2])
    assert low <= -3.3 < 1.2 <= high
