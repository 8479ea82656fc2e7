"""Readings of a scale, a head, a link; and a wrong reading: words and files in, an answer out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import Any, Literal

from evenpitch.checking.gain_doubt import USUAL_KELVIN
from evenpitch.checking.link_proof import ProofMeans
from evenpitch.checking.setting_slips import Setting
from evenpitch.checking.wrong_reading import explain_reading
from evenpitch.job.commissioning import USUAL_FACE, age_findings, commission_head, commission_scale
from evenpitch.job.full_turn import drive_of
from evenpitch.job.linked_gear import on_gear
from evenpitch.job.proving import prove_link
from evenpitch.quantity.finding import by_weight
from evenpitch.quantity.numeral import ALIKE
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.read_list import read_belt
from evenpitch.quantity.read_number import read_ratio, read_whole
from evenpitch.quantity.read_physical import read_physical
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import Kelvin, Millimetre
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.proving import compose_head, compose_proof, compose_reading, compose_scale
from evenpitch.sheet.compose.proving_sheet import proving_sheet
from evenpitch.store.files.job_file import read_job
from evenpitch.store.files.readings import read_head, read_proof, read_scale
from evenpitch.store.files.rig_file import read_rig
from evenpitch.web.answer import Answer
from evenpitch.web.papers import pdf
from evenpitch.web.typed import Collected, Typed, rig_of

Clock = Callable[[], date]
LONGEST = Fraction(10_000)
MOST_KELVIN = 30


def scale_answer(readings: bytes, typed: Typed, *, rig: bytes | None = None, job: bytes | None = None) -> Answer:
    """The scale from its readings. Typed, all optional: face, travel, period (of a wave in the scale), kelvin (blocks against scale)."""
    collected = Collected()
    face = collected.read(typed, "face", lambda text: _length(text, "face"), None)
    travel = collected.read(typed, "travel", lambda text: _length(text, "travel"), None)
    period = collected.read(typed, "period", lambda text: _length(text, "period"), None)
    kelvin = collected.read(typed, "kelvin", _kelvin, USUAL_KELVIN)
    collected.settle()
    helix, gears = None, [] if job is None else [work.gear for work in read_job(job).works]
    if gears and gears[0].face is not None:
        face = face or gears[0].face
        helix = on_gear(gears[0]).base_helix if gears[0].helix else None
    made = commission_scale(
        read_scale(readings), face=face or USUAL_FACE, base_helix=helix, travel_used=travel, period=period, rig=rig_of(rig),
        gears=gears, kelvin=kelvin,
    )  # fmt: skip
    shown = answer(
        "scale",
        (),
        made.findings,
        **made.calibration.facts(),
        gain_with_blocks_ppm=made.gain.times(1e6).facts(),
        gain_budget=[{"name": part.name, "u_ppm": part.u} for part, _ in made.budget.shares()],
        corrected=[one.facts() for one in made.corrected],
        **_paying(made.paying.over_face, made.paying.over_rack, made.paying.pays),
    )
    if made.wave is not None:
        found = {
            "period_mm": made.wave.period,
            "amplitude_um": made.wave.amplitude.times(1e3).facts(),
            "chance": made.wave.chance,
        }
        shown["wave"] = found
    return Answer(compose_scale(made), shown)


def _kelvin(text: str) -> Kelvin:
    found = read_physical(text, "temperature difference", field="kelvin", bare="K")
    if not 0 <= found <= MOST_KELVIN:
        raise refuse(
            "kelvin", text, f"from 0 to {MOST_KELVIN} K", "A temperature, not a difference?", "Blocks and scale: 1 K is usual."
        )
    return Kelvin(found)


def _paying(over_face: float, over_rack: float, pays: bool) -> dict[str, Any]:
    return {"over_face_um": over_face, "over_rack_um": over_rack, "correct": pays}


def head_answer(readings: bytes, typed: Typed, *, rig: bytes | None = None) -> Answer:
    """The head from its readings. Typed, optional: worm-ratio [40], targets (a count, for the table with the map taken out)."""
    owned, collected = rig_of(rig), Collected()
    usual = Fraction(40) if owned is None else owned.head.ratio
    ratio = collected.read(typed, "worm-ratio", lambda text: read_ratio(text, field="worm-ratio"), usual)
    count = collected.read(typed, "targets", lambda text: read_whole(text, field="targets", least=2, most=100_000), None)
    collected.settle()
    drive = None if owned is None else drive_of(owned)
    if count is not None and drive is None:
        raise refuse(
            "targets",
            count,
            "a rig whose pulses are known",
            "Without pulses there are no targets.",
            "Name the rig: --rig RIG.toml.",
        )
    made = commission_head(read_head(readings), ratio, drive)
    more: dict[str, Any] = {"hidden_counts": list(made.hidden)}
    if made.turn is not None:
        more["full_turn"] = made.turn.facts()
    if made.gain is not None:
        more["map_gain"] = {"factor": made.gain.factor, "pays": made.gain.pays}
    if count is not None:
        more["targets"] = list(made.targets(count))
    return Answer(compose_head(made, count), answer("head", (), made.findings, **made.found.facts(), **more))


def prove_answer(rig: bytes, readings: bytes, job: bytes, typed: Typed | None = None, *, today: Clock = date.today) -> Answer:
    """The link proven on a job. Typed, optional: gear (1 or 2 of a pair), arm (what the bar's length is known to)."""
    typed, collected = typed or {}, Collected()
    which = collected.read(typed, "gear", lambda text: read_whole(text, field="gear", least=1, most=2), 1)
    arm = collected.read(typed, "arm", lambda text: _length(text, "arm"), None)
    collected.settle()
    owned = read_rig(rig).rig
    order = read_job(job).order(owned)
    if which > len(order.works):
        raise refuse("gear", which, f"1 to {len(order.works)}", "The job has no second gear.", "Leave it out.")
    means = None if arm is None else ProofMeans(arm=arm)
    made = prove_link(order, read_proof(readings), gear=which - 1, means=means)
    findings = by_weight((*made.findings, *age_findings(owned, today())))
    made = replace(made, findings=findings)
    return Answer(compose_proof(made, owned.name), answer("prove", (), findings, **made.facts()))


def reading_answer(typed: Typed, *, rig: bytes | None = None) -> Answer:
    """What explains a wrong reading. Typed: moved, shown; optional: count, period, belt, worm-ratio."""
    collected, owned = Collected(), rig_of(rig)
    moved = collected.read(typed, "moved", lambda text: _either(text, "moved"), None)
    shown = collected.read(typed, "shown", lambda text: _either(text, "shown"), None)
    link = None if owned is None else owned.link
    known = None if link is None else link.count
    count = collected.read(typed, "count", lambda text: read_length(text, field="count"), known)
    period = collected.read(typed, "period", lambda text: read_length(text, field="period"), Fraction(1, 50))
    usual_belt = (20, 60) if link is None or link.belt is None else (link.belt.motor, link.belt.head)
    belt = collected.read(typed, "belt", lambda text: read_belt(text, field="belt"), usual_belt)
    usual_ratio = Fraction(40) if owned is None else owned.head.ratio
    ratio = collected.read(typed, "worm-ratio", lambda text: read_ratio(text, field="worm-ratio"), usual_ratio)
    collected.settle()
    if moved is None or shown is None:
        raise refuse(
            "moved" if moved is None else "shown",
            "",
            "what was moved and what was shown",
            "One of them is missing.",
            "evenpitch reading --moved 50mm --shown 200mm",
        )
    if moved[1] != shown[1]:
        raise refuse(
            "shown",
            typed["shown"],
            f"{'an angle' if moved[1] else 'a length'}, as what was moved",
            "One is a length, the other an angle.",
            "Write both with their units.",
        )
    setting = Setting(count=count, period=period, belt=belt, ratio=ratio, angle=moved[1])
    causes = explain_reading(moved[0], shown[0], setting, last_figure(typed["shown"]))
    factor = shown[0] / moved[0]
    told = answer("reading", (), (), factor=float(factor), causes=[cause.facts() for cause in causes])
    return Answer(compose_reading(typed["moved"], typed["shown"], causes), told)


def _either(text: str, field: str) -> tuple[Fraction, bool]:
    """A length in mm, or an angle in degrees; whether it was an angle."""
    plain = text.translate(ALIKE).casefold()
    if "°" in plain or any(unit in plain for unit in ("deg", "arc", "turn", "rad")):
        return read_angle(text, field=field), True
    return read_length(text, field=field), False


def last_figure(text: str) -> Fraction:
    """Half of the last figure typed, in the unit it was typed in; 0 for a whole number, which is taken at its word."""
    head = text.strip().lstrip("+-−").replace(",", ".")
    digits = head[: next((place for place, sign in enumerate(head) if not (sign.isdigit() or sign == ".")), len(head))]
    places = len(digits.partition(".")[2])
    return Fraction(1, 2 * 10**places) if places else Fraction(0)


def _length(text: str, field: str) -> Millimetre:
    found = read_length(text, field=field)
    if not 0 < found <= LONGEST:
        raise refuse(field, text, "a length above 0 and up to 10 m", "", "Write it with its unit: 20 mm.")
    return Millimetre(float(found))


def sheet_answer(rig: bytes, job: bytes | None = None, paper: Literal["a4", "letter"] = "a4") -> Answer:
    """The sheet to prove a rig by; with a helical job also what its link must turn."""
    owned = read_rig(rig).rig
    gear = None if job is None else read_job(job).works[0].gear
    on = on_gear(gear) if gear is not None and gear.helix and gear.face is not None else None
    name = "" if gear is None or on is None else f"{gear.teeth} teeth"
    document = proving_sheet(owned, on, name, paper)
    return Answer(document, answer("prove", (), ()), {"pdf": lambda: pdf(document)})
