"""What the gain of a scale is good to, part by part, and the ratio to enter with it taken out."""

from __future__ import annotations

from evenpitch.job.commissioning import ScaleCommission
from evenpitch.job.scale_corrected import Corrected
from evenpitch.quantity.showing import number
from evenpitch.sheet.document import Section, Table, TableRow, Words


def scale_sections(made: ScaleCommission) -> tuple[Section, ...]:
    """The budget of the gain; and, with a rig and helical gears, the corrected ratios."""
    return (_doubt(made), *_corrected(made.corrected))


def _doubt(made: ScaleCommission) -> Section:
    rows = [TableRow((part.name, number(part.u, 1))) for part, _ in made.budget.shares()]
    rows.append(TableRow(("together, U", number(made.budget.U, 0)), strong=True))
    table = Table(("µm in a metre", "u"), tuple(rows), right=(1,))
    words = Words("Repeating takes down the scatter alone. Blocks and scale an hour together, cover on, take down the warmth.")
    return Section("gain-doubt", "Where the ± of the gain comes from", (table, words))


def _corrected(ratios: tuple[Corrected, ...]) -> tuple[Section, ...]:
    if not ratios:
        return ()
    rows = tuple(
        TableRow(
            (f"{one.teeth} teeth", number(one.lead, 4), number(one.enter, 4), one.plain.words(), one.ratio.words()),
        )
        for one in ratios
    )
    heads = ("gear", "lead wanted, mm", "lead to enter, mm", "ratio as it is", "ratio corrected")
    note = Words("Correct in one place only: the lead, or the scale's own correction in the controller, never both.")
    return (Section("corrected", "With the gain taken out", (Table(heads, rows, right=(1, 2)), note)),)
