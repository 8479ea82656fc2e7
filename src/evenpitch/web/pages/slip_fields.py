"""The form of "what if" on the page of the cutters: small slips, typed as a person would."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from evenpitch.quantity.echo import echo_angle, echo_length
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_number import read_number, read_whole
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.units import Millimetre, degrees
from evenpitch.web.pages.fields import Field, with_messages

if TYPE_CHECKING:
    from evenpitch.job.slips import Slips

Kind = Literal["angle", "length", "pulses", "ppm"]


@dataclass(frozen=True, slots=True)
class SlipField:
    """One slip: its name in the address, label, an example of the usual size, help, the most that is a slip (degrees, mm, pulses, ppm);
    `helical`: only a helix shows it."""

    name: str
    kind: Kind
    label: str
    example: str
    help: str
    most: float
    helical: bool = False


SLIPS = (
    SlipField("swing", "angle", "Swing off by", "0.25°", "more than is set; − for less", 5),
    SlipField("off", "length", "Cutter off centre by", "0.05 mm", "towards the right flank", 5),
    SlipField("under", "length", "Blank under size by", "0.1 mm", "in diameter, and not allowed for", 5),
    SlipField("worm", "angle", "Worm error", '30"', "of the work, once for each turn of the worm", 1),
    SlipField("lost", "pulses", "Pulses lost at mid face", "1", "the work stays behind by so many", 100_000, helical=True),
    SlipField("lead", "ppm", "Lead off by", "500 ppm", "+ is a longer lead", 100_000, helical=True),
)


def read_slips(typed: Mapping[str, str], shown: tuple[SlipField, ...]) -> tuple[Slips, tuple[Fault, ...]]:
    """The slips typed, and what was refused of them."""
    from evenpitch.job.slips import Slips

    faults: list[Fault] = []
    found: dict[str, Fraction] = {}
    for one in shown:
        text = typed.get(one.name, "").strip()
        if text:
            try:
                found[one.name] = _read(one, text)
            except Refusal as refusal:
                faults += refusal.faults
    value = {one.name: found.get(one.name, Fraction(0)) for one in SLIPS}
    made = Slips(
        swing=degrees(value["swing"]),
        off_centre=Millimetre(float(value["off"])),
        blank_under=Millimetre(float(value["under"])),
        worm=degrees(value["worm"]),
        lost=int(value["lost"]),
        lead=float(value["lead"]),
    )
    return made, tuple(faults)


def _read(one: SlipField, text: str) -> Fraction:
    value = _READERS[one.kind](text, one.name)
    if abs(value) > Fraction(one.most):
        unit = {"angle": "°", "length": " mm", "pulses": " pulses", "ppm": " ppm"}[one.kind]
        likely = (
            "A slip is small; a larger change is another setting."
            if one.kind != "angle"
            else "A number without a mark is degrees."
        )
        raise refuse(
            one.name, text, f"at most {one.most:g}{unit} either way", likely, f"Type the slip alone, such as {one.example}."
        )
    return value


def _ppm(text: str, field: str) -> Fraction:
    return read_number(text.casefold().removesuffix("ppm").strip(), field=field)


_READERS: dict[Kind, Callable[[str, str], Fraction]] = {
    "angle": lambda text, field: read_angle(text, field=field),
    "length": lambda text, field: read_length(text, field=field),
    "pulses": lambda text, field: Fraction(read_whole(text, field=field, least=0, most=100_000, words=("pulse", "pulses"))),
    "ppm": _ppm,
}


def slips_shown(*, helical: bool, linked: bool) -> tuple[SlipField, ...]:
    """Those that this gear on this rig can show: a spur gear shows no lead, a rig without a link loses no pulse."""
    return tuple(one for one in SLIPS if (helical or not one.helical) and (linked or one.kind != "pulses"))


def slip_fields(
    typed: Mapping[str, str], shown: tuple[SlipField, ...], faults: tuple[Fault, ...], first: int
) -> tuple[Field, ...]:
    """The fields of the form, with what was understood beneath and what was refused beside them, numbered from `first`."""
    fields = tuple(
        Field(
            path=one.name,
            label=one.label,
            help=one.help,
            example=one.example,
            value=typed.get(one.name, ""),
            echo=_echo(one, typed),
        )
        for one in shown
    )
    return with_messages(fields, faults, first)


def _echo(one: SlipField, typed: Mapping[str, str]) -> str:
    text = typed.get(one.name, "").strip()
    if not text or one.kind not in ("angle", "length"):
        return ""
    try:
        value = _read(one, text)
    except Refusal:
        return ""
    return str(echo_angle(text, value) if one.kind == "angle" else echo_length(text, value))
