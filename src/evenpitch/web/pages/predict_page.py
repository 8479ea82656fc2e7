"""Before the cut: what the rig will leave on a gear of a job, what spoils it, what would help, and the numbers for the controller."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, Response

from evenpitch.job.predicting import Prediction
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.sheet.compose.prediction import compose_prediction
from evenpitch.sheet.flags import flagged
from evenpitch.sheet.frame_html import Action, Link
from evenpitch.sheet.print_html import SOURCES, parts
from evenpitch.store.files.rig_file import RigFile
from evenpitch.web.pages.drive_fields_tried import asked, drive_fields, tried_rig
from evenpitch.web.pages.fields import left_over
from evenpitch.web.pages.plan_page import PDF, PaperAsked, Which, named, one_of
from evenpitch.web.pages.shown import AtDesk, Desk, address, job_nav, sheet
from evenpitch.web.planned import plan_of, rig_of_job
from evenpitch.web.predict_answer import controller_answer, prediction_answer
from evenpitch.web.predicted import MOST_PAGE_DRAWS, PAGE_DRAWS, PAGE_IMPROVING, predicted

router = APIRouter(include_in_schema=False)

Draws = Annotated[int, Query(ge=100, le=MOST_PAGE_DRAWS)]
MORE_IMPROVING = 2000


def _query(request: Request) -> dict[str, str]:
    return dict(request.query_params)


Typed = Annotated[dict[str, str], Depends(_query)]


@dataclass(frozen=True, slots=True)
class OnDesk:
    """A gear of a job with its rig: as the book has it, or as tried in the form; `faults`: of what was tried."""

    name: str
    index: int
    gears: int
    job_text: str
    own: RigFile
    rig: RigFile
    in_book: str
    tried: dict[str, str] | None
    faults: tuple[Fault, ...] = ()


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
    return OnDesk(name, index, len(made.gears), kept.text, own, rig, kept.rig or "", tried, faults)


def found_of(at: OnDesk, draws: int = PAGE_DRAWS) -> Prediction:
    """The prediction, kept at hand."""
    return predicted(at.job_text, at.rig.text, at.index, draws, PAGE_IMPROVING if draws <= PAGE_DRAWS else MORE_IMPROVING)


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
    fields = drive_fields(at.own, at.tried, at.faults, first)
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
        plain=address("jobs", name, "predict", gear=_which(at)),
        edit=address("rigs", at.in_book, "edit") if at.in_book else "",
        many=address("jobs", name, "predict", gear=_which(at), draws=MOST_PAGE_DRAWS) if draws < MOST_PAGE_DRAWS else "",
        most=f"{MOST_PAGE_DRAWS:,}".replace(",", "\u202f"),
    )


def _which(at: OnDesk) -> int | str:
    return at.index + 1 if at.index else ""


def _action(at: OnDesk, found: Prediction) -> Action:
    if at.faults:
        return Action(f"{len(at.faults)} to clear, then try it", form="try-drive")
    if found.rates is not None:
        return Action("Simulate a pass", address("jobs", at.name, "simulate", gear=_which(at)))
    return Action("Back to the plan", address("jobs", at.name, "plan", gear=_which(at)))


def _links(at: OnDesk, found: Prediction) -> tuple[Link, ...]:
    which = _which(at)
    links = []
    if at.gears == 2:
        links.append(Link("its mate", address("jobs", at.name, "predict", gear="" if at.index else 2)))
    links.append(Link("the plan", address("jobs", at.name, "plan", gear=which)))
    if found.rates is not None:
        links += [
            Link("simulate a pass", address("jobs", at.name, "simulate", gear=which)),
            Link("audit a log", address("jobs", at.name, "audit", gear=which)),
        ]
    if found.resolution is not None:
        links += [
            Link(f"numbers, {kind.upper()}", address("jobs", at.name, f"controller.{kind}", gear=which))
            for kind in ("pdf", "csv", "json")
        ]
    return (*links, Link("prediction, PDF", address("jobs", at.name, "prediction.pdf", gear=which)))


@router.get("/jobs/{name:path}/prediction.pdf")
def prediction_pdf(desk: AtDesk, name: str, index: Which, draws: Draws = PAGE_DRAWS) -> Response:
    """The prediction on paper."""
    found = found_of(on_desk(desk, name, index, {}), draws)
    return Response(prediction_answer(found).files["pdf"](), media_type=PDF, headers=named(f"{name} prediction.pdf"))


@router.get("/jobs/{name:path}/controller.{kind}")
def controller(desk: AtDesk, name: str, index: Which, kind: Literal["csv", "json", "pdf"], paper: PaperAsked = None) -> Response:
    """Ratio, limits and targets for the controller, as a table, as JSON, or as a sheet."""
    made = controller_answer(found_of(on_desk(desk, name, index, {})), paper)
    if kind == "pdf":
        return Response(made.files["pdf"](), media_type=PDF, headers=named(f"{name} controller.pdf"))
    content, media = (made.files["csv"](), "text/csv") if kind == "csv" else (made.json_text().encode(), "application/json")
    return Response(content, media_type=media, headers=named(f"{name} controller.{kind}", keep=True))
