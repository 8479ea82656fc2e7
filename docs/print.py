"""Print the pages of docs/ that follow from the code; a test holds them current. Run: .venv/bin/python docs/print.py"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from published.row import Row

DOCS = Path(__file__).resolve().parent
TESTS = DOCS.parent / "tests"


def table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> str:
    """A table of plain cells."""
    lines = [heads, tuple("---" for _ in heads), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in line) + " |" for line in lines)


def head(title: str, says: str) -> str:
    """The head of a printed page."""
    return f"# {title}\n\n<!-- Printed from the code by docs/print.py: change the code, not this page. -->\n\n{says}\n\n"


def nomenclature() -> str:
    """Words, symbols, units, ranges."""
    from evenpitch.quantity.glossary import GLOSSARY
    from evenpitch.quantity.names import all_names

    names = table(
        ("name", "in the trade", "symbol", "unit", "standard", "help"),
        ((f"`{name.word}`", name.trade, name.symbol, name.unit, name.standard, name.help) for name in all_names()),
    )
    words = table(("term", "meaning", "source"), ((term.term, term.meaning, term.source) for term in GLOSSARY))
    return (
        head("Nomenclature", "One word, one symbol, one unit, everywhere: on pages, sheets, in files and in JSON.")
        + names
        + ("\n\n## Words of the trade\n\n" + words + "\n")
    )


def sources() -> str:
    """The bibliography with how each source is held."""
    from evenpitch.sources.library import library

    rows = ((source.key, source.title, source.publisher, source.year, source.held, source.note) for source in library().values())
    says = (
        "Every formula names its source. *Held* says how far to lean on what was taken from it: text read; quoted second-hand; "
        "from memory (confirm before you print it elsewhere); common practice (a habit of the trade without a source); derived here "
        "(our own, with a second method beside it)."
    )
    return head("Sources", says) + table(("key", "title", "publisher", "year", "held", "note"), rows) + "\n"


def findings() -> str:
    """All findings by weight."""
    from evenpitch.job.findings import EVERY_KIND
    from evenpitch.quantity.finding import WEIGHTS

    says = (
        "What a plan, an inspection, a proof of the rig or a log may have to say beside its figures. "
        "A plan with a stop can be read and printed, not issued. "
        "Names in braces stand for the figures of the case."
    )
    parts = []
    for weight in WEIGHTS:
        rows = (
            (f"`{code}`", _plain(kind.says), _plain(kind.why), _plain(kind.do), "; ".join(kind.sources))
            for code, kind in EVERY_KIND.items()
            if kind.weight == weight
        )
        parts.append(f"## {weight.capitalize()}\n\n" + table(("code", "says", "why", "do", "source"), rows) + "\n")
    return head("Findings", says) + "\n".join(parts)


def _plain(text: str) -> str:
    """Without the decimals that a figure is filled in with: {pin:.3f} is {pin}."""
    return re.sub(r"\{(\w+)(?::[^}]*)?\}", r"{\1}", text)


def commands() -> str:
    """Every command with its options, as --help prints them."""
    import click

    from evenpitch.cli import cli

    top = head(
        "Commands",
        "The program is `.venv/bin/evenpitch` after `python3 go.py`. Every command prints text to read, or with `--json` one JSON object.\n"
        "Exit codes: 0 answered; 1 refused (nothing is written); 2 answered, but a stop stands; 3 our own fault.",
    )
    parts = [top]
    for name, command in sorted(cli.commands.items()):
        program = click.Context(cli, info_name="evenpitch", **cli.context_settings)
        context = click.Context(command, parent=program, info_name=name)
        context.max_content_width = context.terminal_width = 110
        parts.append(f"## {name}\n\n```\n{command.get_help(context)}\n```\n\n")
    return "".join(parts).rstrip("\n") + "\n"


WITNESSES = (
    "the form-cut rule for span, pins and chord of a spur gear: flanks moved bodily, and measured",
    "the same for helical gears: the contact line of the disc cutter, first order",
    "the direction table: vectors",
    "compound indexing with skipping: every crank position tried",
    "the joint choice of two leads: every pair of trains tried",
    "the virtual cut of a disc cutter: contact in closed form, slices with a least, and the union of cutter sections drawn flat",
    "what thinning by depth adds at the tip: the whole cut of a form made for that very count",
    "the link's ratio under bounds on both numbers: every pair enumerated, and a scan over every count",
    "a simulated pass: a plain loop that marches in time, at 50 and 10 µs; its rate limit: a queue",
    "the torque of a motor over its speed: a grid of currents searched in the plane",
    "whole gears drawn: one gear as plain sums over the same points; a flank's slope: the closed budget",
    "the class to expect of four invented rigs: a second program made from the text alone",
    "a log fitted jointly, and its jumps: the whole fit made again at every row",
    "what a wave of worm or wheel leaves in spacing and helix: a numeric scan",
)
"""What no print was found for, and the second method that agrees."""


def trust() -> str:
    """Printed figures beside computed ones, source by source; first those that do not agree."""
    sys.path.insert(0, str(TESTS))
    from published.collect import all_rows

    rows = all_rows()
    apart = [row for row in rows if not row.agrees]
    says = (
        f"{len(rows)} figures from print, set beside what this program computes; {len(rows) - len(apart)} agree within half of the "
        f"last printed digit. The {len(apart)} that do not stand first, with the reason. Then every source with all its figures; "
        "*held* says how the printed figure came to us."
    )
    disagree = (
        "## Where we do not agree\n\n"
        + table(
            ("source", "what", "printed", "ours", "why"),
            ((row.source, row.what, row.printed, row.computed_text, _sentence(row.note)) for row in apart),
        )
        + "\n\n"
    )
    by_source: dict[tuple[str, str], list[Row]] = {}
    for row in rows:
        by_source.setdefault((row.source, row.held), []).append(row)
    groups = "".join(_one_source(source, held, found) for (source, held), found in by_source.items())
    proofs = (
        "## Without an outside figure\n\nThese have none in print that we could find; two methods that share nothing agree instead "
        "(`tests/witnesses/`):\n\n" + "".join(f"- {one}\n" for one in WITNESSES)
    )
    return head("Trust", says) + disagree + groups + proofs + from_memory()


def from_memory() -> str:
    """Every formula of the program none of whose sources was read: what it says, where it stands, whom it names."""
    import importlib
    import pkgutil

    import evenpitch
    from evenpitch.sources.citations import citation_of
    from evenpitch.sources.library import source_named

    rows = []
    for room in ("gear", "dividing", "cutting", "flank", "link", "checking"):
        package = importlib.import_module(f"evenpitch.{room}")
        for file in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
            module = importlib.import_module(file.name)
            for name, member in sorted(vars(module).items()):
                if getattr(member, "__module__", "") != file.name:
                    continue
                cited = citation_of(member)
                held = {source_named(source).held for source in cited.sources}
                if "from memory" in held and "text read" not in held:
                    rows.append((f"{room}, {name.replace('_', ' ')}", cited.formula, "; ".join(cited.sources)))
    assert rows, evenpitch
    return (
        "\n## Formulas from memory\n\nRecalled, not read: confirm them against their source before you print them elsewhere. "
        "What stands in the tables above was compared with print as far as it goes.\n\n"
        + table(("formula", "equation", "source"), rows)
        + "\n"
    )


MOST_LINES = 110
"""Lines of one table: the pages show a part at a time, and a page is kept light."""


def _sentence(note: str) -> str:
    return note.removeprefix("printed figure does not stand: ")


def _one_source(source: str, held: str, rows: list[Row]) -> str:
    agree = sum(row.agrees for row in rows)
    lines = [
        (row.what, row.printed, row.computed_text, "yes" if row.agrees else "**no**", "" if row.agrees else _sentence(row.note))
        for row in rows
    ]
    heads = ("what", "printed", "ours", "agree", "why not")
    parts = [f"## {source}\n\n{agree} of {len(rows)} agree. Held: {held}.\n\n" + table(heads, lines[:MOST_LINES])]
    parts += [
        f"## {source}, from line {at + 1}\n\n" + table(heads, lines[at : at + MOST_LINES])
        for at in range(MOST_LINES, len(lines), MOST_LINES)
    ]
    return "\n\n".join(parts) + "\n\n"


PAGES = {"nomenclature": nomenclature, "sources": sources, "findings": findings, "commands": commands, "trust": trust}


def main() -> None:
    """Write every page."""
    for name, page in PAGES.items():
        (DOCS / f"{name}.md").write_text(page(), encoding="utf-8")


if __name__ == "__main__":
    main()
