"""The JSON interface to the questions: the same fields as the commands have options, the same object as they print with --json."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, TypeVar

from fastapi import APIRouter, Query, Response
from pydantic import BaseModel, ConfigDict, Field, StrictFloat, StrictInt

from evenpitch.store.book import Book
from evenpitch.web.answer import Answer
from evenpitch.web.api_jobs import REFUSED
from evenpitch.web.charts import divide_chart, lead_chart
from evenpitch.web.divide_answer import divide_question
from evenpitch.web.gear_answer import gear_question
from evenpitch.web.lead_answer import lead_question
from evenpitch.web.pages.asked import rig_named
from evenpitch.web.pages.shown import AtDesk
from evenpitch.web.questions import CHARTS, QUESTIONS
from evenpitch.web.ratio_answer import ratio_question

router = APIRouter(prefix="/api", tags=["questions"])

LONGEST = 20_000
"""Letters of one field; a rig as text is the longest."""

Text = Annotated[str, Field(max_length=LONGEST)]
Asked = Annotated[Text | StrictInt | StrictFloat | None, Field(default=None)]
"""A field as a person types it, "20.25 in", or a bare number: millimetres or degrees."""

_HELP = {name.word: f"{name.label}. {name.help}" for each in (*QUESTIONS.values(), *CHARTS.values()) for name in each.fields()}
_HELP |= {
    "module": "Module, mm, normal unless it says transverse.",
    "dp": "Diametral pitch, instead of the module.",
    "rig": "A rig by its name in the book, or the text of a rig file. Left out: the usual 40:1 head.",
    "all": "Also the ways that are worse in every respect, at most 500.",
    "targets": "List the absolute pulse targets.",
}


def _told(word: str, example: str | None = None) -> Any:
    return Field(default=None, alias=word, description=_HELP[word], examples=None if example is None else [example])


class Question(BaseModel):
    """Fields bear the names of the command's options; an underscore serves for the hyphen."""

    model_config = ConfigDict(extra="forbid", populate_by_name=True)

    def typed(self) -> dict[str, str]:
        """The fields as typed words, without those left out and those that say how to answer."""
        given = self.model_dump(by_alias=True, exclude={"rig", "everything", "targets"}, exclude_none=True)
        return {word: str(value) for word, value in given.items() if str(value).strip()}


class Gear(Question):
    """One gear: teeth and module, or teeth and dp."""

    teeth: Asked = _told("teeth", "97")
    module: Asked = _told("module")
    dp: Asked = _told("dp", "12")
    pressure_angle: Asked = _told("pressure-angle", "14½")
    helix: Asked = _told("helix")
    hand: Asked = _told("hand")
    shift: Asked = _told("shift")
    face: Asked = _told("face", "0.75 in")
    depth: Asked = _told("depth")
    thinning: Asked = _told("thinning")
    spanned: Asked = _told("spanned")
    pin: Asked = _told("pin")
    tolerance_class: Asked = _told("tolerance-class", "8")


class OnAHead(Question):
    """What is asked of a head: that of a rig, each of its parts overruled by what is given."""

    rig: Text | None = _told("rig")
    worm_ratio: Asked = _told("worm-ratio", "40")
    change_gears: Asked = _told("change-gears")


class WithPlates(OnAHead):
    """A head with its plates and its link."""

    circles: Asked = _told("circles")
    direct: Asked = _told("direct")
    pulses_per_turn: Asked = _told("pulses-per-turn")


class Divide(WithPlates):
    """A count, or one angle."""

    divisions: Asked = _told("divisions", "113")
    angle: Asked = _told("angle")
    everything: Annotated[bool, Field(alias="all", description=_HELP["all"])] = False
    targets: Annotated[bool, Field(description=_HELP["targets"])] = False


class Lead(OnAHead):
    """A lead, or that of a gear."""

    lead: Asked = _told("lead", "20.25 in")
    screw_lead: Asked = _told("screw-lead")
    helix_of: Asked = _told("helix-of")
    face: Asked = _told("face")
    pair_with: Asked = _told("pair-with")


class Ratio(Question):
    """A lead and a link."""

    lead: Asked = _told("lead", "514.38 mm")
    pulses_per_turn: Asked = _told("pulses-per-turn", "192000")
    count: Asked = _told("count", "1 um")
    largest_pulses: Asked = _told("largest-pulses")
    largest_counts: Asked = _told("largest-counts")
    helix_of: Asked = _told("helix-of")
    face: Asked = _told("face")


class Counts(WithPlates):
    """The counts of a wall chart."""

    chart: Asked = _told("chart", "2-400")


class Leads(OnAHead):
    """The leads of a wall chart."""

    screw_lead: Asked = _told("screw-lead")
    diameter: Asked = _told("diameter")


def _rig(book: Book, given: str | None) -> bytes | None:
    """A rig by its name where it is one line, else its text."""
    if given is None or not given.strip():
        return None
    return given.encode() if "\n" in given or "=" in given else rig_named(book, given)


def _gear(_: Book, asked: Gear) -> Answer:
    return gear_question(asked.typed())


def _divide(book: Book, asked: Divide) -> Answer:
    return divide_question(asked.typed(), rig=_rig(book, asked.rig), everything=asked.everything, targets=asked.targets)


def _lead(book: Book, asked: Lead) -> Answer:
    return lead_question(asked.typed(), rig=_rig(book, asked.rig))


def _ratio(_: Book, asked: Ratio) -> Answer:
    return ratio_question(asked.typed())


def _counts(book: Book, asked: Counts) -> Answer:
    return divide_chart({"chart": "2-400"} | asked.typed(), _rig(book, asked.rig))


def _leads(book: Book, asked: Leads) -> Answer:
    return lead_chart(asked.typed(), _rig(book, asked.rig))


Q = TypeVar("Q", bound=Question)


def _serve(path: str, model: type[Q], reply: Callable[[Book, Q], Answer]) -> None:
    """One question by GET, its fields in the address, and by POST, its fields in a JSON object."""

    def by_query(desk: AtDesk, asked: Any) -> Response:
        return _json(reply(desk.book, asked))

    def by_body(desk: AtDesk, asked: Any) -> Response:
        return _json(reply(desk.book, asked))

    by_query.__annotations__["asked"] = Annotated[model, Query()]
    by_body.__annotations__["asked"] = model
    name = path.strip("/").replace("/", "-")
    for method, function in (("GET", by_query), ("POST", by_body)):
        router.add_api_route(
            path,
            function,
            methods=[method],
            name=f"{name}-{method.lower()}",
            summary=(model.__doc__ or "").strip(),
            description=f"The same object as `evenpitch {name.split('-')[0]} --json` prints.",
            responses=REFUSED,
            response_model=dict[str, Any],
        )


def _json(made: Answer) -> Response:
    return Response(made.json_text(), media_type="application/json")


_serve("/gear", Gear, _gear)
_serve("/divide", Divide, _divide)
_serve("/lead", Lead, _lead)
_serve("/ratio", Ratio, _ratio)
_serve("/chart/counts", Counts, _counts)
_serve("/chart/leads", Leads, _leads)
