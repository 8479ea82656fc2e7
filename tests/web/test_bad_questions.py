"""One-question answers to what nobody can mean: each refusal says what was expected, the likely reason and what to do."""

from __future__ import annotations

import json
import time

import pytest

from evenpitch.cli import run

NONSENSE = (
    "x", "-1", "nan", "inf", "1e400", "9" * 50, "9" * 5000, "1,234", "1/0", "٣", "💥", "2 hundredths", "a" * 10_000,
)  # fmt: skip
ASKED = {
    "gear": {"teeth": "24", "module": "2", "pressure-angle": "20", "helix": "0", "shift": "0", "face": "20", "depth": "full",
             "thinning": "0", "spanned": "3", "pin": "3.5", "tolerance-class": "8"},
    "divide": {"worm-ratio": "40", "circles": "15,16;20,21", "direct": "24", "change-gears": "24,28,32", "pulses-per-turn": "1600"},
    "lead": {"worm-ratio": "40", "screw-lead": "0.25 in", "change-gears": "24,28,32,40", "pair-with": "600"},
    "ratio": {"lead": "300", "pulses-per-turn": "1600", "count": "1um", "largest-pulses": "65535", "largest-counts": "1000"},
}  # fmt: skip
ALONE = {"divide": ("97",), "lead": ("300",)}


def asked(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, dict[str, list[dict[str, str]]]]:
    code = run([*words, "--json"])
    shown = capsys.readouterr()
    assert "Traceback" not in shown.err
    return code, json.loads(shown.out)


@pytest.mark.parametrize("nonsense", NONSENSE, ids=lambda text: ascii(text[:12]))
@pytest.mark.parametrize(("command", "option"), [(command, option) for command, options in ASKED.items() for option in options])
def test_a_field_of_nonsense_is_refused_in_four_parts(
    capsys: pytest.CaptureFixture[str], command: str, option: str, nonsense: str
) -> None:
    start = time.perf_counter()
    words = [f"--{name}={value}" for name, value in (ASKED[command] | {option: nonsense}).items()]
    code, told = asked(capsys, command, *ALONE.get(command, ()), *words)
    assert code == 1
    for fault in told["refusals"]:
        assert all(fault[part] for part in ("field", "given", "expected", "likely", "do")), fault
    assert time.perf_counter() - start < 5


@pytest.mark.parametrize(
    ("words", "field"),
    [
        (("divide", "--angle=0"), "angle"),
        (("divide", "--angle=361"), "angle"),
        (("divide", "--chart=400-2"), "chart"),
        (("divide", "--chart=2-40", "--paper=foolscap"), "paper"),
        (("divide", "97", "--worm-ratio=1000000"), "worm-ratio"),
        (("lead", "--chart", "--diameter=0"), "diameter"),
        (("lead", "--chart", "--screw-lead=-1"), "screw-lead"),
        (("ratio", "--lead=2000000", "--pulses-per-turn=1600", "--count=1um"), "lead"),
        (("ratio", "--lead=300", "--pulses-per-turn=1600", "--count=1m"), "count"),
    ],
)
def test_what_cannot_be_is_named(capsys: pytest.CaptureFixture[str], words: tuple[str, ...], field: str) -> None:
    code, told = asked(capsys, *words)
    assert code == 1
    assert [fault["field"] for fault in told["refusals"]] == [field]
    assert all(fault[part] for fault in told["refusals"] for part in ("expected", "likely", "do"))


def test_a_gear_line_that_cannot_be_read_asks_for_no_lead_besides(capsys: pytest.CaptureFixture[str]) -> None:
    code, told = asked(capsys, "ratio", "--helix-of=z=28 mn=x beta=20", "--pulses-per-turn=1600", "--count=1um")
    assert code == 1
    assert "lead" not in [fault["field"] for fault in told["refusals"]]


def test_an_angle_below_half_a_pulse_is_no_move(capsys: pytest.CaptureFixture[str]) -> None:
    code, told = asked(capsys, "divide", "--angle=1 arcsec", "--pulses-per-turn=192000")
    assert told["methods"] == []
    assert [(found["code"], found["weight"]) for found in told["findings"]] == [("no-way-angle", "stop")]
    assert code == 2
