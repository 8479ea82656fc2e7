"""One question without a job: every way to divide a circle, or one angle."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from evenpitch.dividing.angle import angle_ways
from evenpitch.dividing.methods import Method
from evenpitch.dividing.rank import HEAD_ERROR_ARCSEC
from evenpitch.dividing.ways import ways
from evenpitch.job.findings import finding
from evenpitch.job.head import head_error
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.showing import degrees_text
from evenpitch.rig.head import ChangeGears, Head, Plate
from evenpitch.rig.link import MotorOn
from evenpitch.rig.rig import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Dividing:
    """A question of dividing: a count, or an angle in degrees for one move."""

    head: Head
    plates: tuple[Plate, ...]
    change_gears: ChangeGears
    pulses_per_turn: Fraction | None
    divisions: int | None = None
    angle: Fraction | None = None
    motor_on: MotorOn | None = None
    head_error: float = HEAD_ERROR_ARCSEC
    everything: bool = False


@dataclass(frozen=True, slots=True)
class DivideAnswer:
    """The ways, best first."""

    head: Head
    plates: tuple[Plate, ...]
    divisions: int | None
    angle: Fraction | None
    methods: tuple[Method, ...]
    findings: tuple[Finding, ...]


def dividing_on(rig: Rig) -> Dividing:
    """The question with head, plates, gears and link of a rig, still without a count."""
    return Dividing(
        head=rig.head,
        plates=rig.plates,
        change_gears=rig.change_gears,
        pulses_per_turn=rig.pulses_per_turn(),
        motor_on=rig.link.motor_on if rig.link else None,
        head_error=head_error(rig)[0],
    )


def ask_divide(question: Dividing) -> DivideAnswer:
    """Every way to make the count or the angle."""
    findings: list[Finding] = []
    if question.angle is not None:
        methods = angle_ways(
            question.angle,
            question.head,
            question.plates,
            question.pulses_per_turn,
            motor_on=question.motor_on,
            head_error_arcsec=question.head_error,
        )
        if not methods:
            findings.append(finding("no-way-angle", angle=degrees_text(float(question.angle))))
    else:
        assert question.divisions is not None
        methods = ways(
            question.divisions,
            question.head,
            question.plates,
            question.change_gears,
            question.pulses_per_turn,
            everything=question.everything,
            motor_on=question.motor_on,
            head_error_arcsec=question.head_error,
        )
        if question.divisions == 1:
            findings.append(finding("one-division"))
        elif not methods:
            findings.append(finding("no-way", n=question.divisions))
    return DivideAnswer(question.head, question.plates, question.divisions, question.angle, methods, tuple(findings))
