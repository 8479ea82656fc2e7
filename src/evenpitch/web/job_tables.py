"""What a job holds as tables, CSV with the unit in every column name: its targets, its cut record, its readings, its spacing."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from evenpitch.job.following import datum_of
from evenpitch.job.standing import stand
from evenpitch.quantity.showing import dms
from evenpitch.store.book import Book
from evenpitch.store.kept import KeptInspection
from evenpitch.web.charts import csv_bytes
from evenpitch.web.machine import Place

CSV = "text/csv; charset=utf-8"

RECORD = ("plan", "entry", "at_utc", "kind", "gear", "space", "pass", "order", "start", "forward_spaces", "back_spaces")
RECORD_LENGTHS = ("gap_mm", "depth_mm", "span_mm", "offset_arcsec", "u_arcsec", "text")
_IN_BOOK = {"forward_spaces": "forward", "back_spaces": "back"}


def record_csv(book: Book, job: str) -> bytes:
    """The whole cut record of a job, every issued plan, an entry a line."""
    return csv_bytes((*RECORD, *RECORD_LENGTHS), _record(book, job))


def _record(book: Book, job: str) -> Iterator[tuple[str, ...]]:
    for issued in book.issued(job):
        for one in book.entries(issued.key):
            held = dict(one.payload)
            known = {
                "plan": issued.number,
                "entry": one.number,
                "at_utc": one.at.isoformat(),
                "kind": one.kind,
                "space": one.space,
            }
            row = {name: known.get(name, held.get(_IN_BOOK.get(name, name))) for name in (*RECORD, *RECORD_LENGTHS)}
            yield tuple("" if value is None else str(value) for value in row.values())


def targets_csv(place: Place) -> bytes:
    """Where the work stands for each space, as cut to now: by angle, pulse, crank from the datum, hole on the nose."""
    heads = ("space", "angle_deg", "angle_dms", "pulse", "crank_whole_turns", "crank_spaces", "circle_holes", "nose_hole")
    return csv_bytes(heads, _targets(place))


def _targets(place: Place) -> Iterator[tuple[str, ...]]:
    way, hand, datum = place.cutting.moves, place.cutting.by_hand, datum_of(place.progress)
    for space in range(1, place.cutting.spaces + 1):
        here = stand(way, space, None, datum=datum)
        crank = here if way.circle or hand is None or not hand.circle else stand(hand, space, None, datum=datum)
        turns = crank.from_datum or ("", "")
        row = (
            here.space,
            f"{float(here.angle * 360):.9g}",
            dms(here.angle * 360),
            here.pulse,
            *turns,
            crank.circle or "",
            here.nose,
        )
        yield tuple("" if value is None else str(value) for value in row)


def readings_csv(kept: KeptInspection) -> str:
    """Readings as typed: the table, and before it the fields as remarks, a line each."""
    fields = [f"# {field}: {' '.join(text.split())}" for field, text in kept.typed.items() if field != "readings"]
    return "\n".join([*fields, kept.typed.get("readings", "").strip()]).strip() + "\n"


def spacing_csv(kept: KeptInspection) -> bytes:
    """The cumulative deviation of each space as it was judged, a column for each flank."""
    flanks = dict(kept.facts.get("spacing_um") or {})
    heads = ("space", *(f"cumulative_{flank}_um" for flank in flanks))
    rows = enumerate(zip_longest(*flanks.values()), 1)
    return csv_bytes(heads, ((str(space), *(f"{value:.6g}" for value in values)) for space, values in rows))
