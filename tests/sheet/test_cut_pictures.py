"""Pictures of the virtual cut hold what was cut: places, signs, bands; and the bit keeps its scale on paper."""

from __future__ import annotations

import math
import re
import shutil
import subprocess
from pathlib import Path as FilePath

import ezdxf
import pytest

from evenpitch.job.bit import bit_plan
from evenpitch.job.slips import Slips, cut_seen
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sheet.compose.bit import bit_outline, compose_bit, shown_bit
from evenpitch.sheet.compose.cut_pictures import cut_pictures, space_left
from evenpitch.sheet.drawing import Arc, Line, Path
from evenpitch.sheet.drawings.flank_trace import Traced, flank_trace
from evenpitch.sheet.drawings.fly_bit import BAR, UNIT, fly_bit_picture, scale_of
from evenpitch.sheet.paper_data import paper_data
from evenpitch.sheet.print_dxf import dxf_bytes
from evenpitch.sheet.print_pdf import pdf_with_warnings
from job.cut_cases import the_pinion, the_wheel
from job.shop import pinion


def test_the_trace_stands_at_its_micrometres_and_the_band_about_it() -> None:
    drawing = flank_trace(
        "t", "T", (Traced("one", ((0.0, -5.0), (1.0, 0.0), (2.0, 15.0))),), 30.0, ((0.0, "a"), (2.0, "b")), "Along"
    )
    dashed = next(item for item in drawing.items if isinstance(item, Path) and item.cls == "dashed")
    zero = next(item for item in drawing.items if isinstance(item, Line) and item.cls == "thick")
    per_um = (dashed.points[2][1] - dashed.points[0][1]) / 20.0
    assert zero.start[1] == pytest.approx(dashed.points[1][1], abs=0.1)
    band = next(item for item in drawing.items if isinstance(item, Path) and item.fill == "hatch")
    low, high = min(y for _, y in band.points), max(y for _, y in band.points)
    assert (high - low) / per_um == pytest.approx(30.0, abs=0.1)
    assert (high + low) / 2 == pytest.approx((dashed.points[0][1] + dashed.points[2][1]) / 2, abs=0.2)


def test_the_pictures_say_the_figures_of_the_table_in_its_sign() -> None:
    plan, cut = the_wheel()
    best = cut.recommended
    seen = cut_seen(cut, best, plan.order.rig)
    space, profile = cut_pictures(cut, seen, None)
    assert f"takes {best.left.tip:.0f} µm" in space.says
    assert f"{best.left.total:.0f} µm in all" in profile.says
    assert "× 10" in "".join(getattr(item, "text", "") for item in space.items)
    assert "difference 10 times" in space.caption


def test_what_is_left_is_drawn_magnified_on_the_right_side() -> None:
    """Where too much is taken, the flank left lies outside the space wanted, further from its middle line, by the factor."""
    plan, cut = the_wheel()
    seen = cut_seen(cut, cut.recommended, plan.order.rig)
    left = space_left(cut.wanted, seen.space)
    for flank, side in ((left.right, 1), (left.left, -1)):
        (x0, y0), (x1, y1) = flank.wanted[-1], flank.left[-1]
        assert flank.um[-1] > 0
        assert side * (x1 - x0) > 0
        assert math.hypot(x1 - x0, y1 - y0) == pytest.approx(flank.um[-1] * 1e-3 * left.times, rel=1e-3)


def test_both_flanks_are_drawn_where_they_differ_and_what_was_before() -> None:
    plan, cut = the_pinion()
    seen = cut_seen(cut, cut.recommended, plan.order.rig, Slips(off_centre=Millimetre(0.05)))
    profile = cut_pictures(cut, seen, None)[1]
    assert [name in profile.says for name in ("as set", "left, changed", "right, changed")] == [True] * 3
    plain = cut_pictures(cut, cut_seen(cut, cut.recommended, plan.order.rig), None)[1]
    assert "both flanks" in plain.says


@pytest.mark.parametrize("rake", [0.0, 10.0])
def test_the_outline_of_the_bit_is_ten_times_its_size(rake: float) -> None:
    plan = the_pinion()[0].gears[0]
    made = bit_plan(plan, rake=Radian(math.radians(rake)))
    shown = shown_bit(plan, made)
    drawing = fly_bit_picture(shown)
    assert scale_of(shown) == 10
    edge = next(item for item in drawing.items if isinstance(item, Path) and item.cls == "thick")
    xs = [x for x, _ in edge.points]
    on_paper = (max(xs) - min(xs)) * drawing.true / drawing.width
    assert on_paper == pytest.approx(10 * made.bit.checks[-1][0], abs=1e-3)
    bar = next(item for item in drawing.items if isinstance(item, Line) and item.cls == "thick")
    assert (bar.end[0] - bar.start[0]) * UNIT == pytest.approx(BAR, abs=1e-9)
    wide = paper_data(compose_bit(the_pinion()[0], 0, made))["groups"][0]["section"]["blocks"][0]
    assert wide["alone"]
    box = [float(number) for number in re.search(r'viewBox="([^"]*)"', wide["full"]["svg"]).group(1).split()]
    assert wide["full"]["width"] / box[2] == pytest.approx(UNIT, rel=1e-6)


def test_a_large_bit_is_drawn_smaller_and_says_so() -> None:
    plan = pinion(teeth=30, pitch="module 8", helix="0", hand="none", face="40 mm").gears[0]
    drawing = fly_bit_picture(shown_bit(plan, bit_plan(plan, Millimetre(120.0))))
    assert drawing.title.endswith("5 : 1")
    assert "5 : 1 on the printed sheet" in drawing.caption
    assert drawing.true < 180


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_sheet_of_the_bit_is_one_page_without_a_warning(paper, tmp_path: FilePath) -> None:
    plan = the_wheel()[0]
    pdf, warnings = pdf_with_warnings(compose_bit(plan, 0, bit_plan(plan.gears[0], rake=Radian(math.radians(8))), paper))
    assert warnings == ()
    if shutil.which("pdftotext") is None:
        pytest.skip("poppler-utils not installed: nothing to read the PDF with")
    file = tmp_path / "bit.pdf"
    file.write_bytes(pdf)
    text = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    assert "1 of 1" in text
    assert "this bar is 50 mm on paper" in text
    assert "square to arbor" in " ".join(text.split())


def test_the_edge_in_dxf_is_in_millimetres_with_its_arcs() -> None:
    plan = the_wheel()[0].gears[0]
    made = bit_plan(plan)
    drawing = bit_outline(plan, made)
    edge = next(item for item in drawing.items if isinstance(item, Path))
    assert max(x for x, _ in edge.points) == pytest.approx(made.bit.checks[-1][0] / 2, abs=1e-9)
    for arc, side in zip([item for item in drawing.items if isinstance(item, Arc)], (1, -1), strict=True):
        for angle in (arc.start, arc.end):
            x = arc.centre[0] + arc.radius * math.cos(math.radians(angle))
            y = arc.centre[1] + arc.radius * math.sin(math.radians(angle))
            near = min(math.hypot(x - side * w, y - depth) for w, depth in made.bit.outline)
            assert near < 0.05
    import io

    document = ezdxf.read(io.StringIO(dxf_bytes(drawing).decode()))
    assert document.units == ezdxf.units.MM
    assert len(document.modelspace().query("ARC")) == 2


def test_the_bit_leaves_exactly_the_thinned_gear() -> None:
    """The edge put back as a form by its points: what is left is below the spacing of the points."""
    import numpy as np

    from evenpitch.flank.forms import points_form
    from evenpitch.flank.inspection import profile_rolls
    from evenpitch.flank.setting import Setting
    from evenpitch.flank.trace import flank_trace as traced

    for plan, cut in (the_wheel(), the_pinion()):
        bit = bit_plan(plan.gears[0]).bit
        form = points_form(np.column_stack([bit.radial[:, 0], bit.outside / 2 - bit.radial[:, 1]]), Millimetre(bit.outside))
        wanted = cut.wanted
        setting = Setting(bit.swing, 0.0, wanted.root_radius + bit.outside / 2)
        left = traced(form, wanted, wanted.q, setting, profile_rolls(wanted, 41), 1).delta
        assert 1000 * float(np.nanmax(np.abs(left[2:]))) < 0.2


@pytest.mark.parametrize(
    ("given", "says"), [({"outside": Millimetre(5.0)}, "from"), ({"rake": Radian(1.0)}, "30"), ({"relief": Radian(0.01)}, "25")]
)
def test_a_bit_that_cannot_be_is_refused(given, says) -> None:
    with pytest.raises(Refusal, match=says):
        bit_plan(the_wheel()[0].gears[0], **given)
