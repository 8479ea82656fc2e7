"""The commands scale, head, prove and reading: words in, exit codes out."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from evenpitch.cli import ANSWERED, REFUSED, STOPPED, run

EXAMPLES = Path(__file__).parents[2] / "examples"
RIG, JOB = str(EXAMPLES / "museum-mill.toml"), str(EXAMPLES / "timing-pair.toml")
PROOF = """check,place,approach,moved_mm,reading_mm,work_deg,radius_mm
block,middle,up,100,99.982,,
link,middle,up,50,50.000,34.9911,100
link,middle,down,50,50.000,34.9378,100
"""
SCALE = "run,direction,reference_mm,reading_mm\n" + "\n".join(
    f"{run},{side},{at},{at * (1 - 180e-6) + offset + 0.0002 * ((at // 100 * 7 + run) % 3 - 1):.5f}"
    for run in (1, 2)
    for side, offset in (("up", 0.0), ("down", 0.002))
    for at in ((0, 100, 200, 300, 400) if side == "up" else (400, 300, 200, 100, 0))
)
HEAD = "method,run,direction,nominal_deg,reading_um,radius_mm\n" + "\n".join(
    f"bar,{run},{side},{0.75 * place},{um},100"
    for run in (1, 2, 3)
    for side, play in (("up", 0), ("down", 93))
    for place, um in enumerate(
        round(7.3 * s + play + run % 2, 1) for s in (0, 0.5, 0.87, 1, 0.87, 0.5, 0, -0.5, -0.87, -1, -0.87, -0.5, 0)
    )
)


def told(capsys: pytest.CaptureFixture[str], *words: str) -> dict:
    run([*words, "--json"])
    return json.loads(capsys.readouterr().out)


@pytest.fixture
def files(tmp_path: Path) -> dict[str, str]:
    made = {}
    for name, text in (("scale", SCALE), ("head", HEAD), ("proof", PROOF), ("half", PROOF.replace("34.9911", "17.4967"))):
        (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
        made[name] = str(tmp_path / f"{name}.csv")
    return made


def test_the_scale_from_a_file(files: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    found = told(capsys, "scale", files["scale"], "--rig", RIG, "--job", JOB)
    assert found["command"] == "scale"
    assert found["gain_ppm"]["value"] == pytest.approx(-180, abs=5)
    assert {"reversal_um", "drift_um", "residual_um", "iso230"} <= set(found)
    assert run(["scale", files["scale"], "--face", "400 mm"]) == ANSWERED
    assert "correct it" in capsys.readouterr().out


def test_the_head_from_a_file(files: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    found = told(capsys, "head", files["head"], "--rig", RIG, "--targets", "97")
    worm = next(one for one in found["harmonics"] if one["per_turn"] == 40)
    assert worm["amplitude_arcsec"] == pytest.approx(15, abs=1.5)  # 7.3 µm at 100 mm are 15″
    assert len(found["targets"]) == 97


def test_the_link_from_a_file(files: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    found = told(capsys, "prove", RIG, files["proof"], "--job", JOB)
    assert found["link_good_to_um"]["limited_by"] == "worm"
    assert run(["prove", RIG, files["half"], "--job", JOB]) == STOPPED
    assert "exactly half" in capsys.readouterr().out


def test_a_wrong_reading(capsys: pytest.CaptureFixture[str]) -> None:
    assert told(capsys, "reading", "--moved", "50mm", "--shown", "200mm")["causes"][0]["test"]
    assert run(["reading", "--moved", "50mm", "--shown", "200mm", "--rig", RIG]) == ANSWERED


def test_what_is_refused_is_refused_in_the_same_shape(files: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    for words in (
        ["prove", RIG, files["proof"]],
        ["scale", files["head"]],
        ["head", files["scale"]],
        ["scale", "nowhere.csv"],
        ["reading", "--moved", "50mm"],
        ["head", files["head"], "--targets", "97"],
    ):
        assert run(words) == REFUSED
        capsys.readouterr()
        found = told(capsys, *words)
        assert found["refusals"][0]["do"]
