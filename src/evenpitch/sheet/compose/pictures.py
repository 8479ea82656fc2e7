"""Which pictures a plan and its sheet carry, drawn from its figures."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenpitch.cutting.choose import CutterChoice
from evenpitch.dividing.methods import Differential, Direct, Method, Pulses
from evenpitch.dividing.trains import mounted
from evenpitch.gear.sizes import root_diameter
from evenpitch.job.indexing import at_pitch_line
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.drawing import Drawing
from evenpitch.sheet.drawings.blank import blank_and_tooth
from evenpitch.sheet.drawings.bracket import gear_bracket
from evenpitch.sheet.drawings.helix import FlankLine, helix_over_face
from evenpitch.sheet.drawings.ladder import depth_ladder
from evenpitch.sheet.drawings.machine import machine_from_above_head, machine_from_above_table
from evenpitch.sheet.drawings.outline import outline_for_dxf
from evenpitch.sheet.drawings.plate import index_plate
from evenpitch.sheet.drawings.scratch import scratch_test
from evenpitch.sheet.drawings.space import CutterShown, tooth_space
from evenpitch.sheet.drawings.spacing import Share, spacing_bars
from evenpitch.sheet.drawings.stack import stack_on_mandrel
from evenpitch.sheet.drawings.tooth_form import end_form, seen_by_cutter

FACE_WHERE_UNKNOWN = 10.0
"""Millimetres of face drawn where none is known; the dimension then says nothing of it."""


@dataclass(frozen=True, slots=True)
class SheetPictures:
    """`sketch`: blank and tooth; `ladder`: depths; `set_up`: what is wanted while setting up, on its own page."""

    sketch: Drawing
    ladder: Drawing
    set_up: tuple[Drawing, ...]


def plan_pictures(plan: Plan, gear: GearPlan) -> tuple[Drawing, ...]:
    """The pictures of one gear's plan, in the order they are wanted at the machine; plate and bracket where a hand turns the crank."""
    by_hand = () if isinstance(gear.indexing.chosen, Pulses) else _indexing(plan, gear)
    return (*_machine(plan, gear), _ladder(plan, gear), *by_hand, *_space(gear), *_helix(gear), *_spacing(gear))


def sheet_pictures(plan: Plan, gear: GearPlan) -> SheetPictures:
    """Those of the sheet; a spur gear by the link alone needs no page of set-up pictures."""
    helical = bool(gear.gear.helix)
    set_up = [*(_machine(plan, gear) if helical else ()), *_indexing(plan, gear), *_stack(gear)]
    return SheetPictures(_sketch(gear), _ladder(plan, gear), tuple(set_up))


def outline(gear: GearPlan) -> Drawing:
    """Blank and teeth in millimetres, for DXF."""
    bore = None if gear.work.bore is None else float(gear.work.bore)
    return outline_for_dxf(end_form(gear.gear), bore, gear_line(gear.gear))


def _sketch(gear: GearPlan) -> Drawing:
    bore = None if gear.work.bore is None else float(gear.work.bore)
    return blank_and_tooth(
        end_form(gear.gear),
        float(gear.gear.face or FACE_WHERE_UNKNOWN),
        bore,
        gear_line(gear.gear),
        hand=gear.gear.hand,
        beta_deg=math.degrees(gear.gear.helix),
        drive=None if gear.work.drive == "both" else gear.work.drive,
    )


def _ladder(plan: Plan, gear: GearPlan) -> Drawing:
    rungs = {rung.name: float(rung.depth) for rung in gear.running.ladder}
    blank = gear.blank
    found = None if blank.found is None else (float(blank.found), float(blank.whole_depth), float(blank.under) / 2)
    paper = float(plan.order.choice.paper_thickness) or None
    return depth_ladder(rungs["rough"], rungs["full"], paper_mm=paper, blank=found)


def _machine(plan: Plan, gear: GearPlan) -> Iterator[Drawing]:
    rig, direction = plan.order.rig, gear.direction
    if gear.gear.helix and rig.table.helix_set_by not in ("table", "milling head"):
        return
    draw = machine_from_above_head if rig.table.helix_set_by == "milling head" else machine_from_above_table
    yield draw(
        math.degrees(gear.gear.helix),
        gear.gear.hand,
        rig.head.end or "left",
        direction.feed,
        float(gear.gear.face or FACE_WHERE_UNKNOWN),
        float(gear.blank.outside),
        float(gear.tools.outside),
        motor=rig.link is not None,
    )
    if gear.gear.helix:
        yield scratch_test(gear.gear.hand, math.degrees(gear.gear.helix))


def _indexing(plan: Plan, gear: GearPlan) -> Iterator[Drawing]:
    chosen = gear.indexing.chosen
    method = gear.indexing.by_hand if isinstance(chosen, Pulses) else chosen
    if method is None:
        return
    yield from _plate(plan, method)
    if isinstance(method, Differential):
        yield gear_bracket(*mounted(method.train, method.stud_clearance), _idlers(plan, method), method.test())
    lead = gear.lead
    if lead is not None and lead.by == "change gears" and lead.train is not None:
        yield gear_bracket(*mounted(lead.train.train, lead.train.stud_clearance), (), "", kind="lead")


def _idlers(plan: Plan, method: Differential) -> tuple[int, ...]:
    """Idlers from what is left in the box, as many as the head's own trial asks for."""
    left = list(plan.order.rig.change_gears.teeth)
    for gear in (*method.train.drivers, *method.train.driven):
        left.remove(gear)
    middle = sorted(left, key=lambda teeth: abs(teeth - 56))
    return tuple(middle[: method.idlers or 0])


def _plate(plan: Plan, method: Method) -> Iterator[Drawing]:
    if isinstance(method, Direct):
        yield index_plate((method.plate_holes,), method.plate_holes, method.spaces)
        return
    crank = method.crank()
    if crank is None or not crank[2]:
        return
    whole, circle, spaces = crank
    plate = next((plate for plate in plan.order.rig.plates if circle in plate.circles), None)
    if plate is not None:
        yield index_plate(plate.circles, circle, spaces, turns=whole)


def _space(gear: GearPlan) -> Iterator[Drawing]:
    """The space a disc cutter sees, with the cutter of the plan and the next best beside it."""
    usable = [choice for choice in gear.tools.all() if choice.tip_um is not None and not choice.substitute]
    chosen = [choice for choice in usable if choice is gear.tools.chosen]
    others = [choice for choice in usable if choice is not gear.tools.chosen and _differs(choice, chosen)]
    seen = gear.value("cutter_form_teeth")
    words = "tooth space" if not gear.gear.helix else f"the space a disc cutter sees, {seen:.1f} teeth"
    shown = tuple(_shown(choice) for choice in (*chosen, *others)[:2])
    yield tooth_space(seen_by_cutter(gear.gear, seen), shown, words)


def _differs(choice: CutterChoice, chosen: Sequence[CutterChoice]) -> bool:
    return all((choice.cutter.number, choice.made_for) != (other.cutter.number, other.made_for) for other in chosen)


def _shown(choice: CutterChoice) -> CutterShown:
    floor = None if choice.floor is None else choice.floor * 1000
    return CutterShown(f"No. {choice.cutter.number}", choice.made_for, tip_um=choice.tip_um, floor_um=floor)


def _helix(gear: GearPlan) -> Iterator[Drawing]:
    lead, face = gear.lead, gear.gear.face
    if lead is None or face is None:
        return
    lines = []
    if lead.ratio is not None and lead.pulses_per_turn is not None:
        pulse = gear.value("base_diameter") * math.pi * 1000 / float(lead.pulses_per_turn)
        lines.append(FlankLine("link", 0.0, words=f"within {pulse:.1f}"))
    if lead.trains:
        lines.append(FlankLine("best single set", _signed(lead.trains[0].helix_slope_um, lead.trains[0].error_ppm)))
    if lead.pairs:
        mine = next(
            (t for t in (lead.pairs[0].first, lead.pairs[0].second) if abs(float(t.wanted) - lead.lead) < 1e-6),
            lead.pairs[0].first,
        )
        lines.append(FlankLine("paired gears", _signed(mine.helix_slope_um, mine.error_ppm), words=None))
    if lines:
        words = f"class {gear.tolerance_class}"
        yield helix_over_face(float(face), lines, lead.slope_limit, words)


def _signed(slope: float | None, error_ppm: float) -> float:
    return math.copysign(slope or 0.0, error_ppm)


def _spacing(gear: GearPlan) -> Iterator[Drawing]:
    """What spoils the spacing: the head's own waves, and what the way of dividing adds; peak to peak at the pitch line."""
    made = gear.indexing
    if made.chosen is None:
        return
    shares = [
        Share(
            "head" if made.head_measured else "head, not measured: ±45″ assumed",
            2 * at_pitch_line(gear.gear, made.head_error),
            "head",
        )
    ]
    added = 2 * at_pitch_line(gear.gear, made.chosen.worst_error_arcsec)
    if isinstance(made.chosen, Pulses):
        shares.append(Share("rounding to whole pulses", added, "motor"))
    else:
        shares.append(Share("the way of dividing", added, "setup"))
    if gear.figure("runout") is not None:
        allowed = gear.value("runout") / 4
        shares.append(Share("bore off centre, at its limit", allowed / math.cos(gear.gear.pressure_angle), "setup"))
    yield spacing_bars(shares, gear.value("cumulative_pitch"), f"limit of class {gear.tolerance_class}")


def _stack(gear: GearPlan) -> Iterator[Drawing]:
    face, bore = gear.gear.face, gear.work.bore
    if gear.work.quantity > 1 and face is not None and bore is not None:
        yield stack_on_mandrel(
            gear.work.quantity, float(face), float(gear.blank.outside), float(bore), float(root_diameter(gear.gear))
        )
