"""The settings that are got wrong between a scale, a display, a drive and the work, each with its factor and its test."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.quantity.units import INCH


@dataclass(frozen=True, slots=True)
class Setting:
    """What is known of the chain. `count`, `period`: mm; `belt`: teeth on motor and head; `angle`: whether angles were compared."""

    count: Fraction | None = None
    period: Fraction | None = Fraction(1, 50)
    belt: tuple[int, int] | None = (20, 60)
    ratio: Fraction = Fraction(40)
    angle: bool = False


@dataclass(frozen=True, slots=True)
class Slip:
    """One setting got wrong: shown = factor × moved. Low `weight`: often met."""

    kind: str
    factor: Fraction
    words: str
    weight: float
    test: str


_EDGES = "Move 1.000 mm by the indicator and count: a display in counts gives the period over the edges counted."
_COUNT = "Read the count off the maker's plate of the scale, and move one count by the indicator."
_INCH = "Look for the unit sign of the display, and move one turn of the dial whose lead you know."
_DECIMAL = "Move 1 mm and read the whole display, all its figures."
_DIAMETER = "Switch the display from diameter to radius: the figure halves."
_DIRECTION = "Move the table towards growing numbers: they fall."
_BELT = "Chalk both pulleys, turn the motor's once by hand, and look how far the head's went."
_DRIVE = "Command one full turn of the motor in pulses, a chalk mark on its shaft: it must come round to the mark."
_MOTOR = "Read the motor's plate: 1.8° is 200 full steps, 0.9° is 400."
_RATIO = "Count the turns of the crank for one turn of the work."
_SCREW = "Ten whole turns of the dial against a block."


def slips(setting: Setting) -> Iterator[Slip]:
    """Every slip that this chain knows. Those of the motor weigh more where only lengths were compared, and the reverse."""
    scale, motor = (1.5, 0.0) if setting.angle else (0.0, 2.0)
    yield from _of_scale(setting, scale)
    yield from _of_display(scale)
    yield from _of_motor(setting, motor)


def _of_scale(setting: Setting, more: float) -> Iterator[Slip]:
    for times, words in (
        (Fraction(4), "all four edges of a period are counted, one is entered"),
        (Fraction(2), "twice as many edges of a period are counted as entered"),
        (Fraction(1, 2), "half as many edges of a period are counted as entered"),
        (Fraction(1, 4), "one edge of a period is counted, four are entered"),
    ):
        yield Slip("edges", times, words, 1.0 + more + (0.5 if times in (2, Fraction(1, 2)) else 0.0), _EDGES)
    sizes = [Fraction(1, 10), Fraction(1, 2), Fraction(1), Fraction(2), Fraction(5), Fraction(10)]
    if setting.count is not None:
        entered = setting.count * 1000
        pairs = [(entered, true) for true in sizes if true != entered]
    else:
        pairs = [
            (Fraction(a), Fraction(b))
            for a, b in (
                (1, 5),
                (5, 1),
                (1, 2),
                (2, 1),
                (1, 10),
                (10, 1),
                (1, Fraction(1, 2)),
                (Fraction(1, 2), 1),
                (2, 5),
                (5, 2),
            )
        ]
    for entered, true in pairs:
        weight = 1.2 if {entered, true} == {1, 5} else 1.8 + (0.4 if max(entered, true) / min(entered, true) > 5 else 0.0)
        words = f"{float(entered):g} µm a count is entered, the scale counts in {float(true):g} µm"
        yield Slip("count", entered / true, words, weight + more, _COUNT)


def _of_display(more: float) -> Iterator[Slip]:
    yield Slip("unit", 1 / INCH, "the display is in inches, taken for millimetres", 0.8 + more, _INCH)
    yield Slip("unit", INCH, "the display is in millimetres, taken for inches", 0.8 + more, _INCH)
    yield Slip(
        "25 for 25.4",
        Fraction(25) / INCH,
        "25 stands for 25.4 in a ratio",
        1.0,
        "Move exactly 1 in by blocks: 25.000 shows the slip, 25.400 does not.",
    )
    yield Slip(
        "25 for 25.4", INCH / 25, "25.4 stands for 25 in a ratio", 1.0, "Move exactly 25 mm by blocks: 25.400 shows the slip."
    )
    yield Slip("diameter", Fraction(2), "the display shows diameter, the move is a radius", 1.1 + more, _DIAMETER)
    yield Slip("diameter", Fraction(1, 2), "the display halves: radius is shown for a diameter", 1.6 + more, _DIAMETER)
    yield Slip("direction", Fraction(-1), "the direction is reversed", 0.5, _DIRECTION)
    for times in (Fraction(10), Fraction(1, 10), Fraction(100), Fraction(1, 100), Fraction(1000), Fraction(1, 1000)):
        weight = 2.0 if times in (10, Fraction(1, 10)) else 2.6
        yield Slip("decimal mark", times, "the decimal mark stands in another place", weight + more, _DECIMAL)
    for screw, metric in ((INCH / 4, Fraction(6)), (INCH / 4, Fraction(5)), (INCH / 5, Fraction(5)), (INCH / 10, Fraction(5, 2))):
        words = f"a screw of {float(screw):g} mm lead is taken for {float(metric):g} mm"
        yield Slip("screw", metric / screw, words, 2.2, _SCREW)
        other = f"a screw of {float(metric):g} mm lead is taken for {float(screw):g} mm"
        yield Slip("screw", screw / metric, other, 2.4, _SCREW)


def _of_motor(setting: Setting, more: float) -> Iterator[Slip]:
    for times in (Fraction(2), Fraction(4), Fraction(8), Fraction(5, 4), Fraction(5, 2), Fraction(5)):
        weight = {Fraction(2): 1.0, Fraction(4): 1.4}.get(times, 1.9) + more
        said = float(times)
        yield Slip("microsteps", times, f"the drive's switch is set {said:g} times coarser than entered", weight, _DRIVE)
        yield Slip("microsteps", 1 / times, f"the drive's switch is set {said:g} times finer than entered", weight, _DRIVE)
    yield Slip("motor", Fraction(2), "a motor of 200 full steps a turn is taken for one of 400", 1.8 + more, _MOTOR)
    yield Slip("motor", Fraction(1, 2), "a motor of 400 full steps a turn is taken for one of 200", 1.8 + more, _MOTOR)
    if setting.belt is not None and setting.belt[0] != setting.belt[1]:
        yield from _of_belt(Fraction(setting.belt[1], setting.belt[0]), more)
    for other in (40, 60, 72, 80, 90, 120):
        if setting.ratio != other:
            words = f"the head is {other}:1, {setting.ratio}:1 is entered"
            yield Slip("head ratio", setting.ratio / other, words, 1.7 + more, _RATIO)


def _of_belt(reduction: Fraction, more: float) -> Iterator[Slip]:
    yield Slip(
        "belt",
        reduction**2,
        "the belt's two tooth counts are entered the wrong way round, the other way on the machine",
        1.9 + more,
        _BELT,
    )
    yield Slip("belt", 1 / reduction**2, "the belt's two tooth counts are entered the wrong way round", 1.5 + more, _BELT)
    yield Slip("belt", reduction, "the belt is entered and the motor stands on the worm itself", 1.6 + more, _BELT)
    yield Slip("belt", 1 / reduction, "the belt is left out of the sum", 1.3 + more, _BELT)
