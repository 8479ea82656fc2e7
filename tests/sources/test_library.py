"""The library loads, is honest, and holds every source that the package names."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Iterator
from typing import get_args

import pytest

import evenpitch
from evenpitch.sources.citations import citation_of, cites
from evenpitch.sources.library import Held, library, source_named
from evenpitch.sources.printed import printed


def _modules() -> Iterator[str]:
    for found in pkgutil.walk_packages(evenpitch.__path__, "evenpitch."):
        if not found.name.endswith("__main__"):
            yield found.name


@pytest.mark.parametrize("name", list(_modules()))
def test_every_citation_names_a_source(name: str) -> None:
    module = importlib.import_module(name)
    for _, thing in inspect.getmembers(module, inspect.isfunction):
        for source in citation_of(thing).sources:
            assert source_named(source)


def test_held_is_one_of_the_five() -> None:
    assert {source.held for source in library().values()} == set(get_args(Held))
    assert all(source.title for source in library().values())


def test_a_clause_or_page_leads_to_its_work() -> None:
    assert source_named("ISO 21771:2007, 6.2").key == "ISO 21771:2007"
    assert source_named("Machinery's Handbook, 27th ed., p. 1995").key == "Machinery's Handbook, 27th ed."
    assert source_named("Machinery's Handbook, indexing").key == "Machinery's Handbook"


def test_an_unknown_source_is_caught() -> None:
    with pytest.raises(KeyError, match="a book nobody has"):
        source_named("a book nobody has, p. 3")


def test_cites_leaves_the_function_as_it_is() -> None:
    def plain(value: float) -> float:
        return 2 * value

    assert cites("common practice", formula="y = 2 x")(plain) is plain
    assert citation_of(plain).formula == "y = 2 x"
    assert citation_of(len).sources == ()


@pytest.mark.parametrize("table", ["cutter_ranges", "cutter_counts"])
def test_printed_tables_name_their_source(table: str) -> None:
    assert source_named(printed(table)["source"])


def test_printed_speeds_name_their_sources() -> None:
    for part in ("high_speed_steel", "carbon_steel"):
        table = printed("cutting_speeds")[part]
        assert source_named(table["source"])
        assert all(0 < row["least"] <= row["most"] for row in table["rows"])
