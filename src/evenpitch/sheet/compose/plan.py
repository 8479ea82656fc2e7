"""The plan of one gear as a page: what to turn, how deep, which cutter, how to divide, what to measure."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.dividing.methods import Method
from evenpitch.job.direction import Direction
from evenpitch.job.indexing import Indexing, at_pitch_line, way_key
from evenpitch.job.plan import GearPlan, Plan
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.showing import System, angle_words, inch, mixed_number, mm, number, several
from evenpitch.sheet.compose.dividing import each_space, needs, way_name, worst
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.pictures import plan_pictures
from evenpitch.sheet.compose.plan_lead import lead_blocks, train_tables
from evenpitch.sheet.compose.rows import HEADS, row
from evenpitch.sheet.compose.words import dial_words, feed_words, length, pin_words, rig_words, system_of
from evenpitch.sheet.document import (
    Cell,
    Choose,
    Document,
    KeyFigure,
    Picture,
    Row,
    Schedule,
    Section,
    Steps,
    Table,
    TableRow,
    Words,
)

WAYS_SHOWN = 8
OF_EACH_KIND = 2
CUTTERS_SHOWN = 6


def compose_plan(plan: Plan, index: int = 0) -> Document:
    """The plan page of one gear of an order."""
    gear = plan.gears[index]
    system = system_of(plan.order.choice, gear)
    findings = findings_of(plan, gear)
    about = _flags(findings)
    sections = [
        Section("gear", "Gear", (_gear(gear, system, about),), "left"),
        *([Section("lead-and-link", "Lead and link", lead_blocks(gear, gear.lead, system), "right")] if gear.lead else []),
        *_promise(gear),
        *([Section("pair", "The pair", (_pair(plan),), "left" if gear.lead else "right")] if plan.pair else []),
        Section("set-up", "Set up", (_set_up(gear, system),), "right"),
        Section("dividing", "Dividing: every way, side by side", _dividing(gear)),
        *([Section("trains", "Change gears for the lead", train_tables(gear.lead))] if gear.lead and gear.lead.trains else []),
        Section("cutter", "Cutter", (_cutters(gear),)),
        Section("depth", "Depth and passes", _depth(plan, gear, system), "left"),
        Section("limits", f"Limits of class {gear.tolerance_class}", (_limits(gear),), "right"),
        Section("measuring", "Measure afterwards", _measuring(gear, system)),
        Section("pictures", "Pictures", tuple(Picture(drawing) for drawing in plan_pictures(plan, gear))),
        Section("cautions", "Before the cutter turns", (Steps(tuple(caution.do for caution in plan.cautions), boxes=True),)),
    ]
    stops = sum(finding.weight == "stop" for finding in findings)
    return Document(
        kind="plan",
        title=gear_line(gear.gear),
        lead=plan.order.title,
        keys=_keys(gear, system, about),
        findings=findings,
        sections=tuple(sections),
        cells=_cells(plan, gear),
        stamp=f"{several(stops, 'stop')} to clear" if stops else "",
        paper=plan.order.choice.paper,
    )


def _promise(gear: GearPlan) -> list[Section]:
    """How good the link is on this gear; what composes it is loaded only where there is a link to speak of."""
    if gear.promise is None:
        return []
    from evenpitch.sheet.compose.proving import promise_section

    return [promise_section(gear.promise)]


def findings_of(plan: Plan, gear: GearPlan) -> tuple[Finding, ...]:
    """What concerns this gear: its own findings and those of the order as a whole."""
    others = {found for other in plan.gears if other is not gear for found in other.findings} - set(gear.findings)
    return by_weight(tuple(found for found in plan.findings if found not in others))


def _flags(findings: tuple[Finding, ...]) -> dict[str, tuple[str, ...]]:
    """Codes of findings by the figure or part they stand beside."""
    found: dict[str, tuple[str, ...]] = {}
    for finding in findings:
        if finding.about:
            found[finding.about] = (*found.get(finding.about, ()), finding.code)
    return found


def _keys(gear: GearPlan, system: System, about: dict[str, tuple[str, ...]]) -> tuple[KeyFigure, ...]:
    def key(label: str, value: float, part: str, places: int = 2) -> KeyFigure:
        first, second = (mm(value, places), inch(value)) if system == "metric" else (inch(value), mm(value, places))
        figure, unit = first.rsplit(" ", 1)
        return KeyFigure(label, figure, unit, second, about.get(part, ()))

    keys = [
        key("turn the blank to", float(gear.blank.outside), "outside_diameter"),
        key("depth from touch", float(gear.blank.depth_from_touch), "depth_from_touch"),
    ]
    choice = gear.tools.chosen
    if choice is not None:
        kind = "DP" if choice.cutter.numbering == "dp" else "module"
        keys.append(
            KeyFigure(
                "cutter", f"No. {choice.cutter.number}", "", f"{kind} set, {choice.range.range_words()}", about.get("cutter", ())
            )
        )
    if gear.gear.helix:
        keys.append(_swing_key(gear.direction, about))
    elif gear.indexing.chosen is not None:
        chosen = gear.indexing.chosen
        crank = chosen.crank()
        move = chosen.words()
        if crank is not None:
            whole, circle, spaces = crank
            move = f"{whole} + {spaces} of {circle}" if whole else f"{spaces} of {circle}"
        elif hasattr(chosen, "counts"):
            move = " / ".join(str(pulses) for pulses, _ in chosen.counts)
        unit = "pulses" if crank is None and hasattr(chosen, "counts") else ""
        keys.append(KeyFigure("each space", move, unit, way_name(chosen).lower(), about.get("dividing", ())))
    return tuple(keys)


def _swing_key(direction: Direction, about: dict[str, tuple[str, ...]]) -> KeyFigure:
    part = "swing the milling head" if direction.set_by == "milling head" else "swing the table"
    second = direction.push or direction.swing
    return KeyFigure(part, angle_words(direction.swing_degrees), "", second, about.get("table_swing", ()))


_GEAR_ROWS = (
    "outside_diameter", "pitch_diameter", "root_diameter", "whole_depth", "module", "circular_pitch", "helix_angle", "lead",
    "base_pitch", "tooth_thickness", "span", "over_pins", "over_balls", "caliper_points",
)  # fmt: skip


def _gear(gear: GearPlan, system: System, about: dict[str, tuple[str, ...]]) -> Schedule:
    rows = []
    for name in _GEAR_ROWS:
        figure = gear.figure(name)
        helical = bool(gear.gear.helix)
        if figure is None or (name == "over_pins" and helical) or (name == "over_balls" and not helical):
            continue
        if name == "helix_angle" and not helical:
            continue
        words = {
            "span": f"span over {gear.form_cut.spanned}, target",
            "over_pins": f"over {pin_words(gear)} pins, target",
            "over_balls": f"over {pin_words(gear)} balls, target",
            "caliper_points": "caliper over the tips, points",
        }.get(name, "")
        made = row(figure, system, words, bare=True)
        rows.append(Row(made.name, made.first, made.second, figure, about.get(name, ())))
    return Schedule(tuple(rows), HEADS[system])


def _pair(plan: Plan) -> Schedule:
    assert plan.pair is not None
    system = system_of(plan.order.choice, plan.gears[0])
    return Schedule(tuple(row(figure, system, bare=True) for figure in plan.pair.figures), HEADS[system])


def _set_up(gear: GearPlan, system: System) -> Schedule:
    direction = gear.direction
    rows = [Row("swing", direction.swing)]
    if direction.push:
        rows.append(Row("so", direction.push))
    rows += [
        Row("table feeds", direction.feed),
        Row("work", direction.work),
        Row("cutter turns", direction.cutter),
        Row("direction", "conventional, never climb on an old table"),
    ]
    for name in ("cutter_speed", "table_feed"):
        figure = gear.figure(name)
        if figure is not None:
            rows.append(row(figure, system))
    if gear.running.travel is not None:
        rows.append(Row("travel each space", *length(float(gear.running.travel), system, 1, 3)))
    if gear.running.minutes is not None:
        rows.append(Row("time each space", f"{number(gear.running.minutes, 2)} min"))
    if gear.running.job_minutes is not None:
        rows.append(Row("time in all", f"{number(gear.running.job_minutes, 0)} min"))
    if gear.material is not None:
        rows.append(Row("fluid", gear.material.fluid))
    room = gear.running.room
    heights = (("arbor axis", room.arbor), ("underside of the collars", room.collar), ("underside of the overarm", room.overarm))
    rows += [
        Row(f"{name}, above the work axis", *length(float(height), system, 1, 3))
        for name, height in heights
        if height is not None
    ]
    if room.head_room is not None:
        rows.append(Row("room under the blank", *length(float(room.head_room), system, 1, 3)))
    return Schedule(tuple(rows))


def _dividing(gear: GearPlan) -> tuple[Table | Words, ...]:
    made, limit = gear.indexing, gear.value("cumulative_pitch")
    own = 2 * at_pitch_line(gear.gear, made.head_error)
    rows = []
    listed = _few_of_each(made)
    for method in listed:
        added = at_pitch_line(gear.gear, method.worst_error_arcsec)
        chosen = method is made.chosen
        rows.append(
            TableRow(
                (way_name(method), each_space(method), worst(method), number(added, 2) if added else "0", needs(method)),
                chosen=chosen,
                choose=None if chosen else Choose("choice.way", way_key(method)),
                share=(min(added / limit, 1.0), min(own / limit, 1.0)),
            )
        )
    rows += [TableRow((gone.way.capitalize(), "", "", "", f"not possible: {gone.reason}")) for gone in made.excluded]
    note = (
        f"Hatched: the head's own wheel, ±{number(made.head_error, 0)}″{'' if made.head_measured else ' assumed, never measured'}, the "
        f"same in every way. Solid: what the way adds. Limit: cumulative pitch of class {gear.tolerance_class}, {number(limit, 0)} µm."
    )
    left = len(made.methods) - len(listed)
    more = (Words(f"{left} more ways: evenpitch divide {gear.gear.teeth} --rig RIG.toml."),) if left > 0 else ()
    table = Table(
        ("way", "each space", "worst", "pitch line, µm", "needs"),
        tuple(rows),
        right=(2, 3),
        note=note,
        share_head="against the limit",
        share_before=4,
    )
    reason = f"Chosen: {made.reason}." if made.reason else "No way fits."
    return (table, Words(reason), *more)


def _few_of_each(made: Indexing) -> list[Method]:
    """The chosen way first, then the best few of each kind: a page is no catalogue."""
    chosen = [method for method in made.methods if method is made.chosen]
    kinds: dict[str, int] = {}
    shown = []
    for method in made.methods:
        kinds[method.name] = kinds.get(method.name, 0) + 1
        if method is not made.chosen and kinds[method.name] <= OF_EACH_KIND:
            shown.append(method)
    return chosen + shown[:WAYS_SHOWN]


def _cutters(gear: GearPlan) -> Table:
    tools, rows = gear.tools, []
    listed = [choice for choice in tools.owned if choice.usable or choice is tools.chosen]
    listed += [choice for choice in tools.standard if choice.in_range or choice is tools.chosen]
    unfit = len([choice for choice in tools.owned if choice not in listed])
    for choice in listed[:CUTTERS_SHOWN]:
        chosen = choice is tools.chosen
        owned = choice in tools.owned
        tip = "" if choice.tip_um is None else number(choice.tip_um, 0, plus=True)
        kind = "DP set" if choice.cutter.numbering == "dp" else "module set"
        rows.append(
            TableRow(
                (
                    f"{choice.cutter.name()}\n{kind}, {choice.range.range_words()}",
                    str(choice.made_for),
                    tip,
                    "\n".join((choice.verdict, *choice.reasons)) if choice.reasons else choice.verdict,
                    "in the drawer" if owned else "not owned",
                ),
                chosen=chosen,
                choose=Choose("choice.cutter", choice.cutter.name()) if owned and not chosen else None,
            )
        )
    wanted = number(gear.value("cutter_form_teeth"), 1)
    note = f"Form wanted: {wanted} teeth. + takes too much at the tip, − leaves metal; exact at the pitch point."
    if unfit:
        note = f"{note} {unfit} more in the drawer {'is' if unfit == 1 else 'are'} not for this gear."
    return Table(("cutter", "made for", "tip, µm", "verdict", ""), tuple(rows), right=(1, 2), note=note)


def _depth(plan: Plan, gear: GearPlan, system: System) -> tuple[Schedule | Table | Words, ...]:
    rows = []
    for step in gear.running.ladder:
        if step.name == "measure":
            continue
        first, second = length(float(step.depth), system, 2, 4)
        dial = dial_words(step.dial)
        name = f"{step.name}, knee {dial}" if dial and step.name != "touch" else step.name
        rows.append(Row(name, first, second))
    paper = plan.order.choice.paper_thickness
    words = (
        [Words(f"Depths count from metal; the knee goes {mm(paper, 2)} further, the touch paper. Deeper is thinner.")]
        if paper
        else []
    )
    sink = gear.blank.depth_from_touch + gear.form_cut.sink
    words.append(Words(f"The span comes to its target near {mm(sink, 2)} ({inch(sink)}): finish by the span, not by the dial."))
    passes = tuple(
        TableRow(
            (item.name, mm(item.depth, 2), feed_words(item.feed, system), str(item.spaces), f"{number(item.minutes, 0)} min")
        )
        for item in gear.running.passes
    )
    table = (Table(("pass", "depth", "feed", "spaces", "time"), passes, right=(1, 3, 4)),) if passes else ()
    return (Schedule(tuple(rows)), *words, *table)


def _measuring(gear: GearPlan, system: System) -> tuple[Table | Words, ...]:
    rows = tuple(
        TableRow(
            (
                check.words,
                "\n".join(length(float(check.most), system)),
                "\n".join(length(float(check.least), system)),
                check.instrument or "none owned reads it",
            ),
            strong=bool(check.instrument),
        )
        for check in gear.checks
    )
    note = f"Pins and chord follow from sinking the form cutter to that span ({gear.form_cut.note})."
    per = f"Span loses {number(gear.form_cut.span_per_depth, 4)} mm for each mm deeper."
    return (Table(("what", "most", "least", "instrument"), rows, right=(1, 2), note=note), Words(per))


def _limits(gear: GearPlan) -> Schedule:
    """Limits of the class wanted that a shop can measure, or that the plan is held against."""
    names = ("single_pitch", "cumulative_pitch", "runout", "helix_slope", "profile_total")
    found = [figure for figure in map(gear.figure, names) if figure is not None]
    return Schedule(tuple(row(figure) for figure in found))


def _cells(plan: Plan, gear: GearPlan) -> tuple[Cell, ...]:
    chosen = gear.indexing.chosen
    way = "none" if chosen is None else f"{way_name(chosen).lower()}, {'exact' if chosen.exact else worst(chosen)}"
    proof = "" if chosen is None else _checked(gear)
    return (
        Cell("sheet", "2 plan"),
        Cell("job", plan.order.title),
        Cell("dividing", way),
        Cell("rig", rig_words(plan.order.rig)),
        Cell("checked", proof),
    )


def _checked(gear: GearPlan) -> str:
    chosen = gear.indexing.chosen
    assert chosen is not None
    if hasattr(chosen, "pulses_per_turn"):
        return f"{gear.gear.teeth} moves close on {mixed_number(Fraction(chosen.pulses_per_turn))} pulses"
    return (
        f"{gear.gear.teeth} moves close"
        if chosen.exact
        else f"{gear.gear.teeth} moves close within {abs(chosen.closing_error_arcsec):.0f}″"
    )
