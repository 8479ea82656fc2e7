"""A newcomer's own gear, from one line to the sheet; 113 divisions; a mistyped unit; printing."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from journeys.conftest import TOUCH, fetched

if TYPE_CHECKING:
    from journeys.conftest import Walk

pytestmark = pytest.mark.browser


def test_a_newcomer_goes_from_one_line_to_a_sheet(walk: Walk) -> None:
    walk.go("/")
    assert "First time here?" in walk.text
    walk.fill("line", "97t 12DP 14½ face 3/4")
    walk.press("Read it")
    assert "= 0.750 in = 19.050 mm" in walk.text
    assert walk.value("gear.0.pitch") == "12 DP"
    walk.fill("title", "My change wheel")
    walk.press("Plan it")
    assert walk.path == "/jobs/A/plan"
    assert "209.55 mm" in walk.text
    assert "never measured" in walk.text  # the usual head has no map, and the plan says so
    walk.press("Issue plan 1 and print")
    assert walk.path == "/jobs/A/sheet.pdf"
    assert fetched(walk, "/jobs/A/sheet.pdf").startswith(b"%PDF-")
    walk.go("/")
    assert "plan 1 issued" in walk.text


@pytest.mark.full
def test_113_divisions_are_found_and_another_way_is_chosen(walk: Walk) -> None:
    walk.size(*TOUCH)
    walk.go("/jobs/new?line=113t+16DP+14½+face+20+mm")
    walk.press("Plan it")
    place = walk.path
    assert "Differential" in walk.text  # no circle of the three plates holds 40/113: the handbooks divide it by gears
    assert "no circle holds 40/113 of a turn" in walk.text
    before = walk.text
    walk.press_named("choice.way", "differential: ")
    assert walk.path.split("#")[0] == place
    assert "as you chose" in walk.text
    assert walk.text != before
    walk.press("Take the best")
    assert "as you chose" not in walk.text


def test_a_mistyped_unit_is_explained_and_mended(walk: Walk) -> None:
    walk.go("/jobs/new")
    for name, text in (
        ("teeth", "97"),
        ("pitch", "12 DP"),
        ("pressure_angle", "14½"),
        ("face", "3/4 inn"),
        ("outside_found", "209.51 in"),
    ):
        walk.fill(f"gear.0.{name}", text)
    walk.press("Plan it")
    assert "2 to clear" in walk.text
    for label in ("what", "expected", "why", "do"):
        assert label in walk.text.split()
    assert "“209.51 in”" in walk.text
    assert "209.51 mm meant" in walk.text
    assert walk.value("gear.0.face") == "3/4 inn"
    assert walk.value("gear.0.teeth") == "97"
    walk.fill("gear.0.face", "3/4 in")
    walk.fill("gear.0.outside_found", "209.51 mm")
    walk.press("to clear, then plan it")
    assert walk.path.endswith("/plan")


@pytest.mark.parametrize("paper", ["a4", pytest.param("letter", marks=pytest.mark.full)])
def test_the_sheet_opens_on_either_paper(walk: Walk, paper: str, tmp_path: Path) -> None:
    if shutil.which("pdfinfo") is None:
        pytest.skip("needs pdfinfo to open the sheet")
    walk.go("/jobs/new?line=97t+12DP+14½+face+3/4")
    walk.press("Plan it")
    job = walk.path.removesuffix("/plan")
    file = tmp_path / "sheet.pdf"
    file.write_bytes(fetched(walk, f"{job}/sheet.pdf?paper={paper}"))
    said = subprocess.run(["pdfinfo", str(file)], capture_output=True, text=True, check=True).stdout
    pages = int(next(line for line in said.splitlines() if line.startswith("Pages:")).split()[1])
    assert 2 <= pages <= 5  # front, run table by hand, pictures
    size = next(line for line in said.splitlines() if line.startswith("Page size:"))
    assert ("letter" in size) if paper == "letter" else ("A4" in size)
