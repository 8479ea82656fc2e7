"""The job sheet: one gear on paper, to hang beside the machine and work from with the computer off."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.dividing.methods import Block, Compound, Differential, Direct, Method, PlatePulses, Pulses, Simple
from evenpitch.job.indexing import at_pitch_line
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.showing import System, inch, mixed_number, mm, number, several
from evenpitch.sheet.compose.dividing import worst
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.pictures import sheet_pictures
from evenpitch.sheet.compose.plan import findings_of
from evenpitch.sheet.compose.run_table import run_table
from evenpitch.sheet.compose.words import dial_words, feed_words, length, limit_words, pin_words, rig_words, system_of
from evenpitch.sheet.document import (
    Blanks,
    Cell,
    Document,
    Notes,
    Paper,
    Picture,
    Place,
    Row,
    Schedule,
    Section,
    Steps,
    Table,
    TableRow,
    Words,
    Working,
)
from evenpitch.sheet.document import (
    Block as DocumentBlock,
)
from evenpitch.sheet.drawing import Drawing

LEFT_ROWS = 12
"""Rows of the depth-left table on a sheet, in two columns."""


@dataclass(frozen=True, slots=True)
class Issue:
    """A plan made final: its number and the day."""

    number: int
    dated: str


def compose_sheet(plan: Plan, index: int = 0, issue: Issue | None = None, paper: Paper | None = None) -> Document:
    """The sheet of one gear; a plan with a stop is stamped "not for cutting"."""
    gear = plan.gears[index]
    system = system_of(plan.order.choice, gear)
    pictures = sheet_pictures(plan, gear)
    told = findings_of(plan, gear)
    stops = tuple(found for found in told if found.weight == "stop")
    looks = tuple(found for found in told if found.weight == "look")
    wrong = Section("wrong", "If it goes wrong", (Steps(_wrong(plan, gear)),), "left")
    sections = [
        Section("sketch", "", (Picture(pictures.sketch),), "left"),
        Section("blank", "Blank and depth", _blank(gear, system), "left"),
        Section("cutter", "Cutter", (_cutter(gear, system),), "left"),
        Section("set-up", "Set up", (_set_up(gear, system),), "left"),
        Section("dividing", "Dividing", _dividing(gear), "left"),
        *([] if gear.gear.helix else [wrong]),
        Section("depth", "Depth from touch", _ladder(gear, pictures.ladder), "right"),
        Section("left", "Measured span, and how much deeper", _left(gear), "right"),
        Section("measure", "Measure", _measure(gear), "right"),
        Section("before", "Before the cutter turns", (Steps(_before(plan), boxes=True),), "right"),
        *_stack_section(plan, gear),
        *_run(gear),
        Section("check", "Check by hand", (Working(_proof(gear)),)),
        *([wrong] if gear.gear.helix else []),
        Section("sources", "Sources", (Words(_sources(gear)),), "right" if gear.gear.helix else "wide"),
        *_pictures(pictures.set_up),
        *([] if pictures.set_up else [Section("pencil", "Pencil", (Blanks((("", 2),)),))]),
        *([Section("looks", "Look at these first", (Notes(looks),), new_page=not pictures.set_up)] if looks else []),
    ]
    return Document(
        kind="sheet",
        title=f"{plan.order.title}: {gear_line(gear.gear)}",
        findings=stops,
        sections=tuple(sections),
        cells=_cells(plan, gear, issue),
        stamp="not for cutting" if plan.stopped() else "",
        paper=paper or plan.order.choice.paper,
        sign="cut by, and when",
        dated=issue.dated if issue else "",
    )


def _both(value: float, system: System, places_mm: int = 3, places_inch: int = 4) -> tuple[str, str]:
    return length(value, system, places_mm, places_inch)


def _blank(gear: GearPlan, system: System) -> tuple[DocumentBlock, ...]:
    upper, lower = gear.work.outside_tolerance
    limits = limit_words(upper, lower)
    rows = [Row(f"outside, {limits}", *_both(float(gear.blank.outside), system, 2))]
    if gear.gear.face is not None:
        rows.append(Row("face", *_both(float(gear.gear.face), system, 2, 3)))
    if gear.work.bore is not None:
        rows.append(Row("bore", *_both(float(gear.work.bore), system, 2, 4)))
    runout = gear.figure("runout")
    if runout is not None:
        allowed = gear.value("runout") / 4 / 1000
        rows.append(Row("runout, at most", mm(allowed), inch(allowed)))
    whole, found = gear.blank.whole_depth, gear.blank.found
    blocks: list[DocumentBlock] = [Schedule(tuple(rows))]
    if found is None:
        blocks.append(Words(f"Depth **{mm(whole)}** ({inch(whole)}) less half of what the blank is under:"))
        blocks.append(Blanks((("blank found", 1), ("under", 1), ("half", 1), ("depth", 1))))
    else:
        half = float(gear.blank.under) / 2
        left = gear.blank.depth_from_touch
        words = f"Blank found {mm(found, 2)}: depth {mm(whole)} − {mm(half)} = **{mm(left)}** ({inch(left)})."
        blocks.append(Words(words))
    return tuple(blocks)


def _cutter(gear: GearPlan, system: System) -> Schedule:
    choice, rows = gear.tools.chosen, []
    if choice is not None:
        kind = "DP set" if choice.cutter.numbering == "dp" else "module set"
        rows.append(Row("number", f"{choice.cutter.number} ({choice.range.range_words()}), {kind}"))
        tip = "" if choice.tip_um is None else f"; at the tip {number(choice.tip_um, 0, plus=True)} µm"
        rows.append(Row("made for", f"{choice.made_for}{tip}"))
    speeds = gear.running.speeds
    if gear.gear.helix:
        rows.append(Row("form wanted", f"{number(gear.value('cutter_form_teeth'), 1)} teeth"))
    rows.append(Row("speed", f"{number(speeds.speed.value(), 0)} rpm"))
    rows.append(Row("feed", feed_words(speeds.feed.value(), system)))
    rows.append(Row("turns, from the front", gear.direction.cutter.split(",")[0]))
    fluid = "" if gear.material is None else f"; {gear.material.fluid}"
    rows.append(Row("cut", f"conventional{fluid}"))
    return Schedule(tuple(rows))


def _set_up(gear: GearPlan, system: System) -> Schedule:
    direction = gear.direction
    rows = [Row("swing", direction.brief())]
    if gear.gear.helix:
        rows.append(Row(f"table feeding {direction.feed}", direction.work))
    if gear.running.travel is not None:
        rows.append(Row("travel each space", *_both(float(gear.running.travel), system, 1, 3)))
    rows.append(Row("head and tail level", "0.02 mm in 200 mm"))
    lead = gear.lead
    if lead is not None:
        rows.append(Row("lead", *_both(float(lead.lead), system, 4, 5)))
        if lead.by == "link" and lead.ratio is not None:
            rows.append(Row("pulses : counts", f"{lead.ratio.pulses} : {lead.ratio.counts}"))
            if lead.simpler:
                near = next((ratio for ratio in lead.simpler if abs(ratio.error_ppm) < 5), lead.simpler[-1])
                rows.append(Row("or, smaller", f"{near.pulses} : {near.counts}, {number(near.error_ppm, 1, plus=True)} ppm"))
        if lead.train is not None:
            hand = "by hand instead" if lead.by == "link" else "gears"
            rows.append(Row(hand, f"{lead.train.train_words()}, {number(lead.train.error_ppm, 0, plus=True)} ppm"))
        if lead.start_before is not None:
            rows.append(Row("start before", *_both(float(lead.start_before), system, 2, 3)))
            rows.append(Row("before the return", "knee down"))
    return Schedule(tuple(rows))


def _hand_words(method: Method) -> tuple[Row, ...]:
    rows = []
    if isinstance(method, Simple | Block | Compound | Differential | PlatePulses):
        whole, circle, spaces = method.crank()
        turns = f"{several(whole, 'turn')} + " if whole else ""
        rows.append(Row("crank, each space", f"{turns}{several(spaces, 'space')}, {circle} circle"))
        if spaces:
            rows.append(Row("sector arms show", f"{spaces + 1} holes"))
    if isinstance(method, Block | Compound) and method.skip > 1:
        rows.append(Row("at a time", f"{method.skip} spaces"))
    if isinstance(method, Compound):
        rows.append(Row("then the plate", f"{method.plate_spaces} of {method.plate_circle}, {method.plate_sense} the crank"))
    if isinstance(method, Differential):
        rows.append(Row("gears, spindle : plate", method.train_words()))
        rows.append(Row("plate, stop pin out", f"{method.plate_sense} the crank"))
    if isinstance(method, Direct):
        rows.append(Row("plate on the nose", f"{method.spaces} of {method.plate_holes}"))
    return tuple(rows)


def _dividing(gear: GearPlan) -> tuple[DocumentBlock, ...]:
    chosen, by_hand, rows = gear.indexing.chosen, gear.indexing.by_hand, []
    if chosen is None:
        return (Words("No way on this rig."),)
    if isinstance(chosen, Pulses | PlatePulses):
        moves = ", ".join(f"{count} times {abs(pulses)}" for pulses, count in chosen.counts)
        rows.append(Row("link: pulses" if isinstance(chosen, Pulses) else "motor adds, pulses", moves))
        rows.append(Row("worst, angle", f"{worst(chosen)} = {number(at_pitch_line(gear.gear, chosen.worst_error_arcsec), 1)} µm"))
        rows.append(Row("approach", "over, and back up"))
    rows += _hand_words(chosen)
    if isinstance(chosen, Pulses) and by_hand is not None:
        rows.append(Row("**by hand instead**", "power off, pin in"))
        if gear.lead is not None and gear.lead.by == "link":
            rows.append(Row("", "the helix is lost"))
        rows += _hand_words(by_hand)
    elif isinstance(chosen, PlatePulses) and by_hand is not None:
        rows.append(Row("**by hand instead**", "stop pin in, from the datum"))
        rows += _hand_words(by_hand)
    elif isinstance(chosen, Pulses | PlatePulses):
        rows.append(Row("by hand instead", "no way on these plates"))
    return (Schedule(tuple(rows)),)


def _wrong(plan: Plan, gear: GearPlan) -> tuple[str, ...]:
    n, r = gear.gear.teeth, gear.value("pitch_diameter") / 2
    lines = [f"Lost count: count forward from the datum, and the rest back. The two must make {n}."]
    if gear.indexing.by_hand is not None and isinstance(gear.indexing.chosen, Pulses):
        lines.append("Power or motor gone: go on by hand from the crank's place in the run table.")
    else:
        lines.append("Interrupted: the last box marked is the last space cut; mark it after the return stroke.")
    lines.append("Work moved: pick up three cut spaces far apart, take the mean.")
    lines.append(_slips(plan, gear, r))
    lines.append("Chatter: slower feed first, then lock what slides.")
    lines.append(
        f"Span below {mm(gear.checks[0].least)}: leave it; it cannot be put back." if gear.checks else "Too thin: leave it."
    )
    return tuple(lines)


def _slips(plan: Plan, gear: GearPlan, radius: float) -> str:
    """What one hole, one belt tooth, one motor cycle and one pulse are at the pitch line."""
    parts = []
    chosen, by_hand = gear.indexing.chosen, gear.indexing.by_hand
    method = by_hand if isinstance(chosen, Pulses) else chosen
    crank = method.crank() if method is not None else None
    ratio = float(plan.order.rig.head.ratio)
    if crank is not None:
        minutes = 360 * 60 / ratio / crank[1]
        parts.append(
            f"{number(minutes, 1)}′ ({number(minutes / 60 * 3.14159265 / 180 * radius, 2)} mm) out is one hole of {crank[1]}"
        )
    link = plan.order.rig.link
    if link is not None and link.belt is not None and isinstance(gear.indexing.chosen, Pulses):
        parts.append(f"{number(360 * 60 / ratio / link.belt.head, 1)}′ is one belt tooth")
        pulses = plan.order.rig.pulses_per_turn()
        if pulses is not None:
            parts.append(f"{number(1_296_000 / float(pulses), 2)}″ one pulse")
    return "One space out: " + "; ".join(parts) + "." if parts else "One space out: measure it against a space opposite."


def _ladder(gear: GearPlan, drawing: Drawing) -> tuple[DocumentBlock, ...]:
    blocks: list[DocumentBlock] = [Picture(drawing)]
    dials = {step.name: dial_words(step.dial) for step in gear.running.ladder}
    if dials["full"]:
        blocks.append(Words(f"Knee from touch, divisions: rough {dials['rough']}, full {dials['full']}."))
    blocks.append(Blanks((("knee: touch", 1), ("rough", 1), ("full", 1))))
    return tuple(blocks)


def _left(gear: GearPlan) -> tuple[DocumentBlock, ...]:
    rows = [row for row in gear.running.left if row.to_go > 1e-9]
    step = max(1, -(-len(rows) // LEFT_ROWS))
    shown = sorted(rows[step - 1 :: step][:LEFT_ROWS], key=lambda row: -row.span)
    table = Table(
        ("span mm", "go mm", "thou"),
        tuple(TableRow((number(row.span, 2), number(row.to_go, 2), number(row.to_go / 25.4 * 1000, 1))) for row in shown),
        right=(0, 1, 2),
        columns=2,
    )
    model = " To first order for a disc cutter: some 2 in 100 off at the top." if gear.gear.helix else ""
    return (table, Words(f"Deeper is thinner.{model} Take two thirds first, measure again."))


def _measure(gear: GearPlan) -> tuple[DocumentBlock, ...]:
    names = {
        "span": f"span over {gear.form_cut.spanned}",
        "over_pins": f"over {pin_words(gear)} pins",
        "over_balls": f"over {pin_words(gear)} balls",
        "chordal_thickness": f"chord, {number(gear.form_cut.chordal_height, 3)} below the tips",
    }
    rows = []
    for check in gear.checks:
        rows.append(TableRow((f"{names[check.name]}, most", number(check.most, 3), number(check.most / 25.4, 4))))
        rows.append(TableRow((f"{names[check.name]}, least", number(check.least, 3), number(check.least / 25.4, 4))))
    first = next((check for check in gear.checks if check.instrument), None)
    blocks: list[DocumentBlock] = [Table(("", "mm", "in"), tuple(rows), right=(1, 2))]
    if first is not None:
        blocks.append(Words(f"{first.words[0].upper()}{first.words[1:]} by {first.instrument}."))
    blocks.append(Blanks((("span found", 4), ("space no.", 4))))
    limits = f"single pitch {number(gear.value('single_pitch'), 0)} µm, total {number(gear.value('cumulative_pitch'), 0)} µm"
    blocks.append(Words(f"Spacing, class {gear.tolerance_class}: {limits}."))
    return tuple(blocks)


def _before(plan: Plan) -> tuple[str, ...]:
    return tuple(caution.line() for caution in plan.cautions if caution.box)


def _stack_section(plan: Plan, gear: GearPlan) -> list[Section]:
    if gear.work.quantity < 2:
        return []
    rows = tuple(TableRow((f"gear {place}", "____", "____", "____")) for place in range(1, gear.work.quantity + 1))
    table = Table(("of the stack", "span", "span, opposite", "runout"), rows, grid=True)
    words = Words(
        f"{gear.work.quantity} gears on one mandrel: faces square and clean, clamped on more than half the root diameter."
    )
    return [Section("stack", f"Stack of {gear.work.quantity}", (words, table))]


def _run(gear: GearPlan) -> list[Section]:
    table = run_table(gear)
    if table is None:
        return []
    words = f"{gear.gear.teeth} spaces; mark the box after the return stroke"
    return [Section("run", "Run table", (table,), new_page=True, lead=words)]


def _proof(gear: GearPlan) -> tuple[str, ...]:
    chosen, lines = gear.indexing.chosen, []
    if chosen is not None:
        lines.append(chosen.proof)
    by_hand = gear.indexing.by_hand
    if by_hand is not None and by_hand is not chosen:
        lines.append(f"by hand: {by_hand.proof}" if isinstance(chosen, Pulses | PlatePulses) else by_hand.proof)
    g = gear.gear
    if g.pitch.kind == "diametral pitch" and not g.helix:
        lines.append(f"outside = (z + 2) / P = {g.teeth + 2} / {mixed_number(g.pitch.value)} in = {inch(gear.blank.outside)}")
    elif not g.helix and not g.shift:
        lines.append(f"outside = (z + 2) m = {g.teeth + 2} x {g.module:g} = {mm(gear.blank.outside)}")
    lead = gear.lead
    if lead is not None and lead.train is not None:
        train = lead.train.train
        top, bottom = " x ".join(map(str, train.driven)), " x ".join(map(str, train.drivers))
        lines.append(f"lead by gears = {float(lead.machine_lead or 0):g} x ({top}) / ({bottom}) = {mm(lead.train.lead)}")
    return tuple(lines)


def _pictures(drawings: tuple[Drawing, ...]) -> list[Section]:
    """Set-up pictures two abreast, on a page of their own."""
    sections = []
    for place, drawing in enumerate(drawings):
        side: Place = "right" if place % 2 else "left"
        sections.append(Section(f"picture-{place}", drawing.title, (Picture(drawing),), side, new_page=place == 0))
    return sections


def _sources(gear: GearPlan) -> str:
    found: dict[str, None] = {}
    for figure in (*gear.figures, *gear.limits):
        found.update(dict.fromkeys(source.split(",")[0] for source in figure.sources))
    return "; ".join(found) + ". Some are held from memory: the page of sources says which."


def _cells(plan: Plan, gear: GearPlan, issue: Issue | None) -> tuple[Cell, ...]:
    minutes = "" if gear.running.job_minutes is None else f"{number(gear.running.job_minutes, 0)} min"
    hand = gear.gear.hand
    return (
        Cell("job sheet", plan.order.title),
        Cell("gear in one line", gear_line(gear.gear)),
        Cell("plan", f"{issue.number}, issued" if issue else "draft, not issued"),
        Cell("dated", issue.dated if issue else ""),
        Cell("material", gear.work.material or ""),
        Cell("rig", rig_words(plan.order.rig)),
        Cell("hand", hand),
        Cell("cut time", minutes),
        Cell("strength", "not checked"),
    )
