"""What was asked in the form of a question: the fields as typed, the rig it is asked on, and the fields shown again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from evenpitch.quantity.field_names import FieldName
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.showing import both, mixed_number
from evenpitch.rig.rig import Rig
from evenpitch.store.book import Book
from evenpitch.store.files.rig_file import read_rig
from evenpitch.web.gear_answer import gear_fields
from evenpitch.web.pages.fields import Field, field
from evenpitch.web.questions import Question
from evenpitch.web.typed import Typed
from evenpitch.web.usual_rig import USUAL_NAME, listed

LONGEST = 2000
"""Letters of one field; a list of change gears has some hundred."""

_SAME = {
    "module": "pitch",
    "dp": "pitch",
    "face-width": "face",
    "profile-shift": "shift",
    "helix-angle": "helix",
    "number": "divisions",
}
"""Fields that a refusal names otherwise than the form."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it was typed, without the fields left empty. `rig`: of the book, or None for the usual head."""

    question: Question
    typed: dict[str, str]
    rig_text: bytes | None
    rig: Rig | None
    rig_name: str

    @property
    def order(self) -> tuple[str, ...]:
        """The fields as they follow each other on the page."""
        return (*(name.word for name in self.question.first), "rig", "paper", *(name.word for name in self.question.more))

    @property
    def anything(self) -> bool:
        """Whether a first field was filled in, so that there is something to answer."""
        return any(name.word in self.typed for name in self.question.first)


def tidy(query: Mapping[str, str]) -> dict[str, str]:
    """The fields that have something in them."""
    return {name: text.strip()[:LONGEST] for name, text in query.items() if text.strip()}


def asked(book: Book, question: Question, query: Mapping[str, str]) -> Asked:
    """The question as asked; a Refusal at "rig" where the book has none of that name."""
    known = {name.word for name in question.fields()}
    typed = {word: text for word, text in tidy(query).items() if word in known}
    if question.name == "gear" and "pitch" not in typed:
        typed |= _pitch_of(query)
    name = query.get("rig", "") if question.on_a_rig else ""
    rig_text = rig_named(book, name)
    return Asked(question, typed, rig_text, read_rig(rig_text).rig if rig_text is not None else None, name)


def rig_named(book: Book, name: str) -> bytes | None:
    """The file of a rig of the book; none for the usual head."""
    if not name:
        return None
    try:
        return book.rig(name).text.encode()
    except Refusal as refusal:
        raise Refusal(*(replace(fault, field="rig") for fault in refusal.faults)) from None


def _pitch_of(query: Mapping[str, str]) -> dict[str, str]:
    """The pitch, where it was given as at the command line: a module or a diametral pitch; both stay as they are, to be refused."""
    given = {word: text for word, text in tidy(query).items() if word in ("module", "dp")}
    return {"pitch": gear_fields(given)["gear.0.pitch"]} if len(given) == 1 else given


def with_link(typed: Typed, rig: Rig | None) -> dict[str, str]:
    """Pulses and count from the rig's link, where nothing else was typed."""
    found: dict[str, str] = {}
    if rig is not None:
        pulses = rig.pulses_per_turn()
        if pulses is not None:
            found["pulses-per-turn"] = str(pulses)
        if rig.link is not None and rig.link.count is not None:
            found["count"] = f"{rig.link.count * 1000} um"
    return {**found, **typed}


def at_field(fault: Fault) -> str:
    """The field of the form that a refusal belongs to: "circles, plate 1" is told at the circles, "pressure_angle" at pressure-angle."""
    plain = fault.field.removeprefix("gear.0, ").split(", ")[0].replace("_", "-").replace(" ", "-")
    return _SAME.get(plain, plain)


def shown_fields(names: tuple[FieldName, ...], ask: Asked) -> tuple[Field, ...]:
    """The fields as they stand on the page, each with what is taken where it is left empty."""
    return tuple(_shown(name, ask) for name in names)


def _shown(name: FieldName, ask: Asked) -> Field:
    made = field(name, ask.typed, asked=False)
    usual = _usual_on(name.word, ask.rig) if ask.rig is not None else ""
    if made.choices and not name.usual:
        made = replace(made, choices=(("", "usual"), *made.choices))
    if usual:
        return replace(made, help=f"{name.help} On this rig: {usual}.", example=usual)
    if name.usual and not made.choices:
        return replace(made, help=f"{name.help} Usual: {name.usual}.", example=name.usual)
    return made


def _usual_on(word: str, rig: Rig) -> str:
    """What the rig has for a field that is left empty."""
    pulses, screw = rig.pulses_per_turn(), rig.table.screw_lead
    count = rig.link.count if rig.link is not None else None
    known = {
        "worm-ratio": mixed_number(rig.head.ratio),
        "direct": str(rig.head.direct or "none"),
        "circles": "; ".join(listed(plate.circles) for plate in rig.plates),
        "change-gears": listed(rig.change_gears.teeth) or "none",
        "pulses-per-turn": "none known" if pulses is None else mixed_number(pulses),
        "screw-lead": "" if screw is None else both(screw),
        "count": "" if count is None else f"{float(count * 1000):g} µm",
    }
    return known.get(word, "")


def rig_field(book: Book, name: str) -> Field:
    """The choice of a rig of the book, or the usual head."""
    rigs = [(kept.name, kept.name) for kept in book.rigs()]
    if name and name not in [value for value, _ in rigs]:
        rigs.append((name, name))
    choices = (*rigs, ("", USUAL_NAME))
    return Field("rig", "Rig", "Head, plates, gears and link are taken from it.", "", name, choices, wordy=True)
