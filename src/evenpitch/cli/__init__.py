"""The command line: words in, an answer out, as text to read or as one JSON object. Heavy imports live inside the commands."""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from evenpitch import __version__

if TYPE_CHECKING:
    from evenpitch.web.answer import Answer

ANSWERED, REFUSED, STOPPED, OUR_FAULT = 0, 1, 2, 3

Decorator = Callable[[Callable[..., Any]], Callable[..., Any]]


def options(*names: tuple[str, str]) -> Decorator:
    """Plain text options; what they mean is read in one place, the same as for files and forms."""

    def add(function: Callable[..., Any]) -> Callable[..., Any]:
        for name, words in reversed(names):
            function = click.option(f"--{name}", default=None, help=words)(function)
        return click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")(function)

    return add


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="evenpitch")
def cli() -> None:
    """Plan, check and print the cutting of gears and other divided work on a milling machine with a dividing head."""


GEAR = (
    ("teeth", "Count of teeth."),
    ("module", "Module, mm, normal unless it says transverse."),
    ("dp", "Diametral pitch instead of the module."),
    ("pressure-angle", "Pressure angle [20]."),
    ("helix", "Helix angle [0]."),
    ("hand", "left or right, of a helical gear."),
    ("shift", "Profile shift, in modules [0]."),
    ("face", "Face width."),
    ("depth", "full, stub, 14.5, fine, iso53-a to iso53-d [full; 14.5 for 14½°]."),
    ("thinning", "Thinning for backlash, normal arc [0]."),
    ("spanned", "Teeth to span [the usual count]."),
    ("pin", "Pin or ball diameter [the usual one]."),
    ("tolerance-class", "Class of ISO 1328-1: adds the limits."),
)


@cli.command()
@options(*GEAR)
def gear(as_json: bool, **given: str | None) -> int:
    """Every size of one gear, and what to measure on it."""
    from evenpitch.web.gear_answer import gear_question

    return show(gear_question(typed_of(given)), as_json)


HEAD = (
    ("rig", "RIG.toml: take head, plates, gears and link from it."),
    ("worm-ratio", "Crank turns for one turn of the work [40]."),
)


@cli.command()
@click.argument("number", required=False)
@options(
    *HEAD,
    ("circles", "Hole circles, plates parted by semicolons [three plates, 15 to 49]."),
    ("direct", "Holes of the plate on the spindle nose [24]."),
    ("change-gears", "Change gears in the box [twelve, 24 to 100]."),
    ("pulses-per-turn", "Pulses of the link for one turn of the work [no link]."),
    ("angle", "One angle instead of a count."),
    ("chart", "Counts from-to: the wall chart of this head."),
    ("paper", "a4 or letter, for the chart [a4]."),
)
@click.option("--all", "everything", is_flag=True, help="Also the ways that are worse in every respect, at most 500.")
@click.option("--targets", is_flag=True, help="List the absolute pulse targets.")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the chart as PDF.")
@click.option("--csv", type=click.Path(path_type=Path), help="Write the chart as CSV.")
def divide(
    number: str | None, as_json: bool, everything: bool, targets: bool, pdf: Path | None, csv: Path | None, **given: str | None
) -> int:
    """Every way to divide a circle into NUMBER spaces on a head."""
    from evenpitch.web.divide_answer import divide_question

    typed = typed_of(given) | ({"divisions": number} if number is not None else {})
    answer = divide_question(typed, rig=file_of(given["rig"]), everything=everything, targets=targets)
    return show(answer, as_json, pdf=pdf, csv=csv)


@cli.command()
@click.argument("wanted", required=False)
@options(
    *HEAD,
    ("screw-lead", "Lead of the table screw [0.25 in]."),
    ("change-gears", "Change gears in the box [twelve, 24 to 100]."),
    ("helix-of", 'A gear instead of a lead: "z=28 mn=2 beta=20".'),
    ("face", "Face of that gear: adds micrometres over the face."),
    ("pair-with", "Lead of the mate: choose both together."),
    ("diameter", "For the chart: diameter for the helix angle."),
    ("paper", "a4 or letter, for the chart [a4]."),
)
@click.option("--chart", is_flag=True, help="Every lead the gears give.")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the chart as PDF.")
@click.option("--csv", type=click.Path(path_type=Path), help="Write the chart as CSV.")
def lead(wanted: str | None, as_json: bool, chart: bool, pdf: Path | None, csv: Path | None, **given: str | None) -> int:
    """Change-gear trains for a lead WANTED (mm, or with its unit)."""
    from evenpitch.web.lead_answer import lead_question

    typed = typed_of(given) | ({"lead": wanted} if wanted is not None else {})
    return show(lead_question(typed, rig=file_of(given["rig"]), chart=chart), as_json, pdf=pdf, csv=csv)


@cli.command()
@options(
    ("lead", "Lead of the helix."),
    ("pulses-per-turn", "Pulses of the drive for one turn of the work."),
    ("count", "Table travel of one count, e.g. 1um."),
    ("largest-pulses", "Largest number the pulse field takes [65535]."),
    ("largest-counts", "Largest number the count field takes [65535]."),
    ("helix-of", 'The gear, for micrometres over its face: "z=28 mn=2 beta=20".'),
    ("face", "Face of that gear."),
)
def ratio(as_json: bool, **given: str | None) -> int:
    """The link's ratio for a lead: pulses for counts, in whole numbers."""
    from evenpitch.web.ratio_answer import ratio_question

    return show(ratio_question(typed_of(given)), as_json)


@cli.command()
@click.argument("job", type=click.Path(path_type=Path))
@options(("rig", "RIG.toml [the rig the book holds for this job]."))
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the sheet for the wall.")
@click.option("--dxf", type=click.Path(path_type=Path), help="Write the outline of blank and space.")
@click.option("--html", type=click.Path(path_type=Path), help="Write the plan as one page.")
@click.option("--trial", is_flag=True, help="The sheet of the trial piece instead.")
def plan(job: Path, rig: str | None, as_json: bool, pdf: Path | None, dxf: Path | None, html: Path | None, trial: bool) -> int:
    """The whole plan of JOB (a file, or a name in the book)."""
    from evenpitch.web.desk import ask_plan

    return show(ask_plan(job, file_of(rig), trial=trial), as_json, pdf=pdf, dxf=dxf, html=html)


@cli.command()
@click.argument("case", type=click.Path(path_type=Path))
@options()
def flank(case: Path, as_json: bool) -> int:
    """The virtual cut of one CASE.json: what a cutter, a setting and a motion leave on the flanks."""
    from evenpitch.web.flank_answer import flank_answer

    return show(flank_answer(case), as_json)


@cli.command()
@click.argument("job", type=click.Path(path_type=Path))
@options(
    ("rig", "RIG.toml [the rig the book holds for this job]."),
    ("set", "dp8, dp15, m8, m15, or a file of [[cutter]] tables, instead of the drawer."),
    ("gear", "Which gear of a pair, 1 or 2 [1]."),
    ("bit-diameter", "Diameter on which the fly cutter's bit swings [63 mm]."),
    ("bit-rake", "Rake of the bit [0]."),
    ("bit-relief", "End relief of the bit [10 degrees]."),
)
@click.option("--bit-pdf", type=click.Path(path_type=Path), help="Write the sheet of the fly cutter's bit, 10:1.")
@click.option("--bit-dxf", type=click.Path(path_type=Path), help="Write the edge of the bit as DXF, in millimetres.")
def cutters(job: Path, as_json: bool, bit_pdf: Path | None, bit_dxf: Path | None, **given: str | None) -> int:
    """What each cutter would leave on the flanks of JOB, best first."""
    from evenpitch.web.cutters_answer import cutters_answer

    answer = cutters_answer(job, typed_of(given), rig=file_of(given["rig"]))
    return show(answer, as_json, bit_pdf=bit_pdf, bit_dxf=bit_dxf)


@cli.command()
@click.option("--no-serve", is_flag=True, help="Do not serve the pages afterwards.")
def demo(no_serve: bool) -> int:
    """Set up the worked example, print its plan, write its sheet, serve the pages."""
    from evenpitch.web.desk import open_book, show_demo

    with open_book() as book:
        show_demo(book, click.echo)
    if no_serve or not (sys.stdin.isatty() and sys.stdout.isatty()):
        click.echo("To read the pages: .venv/bin/evenpitch serve")
        return ANSWERED
    from evenpitch.web.serve import serve as serve_pages

    return serve_pages(port=None, lan=False, say=click.echo)


@cli.command()
@click.option("--port", type=int, default=None, help="Port [8127, or the next free one].")
@click.option("--lan", is_flag=True, help="Let other devices in this shop read the pages, with a PIN.")
def serve(port: int | None, lan: bool) -> int:
    """Serve the pages on this machine until interrupted."""
    from evenpitch.web.serve import serve as serve_pages

    return serve_pages(port=port, lan=lan, say=click.echo)


@cli.command()
@click.argument("job")
@options()
def release(job: str, as_json: bool) -> int:
    """Make the plan of JOB final: number, date, digest. Nothing with a stop is issued."""
    from evenpitch.web.desk import issue_plan

    return show(issue_plan(job), as_json)


@cli.command("export")
@click.argument("job")
@click.argument("out", type=click.Path(path_type=Path))
@options()
def export_job(job: str, out: Path, as_json: bool) -> int:
    """Write JOB with its rig, plans and record as one plain file."""
    from evenpitch.web.desk import export_job as write

    return show(write(job, out), as_json)


@cli.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@options(("name", "Another name for the job than the file's."))
def import_job(file: Path, as_json: bool, name: str | None) -> int:
    """Take an exported job, a JOB.toml or a RIG.toml into the book."""
    from evenpitch.web.desk import import_file

    return show(import_file(file, name), as_json)


@cli.command()
@click.argument("out", type=click.Path(path_type=Path))
@options()
def backup(out: Path, as_json: bool) -> int:
    """Copy the whole book to OUT."""
    from evenpitch.web.desk import back_up

    return show(back_up(out), as_json)


@cli.command()
@click.argument("file", type=click.Path(path_type=Path))
@options()
def restore(file: Path, as_json: bool) -> int:
    """Put the book copied to FILE back; the present one is kept beside it."""
    from evenpitch.web.desk import put_back

    return show(put_back(file), as_json)


@cli.command()
@options()
def where(as_json: bool) -> int:
    """Where the book, its copies and the log are."""
    from evenpitch.web.desk import places

    return show(places(), as_json)


def show(answer: Answer, as_json: bool, **outs: Path | None) -> int:
    """Print the answer, write what was asked for, and give the exit code."""
    from evenpitch.web.answer import write_files

    for path in write_files(answer, {kind: out for kind, out in outs.items() if out is not None}):
        click.echo(f"written: {path}", err=True)
    click.echo(answer.json_text() if as_json else answer.text())
    return STOPPED if answer.stopped() else ANSWERED


def typed_of(given: dict[str, str | None]) -> dict[str, str]:
    return {key.replace("_", "-"): value for key, value in given.items() if value is not None and key != "rig"}


def file_of(name: str | None) -> bytes | None:
    """A file from outside, bounded in size before it is read."""
    if name is None:
        return None
    from evenpitch.store.files.bounded import read_bounded

    return read_bounded(Path(name))


def run(arguments: list[str]) -> int:
    """Run one command line; every way out is one of the four exit codes."""
    from evenpitch.quantity.refusal import Refusal

    try:
        code = cli.main(args=arguments, prog_name="evenpitch", standalone_mode=False)
    except Refusal as refusal:
        return _refused(refusal, arguments)
    except click.UsageError as usage:
        return _refused(_as_refusal(usage), arguments)
    except click.Abort:
        return REFUSED
    except BrokenPipeError:
        return ANSWERED
    except Exception:
        from evenpitch.store.faults import log_fault

        click.echo(f"Our own fault, not yours. It is written in {log_fault()}; nothing of yours was changed.", err=True)
        return OUR_FAULT
    return code if isinstance(code, int) else ANSWERED


def _as_refusal(usage: click.UsageError) -> Any:
    from evenpitch.quantity.refusal import refuse

    param = getattr(usage, "param", None)
    option = getattr(usage, "option_name", None) or (param.name if param is not None else "") or "command line"
    context = usage.ctx.command_path if usage.ctx else "evenpitch"
    return refuse(str(option), "", f"words as in: {context} --help", usage.format_message(), f"Try: {context} --help")


def _refused(refusal: Any, arguments: list[str]) -> int:
    from evenpitch.web.answer import refused_json, refused_text

    command = next((word for word in arguments if not word.startswith("-")), "")
    click.echo(refused_json(command, refusal) if "--json" in arguments else refused_text(refusal), err="--json" not in arguments)
    return REFUSED


YOUNG_OBJECTS = 100_000
"""Objects made before the collector looks for cycles: start-up makes many that stay, and looking costs a sixth of it."""


def main() -> None:
    """Entry point of the installed command."""
    gc.set_threshold(YOUNG_OBJECTS)
    sys.exit(run(sys.argv[1:]))


from evenpitch.cli import at_machine, predicting, proving  # noqa: E402, F401  (their commands join the group above)
