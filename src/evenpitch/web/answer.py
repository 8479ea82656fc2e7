"""Answer: what one question gives, ready to print as text, JSON, a page, and into files."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.sheet.answers import answer, dumps
from evenpitch.sheet.document import Document
from evenpitch.sheet.print_text import text

FILE_KINDS = {
    "pdf": "a PDF",
    "csv": "a CSV table",
    "dxf": "a DXF outline",
    "html": "one HTML page",
    "bit_pdf": "the sheet of a bit",
    "bit_dxf": "a DXF outline of a bit",
}


@dataclass(frozen=True, slots=True)
class Answer:
    """`document`: to read; `json`: the one object; `files`: how to make each kind of file this answer can be written as."""

    document: Document
    json: Mapping[str, Any]
    files: Mapping[str, Callable[[], bytes]] = field(default_factory=dict)

    def text(self) -> str:
        """For a terminal or a page of paper."""
        return text(self.document)

    def json_text(self) -> str:
        """Exactly one JSON object."""
        return dumps(self.json)

    def stopped(self) -> bool:
        """Whether a finding of weight stop stands."""
        return any(finding.weight == "stop" for finding in self.document.findings)


def write_files(made: Answer, outs: Mapping[str, Path]) -> tuple[Path, ...]:
    """Write the kinds asked for; a Refusal, and nothing written, where this answer has no such kind or the place cannot be written."""
    for kind, out in outs.items():
        if kind not in made.files:
            raise refuse(
                kind, out, "a kind of file this answer has", f"It cannot be written as {FILE_KINDS[kind]}.", "Leave it out."
            )
    contents = {kind: made.files[kind]() for kind in outs}
    new: list[Path] = []
    for kind, out in outs.items():
        try:
            if not out.exists():
                out.touch()
                new.append(out)
            elif not os.access(out, os.W_OK) or out.is_dir():
                raise PermissionError(errno.EACCES, "It is a folder" if out.is_dir() else "The file there may not be written")
        except OSError as trouble:
            raise _not_there(kind, out, trouble, new) from None
    for kind, out in outs.items():
        try:
            out.write_bytes(contents[kind])
        except OSError as trouble:
            raise _not_there(kind, out, trouble, new) from None
    return tuple(outs.values())


def _not_there(kind: str, out: Path, trouble: OSError, new: list[Path]) -> Refusal:
    """The refusal; the files that were made for this answer are taken away again."""
    for made in new:
        made.unlink(missing_ok=True)
    reason = trouble.strerror or str(trouble)
    return refuse(kind, out, "a place that can be written", f"{reason}.", "Name a folder that exists and is yours.")


def refused_json(command: str, refusal: Refusal) -> str:
    """The object of a refusal."""
    return dumps(answer(command, refusals=refusal.faults))


def refused_text(refusal: Refusal) -> str:
    """A refusal to read: what, expected, likely reason, what to do."""
    lines = []
    for fault in refusal.faults:
        given = f" “{fault.given}”" if fault.given else ""
        lines.append(f"refused. {fault.field}{given}")
        lines.append(f"  expected: {fault.expected}")
        if fault.likely:
            lines.append(f"  why: {fault.likely}")
        lines.append(f"  do: {fault.do}")
    return "\n".join([*lines, "Nothing was written."])
