"""The museum workshop's files, which the demonstration puts into a book."""

from __future__ import annotations

from pathlib import Path

from evenpitch.quantity.refusal import refuse

RIGS = ("museum-mill", "museum-mill-head-swing")
JOBS = {"A": "loom-change-wheel", "B": "timing-pair", "P": "draft-wheel"}
"""Job files by the letter they go under."""


def museum_folder() -> Path:
    """The folder of the examples, beside the sources."""
    return Path(__file__).resolve().parents[3] / "examples"


def museum_text(name: str) -> str:
    """The text of one of them."""
    file = museum_folder() / f"{name}.toml"
    try:
        return file.read_text(encoding="utf-8")
    except OSError as trouble:
        raise refuse(
            "examples", file, "the file of the museum workshop", f"{trouble.strerror}.", "Fetch the whole source again."
        ) from None
