"""JOB.toml, or the fields of a job form, become the works and choices of an Order."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from evenpitch.gear.gear import DepthSystem, Gear, Hand
from evenpitch.job.order import USUAL_LIMITS, Choice, Limits, Order, Pair, Work
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import Millimetre, degrees
from evenpitch.rig.rig import Rig
from evenpitch.store.files.job_tables import ChoiceTable, GearTable, JobTable
from evenpitch.store.files.tables import checked
from evenpitch.store.files.typed import Fields, Typed, decoded, flat, tables_of


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFile:
    """A job without its rig; what was typed, by the path of its field; and the text of its file."""

    title: str
    works: tuple[Work, ...]
    choice: Choice
    pair: Pair | None
    typed: Typed
    text: str

    def order(self, rig: Rig) -> Order:
        """The job on a rig."""
        return Order(title=self.title, works=self.works, rig=rig, choice=self.choice, pair=self.pair, typed=self.typed)


def read_job(text: str | bytes) -> JobFile:
    """Read JOB.toml. A Refusal holds every fault of it at once."""
    tables = tables_of(text, "JOB.toml")
    return _job_of(tables, str, flat(tables), decoded(text, "JOB.toml"))


def job_from_fields(fields: Mapping[str, str], over: str = "") -> JobFile:
    """Read the fields of a form, named by their paths. `over`: the file they were laid out from, whose comments stay."""
    from evenpitch.store.files.writing import written

    form = Fields(fields, "job")
    read = _job_of(form.tables, form.path, flat(form.tables), "")
    return JobFile(
        title=read.title,
        works=read.works,
        choice=read.choice,
        pair=read.pair,
        typed=read.typed,
        text=written(form.tables, JobTable, over),
    )


def order_from(text: str | bytes, rig: Rig) -> Order:
    """The order of JOB.toml on a rig."""
    return read_job(text).order(rig)


def write_job(file: JobFile) -> str:
    """The text of the file, as it was typed."""
    return file.text


def _job_of(tables: Mapping[str, Any], path: Callable[[str], str], typed: Typed, text: str) -> JobFile:
    if tables.get("gear") in (None, [], {}):  # so that an empty form is told field by field what a gear needs
        tables = {**tables, "gear": [{}]}
    found = checked(JobTable, tables, path)
    faults = [fault for place, gear in enumerate(found.gear) for fault in _hand_faults(gear, path(f"gear.{place}"))]
    faults += _count_faults(found)
    if faults:
        raise Refusal(*faults)
    works = tuple(map(_work, found.gear))
    pair = (
        None if found.pair is None else Pair(centre_distance=_mm(found.pair.centre_distance), backlash=_mm(found.pair.backlash))
    )
    title = found.title or " and ".join(f"{work.gear.teeth}-tooth gear" for work in works)
    return JobFile(title=title, works=works, choice=_choice(found.choice), pair=pair, typed=typed, text=text)


def _hand_faults(gear: GearTable, where: str) -> list[Fault]:
    if gear.helix and gear.hand not in ("left", "right"):
        likely = f"A helix of {float(gear.helix):g}° leans one way or the other."
        return [Fault(f"{where}.hand", gear.hand or "", "left or right", likely, "Write the hand.")]
    if not gear.helix and gear.hand in ("left", "right"):
        likely = "A hand was given, and no helix angle."
        return [
            Fault(
                f"{where}.helix",
                "",
                "the helix angle of a helical gear",
                likely,
                'Write the angle, or hand = "none" for a spur gear.',
            )
        ]
    return []


def _count_faults(found: JobTable) -> list[Fault]:
    gears = len(found.gear)
    if not 1 <= gears <= 2:
        likely = "One job is one gear, or the two of a pair."
        return [Fault("gear", f"{gears} gears", "one or two [[gear]]", likely, "Make a job of each gear or pair.")]
    if found.pair is not None and gears == 1:
        likely = "A pair needs both of its gears."
        return [Fault("pair", "", "two [[gear]] beside [pair]", likely, "Add the second [[gear]], or take [pair] out.")]
    return []


def _mm(value: Fraction | None) -> Millimetre | None:
    return None if value is None else Millimetre(float(value))


def _work(found: GearTable) -> Work:
    return Work(
        gear=_gear(found),
        material=found.material,
        bore=_mm(found.bore),
        drive=found.drive,
        quantity=found.quantity or 1,
        outside_found=_mm(found.outside_found),
        span_tolerance=_limits(found.span_tolerance),
        outside_tolerance=_limits(found.outside_tolerance),
    )


def _limits(found: tuple[Fraction, Fraction] | None) -> Limits:
    return USUAL_LIMITS if found is None else (Millimetre(float(found[0])), Millimetre(float(found[1])))


def _gear(found: GearTable) -> Gear:
    helix = degrees(found.helix or 0)
    hand: Hand = found.hand or "none"
    return Gear(
        teeth=found.teeth,
        pitch=found.pitch,
        module=found.pitch.normal_module(helix),
        pressure_angle=degrees(found.pressure_angle),
        helix=helix,
        hand=hand,
        face=_mm(found.face),
        depth=found.depth or _usual_depth(found),
        shift=float(found.shift or 0),
        thinning=Millimetre(float(found.thinning or 0)),
        spanned=found.spanned,
        pin=_mm(found.pin),
        tolerance_class=found.tolerance_class,
    )


def _usual_depth(found: GearTable) -> DepthSystem:
    """Full depth; the old 14½° proportions where that pressure angle says so."""
    return "14.5" if found.pressure_angle == Fraction(29, 2) else "full"


def _choice(found: ChoiceTable) -> Choice:
    usual = Choice()
    return Choice(
        dividing=found.dividing,
        lead=found.lead,
        paper=found.paper or usual.paper,
        units=found.units,
        cutter=found.cutter,
        paper_thickness=usual.paper_thickness if found.paper_thickness is None else Millimetre(float(found.paper_thickness)),
        train=found.train,
        way=found.way,
    )
