"""The mark that a camera reads: the address of a page on this network, where other devices may open it."""

from __future__ import annotations

from fastapi import Request
from markupsafe import Markup

QUIET = 4
"""Modules of white around the mark; ISO/IEC 18004."""


def address_mark(request: Request, path: str) -> Markup:
    """The address of a page as a mark and in letters; "" where the pages are served to this machine alone."""
    at = getattr(request.app.state, "lan_address", "")
    if not at:
        return Markup("")
    whole = f"{at}{path}"
    return Markup(
        '<div class="mark-of">{}<p>For the tablet beside the machine:<br><b>{}</b><br>It asks for the PIN at the terminal.</p></div>'
    ).format(mark_svg(whole), whole)


def mark_svg(text: str) -> Markup:
    """The mark as one path, a square for each dark module."""
    import segno

    rows = [list(row) for row in segno.make(text, error="m", micro=False).matrix]
    wide = len(rows) + 2 * QUIET
    dark = "".join(f"M{x + QUIET} {y + QUIET}h1v1h-1z" for y, row in enumerate(rows) for x, module in enumerate(row) if module)
    head = '<svg viewBox="0 0 {0} {0}" role="img" aria-label="the address as a mark to be read by a camera">'
    return Markup(head + '<path d="{1}" fill="currentColor"/></svg>').format(wide, dark)
