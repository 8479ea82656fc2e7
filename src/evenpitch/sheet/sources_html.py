"""Where do these figures come from? The formula, inputs and sources behind the figures of a schedule, in one fold of the page."""

from __future__ import annotations

from urllib.parse import quote

from markupsafe import Markup

from evenpitch.quantity.figure import Figure
from evenpitch.sheet.document import Row
from evenpitch.sources.library import source_named

_FOLD = Markup('<details><summary>Where {} from?</summary><dl class="from">{}</dl></details>')


def origins(rows: tuple[Row, ...], sources_at: str = "") -> Markup:
    """One entry for each row that carries a figure; nothing where none does. `sources_at`: where each source has its page, or ""."""
    told = [row for row in rows if row.figure]
    if not told:
        return Markup("")
    question = "does this figure come" if len(told) == 1 else "do these figures come"
    titled: set[str] = set()
    entries = Markup("").join(
        Markup("<dt>{}{}</dt>{}").format(row.name, _symbol(row.figure), _origin(row.figure, sources_at, titled))
        for row in told
        if row.figure
    )
    return _FOLD.format(question, entries)


def _symbol(figure: Figure) -> str:
    return f", {figure.symbol}" if figure.symbol else ""


def _origin(figure: Figure, sources_at: str, titled: set[str]) -> Markup:
    """`titled`: what was named with its title further up, and is named shortly from there on."""
    lines = []
    if figure.formula:
        lines.append(Markup("<dd><b>{}</b></dd>").format(figure.formula))
    if figure.inputs:
        lines.append(Markup("<dd>with {}</dd>").format(", ".join(f"{name} = {value}" for name, value in figure.inputs)))
    if figure.note:
        lines.append(Markup("<dd>{}</dd>").format(figure.note))
    for citation in figure.sources:
        lines.append(Markup("<dd>{}</dd>").format(_source(citation, sources_at, short=citation in titled)))
        titled.add(citation)
    return Markup("").join(lines) or Markup("<dd>as entered</dd>")


def _source(citation: str, sources_at: str, *, short: bool) -> Markup | str:
    line = source_line(citation, short=short)
    if not sources_at or line == citation:
        return line
    key, said = source_named(citation).key, line.removeprefix(citation)
    return Markup('<a href="{}{}">{}</a>{}').format(sources_at, quote(key, safe=""), citation, said)


def source_line(citation: str, *, short: bool = False) -> str:
    """A citation with the title of its source, unless `short`, and how far a reader may lean on it."""
    try:
        source = source_named(citation)
    except KeyError:
        return citation
    return f"{citation} ({source.held})" if short else f"{citation}: {source.title} ({source.held})"
