"""The fields of a job form become a job: bare lengths get their unit, a mate what it shares with the first gear."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from evenpitch.gear.gear import Gear
from evenpitch.quantity.names import fields
from evenpitch.quantity.reading import is_unknown, read_pitch
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.store.book import Book
from evenpitch.store.files.job_file import JobFile, job_from_fields
from evenpitch.store.files.values import is_bare
from evenpitch.web.planned import planned
from evenpitch.web.usual_rig import usual_rig

SHARED = ("pitch", "pressure_angle", "helix", "face", "depth", "tolerance_class", "material")
"""What a mate has from the first gear where nothing else is typed."""

FORM_ONLY = ("rig", "gears", "press", "line")
"""Names of the form that are no fields of a job."""

_LENGTHS = tuple(
    (name.table, name.word) for name in fields() if name.kind in ("length", "limits") and name.table in ("gear", "pair", "choice")
)
_OTHER_HAND = {"right": "left", "left": "right"}


@dataclass(frozen=True, slots=True)
class Read:
    """What a form was read as. `unit_added`: bare lengths that took the unit of the pitch, as label and text."""

    fields: dict[str, str]
    unit_added: tuple[str, ...]
    job: JobFile | None
    faults: tuple[Fault, ...]


def read_form(book: Book, typed: Mapping[str, str], over: str = "") -> Read:
    """Read a job form whole: every fault, of reading or of a gear that cannot be."""
    kept = job_fields(typed)
    kept, added = with_units(kept)
    try:
        job = job_from_fields(kept, over)
        _try_plan(book, typed.get("rig", ""), job)
    except Refusal as refusal:
        return Read(kept, added, None, _told_once(tuple(map(_at_field, refusal.faults)), typed))
    return Read(kept, added, job, ())


def _told_once(faults: tuple[Fault, ...], typed: Mapping[str, str]) -> tuple[Fault, ...]:
    """What the mate only took over from the first gear is told at the first gear alone."""
    first = {fault.field for fault in faults if fault.field.startswith("gear.0.")}
    return tuple(
        fault
        for fault in faults
        if typed.get(fault.field, "").strip() or fault.field.replace("gear.1.", "gear.0.") not in first or fault.field in first
    )


def _at_field(fault: Fault) -> Fault:
    """ "gear.0, face width" is the field gear.0.face_width."""
    where, comma, word = fault.field.partition(", ")
    if not comma or not where.startswith("gear."):
        return fault
    return replace(fault, field=where + "." + word.replace(" ", "_"))


def _try_plan(book: Book, rig: str, job: JobFile) -> None:
    """A gear that cannot be is refused here, at its field, before anything is kept."""
    planned(job.text, book.rig(rig).text if rig else usual_rig().text)


def job_fields(typed: Mapping[str, str]) -> dict[str, str]:
    """The fields of the job alone; one gear drops the second, a mate takes over what it shares."""
    kept = {path: text for path, text in typed.items() if path not in FORM_ONLY}
    if typed.get("gears") == "one":
        return {path: text for path, text in kept.items() if not path.startswith(("gear.1.", "pair."))}
    if not any(text.strip() for path, text in kept.items() if path.startswith("gear.1.")) and typed.get("gears") != "two":
        return kept
    for word in SHARED:
        if not kept.get(f"gear.1.{word}", "").strip():
            kept[f"gear.1.{word}"] = kept.get(f"gear.0.{word}", "")
    hand = kept.get("gear.0.hand", "").strip().casefold()
    if not kept.get("gear.1.hand", "").strip() and hand in _OTHER_HAND:
        kept["gear.1.hand"] = _OTHER_HAND[hand]
    return kept


def with_units(kept: Mapping[str, str]) -> tuple[dict[str, str], tuple[str, ...]]:
    """Lengths typed without a unit take the one chosen, else that of the pitch: inches beside a diametral pitch.

    Also which they were, where nobody had chosen: those are read back before they are used.
    """
    made, added = dict(kept), []
    chosen = kept.get("choice.units", "").strip()
    unit = {"inch": "in", "metric": "mm"}.get(chosen) or _unit_of_pitch(kept)
    for path, text in kept.items():
        if _is_length(path) and text.strip() and not is_unknown(text) and is_bare(text) and _is_not_zero(text):
            made[path] = f"{text.strip()} {unit}"
            if not chosen:
                added.append(made[path])
    return made, tuple(added)


def _is_not_zero(text: str) -> bool:
    return any(digit in text for digit in "123456789½¼¾⅛⅜⅝⅞")


def _is_length(path: str) -> bool:
    parts = path.split(".")
    return (parts[0], parts[-1]) in _LENGTHS


def _unit_of_pitch(kept: Mapping[str, str]) -> str:
    try:
        return "in" if read_pitch(kept.get("gear.0.pitch", ""), field="").inch else "mm"
    except Refusal:
        return "mm"


def readable_gears(kept: Mapping[str, str]) -> tuple[Gear, ...]:
    """The gears that can already be read back, whatever else is wrong with the form."""
    found = []
    for place in (0, 1):
        own = {
            path.replace(f"gear.{place}.", "gear.0."): text for path, text in kept.items() if path.startswith(f"gear.{place}.")
        }
        if not own.get("gear.0.teeth", "").strip():
            continue
        try:
            found.append(
                job_from_fields({"gear.0.face": "don't know", **{path: text for path, text in own.items() if text.strip()}})
                .works[0]
                .gear
            )
        except Refusal:
            continue
    return tuple(found)
