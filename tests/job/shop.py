"""Orders on the museum workshop's rig, made as a person makes them: from files, with single fields changed."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import tomlkit

from evenpitch.job.order import Order
from evenpitch.job.plan import Plan
from evenpitch.job.planning import plan
from evenpitch.rig.rig import Rig
from evenpitch.store.files.job_file import order_from
from evenpitch.store.files.rig_file import read_rig

EXAMPLES = Path(__file__).parents[2] / "examples"


def rig_tables(name: str = "museum-mill") -> dict[str, Any]:
    """The tables of a rig file, to change before reading."""
    return tomllib.loads((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))


@cache
def museum_mill() -> Rig:
    """The workshop's rig."""
    return rig_of(rig_tables())


def rig_of(tables: dict[str, Any]) -> Rig:
    """A rig from tables."""
    return read_rig(tomlkit.dumps(tables)).rig


def bare_rig() -> Rig:
    """Only what is needed: a head ratio and one plate."""
    return rig_of({"head": {"ratio": "40"}, "plate": [{"circles": [15, 16, 17, 18, 19, 20]}]})


def order(gears: list[dict[str, Any]], rig: Rig | None = None, **tables: Any) -> Order:
    """An order of gears given by their JOB.toml fields."""
    return order_from(tomlkit.dumps({"gear": gears, **tables}), rig or museum_mill())


WHEEL = {
    "teeth": 97,
    "pitch": "12 DP",
    "pressure_angle": "14½",
    "face": "0.75 in",
    "thinning": "0.06 mm",
    "material": "cast iron",
}
PINION = {
    "teeth": 28,
    "pitch": "mn 2",
    "pressure_angle": "20",
    "helix": "20",
    "hand": "right",
    "face": "20 mm",
    "thinning": "0.05 mm",
}
MATE = {**PINION, "teeth": 56, "hand": "left"}
HOUSING = {"centre_distance": "3.520 in"}


def wheel(rig: Rig | None = None, **changed: Any) -> Plan:
    """The plan of the 97-tooth wheel with some fields changed; None takes a field out."""
    tables = {key: changed.pop(key) for key in ("choice", "pair") if key in changed}
    fields = {key: value for key, value in {**WHEEL, **changed}.items() if value is not None}
    return plan(order([fields], rig, **tables))


def pair(
    rig: Rig | None = None, first: dict[str, Any] | None = None, second: dict[str, Any] | None = None, **tables: Any
) -> Plan:
    """The plan of the timing pair with some fields changed."""
    tables.setdefault("pair", HOUSING)
    return plan(order([{**PINION, **(first or {})}, {**MATE, **(second or {})}], rig, **tables))


def pinion(rig: Rig | None = None, **changed: Any) -> Plan:
    """The plan of the 28-tooth gear alone."""
    tables = {key: changed.pop(key) for key in ("choice",) if key in changed}
    fields = {key: value for key, value in {**PINION, **changed}.items() if value is not None}
    return plan(order([fields], rig, **tables))


def codes(made: Any) -> set[str]:
    """Codes of all findings of a plan or an answer."""
    return {found.code for found in made.findings}
