"""Figures in print about dividing and change gears, beside ours."""

from __future__ import annotations

import json
from fractions import Fraction
from math import lcm, prod
from pathlib import Path
from typing import Any

from evenpitch.dividing.angle import angle_ways
from evenpitch.dividing.by_hand import Direct, Simple
from evenpitch.dividing.compound import compound_move, exact_compounds
from evenpitch.dividing.differential import differential_ways
from evenpitch.dividing.lead import every_lead, machine_lead, trains_for_lead
from evenpitch.dividing.pulses import pulse_way
from evenpitch.dividing.short_lead import short_leads
from evenpitch.dividing.simple import direct_ways, simple_ways
from evenpitch.dividing.trains import Train, mountings
from evenpitch.quantity.units import INCH
from evenpitch.rig.generic import GEAR_SETS, PLATE_SETS
from evenpitch.rig.head import Head, Plate
from published.row import Row

PT = "Practical Treatise on Milling and Milling Machines"
PAGE = "Machinery's Handbook, 27th ed., p. 1995"
COURSE = "trade course exercises"
ROTARY = "rotary table instructions, p. 5"
STANDS_NOT = "printed figure does not stand: "
HEAD = Head(ratio=Fraction(40), direct=24)
PLATES = PLATE_SETS["three plates, 15 to 49 holes"]
TWO_SIDED = PLATE_SETS["one plate, two sides, 24 to 66 holes"]
TWELVE = GEAR_SETS["twelve gears, 24 to 100"]
SCREW = INCH / 4
CASES: dict[str, Any] = json.loads((Path(__file__).parents[1] / "data" / "dividing.json").read_text(encoding="utf-8"))


def rows() -> tuple[Row, ...]:
    """All of them."""
    return (*_simple(), *_angles(), *_coverage(), *_differential(), *_pairs(), *_decimal(), *_leads(), *_slips(), *_wheels())


def _read(source: str, what: str, printed: str, computed: float | str, tolerance: float = 0.0, note: str = "") -> Row:
    return Row(source, what, printed, computed, tolerance, "text read", note)


def _move(ways: tuple[Simple, ...] | list[Simple], circle: int) -> str:
    return next((way.words() for way in ways if way.circle == circle), "none")


def _simple() -> list[Row]:
    seven, eight = simple_ways(7, HEAD, PLATES), simple_ways(8, HEAD, PLATES)
    on = {n: simple_ways(n, Head(ratio=Fraction(90)), (Plate((c,)),)) for n, c in ((53, 53), (17, 34))}
    fifteen = simple_ways(15, HEAD, (Plate((27, 30, 32, 35, 36)),))
    both = simple_ways(42, HEAD, (Plate((21, 42)),))
    task = "OD1644, lesson 1, task 1"
    return [
        _read(task, "42 divisions", "40 of 42", _move(both, 42)),
        _read(task, "42 divisions, smaller circle", "20 of 21", _move(both, 21)),
        _read(COURSE, "7 divisions, turns", "40/7", str(seven[0].crank_turns())),
        _read(COURSE, "8 divisions", "5 turns", eight[0].words()),
        _read(COURSE, "15 divisions", "2 turns + 18 of 27", _move(fifteen, 27)),
        _read(COURSE, "15 divisions, other circle", "2 turns + 24 of 36", _move(fifteen, 36)),
        _read(ROTARY, "53 divisions at 90:1", "1 turn + 37 of 53", on[53][0].words()),
        _read(ROTARY, "17 divisions at 90:1", "5 turns + 10 of 34", on[17][0].words()),
        _read(ROTARY, "holes between the sector arms for 10 spaces", "11", float(on[17][0].spaces + 1)),
        _read(COURSE, "8 divisions on the 24-hole nose plate, spaces", "3", float(_direct(8))),
    ]


def _direct(divisions: int) -> int:
    return next(way.spaces for way in direct_ways(divisions, HEAD) if isinstance(way, Direct))


def _angles() -> list[Row]:
    def move(degrees: str, circle: int) -> str:
        found = angle_ways(Fraction(degrees), HEAD, (Plate((circle,)),))
        return _move([way for way in found if isinstance(way, Simple)], circle)

    near = next(way for way in angle_ways(Fraction(24, 60), HEAD, (Plate((23,)),)) if isinstance(way, Simple))
    made = float(near.crank_turns()) * 9 * 60
    return [
        _read("Machinery's Handbook 1916", "11½ degrees", "1 turn + 5 of 18", move("23/2", 18)),
        _read(COURSE, "19 degrees", "2 turns + 6 of 54", move("19", 54)),
        _read(COURSE, "8 degrees 50 minutes", "53 of 54", move("53/6", 54)),
        _read("Machinery's Handbook 1916", "1 degree on 18", "2 of 18", move("1", 18)),
        _read("Machinery's Handbook 1916", "1 degree on 27", "3 of 27", move("1", 27)),
        _read("Machinery's Handbook 1916", "20 minutes on 27", "1 of 27", move("1/3", 27)),
        _read("OD1644, lesson 1, task 1", "24 minutes by 1 of 23, minutes made", "23.478", made, 0.0005),
    ]


def _coverage() -> list[Row]:
    simple = [n for n in range(1, 401) if simple_ways(n, HEAD, PLATES)]
    lacking = next(n for n in range(1, 401) if n not in simple)
    even = [n for n in range(2, 101, 2) if n not in simple]
    first = next(n for n in range(lacking, 401) if n not in simple and not differential_ways(n, HEAD, PLATES, TWELVE))
    return [
        _read(f"{PT}, p. 52", "every count to, by circles alone", "50", float(lacking - 1)),
        _read(f"{PT}, p. 52", "even counts to 100 that the circles lack", "96", " ".join(map(str, even))),
        _read(f"{PT}, p. 52", "every count to, circles and change gears", "382", float(first - 1)),
    ]


def _made(divisions: int, circle: int, spaces: int, drivers: tuple[int, ...], driven: tuple[int, ...]) -> str:
    """The printed train, or the one of the same ratio that we show; "none" where there is none."""
    for way in differential_ways(divisions, HEAD, PLATES, TWELVE):
        if way.crank() == (0, circle, spaces) and way.train.ratio() == Fraction(prod(drivers), prod(driven)):
            return f"{spaces} of {circle}, {way.plate_sense}"
    return "none"


def _differential() -> list[Row]:
    found = [
        _read(COURSE, "83 divisions by 90", "8 of 18, with", _made(83, 18, 8, (56, 32), (24, 24))),
        _read(COURSE, "83 divisions by 80", "10 of 20, against", _made(83, 20, 10, (72,), (48,))),
        _read(f"{PT}, p. 57", "319 divisions by 290, train of 4", "4 of 29, against", _made(319, 29, 4, (4,), (1,))),
        _read(f"{PT}, p. 55", "271 divisions by 280", "3 of 21, with", _made(271, 21, 3, (9,), (7,))),
    ]
    for angle, circle, _, _, worm, first, second, spindle, _ in CASES["quarter_degree"]["rows"]:
        divisions = int(360 / Fraction(angle.split()[0]))
        made = _made(divisions, int(circle), 1, (int(spindle), int(first)), (int(second), int(worm)))
        found.append(_read(f"{PT}, p. 57", f"{angle}, {spindle}·{first} : {second}·{worm}", f"1 of {circle}, against", made))
    for case in CASES["differential"]:
        if case["held"] == "from memory":
            given, sense = case["inputs"], case["outputs"]["plate_direction_vs_crank"]
            printed = f"{given['spaces']} of {given['circle']}, {'with' if sense == 'same' else 'against'}"
            gears = tuple(given["drivers_spindle_side"]), tuple(given["driven_plate_side"])
            made = _made(given["divisions"], given["circle"], given["spaces"], *gears)
            found.append(Row(case["source"], f"{given['divisions']} divisions", printed, made, 0.0, "from memory"))
    return found


def _decimal() -> list[Row]:
    found = []
    for printed, *moves in CASES["decimal"]["rows"]:
        for move, plates in zip(moves, (PLATES, TWO_SIDED), strict=True):
            turns = _landed(move.split(), plates)
            if turns is not None:
                found.append(_read(PAGE, f"{printed} turn by {move}", printed, float(turns), 0.00005))
    return found


def _landed(parts: list[str], plates: tuple[Plate, ...]) -> Fraction | None:
    """Where a printed move lands, through our own compound move on the plate that has both circles."""
    if len(parts) == 1:
        spaces, _, circle = parts[0].partition("/")
        return Fraction(int(spaces), int(circle)) if circle and any(int(circle) in plate.circles for plate in plates) else None
    (a, c1), (b, c2) = (tuple(map(int, part.split("/"))) for part in (parts[0], parts[2]))
    if not any({c1, c2} <= set(plate.circles) for plate in plates):
        return None
    net = Fraction(a, c1) + (b if parts[1] == "+" else -b) * Fraction(1, c2)
    move = compound_move(int(net * lcm(c1, c2)), c1, c2)
    if move is None:
        return None
    sense = 1 if move.plate_sense == "with" else -1
    return move.whole_turns + Fraction(move.spaces, c1) + sense * Fraction(move.plate_spaces, c2)


def _leads() -> list[Row]:
    chart = every_lead(HEAD, SCREW, TWELVE)

    def lead(drivers: tuple[int, ...], driven: tuple[int, ...]) -> float:
        train = Train(tuple(sorted(drivers)), tuple(sorted(driven)))
        return float(next(way.lead for way in chart if way.train.ratio() == train.ratio()) / INCH)

    usable = mountings(Train((32, 100), (24, 48)), TWELVE.stud_clearance)
    regular = trains_for_lead(Fraction("6.160") * INCH, HEAD, SCREW, TWELVE)[0]
    return [
        _read(f"{PT}, p. 62", "48·72 over 32·40", "27", lead((32, 40), (48, 72)), 0.5),
        _read(f"{PT}, p. 62", "24·48 over 100·32", "3.60", lead((100, 32), (24, 48)), 0.005),
        _read(f"{PT}, p. 62", "56·44 over 40·100", "6.160", lead((40, 100), (56, 44)), 0.0005),
        _read(f"{PT}, p. 62", "shortest regular lead", "0.670", float(chart[0].lead / INCH), 0.0005),
        _read(f"{PT}, p. 62", "mountings of 3.60 that go", "1", float(len(usable))),
        _read(f"{PT}, p. 62", "the mounting of 3.60", "100-24 32-48", " ".join(f"{a}-{b}" for a, b in usable[0])),
        _read(f"{PT}, p. 63", "6.160 geared to the spindle", "0.154", float(regular.lead / 40 / INCH), 0.0005),
        _read(f"{PT}, p. 249", "72·86 under 24·32", "1.240", lead((72, 86), (24, 32)), 0.0005),
        _read(COURSE, "machine lead of a 5 mm screw", "200", float(machine_lead(HEAD, Fraction(5)))),
        _read(COURSE, "machine lead of a 6 mm screw", "240", float(machine_lead(HEAD, Fraction(6)))),
    ]


def _slips() -> list[Row]:
    short = short_leads(Fraction("0.261") * INCH, 9, SCREW, TWELVE)[0]
    as_57 = next(way for way in differential_ways(57, HEAD, PLATES, TWELVE) if way.crank() == (0, 33, 22))
    turned = sum(size * moves for size, moves in pulse_way(127, HEAD, Fraction(192_000)).counts)
    plain = simple_ways(72, HEAD, PLATES)
    counted = next(way for way in plain if (way.circle, way.spaces) == (18, 10)).divisions
    nine = Plate((33, 35, 36, 37, 39))
    offered = len(simple_ways(25, Head(ratio=Fraction(72)), (nine,)))
    return [
        _read(f"{PT}, p. 63", "teeth slipped for 9 flutes on the 72", "8", float(short.slip)),
        _read(
            f"{PT}, p. 63",
            "short lead nearest to .261",
            ".2617",
            float(short.train.lead / INCH),
            0.00005,
            STANDS_NOT + "10.467 is divided by 40, not by 10, and cannot be made with the twelve gears; 10.465 can",
        ),
        Row("workshop forums", "57 by 22 of 33 read as plain", "60", str(as_57.approximate_number()), 0.0, "quoted second-hand"),
        Row(
            "workshop forums",
            "teeth from 10 of 18",
            "73",
            float(counted or 0),
            0.0,
            "quoted second-hand",
            STANDS_NOT + "10 of 18 is 72 divisions",
        ),
        Row(
            "workshop forums",
            "85 x 1512 + 42 x 1510 pulses for 127",
            str(85 * 1512 + 42 * 1510),
            float(turned),
            0.0,
            "quoted second-hand",
            STANDS_NOT + "the pattern is 60 pulses short of the turn; 103 x 1512 + 24 x 1511 closes",
        ),
        _read(COURSE, "circles offered for 25 at 72:1", "5", float(offered), 0.0, STANDS_NOT + "72/25 falls on none of them"),
    ]


def _wheels() -> list[Row]:
    found = []
    for _, fraction, equals in CASES["change_wheels"]["rows"]:
        for pair in equals.split():
            driver, driven = map(int, pair.split("/"))
            note = STANDS_NOT + "6/36 is meant" if pair == "6/32" else ""
            ours = str(Train((driver,), (driven,)).ratio())
            found.append(_read("Modern Machine-Shop Practice", f"{fraction} as {pair}", str(Fraction(fraction)), ours, 0.0, note))
    return found


def _pairs() -> list[Row]:
    found = []
    for case in CASES["compound"]:
        circles = {move["circle"] for move in case["inputs"]["moves"]}
        ours = [w for w in exact_compounds(case["inputs"]["divisions"], HEAD, PLATES) if {w.circle, w.plate_circle} == circles]
        net = str(ours[0].crank_turns() + ours[0].plate_turns()) if ours else "none"
        what = f"{case['inputs']['divisions']} divisions on {sorted(circles)}"
        found.append(Row(case["source"], what, case["outputs"]["net_turns"], net, 0.0, "from memory"))
    return found
