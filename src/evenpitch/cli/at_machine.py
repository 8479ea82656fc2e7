"""Commands at the machine and after: cut, inspect, repeat."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from evenpitch.cli import cli, file_of, options, show, typed_of
from evenpitch.cli.proving import READINGS, readings_of


@cli.command()
@click.argument("job")
@click.option("--cut", type=int, default=None, help="This space is cut.")
@click.option("--not-cut", type=int, default=None, help="This space was not cut: takes the entry back by another one.")
@click.option("--wait", is_flag=True, help="The job waits.")
@click.option("--carry-on", is_flag=True, help="It goes on.")
@click.option(
    "--count", type=(int, int), default=None, help="Spaces counted: cut, forward from the datum; not cut, back from it."
)
@click.option("--begin", default=None, help="scratch, trial, rough or full: begin that pass.")
@click.option("--order", default=None, help='"1, 2, 3" or spread.')
@click.option("--start", type=int, default=None, help="Go on from this space.")
@click.option("--last-entry", type=int, default=None, help="Refuse if the record has gone on since this entry.")
@click.option("--gear", type=int, default=1, help="Which gear of a pair, 1 or 2 [1].")
@options(
    ("note", "A few words into the record."),
    ("closing", "Gap between first and last scratch, 0 where they meet."),
    ("depth", "Depth set, from metal."),
    ("span", "Span measured at that depth."),
)
def cut(job: str, as_json: bool, last_entry: int | None, gear: int, **given: Any) -> int:
    """Where the cutting of JOB stands: cut so far, next space, where the work must stand; and one entry more."""
    from evenpitch.web.cut_answer import cut_answer, deeds_of

    return show(cut_answer(job, deeds_of(**given), gear=gear, last_entry=last_entry), as_json)


@cli.command()
@click.argument("job", type=click.Path(path_type=Path))
@READINGS
@options(
    ("rig", "RIG.toml [the rig the book holds for this job]."),
    ("gear", "Which gear of a pair, 1 or 2 [1]."),
    ("budget", 'Your own figures for parts of a U: "burr = 1 um; tilt = 2 um".'),
    ("seen", 'What you saw on the flanks: "marks = 0.9 mm; contact = one end".'),
)
@click.option(
    "--log", type=click.Path(path_type=Path), help="Log of the link (CSV), of a helical gear: what it lost beside what is found."
)
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the record sheet.")
@click.option("--keep", is_flag=True, help="Keep readings and verdict with JOB, a name in the book.")
def inspect(job: Path, readings: Path, as_json: bool, pdf: Path | None, keep: bool, log: Path | None, **given: str | None) -> int:
    """Judge JOB (a file, or a name in the book) by READINGS (CSV): pass, not proven or fail, why, and what can be saved."""
    from evenpitch.web.inspect_answer import inspect_answer

    typed = dict(typed_of(given))
    if log is not None:
        typed["log"] = readings_of(log).decode("utf-8-sig", "replace")
    answer = inspect_answer(job, readings_of(readings), typed, rig=file_of(given["rig"]), keep=keep)
    return show(answer, as_json, pdf=pdf)


@cli.command()
@click.argument("job", type=click.Path(path_type=Path))
@options(
    ("rig", "OTHER.toml: the rig to cut it on now."),
    ("was", "RIG.toml it was cut on [the rig the book holds for this job]."),
)
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the new sheet for the wall.")
def repeat(job: Path, as_json: bool, pdf: Path | None, **given: str | None) -> int:
    """The same JOB on another rig: only dividing and link are redone, and what differs is listed."""
    from evenpitch.quantity.refusal import refuse
    from evenpitch.web.repeat_answer import repeat_answer

    other = file_of(given["rig"])
    if other is None:
        raise refuse("rig", "", "the other rig", "None was named.", "Add --rig OTHER.toml.")
    return show(repeat_answer(job, other, was=file_of(given["was"])), as_json, pdf=pdf)
