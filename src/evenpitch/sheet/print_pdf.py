"""Document -> PDF, set by a child process. The same document gives the same bytes: no clock is asked."""

from __future__ import annotations

import json
import subprocess
import sys

from evenpitch.sheet.document import Document
from evenpitch.sheet.paper_data import paper_data

PATIENCE = 60
"""Seconds the typesetter may take; a job sheet takes a fraction of one."""


def pdf_bytes(document: Document) -> bytes:
    """The document as a PDF file."""
    return pdf_with_warnings(document)[0]


def pdf_with_warnings(document: Document) -> tuple[bytes, tuple[str, ...]]:
    """The document as a PDF file, and what the typesetter had to say about it."""
    data = json.dumps(paper_data(document), ensure_ascii=False, allow_nan=False)
    done = subprocess.run(
        [sys.executable, "-P", "-m", "evenpitch.sheet.typst_child"],
        input=data.encode("utf-8"),
        capture_output=True,
        timeout=PATIENCE,
        check=False,
    )
    said = done.stderr.decode("utf-8", "replace")
    if done.returncode:
        raise RuntimeError(f"the typesetter gave up: {said.strip()}")
    return done.stdout, tuple(line for line in said.splitlines() if line)
