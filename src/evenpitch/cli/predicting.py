"""Commands before and after the cut: predict, simulate, audit."""

from __future__ import annotations

from pathlib import Path

import click

from evenpitch.cli import cli, file_of, options, show, typed_of

JOB = click.argument("job", type=click.Path(path_type=Path))
PDF = click.option("--pdf", type=click.Path(path_type=Path), help="Write it as PDF.")
HTML = click.option("--html", type=click.Path(path_type=Path), help="Write it as one page.")
RIG = ("rig", "RIG.toml [the rig the book holds for this job]")
GEAR = ("gear", "1 or 2, of a pair [1].")


@cli.command()
@JOB
@options(
    RIG,
    ("draws", "Gears drawn at random, up to a million; Ctrl-C stops early [20000]."),
    ("largest-pulses", "Largest number the controller takes for the pulses of its ratio [65535]."),
    ("largest-counts", "Largest number it takes for the counts [65535]."),
    ("seed", "Where the draws start; the same seed gives the same answer [1]."),
    GEAR,
)
@PDF
@HTML
@click.option("--csv", type=click.Path(path_type=Path), help="Write ratio, limits and targets for a controller.")
def predict(job: Path, as_json: bool, pdf: Path | None, html: Path | None, csv: Path | None, **given: str | None) -> int:
    """What the rig will leave on the gear of JOB (a file, or a name in the book).

    The class to expect with its probability, what spoils it, what would help, and the numbers for a controller.
    """
    from evenpitch.cli.sweeping import watched
    from evenpitch.web.predict_answer import predict_answer

    with watched() as progress:
        made = predict_answer(job, typed_of(given), rig=file_of(given["rig"]), progress=progress)
    return show(made, as_json, pdf=pdf, html=html, csv=csv)


@cli.command()
@JOB
@options(
    RIG,
    ("feed", "Power feed, e.g. 60mm/min."),
    ("crank", 'By hand: mean feed, unevenness, turns: "1 mm/s 0.6 1 Hz".'),
    ("ramp", 'Acceleration limit of the controller, pulses/s², and where it begins: "5000 from 200" [none].'),
    ("poll", "How often the controller looks at the count, e.g. 1ms [at every count]."),
    ("play", "open: the pass begins with the play on the other side [closed]."),
    ("vibration", 'The table trembles, either way and how often: "2 um 97 Hz".'),
    GEAR,
)
@PDF
@HTML
def simulate(job: Path, as_json: bool, pdf: Path | None, html: Path | None, **given: str | None) -> int:
    """One pass of the table against the turning of the work: pulses, lag, error, and whether the link keeps up."""
    from evenpitch.web.simulate_answer import simulate_answer

    return show(simulate_answer(job, typed_of(given), rig=file_of(given["rig"])), as_json, pdf=pdf, html=html)


@cli.command()
@click.argument("log", type=click.Path(path_type=Path))
@options(
    ("job", "The job that was cut: a file, or a name in the book."), RIG, GEAR, ("space", "Space that was in the cutter [1].")
)
@PDF
@HTML
def audit(log: Path, as_json: bool, job: str | None, pdf: Path | None, html: Path | None, **given: str | None) -> int:
    """What a LOG (CSV) of a pass proves and what it cannot: lost pulses and slips, ratio, lag, backlash, worm, each with U."""
    from evenpitch.quantity.refusal import refuse
    from evenpitch.store.files.bounded import read_bounded
    from evenpitch.store.files.readings import LARGEST_LOG, LONG_LOG
    from evenpitch.web.audit_answer import audit_answer

    if job is None:
        raise refuse("job", "", "the job that was cut", "None was named.", "Add --job JOB.toml.")
    made = audit_answer(read_bounded(log, LARGEST_LOG, LONG_LOG), Path(job), typed_of(given), rig=file_of(given["rig"]))
    return show(made, as_json, pdf=pdf, html=html)
