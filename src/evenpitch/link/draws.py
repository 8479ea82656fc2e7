"""Monte Carlo of whole gears: each draw is one gear cut on this drive, all its spaces and three helices, in array code."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from evenpitch.link.drive import TURN, Drive
from evenpitch.link.gearing import OnGear
from evenpitch.link.motion import eccentric
from evenpitch.link.pulse_train import Array
from evenpitch.quantity.refusal import refuse
from evenpitch.sources.citations import cites

DRAWS = 20_000
MOST_DRAWS = 1_000_000
BATCH = 1000
POINTS = 61
"""Along the face, where the helix is looked at."""
SPUR_SHARE = 0.1
"""Of an unseated jump that is left on a spur gear, by rocking under the cutter; common practice."""

Progress = Callable[[int, int], bool]
"""Told draws done and draws in all; False stops the work, what is done counts."""


@dataclass(frozen=True, slots=True)
class Draws:
    """Deviations in µm, one of each for every draw. `flank_slope`: signed, of one flank of one space, to hold against the budget."""

    single: Array
    cumulative: Array
    runout: Array
    slope: Array
    form: Array
    total: Array
    flank_slope: Array


@dataclass(frozen=True, slots=True)
class _Shared:
    """What one batch shares between spacing and helix: coefficients of sine and cosine of each wave, radian; the blank, µm."""

    sines: Array
    cosines: Array
    motor: Array
    motor_phase: Array
    blank: Array
    blank_phase: Array


@cites(
    "JCGM 101:2008",
    "derived here",
    formula="one draw: five waves, motor, blank, play, load, drift, lag; helix on three spaces, both flanks",
)
def draw(
    drive: Drive, gear: OnGear, draws: int = DRAWS, seed: int = 1, *, mapped: float = 1.0, progress: Progress | None = None
) -> Draws:
    """So many gears. `mapped`: part of the waves of worm and wheel that a head map leaves in the spacing; `seed`: repeatable."""
    if not 1 <= draws <= MOST_DRAWS:
        raise refuse("draws", draws, f"1 to {MOST_DRAWS}", "20 000 repeat a probability to 0.01.", "Leave it out.")
    if drive.seating < 0 or drive.feeding.mean <= 0:
        raise refuse(
            "rig", "", "a feed above 0 and a seating of 0 or more", "One of them is negative.", "Mend it on the rig page."
        )
    parts = list(_batches(drive, gear, draws, seed, mapped, progress))
    return Draws(*(np.concatenate(column) for column in zip(*parts, strict=True)))


def _batches(
    drive: Drive, gear: OnGear, draws: int, seed: int, mapped: float, progress: Progress | None
) -> Iterator[tuple[Array, ...]]:
    random = np.random.default_rng(seed)
    spacing, helix = _Spacing(drive, gear, mapped), _Helix(drive, gear)
    done = 0
    while done < draws:
        count = min(BATCH, draws - done)
        shared = _share(drive, count, random)
        yield (*spacing.drawn(shared, random), *helix.drawn(shared, random))
        done += count
        if progress is not None and not progress(done, draws):
            return


def _share(drive: Drive, count: int, random: np.random.Generator) -> _Shared:
    heights = np.asarray(drive.amplitudes) * (0.8 + 0.4 * random.random((count, 5)))
    if not drive.linked:
        heights[:, 4] = 0.0
    turned = TURN * random.random((count, 5))
    motor = drive.motor_amplitude * (0.3 + 0.7 * random.random(count)) * drive.linked
    return _Shared(
        heights * np.cos(turned),
        heights * np.sin(turned),
        motor,
        TURN * random.random(count),
        1000 * drive.eccentricity * (0.3 + 0.7 * random.random(count)),
        TURN * random.random(count),
    )


class _Spacing:
    """The spacing of all spaces: sums of sines are products of matrices, so that no sine is taken twice."""

    def __init__(self, drive: Drive, gear: OnGear, mapped: float) -> None:
        z, pulses = gear.teeth, drive.pulses_per_turn
        self.drive, self.gear = drive, gear
        angle = TURN * np.arange(z) / z
        self.turned = np.outer(drive.per_turn, angle)
        kept = np.array([mapped, mapped, mapped, mapped, 1.0])[:, None]
        whole = [(2 * k * pulses.numerator + z * pulses.denominator) // (2 * z * pulses.denominator) for k in range(z)]
        exact = [target - k * pulses / z for k, target in enumerate(whole)]
        self.rounding = np.array([float(part) for part in exact]) * TURN / float(pulses) * drive.linked
        cycle = TURN * (np.array(whole, dtype=float) % (4 * drive.microsteps)) / (4 * drive.microsteps)
        self.basis = np.vstack([np.sin(self.turned) * kept, np.cos(self.turned) * kept, np.sin(cycle), np.cos(cycle)])
        self.blank = np.vstack([np.sin(angle), np.cos(angle)])
        self.along = np.arange(z) / z
        lag = drive.feeding.mean * drive.latency * drive.feeding.difference * drive.linked
        self.lag = 1000 * math.tan(gear.helix) * lag
        self.play = drive.seating * drive.backlash / 2
        self.load = drive.load_angle_spread * drive.linked

    def drawn(self, shared: _Shared, random: np.random.Generator) -> tuple[Array, Array, Array]:
        """f_p, F_p, F_r of a batch, µm."""
        gear, count = self.gear, len(shared.motor)
        motor = np.stack([shared.motor * np.cos(shared.motor_phase), shared.motor * np.sin(shared.motor_phase)], axis=1)
        y = np.hstack([shared.sines, shared.cosines, motor]) @ self.basis
        y += self.rounding
        for half in (self.play, self.load):
            if half:
                y += half * (2 * random.random((count, gear.teeth)) - 1)
        y *= 1000 * gear.radius
        off = shared.blank / math.cos(gear.transverse_angle)
        y += np.stack([off * np.cos(shared.blank_phase), off * np.sin(shared.blank_phase)], axis=1) @ self.blank
        y += np.outer(1000 * self.drive.drift * (2 * random.random(count) - 1), self.along)
        if self.lag:
            y += self.lag * random.standard_normal((count, gear.teeth))
        steps = np.abs(np.diff(y, axis=1)).max(axis=1)
        single = np.maximum(steps, np.abs(y[:, 0] - y[:, -1]))
        return single, y.max(axis=1) - y.min(axis=1), 2 * shared.blank


_TABLE = 8192
"""Places of one turn of the crank at which its cosine is kept; between them a straight line is within 1e-4 of it up to 0.95."""


def _hand_table(unevenness: float) -> Array:
    """cos E over one turn of M, its first value once more at the end."""
    return np.cos(eccentric(np.arange(_TABLE + 1) * (TURN / _TABLE), unevenness, 6))


def _looked_up(table: Array, mean: Array) -> Array:
    """The table at any M of 0 or more."""
    place = mean * (_TABLE / TURN)
    whole = place.astype(np.int64)
    part = place - whole
    whole &= _TABLE - 1
    before = table[whole]
    return np.asarray(before + part * (table[whole + 1] - before), float)


class _Helix:
    """Three helices of each gear, both flanks. The tilt of the axis is straight: it changes slope and range, never the form."""

    def __init__(self, drive: Drive, gear: OnGear) -> None:
        self.drive, self.gear = drive, gear
        self.x = np.linspace(0.0, gear.face, POINTS)
        self.centred = self.x - self.x.mean()
        self.fit = self.centred / (self.centred @ self.centred)
        self.spaces = [round(j * gear.teeth / 3) for j in range(3)]
        self.basis = [self._basis(TURN * k / gear.teeth) for k in self.spaces] if gear.helical else []
        self.hand = _hand_table(drive.feeding.unevenness)
        self.scale = np.vstack([self.x, *(f(TURN * self.x / drive.scale_period) for f in (np.sin, np.cos))])

    def _basis(self, start: float) -> Array:
        drive, gear = self.drive, self.gear
        angle = start + TURN * self.x / gear.lead
        turned = np.outer(drive.per_turn, angle)
        cycle = float(drive.pulses_per_turn) / (4 * drive.microsteps) * angle
        return np.vstack([np.sin(turned), np.cos(turned), np.sin(cycle), np.cos(cycle), np.sin(angle), np.cos(angle)])

    def drawn(self, shared: _Shared, random: np.random.Generator) -> tuple[Array, Array, Array, Array]:
        """f_Hβ, f_fβ, F_β (the worst of six) and the signed slope of one flank, µm."""
        drive, gear, count = self.drive, self.gear, len(shared.motor)
        factor = drive.scale_factor * (2 * random.random(count) - 1)
        side, upright = (drive.axis_tilt * (2 * random.random(count) - 1) for _ in range(2))
        wave = 1000 * drive.scale_wave * (0.3 + 0.7 * random.random(count))
        phase = TURN * random.random(count)
        tilt = 1000 * side * math.cos(gear.transverse_angle), 1000 * upright * math.sin(gear.transverse_angle)
        common = gear.tan_base * np.stack([1000 * factor, wave * np.cos(phase), wave * np.sin(phase)], axis=1) @ self.scale
        weights = self._weights(shared) if gear.helical else None
        worst = [np.zeros(count) for _ in range(3)]
        one: Array = np.zeros(0)
        for place in range(3):
            w = self._track(place, weights, common, random, count)
            slope = w @ self.fit
            rest = w - w.mean(axis=1)[:, None] - slope[:, None] * self.centred
            form = rest.max(axis=1) - rest.min(axis=1)
            for sign in (1.0, -1.0):
                leaning = slope + tilt[0] + sign * tilt[1]
                rest_of = rest + leaning[:, None] * self.centred
                found = (np.abs(leaning) * gear.face, form, rest_of.max(axis=1) - rest_of.min(axis=1))
                worst = [np.maximum(before, now) for before, now in zip(worst, found, strict=True)]
                if not len(one):
                    one = leaning * gear.face
        return worst[0], worst[1], worst[2], one

    def _weights(self, shared: _Shared) -> Array:
        base = 1000 * self.gear.base_radius
        parts = [shared.sines * base, shared.cosines * base]
        for height, phase in ((base * shared.motor, shared.motor_phase), (shared.blank, shared.blank_phase)):
            parts.append(np.stack([height * np.cos(phase), height * np.sin(phase)], axis=1))
        return np.hstack(parts)

    def _track(self, place: int, weights: Array | None, common: Array, random: np.random.Generator, count: int) -> Array:
        """One helix of each gear of the batch: µm along the base tangent at the points of the face, tilt left out."""
        drive, gear, feed = self.drive, self.gear, self.drive.feeding
        w = np.zeros((count, POINTS)) if weights is None else weights @ self.basis[place]
        if gear.helical and drive.linked:
            w += common
            if feed.unevenness and drive.latency:
                mean = TURN * (feed.turns / feed.mean * self.x + random.random((count, 1)))
                size = 1000 * gear.tan_base * drive.latency * feed.mean
                w -= size * (1 - feed.unevenness * _looked_up(self.hand, mean))
        if not drive.seated:
            jump = 1000 * gear.base_radius * drive.seating * drive.backlash * (2 * random.random((count, 1)) - 1)
            w += jump * (1.0 if gear.helical else SPUR_SHARE) * (self.x > gear.face * random.random((count, 1)))
        return w
