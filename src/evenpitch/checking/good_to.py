"""The one sentence: on this gear the link is good to ± x µm, limited by y."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.checking.budget import combined
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Millimetre, Radian
from evenpitch.rig.maps import Harmonic
from evenpitch.sources.citations import cites

TURN = 2 * math.pi
USUAL_HEAD = 45.0
"""Seconds assumed for a head that was never measured; common practice."""

USUAL_MAP_U = 5.0
"""Seconds, U of a wave whose map does not say it: bar and indicator read a place to 4.6; common practice."""


@dataclass(frozen=True, slots=True)
class LinkShare:
    """What one source leaves along the face at the pitch line, ± mm; `u`: standard uncertainty of that; whose it is."""

    name: str
    size: float
    owner: str
    words: str
    u: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OnGear:
    """What the sentence needs of a gear. `lead` at the pitch line; lengths mm, angles radian."""

    pitch_diameter: Millimetre
    helix: Radian
    base_helix: Radian
    face: Millimetre
    lead: Millimetre

    @property
    def radius(self) -> float:
        """Of the pitch cylinder, mm."""
        return self.pitch_diameter / 2

    @property
    def turned(self) -> Radian:
        """The angle the work turns over the face."""
        return Radian(TURN * self.face / self.lead)


@dataclass(frozen=True, slots=True)
class GoodTo:
    """The sentence in figures. `size`: ± mm along the face; shares largest first."""

    size: float
    u: float
    shares: tuple[LinkShare, ...]

    @property
    def limited_by(self) -> LinkShare:
        """The largest share."""
        return self.shares[0]

    def facts(self) -> dict[str, object]:
        """Under the fixed keys of the machine-readable answer."""
        return {
            "value": self.size * 1e3,
            "u": self.u * 1e3,
            "limited_by": self.limited_by.name,
            "shares": [{"name": one.name, "um": one.size * 1e3, "owner": one.owner} for one in self.shares],
        }


@cites("derived here", formula="A min(1, |sin(h Δθ/2)|), A where h Δθ > π")
def wave_over(amplitude: Radian, per_turn: int, turned: Radian) -> Radian:
    """Half of the most that a wave changes while the work turns by `turned`, wherever on the wave the face lies."""
    half = per_turn * turned / 2
    return amplitude if half >= math.pi / 2 else Radian(amplitude * math.sin(half))


def head_shares(harmonics: Sequence[Harmonic], gear: OnGear, ratio: Fraction) -> tuple[LinkShare, ...]:
    """What each wave of the head leaves over the face."""
    shares = []
    for wave in harmonics:
        part = wave_over(wave.amplitude, wave.per_turn, gear.turned) / wave.amplitude if wave.amplitude else 0.0
        arcsec = wave.amplitude / RADIAN_PER_ARCSEC
        name, words = _wave_words(wave.per_turn, ratio, arcsec, gear)
        doubt = (USUAL_MAP_U * RADIAN_PER_ARCSEC if wave.U is None else wave.U) / 2 * part * gear.radius
        shares.append(LinkShare(name, part * wave.amplitude * gear.radius, "head", words, doubt))
    return tuple(shares)


def _wave_words(per_turn: int, ratio: Fraction, arcsec: float, gear: OnGear) -> tuple[str, str]:
    if per_turn == ratio:
        return "worm", f"the worm's own wave (±{arcsec:.0f}″)"
    if per_turn == 2 * ratio:
        return "worm twice", f"the worm's second wave (±{arcsec:.0f}″)"
    over = math.degrees(gear.turned)
    if per_turn == 1:
        return "worm wheel", f"the worm wheel (±{arcsec:.0f}″ once a turn, over {over:.0f}°)"
    return f"{per_turn} in a turn", f"the head's wave of {per_turn} in a turn (±{arcsec:.0f}″)"


def unmeasured_share(gear: OnGear) -> LinkShare:
    """The head where no map is known: ±45″, as if all of it stood within the face."""
    size = USUAL_HEAD * RADIAN_PER_ARCSEC * gear.radius
    return LinkShare(
        "head, not measured", size, "head", f"the head, never measured (±{USUAL_HEAD:.0f}″ assumed)", size / math.sqrt(3)
    )


@cites("derived here", formula="½ r 2π/T; q tan β; b tan β_b U_proof/θ_proof; x = √(Σ x_i²)")
def good_to(
    gear: OnGear,
    *,
    pulses_per_turn: Fraction,
    count: Millimetre,
    harmonics: Sequence[Harmonic] | None,
    ratio: Fraction,
    proven: float | None,
    off: float = 0.0,
) -> GoodTo:
    """How good the link is along the face of this gear.

    `harmonics`: of the head's map, None where there is none; `proven`: U of the link proof as a part of the angle turned;
    `off`: error of the link that the proof showed, same kind, 0 where none was shown.
    """
    shares = [
        LinkShare("one pulse", gear.radius * TURN / float(pulses_per_turn) / 2, "motor", "one pulse of the motor"),
        LinkShare("one count", count * math.tan(gear.helix), "scale", "one count of the scale"),
    ]
    shares += [unmeasured_share(gear)] if harmonics is None else head_shares(harmonics, gear, ratio)
    slope = gear.face * math.tan(gear.base_helix)
    if proven is not None:
        shares.append(LinkShare("proof", slope * proven, "setup", "what the link proof left open"))
    if off:
        doubt = slope * (proven or 0.0) / 2
        shares.append(LinkShare("error of the link", slope * abs(off), "setup", "the error that the link proof showed", doubt))
    ranked = tuple(sorted(shares, key=lambda one: -one.size))
    size = combined(tuple(one.size for one in ranked))
    u = combined(tuple(one.size / size * one.u for one in ranked)) if size else 0.0
    return GoodTo(size, u, ranked)


def sentence(name: str, gear: OnGear, found: GoodTo) -> str:
    """The sentence to hang on the wall."""
    most = found.limited_by
    return (
        f"On this gear, {name} of {gear.face:g} mm face, your link is good to ±{found.size * 1e3:.1f} µm along the face, "
        f"limited by {most.words} = {most.size * 1e3:.1f} µm."
    )
