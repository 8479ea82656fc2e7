"""What each cutter would leave, as a page and as the answer of the command."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from evenpitch.flank.what_if import FlankSeen
from evenpitch.job.bit import BitPlan
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.job.slips import CutSeen, Inspected
from evenpitch.job.virtual_cutting import SIGNS, VirtualCut, Weighed, um_words
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.showing import degrees_text, inch, number
from evenpitch.sheet.compose.bit import bit_section
from evenpitch.sheet.compose.cut_pictures import cut_pictures
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.words import rig_words
from evenpitch.sheet.document import Block, Cell, Choose, Document, KeyFigure, Picture, Section, Table, TableRow, Words

VERDICTS = {
    "within": "inside the class",
    "tip heavy": "inside the class, tips heavy",
    "over": "above the class",
    "cannot": "cannot cut this gear",
    "no limit named": "",
}

SET_SHOWN = 8
"""Cutters of the standard sets on the page: the best of them."""


def compose_cutters(
    plan: Plan,
    index: int,
    virtual: VirtualCut,
    findings: tuple[Finding, ...],
    cut: CutSeen | None = None,
    bit: BitPlan | None = None,
) -> Document:
    """All cutters on one gear, one of them looked at closely, and the bit for when none will do."""
    gear = plan.gears[index]
    sections = [Section("cutters", "What each cutter would leave", _tables(virtual, owned=True), lead=_lead(virtual))]
    if cut is not None:
        sections += [
            Section("looked-at", f"Looked at: {cut.weighed.held.words()}", _pictures(gear, virtual, cut)),
            Section("inspection", "What an inspection would read", (inspection_table(gear, cut),)),
        ]
    sections.append(Section("sets", "The standard sets", _tables(virtual, owned=False)))
    if bit is not None:
        sections.append(bit_section(gear, bit))
    return Document(
        kind="answer",
        title=f"Cutters: {gear_line(gear.gear)}",
        lead=plan.order.title,
        keys=_keys(gear, virtual),
        findings=findings,
        sections=tuple(section for section in sections if section.blocks),
        cells=_cells(plan, gear, virtual),
        paper=plan.order.choice.paper,
    )


def _lead(virtual: VirtualCut) -> str:
    best = virtual.recommended
    return "" if best is None else f"Take **{best.held.words()}**: {virtual.reason}."


def _keys(gear: GearPlan, virtual: VirtualCut) -> tuple[KeyFigure, ...]:
    best = virtual.recommended
    if best is None or best.left is None:
        return ()
    held = "in the drawer" if best.held.owned else "not owned"
    keys = [
        KeyFigure(
            "take",
            f"No. {best.held.cutter.number}",
            "",
            f"made for {best.held.made_for}, {held}",
            ("cut-other-cutter", "cut-beyond-range"),
        ),
        KeyFigure(
            "over the whole flank",
            um_words(best.left.total).removesuffix(" µm"),
            "µm",
            f"class {virtual.cls}: {virtual.limit:.0f} µm",
        ),
    ]
    if gear.gear.helix:
        keys.append(KeyFigure("swing", degrees_text(math.degrees(abs(best.swing)), 2), "", _off(virtual, best), ("cut-swing",)))
    keys.append(KeyFigure("depth from touch", number(best.depth, 2), "mm", inch(best.depth)))
    return tuple(keys)


def _off(virtual: VirtualCut, one: Weighed) -> str:
    off = math.degrees(abs(one.swing) - abs(virtual.wanted.helix))
    return "the helix angle" if abs(off) < 0.005 else f"helix {number(off, 2, plus=True)}°"


def _tables(virtual: VirtualCut, *, owned: bool) -> tuple[Block, ...]:
    """The drawer with what is recommended; or the best of the standard sets."""
    if owned:
        listed = [one for one in virtual.weighed if one.held.owned or one is virtual.recommended]
    else:
        listed = [one for one in virtual.weighed if not one.held.owned and one is not virtual.recommended][:SET_SHOWN]
    able, unable = [one for one in listed if one.left is not None], [one for one in listed if one.left is None]
    blocks: list[Block] = [_table(virtual, able)] if able else []
    if unable:
        blocks.append(
            Words("Not for this gear: " + "; ".join(f"{one.held.name()} ({one.why_not.split('; ')[0]})" for one in unable) + ".")
        )
    return tuple(blocks)


def _table(virtual: VirtualCut, listed: list[Weighed]) -> Table:
    helical = bool(virtual.wanted.q)
    heads = ["cutter", "tip", "root", "total", "form", "slope", *(["swing"] if helical else []), "depth", "verdict"]
    note = (
        f"Micrometres square to the flank: {SIGNS}; the tooth's thickness is held, so each is 0 at the pitch line. An inspection record "
        f"has the other sign. Root: start of the active flank. Depth from touch, mm. "
        f"Limit on the total: {virtual.limit:.0f} µm, class {virtual.cls}."
    )
    return Table(
        tuple(heads), tuple(_row(virtual, one, helical) for one in listed), right=tuple(range(1, len(heads) - 1)), note=note
    )


def _row(virtual: VirtualCut, one: Weighed, helical: bool) -> TableRow:
    left, held = one.left, one.held
    assert left is not None
    made = f"made for {held.made_for}" + (f", {held.habit}" if held.habit and not held.usual else "")
    swing = [degrees_text(math.degrees(abs(one.swing)), 2)] if helical else []
    words = [VERDICTS[one.verdict]]
    words += [f"outside its range, {held.choice.range.range_words()}"] if not one.in_range else []
    words += ["not owned"] if not held.owned and one is virtual.recommended else []
    chosen = virtual.quick is one
    return TableRow(
        (
            f"{held.name()}\n{made}",
            *(_um(value, plus=True) for value in (left.tip, left.root)),
            _um(left.total),
            _um(left.form),
            _um(left.slope, plus=True),
            *swing,
            number(one.depth, 2),
            "\n".join((words[0], ", ".join(words[1:]))) if words[1:] else words[0],
        ),
        chosen=chosen and held.owned,
        strong=one is virtual.recommended,
        choose=Choose("choice.cutter", held.name()) if held.owned and held.usual and not chosen else None,
    )


def _um(value: float, *, plus: bool = False) -> str:
    """Micrometres with no more digits than they deserve."""
    return number(value, 0 if abs(value) >= 9.95 else 1, plus=plus)


def _pictures(gear: GearPlan, virtual: VirtualCut, cut: CutSeen) -> tuple[Block, ...]:
    limit = gear.value("helix_total") if gear.figure("helix_total") is not None else None
    return tuple(Picture(drawing) for drawing in cut_pictures(virtual, cut, limit))


def inspection_table(gear: GearPlan, cut: CutSeen) -> Table:
    """Figures of both flanks as set, and with what was changed."""
    heads = ["figure", "as set"] + (["changed"] if cut.slipped is not None else []) + ["limit"]
    columns = [cut.as_set] + ([cut.slipped] if cut.slipped is not None else [])
    rows = [TableRow((one.name, *map(one.read, columns), one.limit)) for one in _lines(gear, cut)]
    if cut.slipped is not None:
        change = (cut.slipped.span - cut.as_set.span) * 1000
        rows.append(TableRow(("the span changes by", "", f"{number(change, 1, plus=True)} µm", "")))
    note = f"Right / left flank where they differ. {SIGNS}; a slope is taken towards the tip, and towards + along the face."
    return Table(tuple(heads), tuple(rows), right=tuple(range(1, len(heads))), note=note)


@dataclass(frozen=True, slots=True)
class _Line:
    """One line of the inspection: its name, the limit it is held against, and how it is read off a cut."""

    name: str
    limit: str
    read: Callable[[Inspected], str]


def _lines(gear: GearPlan, cut: CutSeen) -> tuple[_Line, ...]:
    def limit(name: str) -> str:
        return number(gear.value(name), 0) if gear.figure(name) is not None else ""

    def line(name: str, of: str, part: Callable[[FlankSeen], float], *, signed: bool = False) -> _Line:
        return _Line(name, limit(of), lambda seen: _both(part(seen.seen.right), part(seen.seen.left), signed))

    return (
        line("total profile deviation, µm", "profile_total", lambda flank: flank.profile_figures.total),
        line("its form, µm", "profile_form", lambda flank: flank.profile_figures.form),
        line("its slope, µm", "profile_slope", lambda flank: -flank.profile_figures.slope, signed=True),
        line("total helix deviation, µm", "helix_total", lambda flank: flank.helix_figures.total),
        line("its slope, µm", "helix_slope", lambda flank: -flank.helix_figures.slope, signed=True),
        _Line(
            "single pitch deviation, µm",
            limit("single_pitch"),
            lambda seen: _both(seen.right_pitch.single, seen.left_pitch.single),
        ),
        _Line(
            "total cumulative pitch deviation, µm",
            limit("cumulative_pitch"),
            lambda seen: _both(seen.right_pitch.cumulative, seen.left_pitch.cumulative),
        ),
        _Line(f"span over {cut.as_set.spanned}, mm", "", lambda seen: number(seen.span, 4)),
    )


def _both(right: float, left: float, signed: bool = False) -> str:
    """Micrometres of both flanks, once where they agree."""
    texts = [number(1000 * value, 1, plus=signed) for value in (right, left)]
    return texts[0] if texts[0] == texts[1] else " / ".join(texts)


def _cells(plan: Plan, gear: GearPlan, virtual: VirtualCut) -> tuple[Cell, ...]:
    quick = gear.tools.chosen
    return (
        Cell("sheet", "2 cutters"),
        Cell("job", plan.order.title),
        Cell("in the plan", "none" if quick is None else quick.name()),
        Cell("limit", f"{virtual.limit:.0f} µm, class {virtual.cls}"),
        Cell("rig", rig_words(plan.order.rig)),
    )


def cutters_json(virtual: VirtualCut) -> list[dict[str, Any]]:
    """Every cutter, the recommended one first."""
    return [_cutter_json(virtual, one) for one in virtual.weighed]


def _cutter_json(virtual: VirtualCut, one: Weighed) -> dict[str, Any]:
    left, held = one.left, one.held
    shown: dict[str, Any] = {
        "name": held.name(),
        "key": held.key,
        "form_teeth": held.made_for,
        "made_for_habit": held.habit or None,
        "numbering": held.cutter.numbering,
        "range": held.choice.range.range_words(),
        "in_range": one.in_range,
        "form_teeth_wanted": one.form_wanted,
        "outside_mm": float(held.outside),
        "owned": held.owned,
        "recommended": one is virtual.recommended,
        "verdict": one.verdict,
    }
    if left is None:
        return shown | dict.fromkeys(_FIGURES) | {"why_not": one.why_not}
    values = (left.tip, left.pitch, left.root, left.total, left.form, left.slope)
    figures = dict(zip(_FIGURES, values, strict=False))
    return shown | figures | {
        "swing_deg": math.degrees(one.swing),
        "sink_mm": float(one.sink),
        "depth_from_touch_mm": float(one.depth),
        "F_alpha_at_helix_um": one.at_helix,
        "why_not": "",
    }  # fmt: skip


_FIGURES = (
    "tip_um", "pitch_um", "root_um", "F_alpha_um", "f_f_alpha_um", "f_H_alpha_um", "swing_deg", "sink_mm", "depth_from_touch_mm",
    "F_alpha_at_helix_um",
)  # fmt: skip


def bit_json(made: BitPlan) -> dict[str, Any]:
    """The bit: mm, degrees; the edge from its end outwards."""
    bit, arc = made.bit, made.bit.arc
    return {
        "outside_mm": bit.outside,
        "swing_deg": math.degrees(bit.swing),
        "rake_deg": math.degrees(bit.rake),
        "relief_deg": math.degrees(bit.relief),
        "least_side_relief_deg": math.degrees(bit.least_side_relief),
        "depth_mm": float(made.depth),
        "arc": {
            "radius_mm": arc.radius,
            "off_centre_mm": arc.off_centre,
            "from_end_mm": arc.depth,
            "worst_um": arc.worst * 1000,
            "hollow": arc.hollow,
        },
        "checks": [{"width_mm": width, "from_end_mm": depth} for width, depth in bit.checks],
        "edge": [{"half_width_mm": float(w), "from_end_mm": float(depth)} for w, depth in bit.outline],
    }
