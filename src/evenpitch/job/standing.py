"""Where the work must stand for one space, every way the rig can say it: angle, pulse from the datum, this move, crank and hole."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from evenpitch.dividing.order import spread_order


@dataclass(frozen=True)
class Moves:
    """One way of dividing as it stands in an issued plan.

    `skip`: spaces the work goes on at each move. `pulses`: absolute, N + 1 of them, the last being the datum come round again; with
    their sign where the motor turns the plate. `whole_turns`, `circle`, `holes`: one move of the crank (`holes` counts the spaces
    between holes). `plate_circle`, `plate_holes`: what the plate goes on of a compound way, + with the crank. `gears`: "48 : 40".
    """

    name: str
    spaces: int
    skip: int = 1
    pulses: tuple[int, ...] = ()
    whole_turns: int = 0
    circle: int = 0
    holes: int = 0
    plate_circle: int = 0
    plate_holes: int = 0
    nose_holes: int = 0
    gears: str = ""

    @property
    def by_motor_alone(self) -> bool:
        """Whether nothing is turned by hand."""
        return bool(self.pulses) and not self.circle

    @cached_property
    def in_turn(self) -> tuple[int, ...]:
        """The spaces in the order that one move after the other brings them."""
        return tuple(move * self.skip % self.spaces + 1 for move in range(self.spaces))

    @cached_property
    def spread(self) -> tuple[int, ...]:
        """The spaces in the order that spreads the heat."""
        return spread_order(self.spaces)

    @cached_property
    def move_to(self) -> dict[int, int]:
        """How many moves from the datum each space is."""
        return {space: move for move, space in enumerate(self.in_turn)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where the work must stand for `space`. `angle`: turns of the work from the datum; `moves`: from where it stood before.

    `pulse`: from the datum; `move_pulses`: this move. `crank`: whole turns and spaces on `circle` of this move; `from_datum`: the same
    counted from the datum. `plate`: spaces of the plate in this move. `nose`: hole of the plate on the spindle nose.
    """

    space: int
    angle: Fraction
    moves: int
    pulse: int | None = None
    move_pulses: int | None = None
    crank: tuple[int, int] | None = None
    from_datum: tuple[int, int] | None = None
    circle: int = 0
    plate: int | None = None
    plate_circle: int = 0
    nose: int | None = None
    nose_move: int | None = None


def stand(way: Moves, space: int, before: int | None, *, again: bool = False) -> Standing:
    """Where the work stands for `space`, coming from space `before` (None: from the datum); always onward, never back.

    `again`: for space 1 after a whole round, whose pulse is that of the datum come round.
    """
    here = way.move_to[space]
    came = 0 if before is None else way.move_to[before]
    moves = (here - came) % way.spaces
    turn = Fraction(space - 1, way.spaces)
    pulse = move_pulses = crank = datum = plate = nose = nose_move = None
    if way.pulses:
        pulse = way.pulses[here]
        onward = pulse - way.pulses[came]
        move_pulses = onward + way.pulses[-1] if here < came else onward
        pulse = way.pulses[-1] if again else pulse
    if way.circle:
        each = way.whole_turns * way.circle + way.holes
        crank, datum = divmod(moves * each, way.circle), divmod(here * each, way.circle)
    if way.plate_circle:
        plate = moves * way.plate_holes
    if way.nose_holes:
        nose, nose_move = here * way.holes % way.nose_holes, moves * way.holes
    return Standing(
        space=space,
        angle=turn,
        moves=moves,
        pulse=pulse,
        move_pulses=move_pulses,
        crank=crank,
        from_datum=datum,
        circle=way.circle,
        plate=plate,
        plate_circle=way.plate_circle,
        nose=nose,
        nose_move=nose_move,
    )
