"""The docs say what the code says: printed pages are current, links lead somewhere, commands exist, nothing is left undocumented."""

from __future__ import annotations

import importlib.util
import json
import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any, get_args

import pytest

from evenpitch.cli import cli
from evenpitch.job.findings import EVERY_KIND
from evenpitch.quantity.finding import WEIGHTS
from evenpitch.quantity.names import all_names
from evenpitch.sheet.strokes import WIDTHS
from evenpitch.sources.library import Held, library
from evenpitch.store.museum import JOBS, RIGS, museum_folder
from evenpitch.web.desk import ask_plan
from evenpitch.web.gear_answer import gear_question

ROOT = Path(__file__).resolve().parents[1]
DOCS = ROOT / "docs"
PAGES = ("nomenclature", "sources", "findings", "commands", "trust")
TEXTS = (*sorted(DOCS.glob("*.md")), *sorted(ROOT.glob("*.md")), ROOT / "benchmarks" / "README.md")
ON_THE_NET = ("http://", "https://", "mailto:")


def _printer() -> ModuleType:
    spec = importlib.util.spec_from_file_location("print_docs", DOCS / "print.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("name", PAGES)
def test_a_printed_page_is_current(name: str) -> None:
    printed = _printer().PAGES[name]()
    assert (DOCS / f"{name}.md").read_text(encoding="utf-8") == printed, "run .venv/bin/python docs/print.py"


def test_every_printed_page_is_held_current() -> None:
    assert set(_printer().PAGES) == set(PAGES)
    said = {file.stem for file in DOCS.glob("*.md") if "Printed from the code" in file.read_text(encoding="utf-8")}
    assert said == set(PAGES)


def test_every_command_and_option_is_documented() -> None:
    text = (DOCS / "commands.md").read_text(encoding="utf-8")
    parts = {part.split("\n", 1)[0]: part for part in text.split("\n## ")[1:]}
    assert set(parts) == set(cli.commands)
    for name, command in cli.commands.items():
        for parameter in command.params:
            for word in parameter.opts:
                assert word in parts[name] or word.upper() in parts[name], (name, word)


def test_every_finding_has_its_row() -> None:
    text = (DOCS / "findings.md").read_text(encoding="utf-8")
    for weight in WEIGHTS:
        part = text.split(f"## {weight.capitalize()}\n")[1].split("\n## ")[0]
        assert re.findall(r"^\| `([^`]+)`", part, re.MULTILINE) == [
            code for code, kind in EVERY_KIND.items() if kind.weight == weight
        ]


def test_every_source_has_its_row_and_how_it_is_held() -> None:
    rows = [line.split(" | ") for line in (DOCS / "sources.md").read_text(encoding="utf-8").splitlines() if line.startswith("| ")]
    held = {row[0].removeprefix("| "): row[4] for row in rows[2:]}
    assert held == {source.key: source.held for source in library().values()}
    assert set(held.values()) <= set(get_args(Held))


def test_every_line_and_flag_of_the_drawings_is_explained() -> None:
    text = (DOCS / "pictures.md").read_text(encoding="utf-8")
    lines = text.split("## Six lines")[1].split("## ")[0]
    assert lines.count("\n| ") - 1 == len(set(WIDTHS) - {"movement", "none"})
    assert all(f"\n| {weight} |" in text for weight in WEIGHTS)


def _links(text: str) -> Iterator[str]:
    for target in re.findall(r"\]\(([^)\s]+)\)", text):
        if not target.startswith(ON_THE_NET):
            yield target


def _anchors(file: Path) -> set[str]:
    heads = re.findall(r"^#+ (.+)$", file.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", head.lower()).replace(" ", "-") for head in heads}


@pytest.mark.parametrize("file", TEXTS, ids=lambda file: str(file.relative_to(ROOT)))
def test_links_lead_somewhere(file: Path) -> None:
    for target in _links(file.read_text(encoding="utf-8")):
        path, _, anchor = target.partition("#")
        there = (file.parent / path).resolve() if path else file
        assert there.exists(), target
        assert not anchor or anchor in _anchors(there), target


def _commands(text: str) -> Iterator[list[str]]:
    for block in re.findall(r"```\w*\n(.*?)```", text, re.DOTALL):
        for line in block.splitlines():
            words = shlex.split(line) if re.match(r"\s*(\.venv/bin/)?evenpitch [a-z]", line) else []
            if words:
                yield words[1:]


@pytest.mark.parametrize(
    "name", ["README.md", "CONTRIBUTING.md", "docs/first-gear.md", "docs/where-things-are.md", "docs/inspect.md"]
)
def test_commands_in_the_texts_can_be_typed(name: str) -> None:
    for word, *rest in _commands((ROOT / name).read_text(encoding="utf-8")):
        assert word in cli.commands
        cli.commands[word].make_context(word, rest).close()


def test_files_named_in_commands_of_the_readme_exist() -> None:
    asked = [word for words in _commands((ROOT / "README.md").read_text(encoding="utf-8")) for word in words]
    files = [word for word in asked if word.startswith("examples/")]
    assert files
    assert all((ROOT / file).is_file() for file in files)


def test_the_readme_begins_with_what_it_is_for_and_two_commands() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    title, first, *_ = text.split("\n\n")
    assert title == "# evenpitch"
    assert len(first.split()) > 60
    assert all(word in first for word in ("gears", "milling machine", "dividing head", "sheet"))
    assert "python3 go.py\n" in text
    assert "python3 go.py test\n" in text


def test_the_readme_names_every_page_of_the_docs_or_one_that_does() -> None:
    reached, left = set[Path](), [ROOT / "README.md"]
    while left:
        file = left.pop()
        if file not in reached:
            reached.add(file)
            left += [
                (file.parent / link.split("#")[0]).resolve() for link in _links(file.read_text(encoding="utf-8")) if ".md" in link
            ]
    assert set(DOCS.glob("*.md")) <= reached


@pytest.mark.parametrize("name", ["requirements.lock", "requirements-dev.lock"])
def test_locks_name_no_place_to_fetch_from(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    assert "==" in text
    assert "://" not in text


def test_the_test_tools_go_on_top_of_what_the_program_needs() -> None:
    """`go.py test` adds to an environment that `go.py` made: what both locks hold must be the same releases."""
    program, tools = (
        dict(re.findall(r"^([\w.-]+)==(\S+)", (ROOT / name).read_text(encoding="utf-8"), re.MULTILINE))
        for name in ("requirements.lock", "requirements-dev.lock")
    )
    assert program.items() < tools.items()


def _figures(value: Any) -> Iterator[str]:
    """The names of all figures in an answer, however deep."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if isinstance(inner, dict) and {"value", "unit", "symbol"} <= set(inner):
                yield key
            yield from _figures(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _figures(inner)


@pytest.mark.parametrize("job", JOBS.values())
def test_every_figure_of_a_plan_is_in_the_nomenclature(job: str) -> None:
    rig = (museum_folder() / f"{RIGS[0]}.toml").read_bytes()
    made = json.loads(ask_plan(museum_folder() / f"{job}.toml", rig, trial=False).json_text())
    assert set(_figures(made)) <= {name.word for name in all_names()}
    assert len(set(_figures(made))) > 20


def test_every_figure_of_the_gear_question_is_in_the_nomenclature() -> None:
    typed = {"teeth": "28", "module": "2", "helix": "20", "hand": "right", "face": "20 mm", "tolerance-class": "8"}
    made = json.loads(gear_question(typed).json_text())
    known = {name.word: name for name in all_names()}
    for key in set(_figures(made)):
        shown = made["figures"].get(key) or made["tolerances"][key]
        assert shown["unit"] == known[key].unit, key
