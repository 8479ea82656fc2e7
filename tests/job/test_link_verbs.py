"""predict, simulate and audit on orders a person could type; every finding of the link's table is produced by a case."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from evenpitch.checking.readings import LogRow
from evenpitch.job.auditing import LogAudit, audit
from evenpitch.job.order import Order
from evenpitch.job.predicting import Prediction, numbers_out, predict
from evenpitch.job.simulating import AsSet, Simulation, Vibration, simulate, usual_motion
from evenpitch.link.motion import CrankFeed, PowerFeed, Tabulated
from evenpitch.link.notes import NOTES, note
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Second
from evenpitch.sheet.print_text import text
from evenpitch.web.audit_answer import audit_answer
from evenpitch.web.predict_answer import predict_answer
from evenpitch.web.simulate_answer import read_crank, simulate_answer
from job.link_logs import as_csv, made_log
from job.shop import EXAMPLES, MATE, PINION, WHEEL, bare_rig, order, rig_of, rig_tables

DRAWS = 300


def rig(**link: Any) -> Any:
    """The museum rig with fields of its link changed; None takes one out."""
    raw = rig_tables()
    for key, value in link.items():
        table, name = key.split("__") if "__" in key else ("link", key)
        raw.setdefault(table, {})[name] = value
        if value is None:
            raw[table].pop(name)
    return rig_of(raw)


def predicted(gear: dict[str, Any], on: Any = None, **changed: Any) -> Prediction:
    """A prediction with few draws and no virtual cut."""
    return predict(order([{**gear, **changed}], on), DRAWS, 1, virtual=False)


@cache
def usual() -> Prediction:
    """The pinion on the museum rig."""
    return predicted(PINION)


def test_what_the_museum_rig_leaves() -> None:
    """The answer of the workshop: the wheel of the head and the blank lead; finer steps or a finer scale gain nothing."""
    found = usual()
    names = [source.name for source in found.budget.sources[:2]]
    assert set(names) == {"blank off centre", "wheel, once a turn"}
    assert found.resolution is not None
    assert found.resolution.pulse_um == pytest.approx(0.98, abs=0.005)
    assert found.rates is not None
    assert found.rates.pulses == pytest.approx(474, abs=1)
    assert found.rates.rpm == pytest.approx(17.8, abs=0.05)
    motor = next(limit for limit in found.rates.limits if limit.reason == "motor speed")
    assert motor.feed == pytest.approx(2572, abs=1)
    assert found.rates.rapid is not None
    assert found.rates.rapid[1:] == pytest.approx((15_800, 593), rel=0.001)
    assert found.stiffness is not None
    assert found.stiffness.one_pulse == pytest.approx(0.585, abs=0.001)
    assert found.stiffness.held_back == pytest.approx(0.23, abs=0.01)
    gains = {one.key: one.gain for one in found.bought}
    assert gains["map"] > 0.2
    assert max(gains["steps"], gains["scale"]) < 0.05
    assert {"finer-no-gain", "form-apart", "class-from-memory", "link-unknown"} <= {f.code for f in found.findings}
    assert "with probability" in found.sentence()


def test_the_virtual_cut_is_joined_in() -> None:
    found = predict(order([PINION]), 100, 1)
    assert found.form_um is not None
    assert 5 < found.form_um < 60


def test_a_head_without_a_link_still_answers() -> None:
    spur = predicted(WHEEL, bare_rig())
    assert spur.rates is None
    assert spur.resolution is None
    assert numbers_out(spur) is None
    assert spur.budget.by_owner("motor") == 0
    helical = predicted(PINION, bare_rig())
    assert "no-link-helix" in {f.code for f in helical.findings}


def test_numbers_for_a_controller() -> None:
    numbers = numbers_out(usual())
    assert numbers is not None
    assert numbers.targets[0] == 0
    assert numbers.targets[-1] == 192_000
    assert numbers.pulses is not None
    assert numbers.pulses / (numbers.counts or 1) == pytest.approx(0.373263, abs=1e-6)
    assert len(numbers.corrected) == len(numbers.targets) == 29
    assert numbers.corrected[-1] - numbers.corrected[0] == 192_000
    odd = numbers_out(predicted(PINION, rig(belt="17:60")))
    assert odd is not None
    assert abs(odd.targets[-1] - 320_000 * 60 / 17 / 5) < 1e6


def unmapped() -> Order:
    """The pinion where the head has no map."""
    raw = rig_tables()
    raw.pop("map")
    return order([PINION], rig_of(raw))


def audited(rows: list[LogRow], on: Order | None = None) -> LogAudit:
    return audit(rows, on or unmapped())


def held(first: int, last: int, size: int) -> np.ndarray:
    rows = np.arange(600)
    return np.where((rows >= first) & (rows < last), size, 0)


CASES: dict[str, Callable[[], tuple[Finding, ...]]] = {
    "link-unknown": lambda: usual().findings,
    "motor-stalls": lambda: predicted(PINION, rig(worm_drag="9 Nm")).findings,
    "torque-low": lambda: predicted(PINION, rig(holding_torque="0.6 Nm")).findings,
    "table-too-fast": lambda: predicted(PINION, rig(largest_speed="10 rpm")).findings,
    "pulse-jumps": lambda: predicted(PINION, rig(worm_drag="2 Nm")).findings,
    "not-seated": lambda: predicted(PINION, helix="8").findings,
    "not-self-locking": lambda: predicted(PINION, rig(head__worm_friction=0.02)).findings,
    "needs-ramp": lambda: predicted(PINION, rig(start_stop_pulse_rate_per_s=200)).findings,
    "turn-by-hand": lambda: predicted(PINION, helix="48").findings,
    "no-link-helix": lambda: predicted(PINION, bare_rig()).findings,
    "class-doubtful": lambda: predicted(WHEEL, tolerance_class=6).findings,
    "finer-no-gain": lambda: usual().findings,
    "form-apart": lambda: usual().findings,
    "class-from-memory": lambda: usual().findings,
    "falls-behind": lambda: simulated(PowerFeed(60.0)).findings,
    "lag-changes": lambda: simulated(CrankFeed(1, 0.9, 1)).findings,
    "ratio-fields-small": lambda: predict(order([PINION]), DRAWS, virtual=False, fields=(7, 7)).findings,
    "counts-too-fast": lambda: simulate(order([PINION], rig(largest_count_rate=500)), PowerFeed(1.0)).findings,
    "play-open": lambda: simulated(PowerFeed(1.0), AsSet(open_play=True)).findings,
    "counts-dither": lambda: simulated(PowerFeed(1.0), AsSet(vibration=Vibration(Millimetre(0.002), 97.0))).findings,
    "draws-stopped": lambda: predict(order([PINION]), 5000, progress=lambda done, wanted: False, virtual=False).findings,
    "keeps-up": lambda: simulated(PowerFeed(1.0)).findings,
    "pulses-lost": lambda: audited(made_log(lost=4)).findings,
    "rotor-slipped": lambda: audited(made_log(slip=32)).findings,
    "held-back": lambda: audited(made_log(added=held(200, 240, -300))).findings,
    "ratio-off": lambda: audited(made_log(ratio=1e-3)).findings,
    "worm-seen": lambda: audited(made_log(worm=20)).findings,
    "log-clean": lambda: audited(made_log()).findings,
    "log-proves-little": lambda: audited(made_log(work=False)).findings,
    "log-gap": lambda: audited(made_log(gap=True)).findings,
    "log-wrapped": lambda: audited(made_log(wrap=True)).findings,
    "bend-carried": lambda: audited(made_log()).findings,
    "leans-alike": lambda: audited(made_log(lean=9)).findings,
    "deviations-logged": lambda: audited(made_log(deviations=True)).findings,
    "pulses-against-counts": lambda: audited(made_log(other_way=True)).findings,
}


def simulated(motion: Any, as_set: AsSet | None = None) -> Simulation:
    """One pass of the pinion."""
    return simulate(order([PINION]), motion, as_set=as_set or AsSet())


def test_every_finding_has_a_case() -> None:
    assert set(CASES) == set(NOTES)


@pytest.mark.parametrize("code", CASES)
def test_each_finding_is_produced_and_filled(code: str) -> None:
    found = [one for one in CASES[code]() if one.code == code]
    assert found, code
    assert all("{" not in words for one in found for words in (one.says, one.why, one.do))
    assert found[0].weight == NOTES[code].weight


def test_a_clean_log_and_an_even_pass_have_no_stop() -> None:
    assert all(one.weight != "stop" for one in audited(made_log()).findings)
    assert all(one.weight != "stop" for one in simulated(PowerFeed(1.0)).findings)


def test_a_pass_keeps_its_error_within_the_staircase_and_the_lag() -> None:
    found = simulated(PowerFeed(1.0))
    low, high = found.error_um
    lag = 1000 * 0.005 * math.tan(math.radians(20))
    assert high - low <= found.band_um + 0.01
    assert found.mean_um == pytest.approx(-lag, abs=0.6)
    assert found.behind_from is None
    facts = found.facts()
    assert facts["pulses"] == pytest.approx(42.35 * 373.2634, abs=3)
    assert len(found.track) <= 120


def test_open_play_stands_ahead_until_it_is_closed() -> None:
    """The work of `job.md` B-28: 3.2′ of play is closed by 0.076 mm of table; the error begins the play ahead and ends as without."""
    plain, opened = simulated(PowerFeed(1.0)), simulated(PowerFeed(1.0), AsSet(open_play=True))
    assert opened.take_up == pytest.approx(0.0762, abs=0.0001)
    play = 1000 * opened.gear.radius * math.radians(3.2 / 60)
    lag = 1000 * 0.005 * math.tan(math.radians(20))
    assert opened.error_um[1] == pytest.approx(play - lag, abs=1)
    assert opened.track[-1] == pytest.approx(plain.track[-1])
    late = int(np.searchsorted(opened.made.place, 0.09))
    assert opened.made.after[late:] == pytest.approx(plain.made.after[late:], abs=1e-12)


def test_a_ramp_holds_pulses_back_and_a_poll_delays_them() -> None:
    """A ramp far under what the crank asks for is seen as falling behind; a poll delays by its period at most."""
    slow = simulated(CrankFeed(1.0, 0.6, 1.0), AsSet(ramp=500.0, ramp_from=20.0))
    assert "falls-behind" in {one.code for one in slow.findings}
    assert slow.delay > 0.02
    free = simulated(CrankFeed(1.0, 0.6, 1.0), AsSet(ramp=500.0))
    assert free.delay == pytest.approx(0.005)
    polled = simulated(PowerFeed(1.0), AsSet(poll=Second(0.004)))
    assert 0.005 < polled.delay <= 0.009 + 1e-9
    assert polled.behind_from is None


def test_a_trembling_table_is_counted() -> None:
    """2 µm either way on 1 µm counts: 4 µm peak to peak needs 5 counts of hysteresis, as 6 µm on 5 µm counts needs 3."""
    found = simulated(PowerFeed(1.0), AsSet(vibration=Vibration(Millimetre(0.002), 97.0))).trembling
    assert found is not None
    assert found.hysteresis == 5
    assert found.still == pytest.approx(42_346, abs=3)
    assert found.moves == pytest.approx(found.still + found.reversals, abs=2)
    assert found.reversals > 1000


def test_a_table_of_motion_can_be_simulated() -> None:
    assert simulated(Tabulated((0.0, 10.0, 20.0), (0.0, 10.0, 0.0))).made.pulses > 7000


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: simulate(order([WHEEL]), PowerFeed(1.0)), "helical gear"),
        (lambda: simulate(order([PINION], bare_rig()), PowerFeed(1.0)), "a link"),
        (lambda: simulated(PowerFeed(0.001)), "3600"),
        (lambda: audit(made_log(), order([WHEEL])), "helical gear"),
        (lambda: audit(made_log(), order([PINION], bare_rig())), "a link"),
        (lambda: audit(made_log(), order([PINION], rig(microsteps=None))), "microsteps"),
        (lambda: audit(made_log(), order([PINION], rig(count=None))), "table travel of one count"),
        (lambda: audit(made_log()[:5], order([PINION])), "10 or more"),
    ],
)
def test_what_cannot_be_answered(make: Callable[[], object], words: str) -> None:
    with pytest.raises(Refusal, match=words):
        make()


JOB, RIG = (EXAMPLES / "timing-pair.toml").read_bytes(), (EXAMPLES / "museum-mill.toml").read_bytes()


def test_the_answer_of_predict() -> None:
    made = predict_answer(JOB, {"draws": "400", "seed": "2", "gear": "2"}, rig=RIG)
    shown = json.loads(made.json_text())
    assert shown["command"] == "predict"
    assert {"f_p", "F_p", "F_beta", "f_H_beta", "F_r"} <= set(shown["quantiles"])
    assert set(shown["class_probability"]) == {str(cls) for cls in range(1, 12)}
    sizes = [source["um"] for source in shown["budget"]]
    assert sizes == sorted(sizes, reverse=True)
    assert {"feed", "pulse_rate", "torque_factor"} <= set(shown["limits"])
    assert shown["assumed"][0]["cost"]
    table = made.files["csv"]().decode().splitlines()
    assert table[0] == "what,space,value,unit"
    assert sum(line.startswith("target,") for line in table) == 57
    assert "What is not known" in made.text()
    assert predict_answer(JOB, {"draws": "400", "seed": "2", "gear": "2"}, rig=RIG).json == made.json
    spur = predict_answer(
        JOB.replace(b'helix = "20"', b'helix = "0"')
        .replace(b'hand = "right"', b'hand = "none"')
        .replace(b'hand = "left"', b'hand = "none"'),
        {"draws": "200"},
    )
    assert json.loads(spur.json_text())["limits"] is None


def test_the_answer_of_simulate() -> None:
    made = simulate_answer(JOB, {"crank": "1 mm/s 0.6 1 Hz"}, rig=RIG)
    shown = json.loads(made.json_text())
    assert {"pulses", "lag", "error_range_um"} <= set(shown)
    assert "by crank" in made.text()
    assert usual_motion(order([PINION])) == CrankFeed(76.2 / 60, 0.6, 1.0)
    tried = {"feed": "60 mm/min", "ramp": "5000 pulses/s²", "poll": "1 ms", "play": "open", "vibration": "2 um 97 Hz"}
    told = simulate_answer(JOB, tried, rig=RIG)
    assert json.loads(told.json_text())["dither"]["hysteresis_counts"] == 5
    assert "5 counts of hysteresis" in told.text()
    power = simulate_answer(JOB, {"feed": "60 mm/min", "gear": "2"}, rig=RIG)
    assert "power feed, 60 mm/min" in power.text()
    assert read_crank("60 mm/min, 0.6, 72 rpm".replace("72 rpm", "1.2")) == CrankFeed(1.0, 0.6, 1.2)


def test_the_answer_of_audit() -> None:
    made = audit_answer(as_csv(made_log(slip=32)), JOB, {"space": "5"}, rig=RIG)
    shown = json.loads(made.json_text())
    (event,) = shown["events"]
    assert (event["kind"], event["space"]) == ("rotor slip", 5)
    assert event["pulses"] == pytest.approx(-32, abs=0.7)
    assert event["um"] == pytest.approx(32 * 0.975, rel=0.05)
    assert set(shown["ratio_error_ppm"]) == {"value", "u", "U"}
    assert shown["backlash_arcsec"] is None
    assert made.stopped()
    assert "Lost on space 5" in made.text()
    clean = audit_answer(as_csv(made_log()), JOB, rig=RIG)
    assert "no pulse was lost" in text(clean.document)
    late = audit_answer(as_csv(made_log(added=held(200, 240, -300))), JOB, rig=RIG)
    assert "held back, then made good" in late.text()


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: simulate_answer(JOB, {}, rig=RIG), "either feed or crank"),
        (lambda: simulate_answer(JOB, {"feed": "1 mm/s", "crank": "1 0.6 1"}, rig=RIG), "either feed or crank"),
        (lambda: simulate_answer(JOB, {"crank": "1 mm/s 0.6"}, rig=RIG), "unevenness"),
        (lambda: simulate_answer(JOB, {"crank": "1 mm/s 1 1 Hz"}, rig=RIG), "stops once a turn"),
        (lambda: simulate_answer(JOB, {"feed": "99999999 mm/min"}, rig=RIG), "60 000"),
        (lambda: simulate_answer(JOB, {"feed": "1 mm/s", "ramp": "-5"}, rig=RIG), "above 0"),
        (lambda: simulate_answer(JOB, {"feed": "1 mm/s", "ramp": "5 from 0"}, rig=RIG), "above 0"),
        (lambda: simulate_answer(JOB, {"feed": "1 mm/s", "poll": "5 s"}, rig=RIG), "up to 1 s"),
        (lambda: simulate_answer(JOB, {"feed": "1 mm/s", "play": "maybe"}, rig=RIG), "open or closed"),
        (lambda: simulate_answer(JOB, {"feed": "1 mm/s", "vibration": "2 um"}, rig=RIG), "Two figures"),
        (lambda: simulate_answer(JOB, {"feed": "1 mm/s", "vibration": "2 in 97 Hz"}, rig=RIG), "up to 1 mm"),
        (lambda: predict_answer(JOB, {"draws": "7"}, rig=RIG), "draws"),
        (lambda: predict_answer((EXAMPLES / "loom-change-wheel.toml").read_bytes(), {"gear": "2"}, rig=RIG), "second gear"),
        (lambda: audit_answer("time,counts\n1,2\n", JOB, rig=RIG), "count"),
        (lambda: audit_answer("time_s,count,pulse\n1,2,nan\n2,3,4\n", JOB, rig=RIG), "pulse"),
        (lambda: audit_answer("time_s,count,pulse\n" + "1,2,3\n" * 400_001, JOB, rig=RIG), "400000|400 000|at most"),
        (lambda: audit_answer(as_csv(made_log()), JOB, {"space": "99"}, rig=RIG), "1 to 28"),
    ],
)
def test_bad_input_is_named_with_the_remedy(make: Callable[[], object], words: str) -> None:
    with pytest.raises(Refusal, match=words):
        make()


def test_a_pair_can_be_asked_gear_by_gear() -> None:
    found = predict(order([PINION, MATE], pair={"centre_distance": "3.520 in"}), DRAWS, gear=1, virtual=False)
    assert found.gear.teeth == 56
    assert note("log-clean", words="x").says.endswith("x.")
    assert Path(EXAMPLES).is_dir()
