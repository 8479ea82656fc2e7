"""Files from outside, bounded in size before they are read."""

from __future__ import annotations

from pathlib import Path

from evenpitch.quantity.refusal import refuse

LARGEST = 1_000_000
"""Bytes of a job or rig file; a large one has a few thousand."""

LARGEST_EXPORT = 64_000_000
"""Bytes of an exported job: some 400 000 entries of record."""


def read_bounded(path: Path, most: int = LARGEST, do: str = "Check that it is the right one.") -> bytes:
    """The bytes of a file, or a Refusal where it is not there, not readable, no file, or larger than `most`; then `do` mends it."""
    try:
        with path.open("rb") as file:
            content = file.read(most + 1)
    except OSError as trouble:
        reason = trouble.strerror or str(trouble)
        raise refuse("file", path, "a file that can be read", f"{reason}.", "Check its name and folder.") from None
    if len(content) > most:
        raise refuse(
            "file",
            path,
            f"at most {most // 1000} kB",
            "It is too large for a file of this kind.",
            do,
        )
    return content
