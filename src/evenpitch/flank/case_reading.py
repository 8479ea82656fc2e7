"""From the plain object of a case to the nouns of the virtual cut; everything that cannot be is refused at once."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from evenpitch.flank.curve import Form
from evenpitch.flank.envelope import Cut
from evenpitch.flank.exact import exact_form
from evenpitch.flank.fields import Fields
from evenpitch.flank.forms import numbered_form, points_form, vee_form
from evenpitch.flank.motion import AngleTable, Motion, Sine, WormError
from evenpitch.flank.room import room_faults, setting_faults
from evenpitch.flank.setting import Setting
from evenpitch.flank.wanted import WantedFlank, wanted_flank
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Millimetre, Radian

NODES = 1024
"""Nodes for each smooth stretch of a form: an answer to a case is to be exact, not quick."""

PARTS = ("gear", "cutter", "setup", "motion", "evaluate", "index_error_arcsec", "name", "why", "expect", "source")


@dataclass(frozen=True, slots=True)
class Case:
    """One case ready to be cut: the cut, the spaces to look at, and how closely."""

    cut: Cut
    teeth: tuple[int, ...]
    n_profile: int
    n_lead: int

    @property
    def all_spaces(self) -> bool:
        """Whether the whole circle is looked at."""
        return len(self.teeth) == self.cut.wanted.teeth


def read_case(case: Mapping[str, Any]) -> Case:
    """The case, or one Refusal with all its faults."""
    faults: list[Fault] = []
    whole = Fields(case, "", faults)
    gear = Fields(whole.take("gear", {}), "gear", faults)
    evaluate = Fields(whole.take("evaluate", {}), "evaluate", faults)
    wanted = _gear(gear, evaluate)
    cutter, setup = Fields(whole.take("cutter", {}), "cutter", faults), Fields(whole.take("setup", {}), "setup", faults)
    motion = _motion(Fields(whole.take("motion", {}), "motion", faults), whole, wanted)
    teeth, n_profile, n_lead = _evaluate(evaluate, wanted)
    for known in ("name", "why", "expect", "source"):
        whole.take(known)
    whole.finish()
    if faults:
        _unread(cutter, setup, faults, wanted)
        raise Refusal(*faults)
    form, setting = _cutter_and_setup(cutter, setup, wanted)
    if faults:
        raise Refusal(*faults)
    return Case(Cut(form, setting, wanted, motion), teeth, n_profile, n_lead)


def _unread(cutter: Fields, setup: Fields, faults: list[Fault], wanted: WantedFlank) -> None:
    """Gather the faults of cutter and setup too, beside those already found; not such as only a doubtful gear would make."""
    doubtful, own = any(fault.field.startswith("gear") for fault in faults), len(faults)
    try:
        _cutter_and_setup(cutter, setup, wanted)
    except Refusal as refusal:
        faults.extend(fault for fault in refusal.faults if fault not in faults)
    if doubtful:
        faults[own:] = [fault for fault in faults[own:] if not _rests_on_the_gear(fault)]


def _rests_on_the_gear(fault: Fault) -> bool:
    """Whether a fault of cutter or setup came of holding it against the gear, and not from what was written."""
    return "of the gear" in fault.expected or fault.field in ("cutter", "setup, sink_mm") or "space is deep" in fault.likely


def _gear(gear: Fields, evaluate: Fields) -> WantedFlank:
    """The wanted flank; a gear with faults gives some gear, and its faults stand."""
    teeth = gear.whole("teeth", None, 5, 10_000)
    module = gear.number("module", None, 0.05, 100)
    angle = math.radians(gear.number("pressure_angle_deg", 20, 5, 40))
    helix = math.radians(gear.number("helix_deg", 0, -75, 75))
    face = gear.number("face_mm", 10, 0, 5000, above=True)
    high = gear.number("addendum_factor", 1, 0, 3, above=True)
    deep = gear.number("dedendum_factor", 1.25, 0, 3, above=True)
    widening = gear.number("space_widening_mm", 0, -module, module)
    gear.finish()
    start = evaluate.number("u_start_mm", -1, 0, 1e4, above=True) if evaluate.has("u_start_mm") else None
    end = evaluate.number("u_end_mm", -1, 0, 1e4, above=True) if evaluate.has("u_end_mm") else None
    if deep * module >= 0.9 * teeth * module / math.cos(helix) / 2:
        gear.fault("dedendum_factor", f"{deep:g}", "a root well outside the axis", "", "Give a smaller dedendum.")
        deep = 0.25
    wanted = wanted_flank(
        teeth, Millimetre(module or 1.0), Radian(angle or 0.3), Radian(helix), Millimetre(face or 1.0),
        addendum=Millimetre(high * module), dedendum=Millimetre(deep * module), widening=Millimetre(widening),
        u_start=None if start is None else Millimetre(start), u_end=None if end is None else Millimetre(end),
    )  # fmt: skip
    if wanted.u_start >= wanted.u_end:
        evaluate.fault(
            "u_start_mm", f"{wanted.u_start:.6g}", f"less than u_end_mm, {wanted.u_end:.6g}", "", "Give a rising range."
        )
    return wanted


def _evaluate(evaluate: Fields, wanted: WantedFlank) -> tuple[tuple[int, ...], int, int]:
    """Spaces looked at, points of a profile trace and of a helix trace."""
    n_profile, n_lead = evaluate.whole("n_profile", 101, 3, 20_001), evaluate.whole("n_lead", 51, 3, 20_001)
    given = evaluate.take("teeth", [0])
    expected = f'"all" or a list of spaces from 0 to {wanted.teeth - 1}, each once'
    teeth: tuple[int, ...] = (0,)
    if given == "all":
        teeth = tuple(range(wanted.teeth))
    elif _is_choice(given, wanted.teeth):
        teeth = tuple(given)
    else:
        evaluate.fault("teeth", given, expected, "", "Spaces are counted from 0.")
    evaluate.finish()
    return teeth, n_profile, n_lead


def _is_choice(given: object, count: int) -> bool:
    """Whether it is a list of spaces, each once."""
    if not isinstance(given, list) or not given or not all(type(one) is int and 0 <= one < count for one in given):
        return False
    return len(set(given)) == len(given)


def _motion(motion: Fields, whole: Fields, wanted: WantedFlank) -> Motion:
    """The true motion with the index errors."""
    index = whole.numbers("index_error_arcsec")
    if index and len(index) != wanted.teeth:
        whole.fault(
            "index_error_arcsec", f"{len(index)} numbers", f"{wanted.teeth}, one for each space", "", "Give all, or none."
        )
    q = _screw(motion, wanted)
    sines, tables, worms = _sines(motion), _table(motion, wanted), _worm(motion)
    motion.finish()
    found = Motion(wanted.teeth, q, tuple(a * RADIAN_PER_ARCSEC for a in index), sines, worms, tables)
    _far_out(found, motion, wanted)
    return found


def _far_out(found: Motion, motion: Fields, wanted: WantedFlank) -> None:
    """A fault where the work stands off its place by more than a quarter of a tooth: what is cut then is another gear."""
    off = max(map(abs, found.index), default=0.0) + sum(abs(one) for one in _amplitudes(found))
    off += sum(max(map(abs, table.angle)) for table in found.tables) + abs(found.q - wanted.q) * wanted.face / 2
    most = math.pi / (2 * wanted.teeth)
    if off > most:
        motion.fault("", f"up to {off / RADIAN_PER_ARCSEC:.6g} arcsec off", f"at most {most / RADIAN_PER_ARCSEC:.6g}, a quarter of a tooth",
                     "Another unit, or the lead of another gear?", "Errors of the work are seconds of arc.")  # fmt: skip


def _amplitudes(found: Motion) -> tuple[float, ...]:
    return (*(wave.amplitude for wave in found.sines), *(worm.amplitude for worm in found.worms))


def _screw(motion: Fields, wanted: WantedFlank) -> float:
    """2 pi / lead really got."""
    if motion.has("lead_error_ppm") and motion.has("lead_mm"):
        motion.fault("lead_mm", motion.take("lead_mm"), "lead_mm or lead_error_ppm, not both", "", "Remove one of them.")
    if motion.has("lead_mm"):
        lead = motion.number("lead_mm", 0.0)
        if lead == 0.0 or lead * wanted.q < 0:
            motion.fault(
                "lead_mm", f"{lead:g}", "a lead of the gear's own hand: + right, - left", "Wrong hand?", "Change its sign."
            )
            return wanted.q
        return 2 * math.pi / lead
    return wanted.q / (1 + motion.number("lead_error_ppm", 0.0, -500_000, 1_000_000) * 1e-6)


def _sines(motion: Fields) -> tuple[Sine, ...]:
    """Waves along the travel."""
    given = motion.take("sines", [])
    if not isinstance(given, list):
        motion.fault("sines", given, "a list of waves", "", "Write it as [{...}].")
        return ()
    found = []
    for number, one in enumerate(given, 1):
        wave = Fields(one, f"motion, sines {number}", motion.faults)
        amplitude, period = wave.number("amp_arcsec"), wave.number("period_mm", None, 0.001, 1e6)
        phase, advance = wave.number("phase_deg", 0.0), wave.number("advance_deg_per_tooth", 0.0)
        wave.finish()
        found.append(Sine(amplitude * RADIAN_PER_ARCSEC, period, math.radians(phase), math.radians(advance)))
    return tuple(found)


def _worm(motion: Fields) -> tuple[WormError, ...]:
    """The error of the worm."""
    if not motion.has("worm"):
        return ()
    worm = Fields(motion.take("worm"), "motion, worm", motion.faults)
    ratio, amplitude = worm.number("ratio", None, 1, 1000), worm.number("amp_arcsec")
    phase, per_turn = worm.number("phase_deg", 0.0), worm.number("per_turn", 1.0, 0, 1000, above=True)
    worm.finish()
    return (WormError(amplitude * RADIAN_PER_ARCSEC, ratio, math.radians(phase), per_turn),)


def _table(motion: Fields, wanted: WantedFlank) -> tuple[AngleTable, ...]:
    """Angle against travel; it must cover the face."""
    if not motion.has("table"):
        return ()
    table = Fields(motion.take("table"), "motion, table", motion.faults)
    s, angle = table.numbers("s_mm"), table.numbers("arcsec")
    table.finish()
    half = wanted.face / 2
    if len(s) < 2 or len(s) != len(angle):
        table.fault(
            "s_mm", f"{len(s)} places, {len(angle)} angles", "two or more places with one angle each", "", "Complete the table."
        )
    elif any(after < before for before, after in pairwise(s)):
        table.fault("s_mm", s, "places that rise", "", "Sort the table by travel.")
    elif s[0] > -half or s[-1] < half:
        table.fault("s_mm", f"{s[0]:g} to {s[-1]:g}", f"the whole face, {-half:g} to {half:g}", "Mid face is 0.", "Extend it.")
    else:
        return (AngleTable(s, tuple(a * RADIAN_PER_ARCSEC for a in angle)),)
    return ()


def _cutter_and_setup(cutter: Fields, setup: Fields, wanted: WantedFlank) -> tuple[Form, Setting]:
    """The form and how it is set; both are refused where they do not fit the gear."""
    kind = cutter.word("kind", ("numbered", "exact", "vee", "points"))
    depth = wanted.tip_radius - wanted.root_radius
    outside = cutter.number("outside_dia_mm", None, 0, 2000, above=True)
    corner = cutter.number("tip_corner_mm", 0.0, 0, outside or 2000)
    if 0 < outside <= 2.2 * depth:
        cutter.fault("outside_dia_mm", f"{outside:g}", f"more than {2.2 * depth:.4g}", "The cutter is smaller than the space is deep.",
                     "Use a larger cutter.")  # fmt: skip
    fresh = not setup.has("centre_mm")
    setting = _setup(setup, wanted, outside)
    make = {"numbered": _numbered, "exact": _exact, "vee": _vee, "points": _points}.get(kind)
    form = make(cutter, wanted, outside, corner, fresh) if make else None
    if make:
        cutter.finish()
    faults = [*cutter.faults, *(fault for fault in setting_faults(setting, wanted, outside / 2) if fault not in cutter.faults)]
    if faults or form is None:
        raise Refusal(*dict.fromkeys(faults))
    tight = room_faults(form, setting, wanted)
    if tight:
        raise Refusal(*tight)
    return form, setting


def _setup(setup: Fields, wanted: WantedFlank, outside: float) -> Setting:
    """Swing, offset, centre distance."""
    swing = setup.number("swivel_deg", math.degrees(wanted.helix)) + setup.number("swivel_error_deg", 0.0)
    offset = setup.number("offset_mm", 0.0)
    centre = setup.number("centre_mm", wanted.root_radius + outside / 2, 0, 1e4, above=True)
    sink = setup.number("sink_mm", 0.0)
    setup.finish()
    exactly = wanted.helix if swing == math.degrees(wanted.helix) else math.radians(swing)
    return Setting(exactly, offset, centre - sink)


def _numbered(cutter: Fields, wanted: WantedFlank, outside: float, corner: float, fresh: bool) -> Form | None:
    """A numbered involute cutter; one of quite another module or pressure angle is refused."""
    teeth = cutter.whole("teeth", None, 5, 100_000)
    module, angle = cutter.number("module", None, 0.05, 100), cutter.number("pressure_angle_deg", 20, 5, 40)
    dedendum = cutter.number("dedendum_factor", 1.25, 0, 3, above=True)
    wanted_angle = math.degrees(wanted.pressure_angle)
    if not 0.9 < module / wanted.module < 1.1:
        cutter.fault(
            "module", f"{module:g}", f"{wanted.module:g}, that of the gear", "Another pitch?", "Choose one of the gear's."
        )
    if abs(angle - wanted_angle) > 3:
        cutter.fault("pressure_angle_deg", f"{angle:g}", f"{wanted_angle:g}, that of the gear", "A 14 1/2 degree cutter?",
                     "Choose a cutter of the gear's pressure angle.")  # fmt: skip
    if cutter.faults:
        return None
    return numbered_form(teeth, Millimetre(module), Radian(math.radians(angle)), Millimetre(outside), corner=Millimetre(corner),
                         dedendum=dedendum, nodes=NODES)  # fmt: skip


def _exact(cutter: Fields, wanted: WantedFlank, outside: float, corner: float, fresh: bool) -> Form | None:
    """A cutter made for this gear. Where the case leaves the centre distance to the cutter's own radius, a design centre is that of
    another diameter with the same form, so the form moves with the radius; where it names one, the form stays where it was made."""
    swing = cutter.number("design_swivel_deg", math.degrees(wanted.helix), -50, 50)
    offset = cutter.number("design_offset_mm", 0.0, -2 * wanted.module, 2 * wanted.module)
    usual = wanted.root_radius + outside / 2
    centre = cutter.number("design_centre_mm", usual, wanted.tip_radius, 1e4)
    if cutter.faults:
        return None
    exactly = wanted.helix if swing == math.degrees(wanted.helix) else math.radians(swing)
    shifted = usual - centre if fresh or abs(usual - centre) > 0.25 * wanted.module else 0.0
    return exact_form(wanted, Setting(exactly, offset, centre), outside, corner=corner, shifted=shifted, nodes=NODES)


def _vee(cutter: Fields, wanted: WantedFlank, outside: float, corner: float, fresh: bool) -> Form | None:
    """A cutter with straight sides."""
    angle, flat = cutter.number("included_angle_deg", None, 0, 170), cutter.number("tip_flat_mm", None, 0, outside)
    if cutter.faults:
        return None
    reach = 2.5 * (wanted.tip_radius - wanted.root_radius)
    return vee_form(
        Radian(math.radians(angle)),
        Millimetre(flat),
        Millimetre(outside),
        corner=Millimetre(corner),
        reach=Millimetre(min(reach, 0.3 * outside)),
        nodes=NODES,
    )


def _points(cutter: Fields, wanted: WantedFlank, outside: float, corner: float, fresh: bool) -> Form | None:
    """A form by sampled points."""
    given = cutter.take("points_mm")
    try:
        points = np.array(given, dtype=float)
    except (TypeError, ValueError):
        points = np.empty(0)
    if isinstance(given, list) and points.ndim == 2 and not cutter.faults:
        return points_form(points, Millimetre(outside), corner=Millimetre(corner), nodes=NODES)
    cutter.fault("points_mm", given, "a list of [w, R] pairs", "", "Give w and R of one side from the tip outwards.")
    return None
