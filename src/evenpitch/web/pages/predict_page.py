"""Before the cut: what the rig will leave on a gear of a job, what spoils it, what would help, and the numbers for the controller."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.dividing.link_ratio import LARGEST
from evenpitch.job.predicting import Prediction
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.compose.prediction import compose_prediction
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.print_html import SOURCES, parts
from evenpitch.store.files.rig_file import RigFile
from evenpitch.web.pages.drive_fields_tried import (
    RATIO_FIELDS,
    TRY,
    asked,
    drive_fields,
    ratio_fields,
    tried_rig,
)
from evenpitch.web.pages.fields import left_over
from evenpitch.web.pages.plan_page import PDF, PaperAsked, Which, named, one_of
from evenpitch.web.pages.shown import AtDesk, Desk, address, job_nav, sheet
from evenpitch.web.planned import plan_of, rig_of_job
from evenpitch.web.predict_answer import controller_answer, prediction_answer, read_ratio_fields
from evenpitch.web.predicted import MOST_PAGE_DRAWS, PAGE_DRAWS, PAGE_IMPROVING, predicted
from evenpitch.web.typed import Collected

router = APIRouter(include_in_schema=False)

Draws = Annotated[int, Query(ge=100, le=MOST_PAGE_DRAWS)]
MORE_IMPROVING = 2000


def _query(request: Request) -> dict[str, str]:
    return dict(request.query_params)


Typed = Annotated[dict[str, str], Depends(_query)]


@dataclass(frozen=True, slots=True)
class OnDesk:
    """A gear of a job with its rig: as the book has it, or as tried in the form; `faults`: of what was tried.

    `fields`: largest pulses and counts that the controller's ratio takes.
    """

    name: str
    index: int
    gears: int
    job_text: str
    own: RigFile
    rig: RigFile
    in_book: str
    tried: dict[str, str] | None
    fields: tuple[int, int]
    faults: tuple[Fault, ...] = ()

    @property
    def which(self) -> int | str:
        """The gear as an address has it: nothing for the first."""
        return self.index + 1 if self.index else ""

    @property
    def carried(self) -> dict[str, str]:
        """What goes on to the next page: the drive tried, the fields of the ratio."""
        found = {} if self.tried is None else {TRY: "1"} | {path: text for path, text in self.tried.items() if text}
        return found | {word: str(most) for word, most in zip(RATIO_FIELDS, self.fields, strict=True) if most != LARGEST}

    def to(self, page: str, **more: object) -> str:
        """The address of another page of this gear, with what was tried."""
        return address("jobs", self.name, page, gear=self.which, **self.carried, **more)


def on_desk(desk: Desk, name: str, index: int, query: dict[str, str]) -> OnDesk:
    """What a page before or after the cut is about."""
    kept = desk.book.job(name)
    made = plan_of(desk.book, kept, desk.now().date())
    one_of(made, index)
    own, tried = rig_of_job(desk.book, kept), asked(query)
    faults: tuple[Fault, ...] = ()
    try:
        rig = tried_rig(own, tried)
    except Refusal as refusal:
        rig, faults = own, refusal.faults
    collected = Collected()
    fields = read_ratio_fields({word: text for word, text in query.items() if text.strip()}, collected)
    return OnDesk(name, index, len(made.gears), kept.text, own, rig, kept.rig or "", tried, fields, (*faults, *collected.faults))


def sound(at: OnDesk) -> OnDesk:
    """The same, or a Refusal with what was wrong with what was tried."""
    if at.faults:
        raise Refusal(*at.faults)
    return at


def found_of(at: OnDesk, draws: int = PAGE_DRAWS) -> Prediction:
    """The prediction, kept at hand."""
    improving = PAGE_IMPROVING if draws <= PAGE_DRAWS else MORE_IMPROVING
    return predicted(at.job_text, at.rig.text, at.index, draws, improving, at.fields)


@router.get("/jobs/{name:path}/predict")
def show_prediction(
    request: Request, desk: AtDesk, name: str, index: Which, query: Typed, draws: Draws = PAGE_DRAWS
) -> HTMLResponse:
    """The prediction; ?try=1 with fields of the drive tries another one, ?draws= draws more gears."""
    at = on_desk(desk, name, index, query)
    found = found_of(at, draws)
    document = compose_prediction(found)
    shown = parts(document, links=_links(at, found), sources_at=SOURCES)
    first = len(flagged(document.findings)) + 1
    fields = (*drive_fields(at.own, at.tried, at.faults, first), *ratio_fields(query, at.faults, first))
    return sheet(
        request,
        "predict.html",
        title=shown["title"],
        nav=job_nav(name, "plan", issued=bool(desk.book.issued(name))),
        cells=shown["cells"],
        action=_action(at, found),
        status=422 if at.faults else 200,
        head=shown["head"],
        aside=shown["aside"],
        body=shown["body"],
        left_over=left_over(at.faults, fields, first),
        fields=fields,
        to=address("jobs", name, "predict"),
        gear=index + 1 if index else "",
        tried=at.tried is not None,
        plain=address("jobs", name, "predict", gear=at.which),
        edit=address("rigs", at.in_book, "edit") if at.in_book else "",
        many=at.to("predict", draws=MOST_PAGE_DRAWS) if draws < MOST_PAGE_DRAWS else "",
        most=f"{MOST_PAGE_DRAWS:,}".replace(",", "\u202f"),
    )


def _action(at: OnDesk, found: Prediction) -> Action:
    if at.faults:
        return Action(f"{len(at.faults)} to clear, then try it", form="try-drive")
    if found.rates is not None:
        return Action("Simulate a pass", at.to("simulate"))
    return Action("Back to the plan", address("jobs", at.name, "plan", gear=at.which))


def _links(at: OnDesk, found: Prediction) -> tuple[Link, ...]:
    links = []
    if at.gears == 2:
        links.append(Link("its mate", address("jobs", at.name, "predict", gear="" if at.index else 2, **at.carried)))
    links.append(Link("the plan", address("jobs", at.name, "plan", gear=at.which)))
    if found.rates is not None:
        links += [
            Link("simulate a pass", at.to("simulate")),
            Link("audit a log", address("jobs", at.name, "audit", gear=at.which)),
        ]
    if found.resolution is not None:
        links += [Link(f"numbers, {kind.upper()}", at.to(f"controller.{kind}")) for kind in ("pdf", "csv", "json")]
    return (*links, Link("prediction, PDF", at.to("prediction.pdf")))


@router.get("/jobs/{name:path}/prediction.pdf")
def prediction_pdf(desk: AtDesk, name: str, index: Which, query: Typed, draws: Draws = PAGE_DRAWS) -> Response:
    """The prediction on paper, with what the address tries."""
    found = found_of(sound(on_desk(desk, name, index, query)), draws)
    return Response(prediction_answer(found).files["pdf"](), media_type=PDF, headers=named(f"{name} prediction.pdf"))


@router.get("/jobs/{name:path}/controller.{kind}")
def controller(
    desk: AtDesk, name: str, index: Which, query: Typed, kind: Literal["csv", "json", "pdf"], paper: PaperAsked = None
) -> Response:
    """Ratio, limits and targets for the controller, as a table, as JSON, or as a sheet; with what the address tries."""
    made = controller_answer(found_of(sound(on_desk(desk, name, index, query))), paper)
    if kind == "pdf":
        return Response(made.files["pdf"](), media_type=PDF, headers=named(f"{name} controller.pdf"))
    content, media = (made.files["csv"](), "text/csv") if kind == "csv" else (made.json_text().encode(), "application/json")
    return Response(content, media_type=media, headers=named(f"{name} controller.{kind}", keep=True))
