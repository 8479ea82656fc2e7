"""A rig proven, mounting and link together, as one document: what was found at each check, and the sentence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from evenpitch.job.mounting import BlockAt, Mounted, MountingProven
from evenpitch.job.proof_checks import PROVES, ProofCheck
from evenpitch.job.proving import LinkProven
from evenpitch.quantity.finding import by_weight
from evenpitch.quantity.showing import number
from evenpitch.sheet.compose.proving import check_row, compose_proof
from evenpitch.sheet.document import Cell, Document, KeyFigure, Picture, Section, Table, TableRow
from evenpitch.sheet.drawings.indicator_along_scale import indicator_along_scale
from evenpitch.sheet.drawings.one_block_three_places import BlockShown, one_block_three_places

CHECKS = 8
OF_SCALE = 5
TITLE = "Prove the rig: scale and link"


def compose_rig_proof(mounting: MountingProven, link: LinkProven | None, rig: str, job: str = "") -> Document:
    """The page and the sheet of a proof. `link`: None where no job was named; `job`: its name in the book."""
    checks = _together(mounting, link)
    shown = [check.verdict for check in checks]
    findings = by_weight(tuple(dict.fromkeys((*mounting.findings, *(link.findings if link else ())))))
    base = compose_proof(link, rig) if link is not None else None
    kept = [section for section in base.sections if section.key in ("link", "shares", "scale")] if base is not None else []
    sections = (
        Section(
            "checks",
            "Checks",
            (Table(("check", "found ± U", "good within", "verdict"), tuple(map(check_row, checks)), right=(1, 2)),),
        ),
        *readings_section(mounting),
        *kept,
        proves_section(checks),
    )
    keys = [
        KeyFigure("checks made", str(len(shown)), f"of {OF_SCALE if link is None else CHECKS}"),
        KeyFigure("proven", str(shown.count("pass"))),
        KeyFigure("not proven", str(len(shown) - shown.count("pass")), flags=("not-proven",)),
    ]
    if mounting.gain is not None:
        ppm = mounting.gain.times(1e6)
        value = f"{number(ppm.value, 0, plus=True)} ± {number(ppm.U, 0)}"
        keys.append(KeyFigure("scale", value, "µm in a metre", flags=("gain-leave", "gain-not-shown")))
    return Document(
        kind="proof",
        title=TITLE,
        lead=lead_of(mounting, link),
        keys=tuple(keys) if shown else (),
        findings=findings,
        sections=sections if shown else (),
        cells=(
            Cell("sheet", "prove the rig"),
            Cell("rig", rig),
            *(
                (Cell(f"good on {job or link.name}", f"±{number(link.good.size * 1e3, 1)} µm over {link.gear.face:g} mm"),)
                if link
                else ()
            ),
            Cell("until", "belt, plate or scale is moved"),
        ),
        sign="proved by, and when",
    )


def lead_of(mounting: MountingProven, link: LinkProven | None) -> str:
    """The sentence under the heading; with a link that was not yet proven it says so."""
    if link is None:
        return mounting.sentence
    size = f"±{number(link.good.size * 1e3, 1)} µm"
    said = link.sentence.replace(size, f"**{size}**", 1)
    return said if link.proof is not None else f"{said} Not yet proven by block and bar."


def _together(mounting: MountingProven, link: LinkProven | None) -> tuple[ProofCheck, ...]:
    if link is None:
        return mounting.checks
    along = tuple(check for check in mounting.checks if check.kind == "along the scale")
    return (*along, *link.checks)


def readings_section(mounting: MountingProven) -> tuple[Section, ...]:
    """The two pictures, where there is something to draw."""
    pictures = proof_pictures(mounting)
    return (Section("readings", "Readings", pictures),) if pictures else ()


def proof_pictures(mounting: MountingProven) -> tuple[Picture, ...]:
    """Indicator along the scale, and one block at three places."""
    pictures = []
    if mounting.mounted.on_top or mounting.mounted.on_front:
        pictures.append(along_picture(mounting.mounted))
    if mounting.gain is not None and mounting.block is not None and any(not one.cutter for one in mounting.at):
        ppm = mounting.gain.times(1e6)
        words = f"{number(ppm.value, 0, plus=True)} ± {number(ppm.U, 0)} µm in a metre"
        pictures.append(Picture(one_block_three_places(_shown(mounting.at), words, mounting.block)))
    return tuple(pictures)


def along_picture(mounted: Mounted) -> Picture:
    """The indicator along the scale with what was read, or with empty boxes."""
    return Picture(indicator_along_scale(mounted.on_top, mounted.on_front, mounted.limit))


def _shown(at: Sequence[BlockAt]) -> tuple[BlockShown, ...]:
    return tuple(BlockShown(one.place, one.off * 1e3, one.U * 1e3, one.cutter) for one in at)


def proves_section(checks: Sequence[ProofCheck] = ()) -> Section:
    """What each check can and cannot prove; all of them where none is named."""
    kinds = [check.kind for check in checks] or list(PROVES)
    rows = tuple(TableRow((kind, *PROVES[kind])) for kind in kinds)
    return Section("what-they-prove", "What each check can and cannot prove", (Table(("check", "proves", "cannot prove"), rows),))


def with_date(document: Document, words: str) -> Document:
    """The same with the day it was kept in its title block."""
    return replace(document, cells=(*document.cells, Cell("proved", words)))
