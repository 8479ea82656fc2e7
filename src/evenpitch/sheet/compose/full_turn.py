"""The closing test of a full turn: what its residue may be."""

from __future__ import annotations

from evenpitch.job.full_turn import FullTurn
from evenpitch.quantity.showing import number
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.sheet.document import Block, Section, Table, TableRow, Words


def turn_sections(turn: FullTurn | None) -> tuple[Section, ...]:
    """What a full turn leaves, in words and against what one of each cause would leave."""
    if turn is None:
        return ()
    found = turn.residue.times(1 / RADIAN_PER_ARCSEC)
    left = turn.words or f"{number(found.value, 1, plus=True)} ± {number(found.U, 1)}″; name the rig to see what it may be."
    blocks: list[Block] = [Words(left)]
    if turn.growth is not None:
        blocks.append(Words(f"After two turns: {turn.growth.words}"))
    if turn.meanings:
        rows = tuple(
            TableRow(
                (
                    one.cause,
                    f"{number(one.size / RADIAN_PER_ARCSEC, 1)}″",
                    number(abs(one.times), 1),
                    "it may be" if one.fits else "does not fit",
                    one.test,
                ),
                chosen=one.fits,
            )
            for one in turn.meanings
        )
        blocks.append(Table(("may be", "one at the work", "of them", "", "the test that decides"), rows, right=(1, 2)))
    return (Section("full-turn", "What a full turn leaves", tuple(blocks)),)
