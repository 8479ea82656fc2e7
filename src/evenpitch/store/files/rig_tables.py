"""The tables of RIG.toml, each field with its reader and the range it may lie in (ranges are common practice)."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from fractions import Fraction
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field, model_validator

from evenpitch.quantity.pitch import Pitch
from evenpitch.rig.head import IdlerTest
from evenpitch.rig.link import Belt, MotorOn
from evenpitch.rig.machine import HelixSetBy
from evenpitch.rig.tools import Numbering
from evenpitch.store.files import shop
from evenpitch.store.files.further import FURTHER, Further
from evenpitch.store.files.tables import Table
from evenpitch.store.files.values import angle, day, listed, physical, read_kept, read_sized, size, whole, word, words

INCH_TRAVEL = (10, 5000)
"""Least and most of a travel, mm."""


class HeadTable(Table):
    """[head]"""

    takes_further: ClassVar[bool] = True
    ratio: Annotated[Fraction, shop.head_ratio()]
    centre_height: Annotated[Fraction | None, size(30, 1000)] = None
    direct: Annotated[int | None, shop.direct_holes()] = None
    end: Annotated[Literal["left", "right"] | None, word("left", "right")] = None
    backlash: Annotated[Fraction | None, angle(0, Fraction(1, 2))] = None
    idler_test: Annotated[IdlerTest | None, shop.idler_test()] = None
    tailstock_top: Annotated[Fraction | None, size(30, 1000)] = None
    further: Annotated[Further, FURTHER] = ()


class PlateTable(Table):
    """[[plate]]"""

    circles: Annotated[tuple[int, ...], shop.circles()]


class ChangeGearsTable(Table):
    """[change_gears]"""

    teeth: Annotated[tuple[int, ...], shop.change_gears()] = ()
    stud_clearance: Annotated[int | None, whole(0, 60, words=("teeth",))] = None


class DialTable(Table):
    """A dial: { division = "0.001 in", turn = "0.100 in" }"""

    division: Annotated[Fraction, shop.needed_length(Fraction(1, 1000), 1)]
    turn: Annotated[Fraction, shop.needed_length(Fraction(1, 2), 50)]


class TableTable(Table):
    """[table]"""

    takes_further: ClassVar[bool] = True
    screw_lead: Annotated[Fraction | None, size(1, 13)] = None
    helix_set_by: Annotated[HelixSetBy | None, word("table", "milling head", "neither")] = None
    swing: Annotated[Fraction | None, angle(0, 90)] = None
    travel: Annotated[Fraction | None, size(*INCH_TRAVEL)] = None
    length: Annotated[Fraction | None, size(50, 10000)] = None
    rapid: Annotated[float | None, physical("feed", 10, 50000, "mm/min")] = None
    saddle_travel: Annotated[Fraction | None, size(*INCH_TRAVEL)] = None
    knee_travel: Annotated[Fraction | None, size(*INCH_TRAVEL)] = None
    knee_dial: DialTable | None = None
    saddle_dial: DialTable | None = None
    further: Annotated[Further, FURTHER] = ()


_SPEED = "speeds from 1 to 20000 rpm, such as 31, 40, 51"
_FEED = "feeds from 0.1 to 20000 mm/min, such as 1/2 in/min, 3/4 in/min"


class SpindleTable(Table):
    """[spindle]"""

    speeds: Annotated[tuple[float, ...], listed(lambda text: read_kept(text, "rotation", 1, 20000, "rpm", _SPEED), _SPEED)] = ()
    feeds: Annotated[tuple[float, ...], listed(lambda text: read_kept(text, "feed", 0.1, 20000, "mm/min", _FEED), _FEED)] = ()
    arbor: Annotated[Fraction | None, size(5, 130)] = None
    collar: Annotated[Fraction | None, size(5, 250)] = None
    overarm: Annotated[Fraction | None, size(20, 1000)] = None


class LinkTable(Table):
    """[link]"""

    takes_further: ClassVar[bool] = True
    input: Annotated[Literal["scale", "screw encoder"] | None, word("scale", "screw encoder")] = None
    count: Annotated[Fraction | None, size(Fraction(1, 100_000), 1)] = None
    period: Annotated[Fraction | None, size(Fraction(1, 10_000), 10)] = None
    edges: Annotated[int | None, whole(1, 4096)] = None
    encoder_counts: Annotated[int | None, whole(1, 10_000_000, words=("counts",))] = None
    scale_length: Annotated[Fraction | None, size(10, 10000)] = None
    scale_side: Annotated[Literal["column", "operator"] | None, word("column", "operator")] = None
    scale_offset: Annotated[Fraction | None, size(0, 2000)] = None
    counts_up: Annotated[
        Literal["left", "right"] | None, word("left", "right", also={"table moves left": "left", "table moves right": "right"})
    ] = None
    motor_on: Annotated[MotorOn | None, word("worm shaft", "plate drive")] = None
    plate_turns: Annotated[Fraction | None, shop.plate_turns()] = None
    full_steps: Annotated[int | None, whole(4, 10000)] = None
    microsteps: Annotated[int | None, whole(1, 1024)] = None
    belt: Annotated[Belt | None, shop.belt()] = None
    largest_pulse_rate: Annotated[float | None, physical("frequency", 1, 1e8, "Hz")] = None
    largest_speed: Annotated[float | None, physical("rotation", 1, 20000, "rpm")] = None
    largest_count_rate: Annotated[float | None, physical("frequency", 1, 1e9, "Hz")] = None
    latency: Annotated[float | None, physical("time", 0, 10, "s")] = None
    supply: Annotated[float | None, physical("voltage", 1, 1000, "V")] = None
    current: Annotated[float | None, physical("current", 0.01, 200, "A")] = None
    peak_current: Annotated[float | None, physical("current", 0.01, 400, "A")] = None
    holding_torque: Annotated[float | None, physical("torque", 0.001, 500, "Nm")] = None
    inductance: Annotated[float | None, physical("inductance", 1e-6, 10, "H")] = None
    resistance: Annotated[float | None, physical("resistance", 0.001, 10000, "ohm")] = None
    rotor_inertia: Annotated[float | None, physical("inertia", 1e-8, 1, "kg m2")] = None
    worm_drag: Annotated[float | None, physical("torque", 0, 500, "Nm")] = None
    feed: Annotated[
        Literal["hand", "power"] | None,
        word("hand", "power", also={"hand crank": "hand", "hand feed": "hand", "power feed": "power"}),
    ] = None
    crank_unevenness: Annotated[float | None, physical("share", 0, 1, "")] = None
    further: Annotated[Further, FURTHER] = ()


class SetupTable(Table):
    """[setup]"""

    takes_further: ClassVar[bool] = True
    further: Annotated[Further, FURTHER] = ()


class CutterTable(Table):
    """[[cutter]]"""

    pitch: Annotated[Pitch, shop.pitch()]
    pressure_angle: Annotated[Fraction, angle(5, 40, needed=True)]
    number: Annotated[str, shop.cutter_number()]
    numbering: Annotated[Numbering | None, word("dp", "module")] = None
    made_for: Annotated[int | None, whole(8, 1000, words=("teeth",))] = None
    outside: Annotated[Fraction | None, size(12, 250)] = None
    width: Annotated[Fraction | None, size(Fraction(1, 2), 150)] = None
    teeth: Annotated[int | None, whole(1, 100, words=("teeth",))] = None
    tip_corner: Annotated[Fraction | None, size(Fraction(1, 100), 20, zero=True)] = None

    @model_validator(mode="before")
    @classmethod
    def _numbered(cls, raw: Any) -> Any:
        return shop.number_of_count(raw) if isinstance(raw, Mapping) else raw


_SIZES = "sizes from 0.05 to 500 mm, such as 0.144 in, 3.5 mm"


class InstrumentTable(Table):
    """[[instrument]]"""

    kind: Annotated[str, shop.instrument_kind()]
    range: Annotated[tuple[Fraction, Fraction] | None, shop.instrument_range()] = None
    division: Annotated[Fraction | None, size(Fraction(1, 10_000), 10)] = None
    U: Annotated[Fraction | None, size(Fraction(1, 100_000), 10)] = None
    sizes: Annotated[tuple[Fraction, ...], listed(lambda text: read_sized(text, Fraction(1, 20), 500), _SIZES)] = ()


class HarmonicTable(Table):
    """One wave of a map."""

    per_turn: Annotated[int, whole(1, 100_000, needed=True)]
    amplitude: Annotated[Fraction, angle(0, 1, needed=True)]
    phase: Annotated[Fraction | None, angle(-360, 360)] = None
    U: Annotated[Fraction | None, angle(0, 1)] = None


class MapTable(Table):
    """[[map]]"""

    date: Annotated[datetime.date, day()]
    harmonics: Annotated[tuple[HarmonicTable, ...], Field(max_length=200)] = ()


class CuttersTable(Table):
    """A file of cutters alone"""

    cutter: Annotated[tuple[CutterTable, ...], Field(max_length=500)] = ()


class RigTable(Table):
    """The whole of RIG.toml."""

    name: Annotated[str | None, words(80)] = None
    head: HeadTable
    plate: Annotated[tuple[PlateTable, ...], Field(max_length=40)] = ()
    change_gears: ChangeGearsTable = ChangeGearsTable()
    table: TableTable = TableTable()
    spindle: SpindleTable = SpindleTable()
    link: LinkTable | None = None
    setup: SetupTable = SetupTable()
    cutter: Annotated[tuple[CutterTable, ...], Field(max_length=500)] = ()
    instrument: Annotated[tuple[InstrumentTable, ...], Field(max_length=500)] = ()
    map: Annotated[tuple[MapTable, ...], Field(max_length=200)] = ()
