"""The ways of dividing as a document: one question without a job."""

from __future__ import annotations

from evenpitch.dividing.closing import closing
from evenpitch.dividing.methods import Block, Compound, Differential, Direct, Method, PlatePulses, Pulses, Simple
from evenpitch.dividing.ways import without_copies
from evenpitch.job.dividing_question import DivideAnswer
from evenpitch.quantity.showing import grouped, mixed_number, number, several
from evenpitch.sheet.document import Block as DocumentBlock
from evenpitch.sheet.document import Cell, Document, KeyFigure, Section, Table, TableRow, Words, Working

SHOWN = 24
"""Ways listed on a page or in text; JSON has them all."""

_NAMES = {
    "direct": "Direct plate",
    "simple": "Simple",
    "block": "Block",
    "compound": "Compound",
    "differential": "Differential",
    "pulses": "Link",
}


def way_name(method: Method) -> str:
    """The way in one or two words."""
    return "Crank and motor" if isinstance(method, PlatePulses) else _NAMES[method.name]


def needs(method: Method) -> str:
    """What must be fitted or done for a way."""
    if isinstance(method, Pulses):
        return "the motor on the worm shaft"
    if isinstance(method, PlatePulses):
        return "the motor on the plate drive, stop pin out"
    if isinstance(method, Differential):
        which = "the same way as" if method.plate_sense == "with" else "against"
        idle = "" if method.idlers is None else f"; {several(method.idlers, 'idler')}"
        return f"gears {method.train_words()}, plate {which} the crank{idle}"
    if isinstance(method, Compound):
        return "both circles on one plate; crank first, then plate"
    if isinstance(method, Block):
        return "the crank; spaces come in another order"
    if isinstance(method, Direct):
        return "worm out of mesh, pin in the plate on the nose"
    return "the crank"


def each_space(method: Method) -> str:
    """The move and its proof, in two lines."""
    return f"{method.words()}\n{method.proof}"


def worst(method: Method) -> str:
    """Greatest distance of any space from its place."""
    return "0" if method.exact else f"{number(method.worst_error_arcsec, 2)}″"


def compose_divide(answer: DivideAnswer) -> Document:
    """What `evenpitch divide` prints, and its page."""
    title = f"{answer.divisions} divisions" if answer.angle is None else f"One move through {mixed_number(answer.angle)}°"
    rows = tuple(
        TableRow((way_name(method), each_space(method), worst(method), needs(method)), chosen=place == 0)
        for place, method in enumerate(without_copies(answer.methods)[:SHOWN])
    )
    left = len(answer.methods) - len(rows)
    note = (
        f"{grouped(left)} more ways, other trains of the same moves among them: --json lists them."
        if left > 0
        else "Errors are at the work, of the space furthest from its place."
    )
    head = f"{mixed_number(answer.head.ratio)}:1"
    sections: list[Section] = []
    if rows:
        table = Table(("way", "each move", "worst", "needs"), rows, right=(2,), note=note)
        sections.append(Section("ways", f"{len(answer.methods)} ways, best first", (table,)))
        sections.append(Section("check", "Check it by hand", tuple(_check(answer))))
    else:
        sections.append(Section("ways", "No way", (Words("Nothing on this head closes within 60″."),)))
    cells = (Cell("sheet", "one question"), Cell("head", head), Cell("circles", _circles(answer)))
    return Document(
        kind="answer",
        title=f"{title} on a {head} head",
        keys=_keys(answer),
        findings=answer.findings,
        sections=tuple(sections),
        cells=cells,
    )


def _circles(answer: DivideAnswer) -> str:
    circles = [circle for plate in answer.plates for circle in plate.circles]
    return f"{len(circles)}, {min(circles)} to {max(circles)} holes" if circles else "none"


def _keys(answer: DivideAnswer) -> tuple[KeyFigure, ...]:
    if not answer.methods:
        return ()
    best = answer.methods[0]
    crank = best.crank()
    keys = [KeyFigure("way", way_name(best), "", "exact" if best.exact else f"worst {worst(best)}")]
    if crank is not None:
        whole, circle, spaces = crank
        move = (
            f"{spaces} of {circle}"
            if not whole
            else f"{whole} + {spaces} of {circle}"
            if spaces
            else f"{whole} turn{'s' * (whole != 1)}"
        )
        keys.append(
            KeyFigure(
                "crank",
                move,
                "",
                f"{several(spaces, 'space')}: {spaces + 1} holes between the arms" if spaces else "the same hole",
            )
        )
    if isinstance(best, Differential):
        keys.append(KeyFigure("gears", best.train_words(), "", f"plate {best.plate_sense} the crank"))
    if isinstance(best, Pulses):
        keys.append(KeyFigure("pulses", " / ".join(str(pulses) for pulses, _ in best.counts), "", "always from the datum"))
    return tuple(keys)


def _check(answer: DivideAnswer) -> list[DocumentBlock]:
    best = answer.methods[0]
    blocks: list[DocumentBlock] = [Working((best.proof,))]
    if isinstance(best, Differential):
        blocks.append(Words(f"Try it first: {best.test()}."))
    if answer.divisions is not None and not best.exact:
        blocks.append(Words(f"Where the error lands: {closing(best, answer.divisions).words()}"))
    if isinstance(best, Simple | Block | Compound | Differential) and best.spaces:
        blocks.append(
            Words(
                f"Sector arms for {several(best.spaces, 'space')} of the {best.circle} circle: {best.spaces + 1} holes between them."
            )
        )
    return blocks
