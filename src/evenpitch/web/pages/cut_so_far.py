"""How far a job on the bench is: a graduated scale, one stroke a space, and the way back to the machine."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from markupsafe import Markup

from evenpitch.quantity.refusal import Refusal
from evenpitch.sheet.markup import bare_flag
from evenpitch.store.book import Book
from evenpitch.web.cut_words import PASS_WORDS
from evenpitch.web.machine import Place, place_of
from evenpitch.web.pages.cut_view import here

WIDE, TALL = 200, 22
"""Of the scale, in units of its picture."""

MOST_STROKES = 150
"""Above so many spaces a stroke stands for several."""


@dataclass(frozen=True, slots=True)
class CutSoFar:
    """What the list of jobs says of one that is being cut."""

    words: str
    scale: Markup
    flag: Markup
    next: str
    button: str
    to: str


def cut_so_far(book: Book, job: str) -> CutSoFar | None:
    """None where nothing was begun: the plan is read first then."""
    places = _places(book, job)
    begun = [place for place in places if place.progress.begun]
    if not begun:
        return None
    open_ones = [place for place in begun if not place.finished()]
    if not open_ones and len(begun) < len(places):
        open_ones = [place for place in places if not place.progress.begun]
    shown = open_ones[0] if open_ones else begun[-1]
    progress, cutting = shown.progress, shown.cutting
    gear = f"gear {cutting.gear}: " if len(places) == 2 else ""
    of = cutting.planned(progress.running).spaces
    words = f"{gear}cut {len(progress.cut)} of {of}"
    if len(cutting.rounds()) > 1 or progress.running in ("scratch", "trial"):
        words += f", {PASS_WORDS[progress.running]}"
    scale = progress_scale(of, progress.cut)
    if not open_ones:
        return CutSoFar(words, scale, Markup(""), "finished", "See the record", here(shown))
    stopped = any(found.weight == "stop" for found in shown.findings())
    space = shown.next()
    following = "counts differ" if progress.off else f"space {space}" if space is not None else "closing test"
    return CutSoFar(words, scale, bare_flag("stop") if stopped else Markup(""), following, "Carry on cutting", here(shown))


def _places(book: Book, job: str) -> tuple[Place, ...]:
    """Both gears of the last issued plan; none where there is none, or where it cannot be read."""
    try:
        first = place_of(book, job)
        return (first, place_of(book, job, 2)) if first.to.gears == 2 else (first,)
    except Refusal:
        return ()


def progress_scale(spaces: int, cut: Collection[int]) -> Markup:
    """One stroke a space, tens longer; those cut are tall and strong. No figure, no bar: the words beside it say how many."""
    done = frozenset(cut)
    each = -(-spaces // MOST_STROKES)
    strokes = range(1, spaces + 1, each)
    pitch = WIDE / max(len(strokes), 1)
    strong, thin = [], []
    for place, space in enumerate(strokes):
        x = round((place + 0.5) * pitch, 1)
        if all(one in done for one in range(space, min(space + each, spaces + 1))):
            strong.append(f"M{x} {TALL}V2")
        else:
            thin.append(f"M{x} {TALL}V{TALL - (12 if space % 10 == 0 else 6)}")
    label = f"{len(done)} of {spaces} spaces cut"
    return Markup(
        '<svg class="scale" viewBox="0 0 {} {}" role="img" aria-label="{}"><path d="M0 {}H{}{}"/><path class="strong" d="{}"/></svg>'
    ).format(WIDE, TALL, label, TALL, WIDE, "".join(thin), "".join(strong))
