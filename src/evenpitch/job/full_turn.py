"""The closing test of a full turn on one rig: what it leaves, what that is as large as, and whether it grows with the turns."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from evenpitch.checking.closing import (
    Drive,
    Growth,
    Meaning,
    after_turns,
    growth,
    meanings,
    residue_words,
    what_decides,
    what_it_is,
)
from evenpitch.checking.head import HeadFound
from evenpitch.checking.measured import Measured
from evenpitch.checking.notes import note
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Radian
from evenpitch.rig.rig import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class FullTurn:
    """`residue`: of one turn, radian. `meanings`: empty where the pulses of a turn are not known. `growth`: where two turns were read."""

    residue: Measured
    words: str
    meanings: tuple[Meaning, ...]
    growth: Growth | None
    findings: tuple[Finding, ...]

    def facts(self) -> dict[str, Any]:
        """For the machine-readable answer."""
        return {
            "says": self.words,
            "may_be": [
                {
                    "cause": one.cause,
                    "each_arcsec": one.size / RADIAN_PER_ARCSEC,
                    "times": one.times,
                    "fits": one.fits,
                    "test": one.test,
                }
                for one in self.meanings
            ],
            "over_two_turns": None if self.growth is None else self.growth.kind,
        }


def drive_of(rig: Rig) -> Drive | None:
    """What stands between a pulse and the work; None where the pulses of a turn are not known."""
    pulses, link = rig.pulses_per_turn(), rig.link
    if pulses is None or link is None:
        return None
    belted = link.belt is not None and link.belt.motor != link.belt.head
    return Drive(
        pulses_per_turn=pulses,
        microsteps=link.microsteps,
        belt_teeth=link.belt.head if link.belt is not None and belted else None,
        ratio=rig.head.ratio,
        backlash=rig.head.backlash,
    )


def full_turn(found: HeadFound, drive: Drive | None) -> FullTurn | None:
    """The residue of a head's full turn with what it means; None where no full turn was read."""
    residue = found.closure
    if residue is None:
        return None
    once, twice = after_turns(found.readings, 1), after_turns(found.readings, 2)
    grown = None if once is None or twice is None else growth(Radian(once), Radian(twice), Radian(residue.U))
    if drive is None:
        return FullTurn(residue=residue, words="", meanings=(), growth=grown, findings=())
    value, U = Radian(residue.value), Radian(residue.U)
    return FullTurn(
        residue=residue,
        words=residue_words(value, U, drive),
        meanings=meanings(value, U, drive) if residue.shown() else (),
        growth=grown,
        findings=tuple(_findings(residue, grown, drive)),
    )


def _findings(residue: Measured, grown: Growth | None, drive: Drive) -> Iterator[Finding]:
    if not residue.shown():
        return
    value, U = Radian(residue.value), Radian(residue.U)
    found = residue.times(1 / RADIAN_PER_ARCSEC)
    yield note(
        "turn-does-not-close",
        residue=f"{found.value:+.1f} ± {found.U:.1f}″",
        why=" ".join(one for one in (what_it_is(value, U, drive), "" if grown is None else grown.words) if one),
        do=what_decides(value, U, drive),
    )
