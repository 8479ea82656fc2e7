"""The pictures the tests look at: wheels from 5 to 200 teeth, both hands, both ways of swinging, crowded and empty plates."""

from __future__ import annotations

import math

from evenpitch.job.bit import bit_plan
from evenpitch.job.slips import Slips, cut_seen
from evenpitch.quantity.units import Millimetre, degrees
from evenpitch.sheet.compose.bit import shown_bit
from evenpitch.sheet.compose.cut_pictures import cut_pictures
from evenpitch.sheet.drawing import Drawing
from evenpitch.sheet.drawings.blank import blank_and_tooth
from evenpitch.sheet.drawings.bracket import gear_bracket
from evenpitch.sheet.drawings.fly_bit import BitShown, fly_bit_for_dxf, fly_bit_picture
from evenpitch.sheet.drawings.gauge import verdict_gauge
from evenpitch.sheet.drawings.helix import FlankLine, helix_over_face
from evenpitch.sheet.drawings.indicator_along_scale import indicator_along_scale
from evenpitch.sheet.drawings.key_to_pictures import key_to_fillings, key_to_lines
from evenpitch.sheet.drawings.ladder import depth_ladder
from evenpitch.sheet.drawings.machine import machine_from_above_head, machine_from_above_table
from evenpitch.sheet.drawings.one_block_three_places import BlockShown, one_block_three_places
from evenpitch.sheet.drawings.outline import outline_for_dxf, space_for_dxf
from evenpitch.sheet.drawings.plate import index_plate
from evenpitch.sheet.drawings.ring import ring_of_spaces
from evenpitch.sheet.drawings.scale_calibration import ErrorAt, LineFound, scale_calibration
from evenpitch.sheet.drawings.scratch import scratch_test
from evenpitch.sheet.drawings.space import CutterShown, tooth_space
from evenpitch.sheet.drawings.spacing import Share, spacing_bars
from evenpitch.sheet.drawings.stack import stack_on_mandrel
from evenpitch.sheet.drawings.tooth_form import ToothForm
from job.cut_cases import the_pinion, the_wheel
from job.shop import pinion
from sheet.inspection_pictures import pictures as of_inspection

PLATES = ((15, 16, 17, 18, 19, 20), (21, 23, 27, 29, 31, 33), (37, 39, 41, 43, 47, 49))
"""Hole circles common practice for a 40:1 head."""


def form(teeth: float, module: float, angle: float, dedendum: float = 1.25, shift: float = 0.0) -> ToothForm:
    """Teeth from plain figures; degrees, and depths in modules."""
    return ToothForm(teeth, module, math.radians(angle), module * (1 + shift), module * (dedendum - shift), shift)


A97 = form(97, 25.4 / 12, 14.5, 1.157)
B28 = ToothForm(28, 2 / math.cos(math.radians(20)), math.atan(math.tan(math.radians(20)) / math.cos(math.radians(20))), 2, 2.5)
FORMS = {
    97: A97,
    28: B28,
    56: form(56, 2.128, 21.17, 1.18),
    12: form(12, 2, 20),
    200: form(200, 1, 20),
    5: form(5, 2, 20, shift=0.6),
}

_TEST = "crank one turn of the work; the plate must turn 1.2 times, the same way as the crank."
_SHARES = (
    Share("wheel of the head, once a turn", 39.8, "head"),
    Share("worm of the head, 40 a turn", 14.9, "head"),
    Share("bore off centre 5 µm", 10.3, "setup"),
    Share("one pulse of stick–slip", 3.4, "motor"),
    Share("rounding to whole pulses", 1.7, "motor"),
    Share("cutter wander", 5.0, "cutter"),
    Share("caliper", 3.0, "instrument"),
)


def _machines() -> list[Drawing]:
    drawn = []
    for draw in (machine_from_above_table, machine_from_above_head):
        drawn.append(draw(0, "none", "left", "left", 19.05, 209.55, 69.85))
        for hand in ("right", "left"):
            for feed in ("left", "right"):
                drawn += [draw(beta, hand, "left", feed, 20, 63.594, 63) for beta in (1.5, 10, 20, 30, 37.25, 45)]
            drawn.append(draw(20, hand, "right", "left", 200, 25, 70, motor=False))
            drawn.append(draw(20, hand, "left", "right", 20, 123.2, 63))
    return drawn


def _plates() -> list[Drawing]:
    drawn = [index_plate(PLATES[0], 20, 8), index_plate(PLATES[1], 21, 9, turns=1), index_plate(PLATES[0], 15, 0, turns=8)]
    drawn += [index_plate(PLATES[2], 49, spaces, crank_clockwise=False) for spaces in (1, 3, 9, 24, 40, 48)]
    drawn += [index_plate(PLATES[2], 37, spaces) for spaces in (1, 2, 11, 36)]
    drawn += [index_plate((24,), 24, 3), index_plate((46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66), 58, 31)]
    return drawn


def _brackets() -> list[Drawing]:
    return [
        gear_bracket((48,), (40,), (56,), _TEST),
        gear_bracket((64,), (24,), (), _TEST),
        gear_bracket((24,), (100,)),
        gear_bracket(
            (48, 72), (32, 40), (), "turn the work once by hand; the table must move 27.000 in to the left", kind="lead"
        ),
        gear_bracket((24, 48), (100, 32), (44,), _TEST, kind="lead"),
        gear_bracket((100,), (24,), (24, 32), _TEST),
        gear_bracket((86, 24), (24, 100), (24, 28), _TEST),
    ]


def _spaces() -> list[Drawing]:
    two = (CutterShown("No. 2", 55), CutterShown("No. 1½", 135))
    return [
        tooth_space(A97, two, "97 teeth, 12 DP, 14½°"),
        tooth_space(
            form(37.6, 2, 20), (CutterShown("No. 4", 26, tip_um=99, floor_um=125), CutterShown("No. 3", 35)), "37.6 teeth"
        ),
        *(tooth_space(f, (CutterShown("No. 8", 12),), f"{z} teeth") for z, f in FORMS.items()),
        tooth_space(A97, (), "97 teeth"),
    ]


def _blanks() -> list[Drawing]:
    drawn = []
    for teeth, teeth_form in FORMS.items():
        hand = {28: "right", 56: "left"}.get(teeth, "none")
        for face, bore, drive in (
            (20.0, None, None),
            (19.05, 4.0, "clockwise"),
            (3.0, 5.0, "anticlockwise"),
            (60.0, 6.0, "clockwise"),
        ):
            words = f"{teeth} teeth, 20° pressure, 20° helix {hand}, for the loom"
            drawn.append(blank_and_tooth(teeth_form, face, bore, words, hand=hand, beta_deg=20, drive=drive))
    return drawn


def _charts() -> list[Drawing]:
    saw = tuple((i * 0.25, 0.8 if i % 2 else -0.8) for i in range(81))
    lines = (FlankLine("link", 0.8, saw, "within 1"), FlankLine("best single set", 16.0), FlankLine("paired gears", 32.0))
    return [
        helix_over_face(20, lines, 16.8, "class 8"),
        helix_over_face(100, (FlankLine("link", -0.2), FlankLine("24 : 100", -140.0))),
        helix_over_face(7.5, (FlankLine("link", 0.0),), 0.5, "class 1"),
        spacing_bars(_SHARES, 62, "limit of class 8", total_um=54.7, total_words="head alone, both waves together"),
        spacing_bars(_SHARES, 16, "class 4"),
        spacing_bars(_SHARES[:1], None, ""),
        spacing_bars(_SHARES, 620, "limit of class 12"),
        verdict_gauge("span over 8", 49.452, 0.01, "fail: thick", least=49.278, most=49.328, zones=("thin", "thick")),
        verdict_gauge("span over 8", 49.3, 0.04, "not proven", least=49.278, most=49.328, zones=("thin", "thick")),
        verdict_gauge("total pitch", 45, 15, "pass", most=62, unit="µm", digits=0),
        verdict_gauge("total pitch", 45, 15, "not proven", most=44, unit="µm", digits=0),
        verdict_gauge("strength", 1.2, 0.1, "pass", least=1.0, unit="", digits=1),
    ]


def _works() -> list[Drawing]:
    return [
        key_to_lines(),
        key_to_fillings(),
        *(scratch_test(hand, beta) for hand, beta in (("right", 20), ("left", 20), ("none", 0), ("left", 45), ("right", 1.25))),
        depth_ladder(4.10, 4.536, blank=(209.49, 4.566, 0.030)),
        depth_ladder(4.05, 4.5, paper_mm=0.08),
        depth_ladder(0.45, 0.5),
        depth_ladder(20.2, 22.5),
        depth_ladder(1.1, 1.1),
        depth_ladder(2.5, 4.5, measure_mm=3.2),
        depth_ladder(0.2, 4.5),
        ring_of_spaces(97, range(1, 62), 62, depth_share=0.0436),
        ring_of_spaces(12, (1, 2, 3), 4, depth_share=0.32),
        ring_of_spaces(28, (1, 2, 3, 7), 8, work_turns="anticlockwise"),
        ring_of_spaces(200, range(1, 62), 62),
        ring_of_spaces(120, range(1, 121), 1),
        ring_of_spaces(5, (), 1, depth_share=0.4),
        ring_of_spaces(24, range(1, 24), 24),
        stack_on_mandrel(4, 19.05, 209.55, 25.4),
        stack_on_mandrel(1, 20, 63, 20),
        stack_on_mandrel(8, 6, 30, 10, 25),
    ]


def block_places(near: tuple[float, float, float], cutter: dict[str, float], U: float = 4.0) -> list[BlockShown]:
    """Readings of one block in µm, left, middle, right, and near the cutter."""
    places = [BlockShown(place, um, U) for place, um in zip(("left", "middle", "right"), near, strict=True)]
    return places + [BlockShown(place, um, U, cutter=True) for place, um in cutter.items()]


def scale_errors(gain: float, reversal: float, places: int = 11, over: float = 500.0) -> list[ErrorAt]:
    """Means of both sides along a scale that reads too much by `gain` µm in a metre."""
    at = [over * k / (places - 1) for k in range(places)]
    return [
        ErrorAt(x, gain * (x - over / 2) / 1000 + (reversal if side == "up" else -reversal) / 2 + math.sin(x / 40), side)
        for side in ("up", "down")
        for x in at
    ]


def _proofs() -> list[Drawing]:
    return [
        indicator_along_scale(),
        indicator_along_scale((0, 0.02, 0.03), (0, -0.01, 0.02)),
        indicator_along_scale((0, None, -1.25), (), 0.05),
        indicator_along_scale((12.34, -0.004, 0.5), (0, 0, 0), 1),
        one_block_three_places(block_places((-16, -18, -21), {"middle": -17}), "−183 ± 39 µm in a metre", 100),
        one_block_three_places(
            block_places((-16, -18, -21), {"left": -14, "middle": -17, "right": -22}), "−183 ± 39 µm in a metre", 100
        ),
        one_block_three_places(block_places((0, 0, 0), {}), "+0 ± 39 µm in a metre", 25),
        one_block_three_places(block_places((412, 409, 415), {"right": 395}), "+4120 ± 39 µm in a metre", 100),
        one_block_three_places(block_places((0.2, -0.1, 0.4), {"left": 0}, 0.3), "+2 ± 3 µm in a metre", 100),
        one_block_three_places(block_places((-87300, -87300, -87300), {}), "−873000 ± 39 µm in a metre", 100),
        one_block_three_places([BlockShown("middle", -18, 4)], "−180 ± 40 µm in a metre", 100),
        *(
            scale_calibration(
                scale_errors(gain, reversal, places), LineFound(250, 0, gain / 1000, s), f"{gain:+.0f} ± 13 µm in a metre"
            )
            for gain, reversal, places, s in ((-180, 3, 11, 0.8), (0, 0, 5, 0.02), (900, 30, 400, 4), (-12, 1, 2, 0.5))
        ),
    ]


def outlines() -> list[Drawing]:
    """The drawings in millimetres."""
    whole = [outline_for_dxf(f, 4, f"{z} teeth") for z, f in FORMS.items() if z != 200]
    return [
        *whole,
        outline_for_dxf(FORMS[200], None, "200 teeth", spaces=3),
        *(space_for_dxf(f, f"{z} t") for z, f in FORMS.items()),
        *(fly_bit_picture(bit) for bit in bits()),
        *(fly_bit_for_dxf(bit) for bit in bits()),
    ]


def cut_spaces() -> list[Drawing]:
    """Spaces left by cutters that take too much, leave metal, and stand off centre; with traces of both flanks."""
    drawn = []
    off = Slips(swing=degrees(0.25), off_centre=Millimetre(0.05))
    for plan, slips in ((the_wheel(), Slips()), (the_pinion(), off), (the_pinion(), Slips(lead=500))):
        order, cut = plan
        seen = cut_seen(cut, cut.recommended, order.order.rig, slips)
        drawn += cut_pictures(cut, seen, 35.0)
        drawn += cut_pictures(cut, seen, None)
    return drawn


def bits() -> list[BitShown]:
    """Bits of a wheel with many teeth, a helical gear, one with few teeth, one of a large module."""
    spur = {"helix": "0", "hand": "none", "face": "40 mm"}
    gears = (the_wheel()[0], the_pinion()[0], pinion(teeth=12, **spur), pinion(teeth=30, pitch="module 8", **spur))
    return [shown_bit(plan.gears[0], bit_plan(plan.gears[0], Millimetre(120.0))) for plan in gears]


def pictures() -> list[Drawing]:
    """All page pictures."""
    return [
        *_machines(),
        *_plates(),
        *_brackets(),
        *_spaces(),
        *_blanks(),
        *_charts(),
        *_works(),
        *_proofs(),
        *cut_spaces(),
        *of_inspection(),
    ]
