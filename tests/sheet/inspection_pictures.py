"""The pictures of an inspection the tests look at: large and small gears, few and many places, waves crowded and alone."""

from __future__ import annotations

import math

from evenpitch.sheet.drawing import Drawing
from evenpitch.sheet.drawings.deviation_curve import deviation_curve
from evenpitch.sheet.drawings.polar_runout import polar_runout
from evenpitch.sheet.drawings.rework_curve import rework_curve
from evenpitch.sheet.drawings.span_round_blank import span_round_blank
from evenpitch.sheet.drawings.waves import WaveBar, waves_picture


def _curve(count: int, *waves: tuple[int, float]) -> list[float]:
    return [sum(um * math.sin(2 * math.pi * per_turn * place / count) for per_turn, um in waves) for place in range(count)]


def pictures() -> list[Drawing]:
    """All of them."""
    wide = [
        *(WaveBar(h, 0.4, 0.5 if h > 1 else 6.6) for h in range(2, 49)),
    ]
    lettered = {1: ("A", 15.0, 96), 40: ("B", 6.0, 57)}
    bars = [
        WaveBar(1, 15.0, 6.6, "A", 96),
        *(WaveBar(one.per_turn, lettered[one.per_turn][1], 0.2, "B", 57) if one.per_turn in lettered else one for one in wide),
    ]
    return [
        deviation_curve(_curve(97, (1, 20), (40, 7)), 45, 15, 62, 8, expected=_curve(97, (1, 20)), flank="right"),
        deviation_curve(_curve(12, (1, 4)), 8, 3, 40, 8),
        deviation_curve(_curve(400, (1, 90), (3, 20)), 190, 30, 77, 8, flank="left"),
        waves_picture(bars),
        waves_picture([WaveBar(h, 2.0 / h, 0.3) for h in range(1, 7)]),
        waves_picture([WaveBar(h, 9.0 if h in (1, 2, 3) else 0.3, 0.3, {1: "A", 2: "B", 3: "C"}.get(h, ""), 28 - h) for h in range(1, 15)]),
        *(
            polar_runout([(360 * i / n, 20 * math.cos(2 * math.pi * i / n - high)) for i in range(n)], 20, 2, math.degrees(high), 12, 41)
            for n, high in ((97, 0.7), (28, 3.0), (8, 4.6), (12, 5.9))
        ),
        span_round_blank([(1, 49.31), (25, 49.305), (50, 49.3), (74, 49.308)], 0.008, 49.278, 49.328, 97, "span over 8"),
        span_round_blank([(i + 1, 49.45 + 0.02 * math.sin(i)) for i in range(97)], 0.008, 49.278, 49.328, 97, "span over 8"),
        rework_curve("span over 8", 49.452, 49.278, 49.328, 0.5124, 0.291, 0.2),
        rework_curve("over 3.658 mm pins", 210.55, 210.181, 210.376, 1.9995, 0.136, 0.05),
    ]  # fmt: skip
