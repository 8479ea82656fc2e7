"""Every item prints; the page's policy is kept; geometry is where it was drawn."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from evenpitch.sheet.drawing import Arc, Arrow, Drawing, Label, Line, Path
from evenpitch.sheet.print_svg import svg
from evenpitch.sheet.strokes import arrow_heads, arrow_shaft
from sheet.every_block import FILLINGS, LINES, drawing

SVG = "{http://www.w3.org/2000/svg}"


def picture(*items: object, **more: object) -> Drawing:
    return Drawing("k", "t", "d", 100, 50, items, **more)  # type: ignore[arg-type]


def root(text: str) -> ElementTree.Element:
    return ElementTree.fromstring(text)


@pytest.mark.parametrize("ink", ["page", "paper"])
def test_all_items_and_no_inline_style(ink: str) -> None:
    text = svg(drawing(), ink=ink)  # type: ignore[arg-type]
    tree = root(text)
    assert "style" not in text
    assert not re.search(r"\bnan\b|\binf\b|None", text)
    assert len(tree.findall(f".//{SVG}circle")) == len(FILLINGS)
    assert {element.get("class") for element in tree.iter(f"{SVG}g")} >= {f"l-{cls}" for cls in LINES if cls != "none"}


def test_title_and_description_are_named() -> None:
    tree = root(svg(drawing()))
    named = tree.get("aria-labelledby", "").split()
    assert [tree.find(f".//*[@id='{name}']").text for name in named] == ["Every item", "All lines & fillings, once each."]
    assert tree.get("role") == "img"


def test_paper_is_black_and_white_and_wears_no_page_classes() -> None:
    text = svg(drawing(), ink="paper")
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', text)) <= {"none", "#000", "#fff"} | {
        f"url(#every-item-{fill})" for fill in ("hatch", "close", "upright")
    }
    assert not re.search(r'class="(?:f-|patch|pic)', text)


def test_y_grows_upwards_from_the_corner() -> None:
    text = svg(picture(Line((-30, -10), (20, 15), "thin"), corner=(-50, -25)))
    assert 'd="M20 35l50-25"' in text


def test_an_arc_runs_anticlockwise() -> None:
    text = svg(picture(Arc((50, 25), 20, 0, 90), Arc((50, 25), 10, 0, 270)))
    assert "M70 25A20 20 0 0 0 50 5" in text
    assert "M60 25A10 10 0 1 0 50 35" in text


def test_a_whole_turn_is_drawn_whole() -> None:
    assert "M70 25A20 20 0 1 0 30 25A20 20 0 1 0 70 25" in svg(picture(Arc((50, 25), 20, 0, 360)))


def test_rounding_does_not_add_up_along_a_course() -> None:
    points = tuple((k / 30, 0.0) for k in range(301))
    course = re.search(r'd="M0 50l([^"]+)"', svg(picture(Path(points)))).group(1)  # type: ignore[union-attr]
    numbers = [float(value) for value in re.findall(r"-?[\d.]+", course)]
    assert sum(numbers[0::2]) == pytest.approx(10, abs=0.051)


def test_pen_scales_line_and_lettering() -> None:
    text = svg(picture(Line((0, 0), (1, 1), "thick"), Label((0, 0), "x", size=15), pen=0.5))
    assert 'stroke-width="1.2"' in text
    assert 'font-size="7.5"' in text


def test_no_label_on_paper_below_the_least_size() -> None:
    sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', svg(drawing(), ink="paper", least_text=18))]
    assert min(sizes) >= 18


def test_paper_widens_for_a_label_that_would_be_cut_off() -> None:
    text = svg(picture(Label((90, 20), "0.123456789")), ink="paper", least_text=10)
    width = float(re.search(r'viewBox="0 0 ([\d.]+) 50"', text).group(1))  # type: ignore[union-attr]
    assert width > 90 + 11 * 0.6 * 10


def test_an_arrow_head_points_along_the_end_of_a_bent_line() -> None:
    arrow = Arrow(((0, 0), (50, 0), (50, 30)), both=True)
    (tip, *_), (tail, *_) = arrow_heads(arrow, 1)
    assert (tip, tail) == ((50, 30), (0, 0))
    shaft = arrow_shaft(arrow, 1)
    assert shaft[0][0] > 0
    assert shaft[-1][1] < 30
