"""What a log can show and what it cannot, by the columns it has: printed with every verdict."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Observable:
    """One thing: whether this log can show it, and by what, or why not."""

    what: str
    shown: bool
    why: str


def observables(*, motor: bool, work: bool, uneven: bool, both_ways: bool, turn_share: float) -> tuple[Observable, ...]:
    """`uneven`: the feed changes; `both_ways`: the table turned round; `turn_share`: part of a turn of the work that was covered."""
    angle = "work angle against table"
    lag = uneven or both_ways
    return (
        Observable("pulses lost in the controller", True, "counts against pulses, in whole numbers"),
        Observable("ratio as entered", True, "counts against pulses"),
        Observable(
            "rotor slip",
            motor or work,
            "motor angle against pulses" if motor else angle if work else "needs a motor encoder or the work's angle",
        ),
        Observable("that the work turned", work, angle if work else "commanded pulses cannot prove it: needs the work's angle"),
        Observable("ratio of work to table", work, angle if work else "needs the work's angle"),
        Observable(
            "lag", lag, "feed that changes" if lag else "a steady feed one way hides it: crank unevenly, or log the way back"
        ),
        Observable("backlash", work and both_ways, _play(work, both_ways)),
        Observable("worm", work, "waves over the worm's turn" if work else "needs the work's angle"),
        Observable("worm wheel", work and turn_share > 1 / 3, _wheel(work, turn_share)),
        Observable("scale", False, "needs gauge blocks beside it"),
    )


def _play(work: bool, both_ways: bool) -> str:
    if not work:
        return "needs the work's angle"
    return "both ways in one log" if both_ways else "needs the way back in the same log"


def _wheel(work: bool, share: float) -> str:
    if not work:
        return "needs the work's angle"
    return f"{share:.2f} of a turn covered" if share > 1 / 3 else f"only {share:.2f} of a turn covered; a third is needed"
