"""The papers of the repository as parts of pages: read from its docs folder where it stands beside the program."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup

REPOSITORY = Path(__file__).resolve().parents[3]
BESIDE = {"readme": "README.md", "changelog": "CHANGELOG.md", "contributing": "CONTRIBUTING.md"}
LONG = 30_000
"""Letters from which on a paper is shown part by part."""


@dataclass(frozen=True, slots=True)
class Part:
    """A heading and what stands under it; `heading` "" before the first."""

    heading: str
    html: Markup


@dataclass(frozen=True, slots=True)
class Paper:
    """One paper. `long`: its parts have an address each."""

    name: str
    title: str
    parts: tuple[Part, ...]
    long: bool


def names() -> dict[str, Path]:
    """The papers that are there, by the name they have in an address; empty where only the program was installed."""
    folder = REPOSITORY / "docs"
    if not (folder / "first-gear.md").is_file():
        return {}
    beside = {name: REPOSITORY / file for name, file in BESIDE.items() if (REPOSITORY / file).is_file()}
    return {path.stem: path for path in sorted(folder.glob("*.md"))} | beside


def pictures() -> dict[str, Path]:
    """The pictures that papers show."""
    return {path.name: path for kind in ("png", "svg") for path in sorted((REPOSITORY / "docs").glob(f"*.{kind}"))}


def paper(name: str) -> Paper:
    """A paper by its name; KeyError where there is none."""
    path = names()[name]
    return _read(name, path, path.stat().st_mtime_ns)


@cache
def _read(name: str, path: Path, _changed: int) -> Paper:
    text = path.read_text(encoding="utf-8")
    text = re.sub(r"^<!--.*?-->\n", "", text, flags=re.DOTALL | re.MULTILINE)
    title, parts = rendered(text, tuple(names()))
    long = len(text) > LONG
    if long and len(parts) > 1 and not parts[0].heading:
        parts = (_joined(*parts[:2]), *parts[2:])
    return Paper(name, title or name, parts, long)


def _joined(before: Part, first: Part) -> Part:
    """What stands before the first heading goes with the first part."""
    head = Markup("<h2>{}</h2>").format(first.heading)
    return Part("", before.html + head + first.html)


def rendered(text: str, known: Sequence[str] = ()) -> tuple[str, tuple[Part, ...]]:
    """Title and parts of a text in Markdown. Markup in it stays text; links to papers become links to their pages."""
    reader = MarkdownIt("commonmark", {"html": False}).enable("table")
    tokens = reader.parse(text)
    title, parts, heading, under = "", [], "", list[Token]()
    at = 0
    while at < len(tokens):
        token = tokens[at]
        if token.type == "heading_open" and token.tag in ("h1", "h2"):
            words = tokens[at + 1].content
            if token.tag == "h1" and not title:
                title = words.replace("`", "")
            else:
                parts.append(Part(heading, _html(reader, under, known)))
                heading, under = words.replace("`", ""), []
            at += 3
            continue
        under.append(token)
        at += 1
    parts.append(Part(heading, _html(reader, under, known)))
    return title, tuple(part for part in parts if part.heading or part.html.strip())


def _html(reader: MarkdownIt, tokens: list[Token], known: Sequence[str]) -> Markup:
    _label_tables(tokens)
    for token in (inner for outer in tokens for inner in (outer, *(outer.children or ()))):
        if token.type == "link_open":
            token.attrs = _led(str(token.attrs.get("href", "")), known)
        if token.type == "code_inline":
            token.type, token.content = "html_inline", str(_breakable(token.content))
        if token.type == "image":
            token.attrs = {"src": f"/help/pictures/{Path(str(token.attrs.get('src', ''))).name}", "alt": ""}
    return Markup(reader.renderer.render(tokens, reader.options, {}))


def _breakable(code: str) -> Markup:
    """A word of code that may break after its underscores, for a narrow column."""
    return Markup("<code>{}</code>").format(Markup("_<wbr>").join(code.split("_")))


def _led(href: str, known: Sequence[str]) -> dict[str, str | int | float]:
    """Where a link leads on these pages: papers to their page, addresses outside as they are; other files have no page."""
    if re.match(r"https?://|#", href):
        return {"href": href}
    file, hash_, anchor = href.partition("#")
    name = Path(file).stem.lower()
    return {"href": f"/help/{name}{hash_}{anchor}"} if file.endswith(".md") and name in known else {}


def _label_tables(tokens: list[Token]) -> None:
    """Each cell carries the head of its column, for a phone shows rows as blocks; alignment is the stylesheet's."""
    heads, column, inside = list[str](), 0, ""
    for at, token in enumerate(tokens):
        if token.type == "table_open":
            token.attrs, heads = {"class": "ways"}, []
        elif token.type == "tr_open":
            column = 0
        elif token.type == "th_open":
            token.attrs = {"scope": "col"}
            heads.append(tokens[at + 1].content)
        elif token.type == "td_open":
            inside = heads[column] if column < len(heads) else ""
            token.attrs = {"data-label": inside} if column and inside and tokens[at + 1].content else {}
            column += 1
