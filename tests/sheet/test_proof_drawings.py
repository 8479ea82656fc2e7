"""Pictures of a proof: what is drawn stands where the readings put it, to scale."""

from __future__ import annotations

import pytest

from evenpitch.sheet.drawing import Label, Line, Path
from evenpitch.sheet.drawings.indicator_along_scale import indicator_along_scale
from evenpitch.sheet.drawings.one_block_three_places import BlockShown, one_block_three_places
from evenpitch.sheet.drawings.scale_calibration import ErrorAt, LineFound, scale_calibration

NEAR = [BlockShown("left", -16, 4), BlockShown("middle", -18, 4), BlockShown("right", -21, 4)]
WORDS = "−183 ± 39 µm in a metre"


def ticks(drawing) -> dict[float, float]:
    """µm on the upright scale, and where they stand."""
    found = {}
    for item in drawing.items:
        if isinstance(item, Label) and item.anchor == "end" and not item.bold and not item.text.endswith("mm"):
            found[float(item.text.replace("−", "-"))] = item.at[1] + 5
    return found


def to_um(drawing, y: float) -> float:
    marks = sorted(ticks(drawing).items())
    (low, at_low), (high, at_high) = marks[0], marks[-1]
    return low + (y - at_low) / (at_high - at_low) * (high - low)


def diamonds(drawing, fill: str) -> list[tuple[float, float]]:
    """Centres of the small closed shapes of one filling."""
    shapes = [item for item in drawing.items if isinstance(item, Path) and item.fill == fill and len(item.points) == 4]
    shapes = [one for one in shapes if max(x for x, _ in one.points) - min(x for x, _ in one.points) < 15]
    return [(sum(x for x, _ in one.points) / 4, sum(y for _, y in one.points) / 4) for one in shapes]


def test_the_block_stands_where_it_was_read():
    drawn = one_block_three_places([*NEAR, BlockShown("middle", -17, 4, cutter=True)], WORDS, 100)
    solid = sorted(diamonds(drawn, "ink"))
    assert [to_um(drawn, y) for _, y in solid] == pytest.approx([-16, -18, -21], abs=0.1)
    ((x, y),) = diamonds(drawn, "paper")
    assert to_um(drawn, y) == pytest.approx(-17, abs=0.1)
    assert solid[1][0] < x < solid[2][0]
    (mean,) = [item for item in drawn.items if isinstance(item, Line) and item.cls == "thick"]
    assert to_um(drawn, mean.start[1]) == pytest.approx(-55 / 3, abs=0.1)


def test_bars_and_hatching_are_as_wide_as_the_doubt():
    drawn = one_block_three_places(NEAR, WORDS, 100)
    bars = [item for item in drawn.items if isinstance(item, Line) and item.start[0] == item.end[0] and item.start[0] > 70]
    heights = [to_um(drawn, one.end[1]) - to_um(drawn, one.start[1]) for one in bars]
    assert heights == pytest.approx([8, 8, 8], abs=0.2)
    (band,) = [item for item in drawn.items if isinstance(item, Path) and item.fill == "hatch"]
    assert to_um(drawn, max(y for _, y in band.points)) == pytest.approx(-55 / 3 + 4, abs=0.1)


def test_the_indicator_has_six_boxes_and_only_the_readings_given():
    for on_top, said in (((), 0), ((0, 0.02, None), 2), ((0, 0.02, 0.03), 3)):
        drawn = indicator_along_scale(on_top)
        boxes = [item for item in drawn.items if isinstance(item, Path) and item.fill == "none"]
        assert len(boxes) == 6
        assert sum(isinstance(item, Label) and item.text in ("0", "+0.02", "+0.03") for item in drawn.items) == said


def test_a_scale_is_drawn_both_ways_with_its_line():
    errors = [ErrorAt(at, -0.18 * at + (1 if side == "up" else -1), side) for side in ("up", "down") for at in (0.0, 50.0, 100.0)]
    drawn = scale_calibration(errors, LineFound(50, -9, -0.18, 0.5), WORDS)
    up, down = sorted(diamonds(drawn, "ink")), sorted(diamonds(drawn, "none"))
    assert [to_um(drawn, y) for _, y in up] == pytest.approx([1, -8, -17], abs=0.15)
    assert [to_um(drawn, y) for _, y in down] == pytest.approx([-1, -10, -19], abs=0.15)
    (line,) = [item for item in drawn.items if isinstance(item, Line) and item.cls == "thick"]
    assert [to_um(drawn, line.start[1]), to_um(drawn, line.end[1])] == pytest.approx([0, -18], abs=0.15)
    assert "most is left" in drawn.says
