"""The gear question: typed words in, every size of one gear out."""

from __future__ import annotations

import re
from typing import Any

from evenpitch.job.gear_question import ask_gear
from evenpitch.quantity.refusal import Fault, Refusal, refuse
from evenpitch.quantity.showing import System
from evenpitch.sheet.answers import answer, figures_json
from evenpitch.sheet.compose.gear import compose_gear
from evenpitch.store.files.job_file import job_from_fields
from evenpitch.web.answer import Answer
from evenpitch.web.typed import Typed

_PLANE_OR_UNIT = {"normal", "norm", "n", "transverse", "trans", "t", "mm", "in", "inch", "plane"}


def gear_fields(typed: Typed) -> dict[str, str]:
    """The fields of a job form from those of the gear question: module or dp become the pitch; what may be left out is said so."""
    fields = {key.replace("-", "_"): value for key, value in typed.items() if key not in ("module", "dp")}
    fields.setdefault("pressure_angle", "20")
    fields.setdefault("face", "don't know")
    module, dp = typed.get("module"), typed.get("dp")
    if module is not None and dp is not None:
        raise refuse("dp", dp, "module or dp, not both", "Both sizes were given.", "Leave one of them out.")
    if dp is not None:
        fields["pitch"] = dp if _names_its_kind(dp) else f"{dp} DP"
    elif module is not None:
        fields["pitch"] = module if _names_its_kind(module) else f"module {module}"
    return {f"gear.0.{key}": value for key, value in fields.items()}


def _names_its_kind(size: str) -> bool:
    """Whether the size says in words what it is; a plane or a unit of length leaves that to the option it was typed under."""
    return bool(set(re.findall("[a-z]+", size.casefold())) - _PLANE_OR_UNIT)


def gear_question(typed: Typed) -> Answer:
    """The gear question answered."""
    try:
        gear = job_from_fields(gear_fields(typed)).works[0].gear
        found = ask_gear(gear)
    except Refusal as refusal:
        raise Refusal(*(bare(fault) for fault in refusal.faults)) from None
    more: dict[str, Any] = {}
    if found.limits:
        more = {"tolerances": figures_json(found.limits), "tolerance_class": found.tolerance_class}
    system: System = "inch" if gear.pitch.inch or gear.pitch.kind == "diametral pitch" else "metric"
    return Answer(compose_gear(found, system), answer("gear", found.figures, found.findings, **more))


def bare(fault: Fault) -> Fault:
    """The field as the gear question names it."""
    return Fault(
        fault.field.removeprefix("gear.0.").removeprefix("gear 1, "), fault.given, fault.expected, fault.likely, fault.do
    )
