"""Pages nest, keep the policy against inline style and script, name their flags, and stay light."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from evenpitch.quantity.refusal import Fault
from evenpitch.sheet.blocks_html import fault_html
from evenpitch.sheet.document import Block
from evenpitch.sheet.frame_html import Action, Link, Night, environment, page_styles
from evenpitch.sheet.print_html import block_html, page, standalone
from evenpitch.sheet.tables_html import Form
from sheet.every_block import LOOK, STOP, blocks, document

VOID = {"meta", "link", "input", "br"}
NAV = (Link("1 gear", "/gear"), Link("2 plan", "/plan", current=True))


class Nesting(HTMLParser):
    """Follows the tags and stops at one that does not close the last opened."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.identifiers: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = dict(attrs)
        assert "style" not in names
        assert not any(name.startswith("on") for name in names)
        if "id" in names:
            self.identifiers.append(names["id"] or "")
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def nested(text: str) -> Nesting:
    parser = Nesting()
    parser.feed(text)
    parser.close()
    assert parser.open == []
    return parser


def whole(**more: object) -> str:
    return page(document(), nav=NAV, form=Form("/choose", (("plan", "1"),)), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("block", blocks(), ids=lambda block: type(block).__name__)
def test_each_block_nests(block: Block) -> None:
    assert nested(block_html(block)).open == []


def test_page_nests_and_names_each_part_once() -> None:
    identifiers = nested(whole()).identifiers
    assert len(identifiers) == len(set(identifiers))
    assert {"main", "every-thing", "flag-1", "flag-2", "flag-3"} <= set(identifiers)


def test_no_script_and_no_style_on_a_page() -> None:
    text = whole()
    assert "<script" not in text
    assert "<style" not in text
    assert "style=" not in text
    assert '<link rel="stylesheet" href="/static/page.css">' in text


def test_standalone_holds_its_styles_and_asks_for_nothing() -> None:
    text = standalone(document())
    nested(text)
    assert "--paper:#fbfbf7" in text
    assert not re.search(r'(?:src|href)="(?!#)', text)


def test_everything_typed_is_escaped() -> None:
    text = whole()
    assert "28 teeth, mn 2 &amp; &lt;b&gt;" in text
    assert "&lt;once&gt;" in text
    assert 'value="simple &lt;1&gt;"' in text


def test_flags_are_numbered_by_weight_and_stand_beside_their_figures() -> None:
    text = whole()
    assert re.findall(r'<li id="flag-(\d)" class="(\w+)"', text) == [("1", "stop"), ("2", "look"), ("3", "note")]
    assert re.search(r'pitch diameter <svg class="flag note"[^>]*aria-label="note 3"', text)
    assert re.search(r'teeth <svg class="flag look"[^>]*aria-label="look 2"', text)
    assert re.search(r'<figcaption>Not to scale. <svg class="flag stop"[^>]*aria-label="stop 1"', text)


def test_weight_and_remedy_stand_in_words() -> None:
    assert '<b class="weight">stop.</b> Travel needed is 24.5 in; the table has 22.' in whole()
    assert "<b>Cut from two settings.</b>" in whole()


def test_a_figure_tells_where_it_comes_from() -> None:
    text = whole()
    fold = re.search(r"<details>.*?</details>", text).group()  # type: ignore[union-attr]
    assert "d = z m_n / cos β" in fold
    assert "z = 28, β = 20°" in fold
    assert re.search(r"ISO 21771:2007</a>: .+ \((?:from memory|text read|quoted second-hand)\)", fold)
    assert '<a href="/sources/ISO%2021771%3A2007">' in fold
    alone = re.search(r"<details>.*?</details>", standalone(document())).group()  # type: ignore[union-attr]
    assert "ISO 21771:2007: " in alone
    assert "href" not in alone
    assert "Of the wheel, not of the blank." in fold


def test_choosing_posts_with_its_hidden_fields_and_without_a_form_not_at_all() -> None:
    assert '<form method="post" action="/choose"><input type="hidden" name="plan" value="1"><button class="press"' in whole()
    assert "<button" not in page(document())


def test_the_stamp_stands_where_the_action_would() -> None:
    assert '<p class="act blocked">not for cutting</p>' in page(document())
    assert '<p class="act blocked">1 stop to clear</p>' in whole(action=Action("1 stop to clear", blocked=True))
    posted = whole(action=Action("Issue plan 1", "/issue", post=True))
    assert '<form method="post" action="/issue"><button class="act">Issue plan 1</button></form>' in posted


def test_open_stops_and_looks_are_counted_in_the_title_block() -> None:
    block = re.search(r"<footer.*?</footer>", whole(), re.S).group()  # type: ignore[union-attr]
    assert "still open" in block
    assert 'aria-label="stop 1"' in block
    assert 'aria-label="note 3"' not in block


@pytest.mark.parametrize(("stands", "offered"), [("", ["night", "day"]), ("night", ["day"]), ("day", ["night"])])
def test_the_other_light_is_offered(stands: str, offered: list[str]) -> None:
    text = whole(night=Night(stands, "/night", "/day"))  # type: ignore[arg-type]
    assert re.findall(r'class="to-\w+" href="/(\w+)"', text) == offered
    assert (f'data-night="{stands}"' in text) == bool(stands)


def test_a_refusal_stands_in_four_labelled_lines() -> None:
    text = str(fault_html(Fault("teeth", "12.5", "a whole number from 5 to 1000", "A slip of the hand.", "Type 12 or 13."), 2))
    nested(text)
    assert re.findall(r"<dt>(\w+)</dt>", text) == ["what", "expected", "why", "do"]
    assert "teeth: 12.5" in text


def test_own_templates_are_escaped_too() -> None:
    assert environment().from_string("{{ words }}").render(words="<b>") == "&lt;b&gt;"


def test_styles_are_light_and_braces_balance() -> None:
    styles = page_styles()
    assert len(styles.encode()) < 12_288
    assert styles.count("{") == styles.count("}")
    assert "url(" not in styles


def test_contrast_of_every_text_colour() -> None:
    """WCAG 2 contrast of at least 7 : 1 against paper and wash, by day and by night."""
    for light in re.findall(r"--paper:[^}]+", page_styles())[:2]:
        colours = dict(re.findall(r"--(\w+):(#\w+)", light))
        for ground in ("paper", "wash"):
            for name in ("ink", "soft", "stop", "look", "note"):
                assert contrast(colours[name], colours[ground]) >= 7, (name, ground)


def contrast(one: str, other: str) -> float:
    bright, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


def luminance(colour: str) -> float:
    parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_notes_block_keeps_the_numbers_of_the_page() -> None:
    from evenpitch.sheet.document import Notes
    from evenpitch.sheet.flags import flagged

    numbered = flagged((LOOK, STOP))
    assert '<text x="15" y="24">2</text>' in block_html(Notes((LOOK,)), numbered)
