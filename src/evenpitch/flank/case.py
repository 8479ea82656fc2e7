"""One case of the virtual cut in, one object of figures and traces out (micrometres). Plain dictionaries, as a file holds them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from evenpitch.flank.case_reading import Case, read_case
from evenpitch.flank.envelope import deviations
from evenpitch.flank.inspection import (
    helix_heights,
    helix_trace,
    pitch_figures,
    profile_rolls,
    profile_trace,
    readings,
    trace_figures,
)
from evenpitch.flank.wanted import Array
from evenpitch.quantity.refusal import refuse

MICROMETRES = 1000.0
NARROW = "face too narrow for a square span"


def run_case(case: Mapping[str, Any]) -> dict[str, Any]:
    """The answer to one case: what is left on both flanks of the first space named, and pitch, span, thickness. Raises Refusal."""
    read = read_case(case)
    wanted = read.cut.wanted
    answer: dict[str, Any] = {"u_mm": [wanted.u_start, wanted.u_end]}
    if wanted.q:
        answer["lead_mm"] = wanted.lead
    for sense, name in ((1, "+"), (-1, "-")):
        answer[name] = _flank(read, sense)
    return answer | _readings(read)


def _every(count: int) -> int:
    """A trace is printed at about ten points: each so many."""
    return max(1, (count - 1) // 10)


def _rounded(trace: Array) -> list[float]:
    """Micrometres to a millionth of one: below that stands only rounding."""
    return [round(float(value), 6) + 0.0 for value in trace]


def _flank(case: Case, sense: int) -> dict[str, Any]:
    """Figures and thinned traces of one flank."""
    cut, first = case.cut, case.teeth[0]
    profile = _known(profile_trace(cut, sense, first, case.n_profile)) * MICROMETRES
    helix = _known(helix_trace(cut, sense, first, case.n_lead)) * MICROMETRES
    alpha = trace_figures(profile_rolls(cut.wanted, case.n_profile), profile)
    beta = trace_figures(helix_heights(cut.wanted, case.n_lead), helix)
    across, long = _every(case.n_profile), _every(case.n_lead)
    found: dict[str, Any] = {
        "F_alpha": alpha.total,
        "f_f_alpha": alpha.form,
        "f_H_alpha": alpha.slope,
        "F_beta": beta.total,
        "f_f_beta": beta.form,
        "f_H_beta": beta.slope,
        f"profile_every_{across}": _rounded(profile[::across]),
        f"helix_every_{long}": _rounded(helix[::long]),
    }
    return found | (_pitch(case, sense) if case.all_spaces else {})


def _pitch(case: Case, sense: int) -> dict[str, float]:
    """Pitch figures of the whole circle."""
    teeth = np.arange(case.cut.wanted.teeth)
    u = np.full(len(teeth), case.cut.wanted.u_helix)
    found = pitch_figures(case.cut, sense, deviations(case.cut, u, np.zeros(len(teeth)), teeth, sense) * MICROMETRES)
    return {"f_p": found.single, "F_p": found.cumulative}


def _readings(case: Case) -> dict[str, Any]:
    """Span and thickness."""
    found = readings(case.cut, case.teeth)
    return {
        "span": {
            "over_teeth": found.span.teeth,
            "nominal_mm": found.span.nominal,
            "mean_dev_um": found.span_mean * MICROMETRES,
            "range_um": found.span_range * MICROMETRES,
            "note": "" if found.span.square else NARROW,
        },
        "tooth_thickness_dev_um": {"mean": found.thickness_mean * MICROMETRES, "range": found.thickness_range * MICROMETRES},
    }


def _known(trace: Array) -> Array:
    """The trace, unless the cutter nowhere touches part of it."""
    if np.isnan(trace).any():
        raise refuse("cutter", f"{int(np.isnan(trace).sum())} of {len(trace)} points not cut", "a form that cuts the whole inspected flank",
                     "The form ends below the tip, or its sides are parallel and cut nothing here.",
                     "Give a longer form, or a smaller u_end_mm.")  # fmt: skip
    return trace
