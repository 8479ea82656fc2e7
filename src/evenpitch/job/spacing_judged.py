"""Spacing and runout as read: each flank closed on itself, or read under the head with its map taken off; judged by class."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from evenpitch.checking.decision import Says, decide, settling, worst
from evenpitch.checking.extremes import Unbiased, largest_single, total, unbiased
from evenpitch.checking.reading_budgets import USUAL_ANGLE, USUAL_INDICATOR
from evenpitch.checking.runout import FEWEST, Runout, runout
from evenpitch.checking.spacing import PitchSet, Spacing, from_places, half_difference, mean_of, spacing
from evenpitch.gear.limits import cumulative_pitch, rounded, single_pitch
from evenpitch.gear.limits import runout as runout_tolerance
from evenpitch.gear.sizes import pitch_diameter
from evenpitch.job.findings import finding
from evenpitch.job.head import head_error
from evenpitch.job.inspection import AroundRead, Inspection, stands_out
from evenpitch.job.plan import GearPlan
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.rig.rig import Rig

UM = 1000.0
MOST_ROUNDS = 16
"""More rounds than these nobody reads."""
BEST_U = 1.0
"""Below this (µm) a shop's comparator does not come, however many rounds are read."""
CLASSES = tuple(range(4, 13))


@dataclass(frozen=True, slots=True, kw_only=True)
class AroundJudged:
    """One of f_p, F_p, F_r. µm. `limit`: rounded, of class `cls`; `unbiased`: freed of what scatter adds, µm.

    `proven`: the finest class it passes, None where it passes none; `rounds`: read so far; `wanted`: that would prove the class, 0: none.
    """

    name: str
    words: str
    symbol: str
    flank: str
    value: float
    U: float
    limit: float
    cls: int
    says: Says
    proven: int | None
    rounds: int
    wanted: int
    settles: float
    unbiased: Unbiased | None = None
    others: tuple[tuple[int, float, Says], ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class SpacingRead:
    """The spacing of each flank read, the mean of both, half their difference, and how it was read."""

    flanks: tuple[tuple[str, Spacing], ...]
    mean: Spacing | None
    half: Spacing | None
    by: str


@dataclass(frozen=True, slots=True, eq=False)
class AroundFound:
    """All that was read round the gear."""

    spacing: SpacingRead
    runout: Runout | None
    judged: tuple[AroundJudged, ...]
    findings: tuple[Finding, ...]


def around_judged(plan: GearPlan, rig: Rig, found: Inspection, classes: Sequence[int] = ()) -> AroundFound:
    """Spacing by comparator, else under the head; runout by a pin; each judged for the class of the plan."""
    told: list[Finding] = []
    read = _spacing(plan, rig, found, told)
    circle = _runout(found, told)
    judged = list(_judged_spacing(plan, read))
    if circle is not None and circle.complete():
        judged.append(_judged_runout(plan, circle))
    told += list(_inflated(judged))
    return AroundFound(read, circle, tuple(judged), tuple(dict.fromkeys(told)))


def _spacing(plan: GearPlan, rig: Rig, found: Inspection, told: list[Finding]) -> SpacingRead:
    steps, angles = found.of("pitch step"), found.of("head angle")
    flanks = _closed(found, steps, told) if steps else _under_head(plan, rig, found, angles, told) if angles else ()
    if not flanks:
        return SpacingRead((), None, None, "")
    by_flank = dict(flanks)
    both = "left" in by_flank and "right" in by_flank
    mean = mean_of([by_flank["left"], by_flank["right"]]) if both else flanks[0][1]
    half = half_difference(by_flank["right"], by_flank["left"]) if both else None
    return SpacingRead(flanks, mean, half, "comparator" if steps else "head")


def _closed(found: Inspection, steps: Sequence[AroundRead], told: list[Finding]) -> tuple[tuple[str, Spacing], ...]:
    made = []
    for flank in ("right", "left", ""):
        own = [one for one in steps if one.flank == flank]
        if own:
            sets = [PitchSet(tuple(one.row(turn) for turn in range(len(one.rounds))), one.over, _stated(one)) for one in own]
            made.append((flank, spacing(found.teeth, sets)))
            told += _odd_pitches(own)
    return tuple(made)


def _stated(one: AroundRead) -> float:
    stated = [row.u for held in one.rounds for row in held.values() if row.u is not None]
    return max(stated) if stated else USUAL_INDICATOR


def _odd_pitches(several: Sequence[AroundRead]) -> Iterator[Finding]:
    """A reading far off in one round only is a slip of the reading; in one round alone a cause has to say what it is."""
    for one in several:
        if len(one.rounds) < 2:
            continue
        rows = np.array([one.row(turn) for turn in range(len(one.rounds))])
        left = rows - np.median(rows, axis=1, keepdims=True)
        left = left - np.median(left, axis=0, keepdims=True)
        odd = stands_out(left.ravel().tolist())
        if odd is not None:
            turn, space = divmod(odd[0], rows.shape[1])
            side = f", {one.flank} flank" if one.flank else ""
            what = f"pitch step at space {space + 1}, round {turn + 1}{side}"
            yield finding("reading-odd", what=what, value=f"{rows[turn, space] * UM:.0f} µm", times=odd[1], within=odd[2] * UM)


def _under_head(
    plan: GearPlan, rig: Rig, found: Inspection, angles: Sequence[AroundRead], told: list[Finding]
) -> tuple[tuple[str, Spacing], ...]:
    """Indexing under the head: true place is what was read and the head's own error there."""
    radius = float(pitch_diameter(plan.gear)) / 2
    head = rig.latest_map()
    own = np.zeros(found.teeth)
    if head is None:
        told.append(finding("head-unmapped", arcsec=head_error(rig)[0], um=head_error(rig)[0] * RADIAN_PER_ARCSEC * radius * UM))
    else:
        theta = 2 * np.pi * np.arange(found.teeth) / found.teeth
        own = sum((wave.amplitude * np.sin(wave.per_turn * theta + wave.phase) for wave in head.harmonics), own)
    made = []
    for one in angles:
        whole = [turn for turn, held in enumerate(one.rounds) if len(held) == found.teeth]
        if not whole:
            told.append(finding("head-angles-partial", have=max(map(len, one.rounds)), teeth=found.teeth))
            continue
        sizes = [1.0 if row.angle else 1 / radius for row in (one.rounds[0][space] for space in sorted(one.rounds[0]))]
        rounds = [tuple((np.array(one.row(turn)) * sizes + own) * radius) for turn in whole]
        stated = [row.u for held in one.rounds for row in held.values() if row.u is not None]
        u = max(stated) if stated else USUAL_ANGLE * radius
        made.append((one.flank, from_places(found.teeth, rounds, math.hypot(u, _u_head(rig, radius)))))
    return tuple(made)


def _u_head(rig: Rig, radius: float) -> float:
    """What is not known of the head, mm: the doubt of its map, or the head itself where there is none."""
    head = rig.latest_map()
    if head is None:
        return head_error(rig)[0] * RADIAN_PER_ARCSEC * radius / math.sqrt(2)
    doubts = [(wave.U if wave.U is not None else 0.1 * wave.amplitude) / 2 for wave in head.harmonics]
    return radius * math.sqrt(sum(doubt**2 for doubt in doubts) / 2)


def _runout(found: Inspection, told: list[Finding]) -> Runout | None:
    rounds = [held for one in found.of("runout") for held in one.rounds]
    if not rounds:
        return None
    spaces = {space for held in rounds for space in held}
    if len(spaces) < FEWEST:
        told.append(finding("runout-few", have=len(spaces), need=FEWEST))
        return None
    if len(spaces) < found.teeth:
        told.append(finding("runout-partial", have=len(spaces), teeth=found.teeth))
    stated = [row.u for held in rounds for row in held.values() if row.u is not None]
    values = [row for held in rounds for row in held.values()]
    odd = stands_out([row.value for row in values])
    if odd is not None:
        row = values[odd[0]]
        what = f"runout at space {row.space}"
        told.append(finding("reading-odd", what=what, value=f"{row.value * UM:.0f} µm", times=odd[1], within=odd[2] * UM))
    u = max(stated) if stated else USUAL_INDICATOR
    return runout(found.teeth, [{space: row.value for space, row in held.items()} for held in rounds], u)


# ---- the verdict of each


def _judged_spacing(plan: GearPlan, read: SpacingRead) -> Iterator[AroundJudged]:
    for name, words, symbol in (("single_pitch", "single pitch", "f_p"), ("cumulative_pitch", "total pitch", "F_p")):
        rows = [_one(plan, name, words, symbol, flank, found) for flank, found in read.flanks]
        yield from sorted(rows, key=lambda row: -row.value)


def _one(plan: GearPlan, name: str, words: str, symbol: str, flank: str, found: Spacing) -> AroundJudged:
    single = name == "single_pitch"
    value = (found.f_p if single else found.F_p) * UM
    U = found.factor * (found.u_single if single else found.u_mid) * UM
    free = unbiased(found, largest_single if single else total)
    scaled = Unbiased(free.read * UM, free.corrected * UM, free.low * UM, free.high * UM)
    formula = single_pitch if single else cumulative_pitch
    d, m = pitch_diameter(plan.gear), plan.gear.module

    def limit(cls: int) -> float:
        return rounded(formula(d, m, cls))

    def says(cls: int) -> Says:
        return _honest(decide(value, U, most=limit(cls)), scaled, limit(cls))

    cls = plan.tolerance_class
    proven = next((one for one in CLASSES if says(one) == "pass"), None)
    nearby = tuple((one, limit(one), says(one)) for one in (cls - 1, cls + 1) if one in CLASSES)
    settles = settling(value, most=limit(cls))
    return AroundJudged(
        name=name,
        words=words,
        symbol=symbol,
        flank=flank,
        value=value,
        U=U,
        limit=limit(cls),
        cls=cls,
        says=says(cls),
        proven=proven,
        rounds=found.rounds,
        wanted=_rounds_wanted(value, U, limit(cls), found.rounds),
        settles=settles,
        unbiased=scaled,
        others=nearby,
    )


def _honest(says: Says, free: Unbiased, limit: float) -> Says:
    """A fail that scatter alone could have made is none: the interval freed of it must lie beyond the limit as well."""
    return "not proven" if says == "fail" and free.low <= limit else says


def _rounds_wanted(value: float, U: float, limit: float, rounds: int) -> int:
    """Rounds that would prove it one way or the other if the value stays; 0 where it is proven, or no number would."""
    if abs(limit - value) >= U:
        return 0
    if abs(limit - value) < BEST_U:
        return 0
    wanted = math.ceil(rounds * (U / abs(limit - value)) ** 2)
    return wanted if wanted <= MOST_ROUNDS else 0


def _judged_runout(plan: GearPlan, circle: Runout) -> AroundJudged:
    d, m, cls = pitch_diameter(plan.gear), plan.gear.module, plan.tolerance_class
    value, U = circle.F_r.value * UM, circle.F_r.U * UM
    limit = rounded(runout_tolerance(d, m, cls))
    proven = next((one for one in CLASSES if decide(value, U, most=rounded(runout_tolerance(d, m, one))) == "pass"), None)
    return AroundJudged(
        name="runout",
        words="runout",
        symbol="F_r",
        flank="",
        value=value,
        U=U,
        limit=limit,
        cls=cls,
        says=decide(value, U, most=limit),
        proven=proven,
        rounds=circle.rounds,
        wanted=_rounds_wanted(value, U, limit, circle.rounds),
        settles=settling(value, most=limit),
    )


def _inflated(judged: Sequence[AroundJudged]) -> Iterator[Finding]:
    for one in judged:
        free = one.unbiased
        if free is not None and one.value - free.corrected > 0.25 * one.value:
            side = f", {one.flank} flank" if one.flank else ""
            yield finding(
                "scatter-inflates", what=f"{one.words}{side}", read=one.value, likely=free.corrected, low=free.low, high=free.high
            )


def worst_of(judged: Sequence[AroundJudged], name: str) -> AroundJudged | None:
    """Of both flanks the one that decides."""
    own = [one for one in judged if one.name == name]
    if not own:
        return None
    said = worst(tuple(one.says for one in own))
    return max((one for one in own if one.says == said), key=lambda one: one.value)
