"""What a person puts up from the plan: gears in an order that clears, on the picture as in the table."""

from __future__ import annotations

import re

from evenpitch.dividing.trains import clears
from evenpitch.sheet.compose.pictures import plan_pictures
from evenpitch.sheet.compose.plan import compose_plan
from evenpitch.sheet.document import Table
from job.shop import pinion, rig_of, rig_tables


def geared(**fields):
    """A helical gear on a rig with change gears only."""
    tables = rig_tables()
    tables.pop("link")
    return pinion(rig_of(tables), **fields)


def test_the_picture_of_the_lead_train_shows_a_mounting_that_clears():
    made = geared(teeth=41, pitch="16 DP", helix="18", hand="left", face="0.75 in")
    train = made.gears[0].lead.train
    assert train.train.drivers == (24, 44)  # as sorted, 24 would mesh 32 and foul the 44 beside it
    (picture,) = [drawing for drawing in plan_pictures(made, made.gears[0]) if drawing.key == "gear-bracket-lead"]
    assert re.search(r"44 on the table screw.*32 and 24 fixed together.*86 on the worm", picture.says)
    (first, second) = train.mountings()[0]
    assert clears(first, second, train.stud_clearance)


def test_the_table_of_trains_is_in_the_order_of_its_note():
    made = geared(teeth=41, pitch="16 DP", helix="18", hand="left", face="0.75 in")
    tables = [
        block
        for section in compose_plan(made).sections
        for block in section.blocks
        if isinstance(block, Table) and block.heads[:1] == ("drivers : driven",)
    ]
    assert tables[0].rows[0].cells[0] == "44·24 : 32·86"
    assert tables[0].rows[0].cells[-1].startswith("44 with 32, 24 with 86")


def test_the_cutter_to_borrow_is_the_one_that_the_plan_takes():
    tables = rig_tables()
    tables["cutter"] = []
    for changed, borrow in (
        ({}, "Borrow module 2 No. 6, or make"),
        (
            {"teeth": 41, "pitch": "16 DP", "helix": "18", "hand": "left"},
            "Borrow 16 DP No. 2, of the least error here (the tables say No. 3), or make",
        ),
    ):
        made = pinion(rig_of(tables), **changed)
        told = next(found for found in made.findings if found.code == "cutter-none")
        assert told.do.startswith(borrow)
        assert made.gears[0].tools.chosen.cutter.name() in told.do
