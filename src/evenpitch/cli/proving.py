"""Commands that prove a rig from readings: scale, head, prove, reading."""

from __future__ import annotations

from pathlib import Path

import click

from evenpitch.cli import HEAD, cli, file_of, options, show, typed_of

READINGS = click.argument("readings", type=click.Path(path_type=Path))


def readings_of(path: Path) -> bytes:
    """A table of readings, bounded in size before it is read."""
    from evenpitch.store.files.bounded import read_bounded
    from evenpitch.store.files.readings import LARGEST_READINGS

    return read_bounded(path, LARGEST_READINGS)


@cli.command()
@READINGS
@options(
    ("rig", "RIG.toml: its count, its set of blocks."),
    ("job", "JOB.toml: face and helix of its gear; with the rig also the corrected ratio."),
    ("face", "Length that counts on the job [20 mm]."),
    ("travel", "Table travel that is used."),
    ("period", "Period of a wave in the scale, if it is known."),
    ("kelvin", "By how much blocks and scale may differ in warmth [1 K]."),
)
def scale(readings: Path, as_json: bool, **given: str | None) -> int:
    """How true a scale reads, from READINGS (CSV): gain, reversal, drift, what the line leaves, and whether correcting pays."""
    from evenpitch.web.prove_answer import scale_answer

    typed = typed_of({name: text for name, text in given.items() if name != "job"})
    return show(scale_answer(readings_of(readings), typed, rig=file_of(given["rig"]), job=file_of(given["job"])), as_json)


@cli.command("head")
@READINGS
@options(*HEAD, ("targets", "A count: its absolute targets with the map taken out."))
def know_head(readings: Path, as_json: bool, **given: str | None) -> int:
    """How good a dividing head is, from READINGS (CSV): its waves with phase and U, backlash, what a full turn leaves."""
    from evenpitch.web.prove_answer import head_answer

    return show(head_answer(readings_of(readings), typed_of(given), rig=file_of(given["rig"])), as_json)


@cli.command()
@click.argument("rig", type=click.Path(path_type=Path))
@READINGS
@options(
    ("job", "JOB.toml: the helical gear that the link is proven on."),
    ("gear", "1 or 2, of a pair [1]."),
    ("arm", "What the length of the bar is known to [0.005 mm]."),
)
def prove(rig: Path, readings: Path, as_json: bool, job: str | None, **given: str | None) -> int:
    """Prove the link of RIG on a gear, from READINGS (CSV): on this gear it is good to so much, limited by that."""
    from evenpitch.quantity.refusal import refuse
    from evenpitch.store.files.bounded import read_bounded
    from evenpitch.web.prove_answer import prove_answer

    work = file_of(job)
    if work is None:
        raise refuse("job", "", "the job to prove the link on", "None was named.", "Add --job JOB.toml.")
    return show(prove_answer(read_bounded(rig), readings_of(readings), work, typed_of(given)), as_json)


@cli.command()
@options(
    ("moved", "What was moved: 50mm, or 360 deg."),
    ("shown", "What the display shows."),
    ("rig", "RIG.toml: its count, belt and worm."),
    ("count", "Table travel of one count."),
    ("period", "Period of the scale [20 um]."),
    ("belt", "Teeth, motor : head [20:60]."),
    ("worm-ratio", "Crank turns for one turn of the work [40]."),
)
def reading(as_json: bool, **given: str | None) -> int:
    """Moved 50 mm, shows 200: which settings explain that, the likeliest first, and the test that decides."""
    from evenpitch.web.prove_answer import reading_answer

    return show(reading_answer(typed_of(given), rig=file_of(given["rig"])), as_json)
