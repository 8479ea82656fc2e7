"""Pictures hold: words inside the frame and clear of each other, directions right by vectors, angles and radii true."""

from __future__ import annotations

import importlib.util
import itertools
import math
from fractions import Fraction
from pathlib import Path as FilePath

import pytest

from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import outside_diameter, root_diameter
from evenpitch.gear.thickness import thickness_at
from evenpitch.job.direction import direction
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.units import Millimetre, degrees
from evenpitch.sheet.drawing import Arrow, Block, Circle, Drawing, Label, Path
from evenpitch.sheet.drawings.bracket import chain_of, gear_bracket, turns_alike
from evenpitch.sheet.drawings.floor_plan import View, cutter_plane, nose_direction, tooth_line, top_of_work_moves
from evenpitch.sheet.drawings.gauge import verdict_gauge
from evenpitch.sheet.drawings.lettering import apart, box, text_width, wrap
from evenpitch.sheet.drawings.machine import machine_from_above_head, machine_from_above_table
from evenpitch.sheet.drawings.machine_arrows import feed, inset
from evenpitch.sheet.drawings.plate import index_plate
from evenpitch.sheet.drawings.points import minus, nice
from evenpitch.sheet.drawings.ring import ring_of_spaces
from evenpitch.sheet.drawings.scratch import scratch_slope
from evenpitch.sheet.drawings.space import CutterShown, error_at
from evenpitch.sheet.drawings.tooth_form import end_form, half_width, land_radius
from evenpitch.sheet.print_svg import svg


def _load_samples():
    spec = importlib.util.spec_from_file_location("pictures_drawn", FilePath(__file__).with_name("pictures_drawn.py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


SAMPLES = _load_samples()
PICTURES: list[Drawing] = SAMPLES.pictures()
OUTLINES: list[Drawing] = SAMPLES.outlines()
HANDS = ("right", "left")
SIDES = ("left", "right")
SWINGS = ("table", "milling head")


def _name(drawing: Drawing) -> str:
    return drawing.key


def _labels(drawing: Drawing) -> list[Label]:
    return [item for item in drawing.items if isinstance(item, Label)]


def _corners(label: Label, pen: float) -> list[tuple[float, float]]:
    """The four corners of a label, turned with it, a unit inside its room."""
    size = label.size * pen
    wide = text_width(label.text, label.bold, size)
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[label.anchor]
    a = math.radians(label.turn)
    flat = [
        (left + pen, -0.2 * size),
        (left + wide - pen, -0.2 * size),
        (left + wide - pen, 0.74 * size),
        (left + pen, 0.74 * size),
    ]
    return [(label.at[0] + x * math.cos(a) - y * math.sin(a), label.at[1] + x * math.sin(a) + y * math.cos(a)) for x, y in flat]


def _overlap(one: list[tuple[float, float]], two: list[tuple[float, float]]) -> bool:
    """Whether two convex four-cornered pieces overlap: no side of either parts them."""
    for shape in (one, two):
        for (x0, y0), (x1, y1) in zip(shape, shape[1:] + shape[:1], strict=True):
            normal = (y1 - y0, x0 - x1)
            first = [normal[0] * x + normal[1] * y for x, y in one]
            second = [normal[0] * x + normal[1] * y for x, y in two]
            if max(first) <= min(second) + 1e-9 or max(second) <= min(first) + 1e-9:
                return False
    return True


@pytest.mark.parametrize("drawing", PICTURES + OUTLINES, ids=_name)
def test_every_picture_says_what_it_finds(drawing: Drawing) -> None:
    assert drawing.title
    assert len(drawing.says) > 20
    assert drawing.says.endswith((".", "?"))
    assert drawing.caption.endswith(".")
    assert "  " not in drawing.says + drawing.caption


@pytest.mark.parametrize("drawing", PICTURES + OUTLINES, ids=_name)
def test_words_stay_inside_the_frame(drawing: Drawing) -> None:
    left, low = drawing.corner
    for label in _labels(drawing):
        x0, y0, x1, y1 = box(label, drawing.pen)
        assert x0 >= left - 0.5 * drawing.pen, label
        assert y0 >= low - 0.5 * drawing.pen, label
        assert x1 <= left + drawing.width + 0.5 * drawing.pen, label
        assert y1 <= low + drawing.height + 0.5 * drawing.pen, label


@pytest.mark.parametrize("drawing", PICTURES + OUTLINES, ids=_name)
def test_words_keep_clear_of_each_other(drawing: Drawing) -> None:
    for one, two in itertools.combinations(_labels(drawing), 2):
        assert not _overlap(_corners(one, drawing.pen), _corners(two, drawing.pen)), (one, two)


@pytest.mark.parametrize("drawing", PICTURES, ids=_name)
def test_words_are_ten_points_tall_on_paper(drawing: Drawing) -> None:
    """A picture is printed 82 mm wide; a point is 25.4/72 mm."""
    assert drawing.width == 360
    for label in _labels(drawing):
        assert label.size * 82 / 360 / (25.4 / 72) >= 10


@pytest.mark.parametrize("drawing", PICTURES, ids=_name)
def test_strokes_stay_inside_the_frame(drawing: Drawing) -> None:
    for item in drawing.items:
        if isinstance(item, (Path, Arrow)):
            assert all(-1 <= x <= 361 and -1 <= y <= drawing.height + 1 for x, y in item.points), item
        if isinstance(item, Circle):
            assert item.radius <= item.centre[0] <= 360 - item.radius


@pytest.mark.parametrize("drawing", PICTURES, ids=_name)
def test_pictures_are_light(drawing: Drawing) -> None:
    """A plate carries every hole of every circle; anything else stays under nine thousand bytes."""
    holes = sum(isinstance(item, Circle) for item in drawing.items)
    assert len(svg(drawing)) < 9000 + (45 * holes if drawing.key == "index-plate" else 0)


def _view(hand: str, feeds: str, swings: str, beta: float = 20.0) -> View:
    return View(beta, hand, "left", feeds, 20, 63.594, 63, True, swings)


def _groove_on_top(hand: str, beta: float) -> tuple[float, float]:
    """From above, x to the right and y away: the groove at the top of a helix, from the vectors of a screw.

    A right-hand screw about x: (u, r cos p, r sin p) with p rising with u. At the top p is a quarter turn, so dy/du = −r dp/du.
    """
    rise = math.tan(math.radians(beta)) * (1 if hand == "right" else -1)
    length = math.hypot(1.0, rise)
    return 1 / length, -rise / length


def _turned(vector: tuple[float, float], angle: float) -> tuple[float, float]:
    a = math.radians(angle)
    return vector[0] * math.cos(a) - vector[1] * math.sin(a), vector[0] * math.sin(a) + vector[1] * math.cos(a)


@pytest.mark.parametrize("swings", SWINGS)
@pytest.mark.parametrize("feeds", SIDES)
@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("beta", [1.0, 20.0, 45.0])
def test_the_groove_at_the_top_lies_in_the_plane_of_the_cutter(hand: str, feeds: str, swings: str, beta: float) -> None:
    view = _view(hand, feeds, swings, beta)
    groove = _turned(_groove_on_top(hand, beta), view.table_turn)
    assert groove == pytest.approx(tooth_line(view), abs=1e-12)
    plane, arbor = cutter_plane(view), nose_direction(view)
    assert groove[0] * plane[1] - groove[1] * plane[0] == pytest.approx(0, abs=1e-12)
    assert plane[0] * arbor[0] + plane[1] * arbor[1] == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("swings", SWINGS)
@pytest.mark.parametrize("feeds", SIDES)
@pytest.mark.parametrize("hand", HANDS)
def test_the_work_turns_so_that_the_groove_stays_under_the_cutter(hand: str, feeds: str, swings: str) -> None:
    """Along the axis the work moves by ds to the feed; the groove that then comes under the cutter stood ds to the other side.

    Its place across the top was slope × that; the top must carry it back to the middle.
    """
    view = _view(hand, feeds, swings)
    x, y = _groove_on_top(hand, view.beta)
    moved = -1.0 if feeds == "left" else 1.0
    carried = -(y / x) * -moved
    across = _turned(top_of_work_moves(view), -view.table_turn)
    assert across[0] == pytest.approx(0, abs=1e-12)
    assert math.copysign(1, across[1]) == math.copysign(1, carried)
    assert view.near_side_rises == (across[1] > 0)


@pytest.mark.parametrize("swings", SWINGS)
@pytest.mark.parametrize("feeds", SIDES)
@pytest.mark.parametrize("hand", HANDS)
def test_pictures_say_what_the_direction_table_says(hand: str, feeds: str, swings: str) -> None:
    draw = machine_from_above_table if swings == "table" else machine_from_above_head
    says = draw(20, hand, "left", feeds, 20, 63.594, 63).says
    table = direction(hand, degrees(20), swings, feeds)
    assert table.work in says.replace("near side of the work", "near side")
    assert f"cutter turns {table.cutter.split(',')[0]}" in says
    if swings == "table":
        assert f"{hand}-hand end of the table away" in says
        assert f"{hand}-hand end" in table.push
    else:
        nose = "left" if hand == "right" else "right"
        assert f"to your {nose}" in says
        assert table.push.endswith(f"your {nose}")


@pytest.mark.parametrize("hand", HANDS)
def test_the_right_end_goes_away_for_a_right_hand_helix(hand: str) -> None:
    """Machinery Repairman, NAVEDTRA 12204-A, ch. 14: right-hand helix, push with the right hand; the nose by vectors."""
    assert math.copysign(1, _view(hand, "left", "table").table_turn) == (1 if hand == "right" else -1)
    nose = nose_direction(_view(hand, "left", "milling head"))
    assert (nose[0] < 0) == (hand == "right")
    assert nose[1] < 0


@pytest.mark.parametrize("swings", SWINGS)
@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("feeds", SIDES)
def test_the_cutter_turns_against_the_feed(hand: str, feeds: str, swings: str) -> None:
    """Facing the column: the lower teeth move the other way from the table, so over the top they move with it."""
    view = _view(hand, feeds, swings)
    items = inset(view)
    over = next(item for item in items if isinstance(item, Arrow))
    table_moves = next(item for item in items if isinstance(item, Block))
    top_moves = over.points[-1][0] - over.points[0][0]
    assert math.copysign(1, top_moves) == math.copysign(1, table_moves.end[0] - table_moves.start[0])
    assert (table_moves.end[0] < table_moves.start[0]) == (feeds == "left")
    along = next(item for item in feed(view) if isinstance(item, Block))
    assert (along.end[0] < along.start[0]) == (feeds == "left")


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("beta", [1.25, 20.0, 45.0])
def test_the_scratch_leans_as_the_groove(hand: str, beta: float) -> None:
    x, y = _groove_on_top(hand, beta)
    assert scratch_slope(hand, beta) == pytest.approx(math.degrees(math.atan2(y, x)))


def test_a_table_standing_square_moves_nothing() -> None:
    view = View(0, "none", "left", "left", 19, 209, 70, True, "table")
    assert top_of_work_moves(view) == (0, 0)
    assert tooth_line(view) == pytest.approx((1, 0))
    assert "stands still" in machine_from_above_table(0, "none", "left", "left", 19, 209, 70).says


def test_holes_stand_at_their_true_angles() -> None:
    drawing = index_plate(SAMPLES.PLATES[0], 20, 8)
    centre = next(item.centre for item in drawing.items if isinstance(item, Circle))
    holes = [i for i in drawing.items if isinstance(i, Circle) and i.fill in ("ink", "paper") and i.centre != centre]
    assert len(holes) == 20
    angles = sorted(math.degrees(math.atan2(h.centre[1] - centre[1], h.centre[0] - centre[0])) % 360 for h in holes)
    assert angles == pytest.approx([18.0 * k for k in range(20)], abs=0.05)
    filled = [h for h in holes if h.fill == "ink"]
    at = sorted(math.degrees(math.atan2(h.centre[1] - centre[1], h.centre[0] - centre[0])) for h in filled)
    assert at == pytest.approx([90 - 8 * 18, 90], abs=0.05)


@pytest.mark.parametrize("clockwise", [True, False])
def test_sector_arms_stand_outside_the_two_pins(clockwise: bool) -> None:
    drawing = index_plate(SAMPLES.PLATES[2], 49, 13, crank_clockwise=clockwise)
    centre = next(item.centre for item in drawing.items if isinstance(item, Circle))
    arms = [item for item in drawing.items if isinstance(item, Path)]
    way = -1 if clockwise else 1
    turned = []
    for arm in arms:
        for x, y in arm.points:
            turned.append((way * (math.degrees(math.atan2(y - centre[1], x - centre[0])) - 90) + 180) % 360 - 180)
    between = 13 * 360 / 49
    assert not [angle for angle in turned if 0 <= angle <= between]


def test_a_plate_counts_spaces_and_holes() -> None:
    """20 circle: 8 spaces are 9 holes (job of 97 teeth, differential)."""
    assert "20 circle: 8 spaces = 9 holes" in index_plate(SAMPLES.PLATES[0], 20, 8).says
    assert "21 circle: 1 turn + 9 spaces = 10 holes" in index_plate(SAMPLES.PLATES[1], 21, 9, turns=1).says


def test_pitch_circles_are_in_proportion_and_touch() -> None:
    drawing = gear_bracket((48,), (40,), (56,))
    circles = [item for item in drawing.items if isinstance(item, Circle) and item.cls == "thick"]
    first, idler, last = circles
    assert first.radius / last.radius == pytest.approx(48 / 40, rel=0.005)
    assert idler.radius / last.radius == pytest.approx(56 / 40, rel=0.005)
    for one, two in itertools.pairwise(circles):
        assert math.dist(one.centre, two.centre) == pytest.approx(one.radius + two.radius, abs=0.3)


def test_a_stud_carries_the_first_driven_and_the_second_driver() -> None:
    """72 and 48 drive 40 and 32 on a ¼ in screw and 40:1: the stud carries one of each."""
    table, stud, worm = chain_of((48, 72), (32, 40), (), "lead")
    assert (table.forward, stud.back, stud.forward, worm.back) == (48, 32, 72, 40)


@pytest.mark.parametrize(
    ("drivers", "idlers", "alike"), [((48,), (), False), ((48,), (56,), True), ((48, 72), (), True), ((48, 72), (24,), False)]
)
def test_each_mesh_turns_the_sense_over(drivers: tuple[int, ...], idlers: tuple[int, ...], alike: bool) -> None:
    assert turns_alike(drivers, idlers) == alike
    shafts = chain_of(drivers, (32,) * len(drivers), idlers, "lead")
    assert (len(shafts) % 2 == 1) == alike


def _gear(teeth: int, module: float, angle: float, helix: float = 0.0, hand: str = "none") -> Gear:
    return Gear(
        teeth=teeth,
        pitch=Pitch("module", Fraction(module)),
        module=Millimetre(module),
        pressure_angle=degrees(angle),
        helix=degrees(helix),
        hand=hand,
    )


GEARS = [
    _gear(97, 2.1166666666666667, 14.5),
    _gear(28, 2.0, 20.0, 20.0, "right"),
    _gear(56, 2.0, 20.0, 20.0, "left"),
    _gear(12, 2.0, 20.0),
]


@pytest.mark.parametrize("gear", GEARS, ids=lambda gear: str(gear.teeth))
def test_the_end_form_is_the_gear(gear: Gear) -> None:
    seen = end_form(gear)
    assert 2 * seen.tip_radius == pytest.approx(outside_diameter(gear), abs=1e-9)
    assert 2 * seen.root_radius == pytest.approx(root_diameter(gear), abs=1e-9)
    for share in (0.2, 0.5, 0.9):
        radius = max(seen.base_radius, seen.root_radius) * (1 - share) + seen.tip_radius * share
        assert 2 * radius * seen.half_tooth(radius) == pytest.approx(thickness_at(gear, Millimetre(2 * radius)), abs=1e-9)


def _outline_of(teeth: int) -> tuple[tuple[float, float], ...]:
    drawing = next(d for d in OUTLINES if d.key == "outline" and d.says.startswith(f"{teeth} teeth"))
    return next(item.points for item in drawing.items if isinstance(item, Path))


@pytest.mark.parametrize("teeth", [97, 28, 56, 12, 5])
def test_an_outline_keeps_its_radii_and_its_teeth(teeth: int) -> None:
    form = SAMPLES.FORMS[teeth]
    points = _outline_of(teeth)
    radii = [math.hypot(x, y) for x, y in points]
    assert max(radii) == pytest.approx(land_radius(form), abs=1e-9)
    assert min(radii) == pytest.approx(form.root_radius, abs=1e-9)
    angles = [math.atan2(y, x) for x, y in points]
    turns = [(b - a + math.pi) % (2 * math.pi) - math.pi for a, b in itertools.pairwise([*angles, angles[0]])]
    assert sum(turns) == pytest.approx(2 * math.pi)
    middle = (max(radii) + min(radii)) / 2
    crossings = sum((a - middle) * (b - middle) < 0 for a, b in itertools.pairwise([*radii, radii[0]]))
    assert crossings == 2 * teeth


@pytest.mark.parametrize("teeth", [97, 28, 12])
def test_chords_stay_within_a_micrometre_of_the_involute(teeth: int) -> None:
    """The middle of every chord on a flank, against the involute: unwound string of length rb t, by its own equations."""
    form = SAMPLES.FORMS[teeth]
    points = _outline_of(teeth)
    worst = 0.0
    for (x0, y0), (x1, y1) in itertools.pairwise(points):
        r0, r1 = math.hypot(x0, y0), math.hypot(x1, y1)
        if abs(r1 - r0) < 1e-9 or min(r0, r1) < form.base_radius - 1e-9:
            continue
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        start = form.half_tooth(form.base_radius)
        step = 2 * math.pi / form.teeth
        off = (math.atan2(y, x) - math.pi / 2 + step / 2) % step - step / 2
        r = math.hypot(x, y)
        roll = math.sqrt(max(0.0, (r / form.base_radius) ** 2 - 1))
        true = start - (roll - math.atan(roll))
        worst = max(worst, abs(r * (abs(off) - true)) * form.base_radius / r)
    assert 0 < worst < 0.001


def test_cutter_errors_of_97_teeth() -> None:
    """97 teeth, 12 DP, 14½°: No. 2 made for 55 is 90 µm off at the tip, a No. 1 made for 135 leaves 33 (derived here)."""
    tip = error_at(SAMPLES.A97, CutterShown("No. 2", 55), 0.9816 * SAMPLES.A97.addendum)
    assert tip == pytest.approx(90, abs=1)
    assert error_at(SAMPLES.A97, CutterShown("No. 1", 135), 0.9816 * SAMPLES.A97.addendum) == pytest.approx(-33, abs=1)
    drawing = next(d for d in PICTURES if d.key == "tooth-space" and "97 teeth, 12 DP" in d.says)
    words = {label.text for label in _labels(drawing)}
    assert {f"tip: takes {tip:.0f} µm", "tip: leaves 33 µm", "cutter, difference × 5"} <= words


def test_half_width_at_the_pitch_line_is_a_quarter_pitch() -> None:
    """An even gear: tooth and space alike on the pitch circle; the chord differs from the arc by its sagitta only."""
    form = SAMPLES.A97
    angle = math.pi / 2 / form.teeth
    on_circle = form.pitch_radius * math.cos(angle) - form.pitch_radius
    assert half_width(form, on_circle) == pytest.approx(form.pitch_radius * math.sin(angle), abs=1e-9)


def test_the_ladder_is_to_scale_and_corrected_for_the_blank() -> None:
    """Blank found 209.49: 4.566 − 0.030 = 4.536 from metal."""
    drawing = next(d for d in PICTURES if d.key == "depth-ladder" and "209.49" in d.says)
    assert "4.566 − 0.030 = 4.536" in drawing.says
    assert "178.6 thou" in drawing.says
    assert "161.4 thou" in drawing.says


def test_the_ring_counts_what_is_cut() -> None:
    drawing = ring_of_spaces(97, range(1, 62), 62)
    assert "61 of 97 spaces cut; the cutter stands over space 62" in drawing.says
    words = [label.text for label in _labels(drawing)]
    assert {"62", "10", "20", "cut 61 of 97", "36 left"} <= set(words)
    assert "60" not in words


@pytest.mark.parametrize(
    ("value", "uncertainty", "most", "fill"),
    [(45, 15, 62, "none"), (45, 15, 44, "hatch"), (12, 4, 17, "none"), (80, 5, 62, "close")],
)
def test_a_reading_stands_in_the_zone_of_its_verdict(value: float, uncertainty: float, most: float, fill: str) -> None:
    """45 ± 15 passes 62 and is not proven for 44; 12 ± 4 passes 17: the whole bar clears the limit, or does not."""
    drawing = verdict_gauge("pitch", value, uncertainty, "as given", most=most, unit="µm", digits=0)
    diamond = next(item for item in drawing.items if isinstance(item, Path) and item.fill == "ink")
    x = diamond.points[1][0]
    zones = [item for item in drawing.items if isinstance(item, Path) and item.fill != "ink"]
    assert [z.fill for z in zones if min(p[0] for p in z.points) <= x <= max(p[0] for p in z.points)] == [fill]


def test_words_wrap_and_move_apart() -> None:
    assert " ".join(wrap("through paper t thick: knee goes t further", 90)) == "through paper t thick: knee goes t further"
    assert all(text_width(line) <= 120 for line in wrap("through paper t thick: knee goes t further", 120))
    placed = apart([10, 12, 300], [40, 40, 60], 0, 320)
    assert placed == pytest.approx((20, 60, 290))
    assert apart([50, 200], [20, 20], 0, 320) == (50, 200)


@pytest.mark.parametrize(("least", "found"), [(0.3, 0.5), (1, 1), (6.1, 10), (0.021, 0.05), (190, 200)])
def test_round_scales(least: float, found: float) -> None:
    assert nice(least) == pytest.approx(found)


def test_true_minus_and_plus() -> None:
    assert minus(-0.2, 1) == "−0.2"
    assert minus(-0.04, 1) == "0.0"
    assert minus(16, sign=True) == "+16"
