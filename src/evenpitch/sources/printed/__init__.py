"""Tables transcribed from print, one TOML file each, with their source and what the copy got wrong."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import Any


@cache
def printed(name: str) -> dict[str, Any]:
    """The table of that name, as printed: its `source`, its `note` and its rows. FileNotFoundError where there is none."""
    return tomllib.loads(resources.files(__package__).joinpath(f"{name}.toml").read_text(encoding="utf-8"))
