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
    `per_turn`: turns of the crank, against its plate, for one turn of the work; None where the plan does not say.
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
    per_turn: Fraction | None = None

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


@dataclass(frozen=True, slots=True)
class Datum:
    """Where the datum of the work stands now: `ahead` of the planned one, turns of the work, as it was picked up again.

    `lost`: nothing was cut since, so that how far the next move goes is not known, only where it ends.
    """

    ahead: Fraction = Fraction(0)
    lost: bool = False


AS_PLANNED = Datum()


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where the work must stand for `space`. `angle`: turns of the work from the datum; `moves`: from where it stood before.

    `pulse`: from the datum; `move_pulses`: this move. `crank`: whole turns and spaces on `circle` of this move; `from_datum`: the same
    counted from the datum. `plate`: spaces of the plate in this move. `nose`: hole of the plate on the spindle nose.
    `lost`: the moves are counted from the datum, since nobody knows where the work stands; `left`: turns of the work from the nearest
    hole on to the place, 0 where it has a hole, None where the crank cannot follow.
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
    lost: bool = False
    left: Fraction | None = Fraction(0)


def stand(way: Moves, space: int, before: int | None, *, again: bool = False, datum: Datum = AS_PLANNED) -> Standing:
    """Where the work stands for `space`, coming from space `before` (None: from the datum); always onward, never back.

    `again`: for space 1 after a whole round, whose pulse is that of the datum come round.
    """
    here = way.move_to[space]
    came = 0 if before is None or datum.lost else way.move_to[before]
    moves = (here - came) % way.spaces
    pulse, move_pulses = _pulses(way, here, came, again, datum)
    shift, left = _holes(way, datum.ahead)
    crank = from_datum = plate = nose = nose_move = None
    if way.circle:
        each = way.whole_turns * way.circle + way.holes
        from_datum = divmod(_round_once(way, here * each + shift), way.circle)
        crank = from_datum if datum.lost else divmod(moves * each, way.circle)
    if way.plate_circle:
        plate = moves * way.plate_holes
    if way.nose_holes:
        nose, nose_move = (here * way.holes + shift) % way.nose_holes, None if datum.lost else moves * way.holes
    return Standing(
        space=space,
        angle=(Fraction(space - 1, way.spaces) + datum.ahead) % 1,
        moves=moves,
        pulse=pulse,
        move_pulses=move_pulses,
        crank=crank,
        from_datum=from_datum,
        circle=way.circle,
        plate=plate,
        plate_circle=way.plate_circle,
        nose=nose,
        nose_move=nose_move,
        lost=datum.lost,
        left=left,
    )


def _pulses(way: Moves, here: int, came: int, again: bool, datum: Datum) -> tuple[int | None, int | None]:
    """Pulse from the datum and this move. A motor that turns the plate takes no part of an offset: the crank takes it."""
    if not way.pulses:
        return None, None
    onward = way.pulses[here] - way.pulses[came]
    move = onward + way.pulses[-1] if here < came else onward
    shift = round(datum.ahead * way.pulses[-1]) if way.by_motor_alone else 0
    return (way.pulses[-1] if again else way.pulses[here]) + shift, None if datum.lost else move


def _holes(way: Moves, ahead: Fraction) -> tuple[int, Fraction | None]:
    """Holes by which the crank (or the nose) stands on for a datum that is `ahead`, and what is left over, turns of the work."""
    if way.by_motor_alone or not ahead:
        return 0, Fraction(0)
    in_a_turn = Fraction(way.nose_holes) if way.nose_holes else None if way.per_turn is None else way.per_turn * way.circle
    if not in_a_turn:
        return 0, None
    shift = round(ahead * in_a_turn)
    return shift, ahead - shift / in_a_turn


def _round_once(way: Moves, holes: int) -> int:
    """A place before the datum as the same place a turn of the work on, where that is a whole number of holes."""
    whole = None if way.per_turn is None else way.per_turn * way.circle
    return holes + int(whole) if holes < 0 and whole is not None and whole.denominator == 1 else holes
