"""Which way first: fits the lead; error in tenths of the head's own; moves and turns by hand; gears to fit; risk."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from evenpitch.dividing.methods import Block, Compound, Differential, Direct, Method, PlatePulses, Pulses, Simple
from evenpitch.rig.link import MotorOn

LeadMethod = Literal["link", "change gears"]

HEAD_ERROR_ARCSEC = 45.0
"""The head's own error where it was never measured; common practice, and said so wherever it is used."""


def fits_lead(method: Method, lead_method: LeadMethod | None, motor_on: MotorOn | None) -> bool:
    """Whether a helix can be cut in the same set-up.

    Change gears hold plate and worm: only the crank on a plate that follows them is free, so neither compound nor differential nor
    direct goes. The link on the worm shaft turns the worm with its power on: only pulses. The link on the plate leaves the crank free.
    """
    if lead_method is None:
        return True
    if lead_method == "change gears":
        return isinstance(method, Simple | Block)
    if motor_on == "plate drive":
        return isinstance(method, Simple | Block | PlatePulses)
    return isinstance(method, Pulses)


def ranked(
    methods: Iterable[Method],
    *,
    lead_method: LeadMethod | None = None,
    motor_on: MotorOn | None = None,
    head_error_arcsec: float = HEAD_ERROR_ARCSEC,
) -> tuple[Method, ...]:
    """The methods, best first."""
    tenth = max(head_error_arcsec, 1e-9) / 10

    def order(method: Method) -> tuple[float, ...]:
        crank = method.crank() or (0, 0, 0)
        return (
            0 if fits_lead(method, lead_method, motor_on) else 1,
            method.worst_error_arcsec // tenth,
            method.moves_by_hand(),
            turns_by_hand(method),
            method.gears_to_fit(),
            risk(method),
            method.worst_error_arcsec,
            method.skip,
            crank[1] if isinstance(method, Compound) else -crank[1],
            crank[2],
        )

    return tuple(sorted(methods, key=order))


def turns_by_hand(method: Method) -> int:
    """Whole turns of the crank at each index, as the hand makes them. A geared plate goes along with the crank or meets it, so that
    the hand turns the worm as far as in any other way; a plate moved back is turned twice."""
    if isinstance(method, Direct | Pulses):
        return 0
    turns = method.wanted
    if isinstance(method, Compound) and method.plate_sense == "against":
        turns -= 2 * method.plate_turns()
    return int(turns)


def risk(method: Method) -> float:
    """How easily the work is spoiled, as an order only: the crank alone is safest, then skipping, the nose plate (its hole errors
    come whole to the work), two moves in a fixed order, and a geared plate the more the faster it turns."""
    if isinstance(method, Simple | Pulses):
        return 0
    if isinstance(method, Block):
        return 1
    if isinstance(method, Direct):
        return 2
    if isinstance(method, Compound):
        return 3
    assert isinstance(method, Differential | PlatePulses)
    return 3 + abs(float(method.plate_turns_per_work_turn()))
