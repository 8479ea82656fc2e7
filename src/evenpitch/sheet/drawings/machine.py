"""Pictures of the machine from above: which end of the table to push, or which way the nose of the milling head goes.

The page is the floor plan: x to the operator's right, y towards the column, z up to the reader. Everything drawn at an angle is
turned by the true angle, so the tooth lines on the top of the blank lie in the plane of the cutter (see `tooth_line`, `cutter_plane`).
"""

from __future__ import annotations

from evenpitch.sheet.drawing import Drawing, Item
from evenpitch.sheet.drawings.floor_plan import TOP, Hand, Side, View
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.machine_arrows import angle, degrees_text, feed, head_label, inset, operator, swing, work_turn
from evenpitch.sheet.drawings.machine_parts import arbor, column, cutter, table, work


def machine_from_above_table(
    beta_deg: float,
    hand: Hand,
    head_end: Side,
    feed: Side,
    face: float,
    outside: float,
    cutter_outside: float,
    *,
    motor: bool = True,
) -> Drawing:
    """Floor plan of a machine whose table swings; for a spur gear (hand none) the table stands square."""
    return _draw(View(beta_deg, hand, head_end, feed, face, outside, cutter_outside, motor, "table"))


def machine_from_above_head(
    beta_deg: float,
    hand: Hand,
    head_end: Side,
    feed: Side,
    face: float,
    outside: float,
    cutter_outside: float,
    *,
    motor: bool = True,
) -> Drawing:
    """Floor plan of a plain machine whose milling head swings; table, work and feed stay square."""
    return _draw(View(beta_deg, hand, head_end, feed, face, outside, cutter_outside, motor, "milling head"))


def _draw(view: View) -> Drawing:
    items: list[Item] = [*column(), *arbor(view), *table(view), *work(view), *cutter(view)]
    items += [*angle(view), *swing(view), *feed(view), *work_turn(view), *head_label(view), *inset(view), *operator()]
    key = "machine-table" if view.swings == "table" else "machine-head"
    return framed(key, f"Machine from above: {_title(view)}", _says(view), TOP, items, _caption(view))


def _title(view: View) -> str:
    if view.hand == "none":
        return "the table stands square"
    return "the table swings" if view.swings == "table" else "the milling head swings"


def _caption(view: View) -> str:
    if view.hand == "none":
        return "Blank and cutter to scale; table cut short."
    square = "Table square. " if view.swings == "milling head" else ""
    return f"{square}Angle, blank and cutter to scale; table cut short."


def _says(view: View) -> str:
    turns = "anticlockwise" if view.feed == "left" else "clockwise"
    cutter = f"The table feeds {view.feed}; facing the column the cutter turns {turns}."
    if view.hand == "none":
        return f"Table square, 0°. {cutter} The work stands still in the cut."
    angle = degrees_text(view.beta)
    if view.swings == "table":
        swing = f"Push the {view.hand}-hand end of the table away by {angle}."
    else:
        nose = "left" if view.hand == "right" else "right"
        way = "clockwise" if view.hand == "right" else "anticlockwise"
        swing = f"Swing the nose of the head {angle} to your {nose}, {way} seen from above; the table stays square."
    near = "rises: its top turns away from you" if view.near_side_rises else "falls: its top turns towards you"
    return f"{view.hand.capitalize()}-hand helix. {swing} {cutter} The near side of the work {near}."
