"""What was proven of a rig, laid on a plan: the sentence of the link on each gear, and what is old, missing or overtaken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from evenpitch.checking.good_to import GoodTo, good_to, sentence
from evenpitch.job.findings import finding
from evenpitch.job.linked_gear import link_chain, on_gear
from evenpitch.job.plan import GearPlan, LinkPromise, Plan
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre
from evenpitch.rig.maps import OLD_DAYS
from evenpitch.rig.rig import Rig

SAME_LEAD = 1e-9
"""Part of a lead within which a proof was made on the same one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofMade:
    """A proof of this rig. `day`: when; `changed`: what of the rig was changed since, or "".

    Of a link proof: `gear` of this job, from 0; `lead`: it was made on; `of_lead`: its U as a part of the angle turned; `off`: the
    error it showed, same kind, 0 where none was shown.
    """

    kind: Literal["mounting", "scale", "head", "link"]
    day: date
    changed: str = ""
    gear: int | None = None
    lead: float = 0.0
    of_lead: float = 0.0
    off: float = 0.0


def with_proofs(made: Plan, proofs: Sequence[ProofMade], today: date) -> Plan:
    """The plan with the sentence of the link on each gear that is cut by it, and what its proofs leave to be said."""
    gears = tuple(_with_promise(made.order.rig, gear, index, proofs, today) for index, gear in enumerate(made.gears))
    new = [
        found for gear, before in zip(gears, made.gears, strict=True) for found in gear.findings if found not in before.findings
    ]
    return replace(made, gears=gears, findings=by_weight((*made.findings, *dict.fromkeys(new))))


def _with_promise(rig: Rig, gear: GearPlan, index: int, proofs: Sequence[ProofMade], today: date) -> GearPlan:
    linked = gear.lead is not None and gear.lead.by == "link"
    promise = _promise(rig, gear, index, proofs) if linked else None
    found = (*_of_head(rig, today), *(_of_link(rig, gear, index, proofs, today) if promise is not None else ()))
    return replace(gear, promise=promise, findings=by_weight((*gear.findings, *found)))


def _last(proofs: Sequence[ProofMade], *kinds: str, gear: int | None = None) -> ProofMade | None:
    """The proof made last; of a link on one gear only."""
    fit = [one for one in proofs if one.kind in kinds and (gear is None or one.gear == gear)]
    return max(reversed(fit), key=lambda one: one.day, default=None)


def _of_gear(gear: GearPlan, index: int, proofs: Sequence[ProofMade]) -> tuple[ProofMade | None, str]:
    """The proof that holds for this gear; and, where the last one does not, what was changed since."""
    last = _last(proofs, "link", gear=index)
    if last is None:
        return None, ""
    if last.changed:
        return None, last.changed
    return (last, "") if abs(last.lead / gear.value("lead") - 1) <= SAME_LEAD else (None, "the lead of this gear")


def _promise(rig: Rig, gear: GearPlan, index: int, proofs: Sequence[ProofMade]) -> LinkPromise | None:
    try:
        on, (pulses, count) = on_gear(gear.gear), link_chain(rig)
    except Refusal:
        return None
    proof, _ = _of_gear(gear, index, proofs)
    latest = rig.latest_map()
    good: GoodTo = good_to(
        on,
        pulses_per_turn=pulses,
        count=Millimetre(count),
        harmonics=None if latest is None else latest.harmonics,
        ratio=rig.head.ratio,
        proven=None if proof is None else proof.of_lead,
        off=0.0 if proof is None else proof.off,
    )
    said = sentence(f"{gear.gear.teeth} teeth", on, good)
    if proof is None:
        return LinkPromise(good, f"{said} Not yet proven by block and bar.", None)
    return LinkPromise(good, said, proof.day)


def _of_head(rig: Rig, today: date) -> Iterator[Finding]:
    latest = rig.latest_map()
    if latest is not None and (days := (today - latest.date).days) > OLD_DAYS:
        yield finding("head-map-old", days=days, date=_spoken(latest.date))


def _of_link(rig: Rig, gear: GearPlan, index: int, proofs: Sequence[ProofMade], today: date) -> Iterator[Finding]:
    link, changed = _of_gear(gear, index, proofs)
    if changed:
        yield finding("link-proof-overtaken", teeth=gear.gear.teeth, what=changed)
    elif link is None:
        yield finding("link-not-proven", teeth=gear.gear.teeth)
    elif (days := (today - link.day).days) > OLD_DAYS:
        yield finding("link-proof-old", teeth=gear.gear.teeth, days=days, date=_spoken(link.day))
    if rig.link is None or rig.link.input == "screw encoder":
        return
    scale = _last(proofs, "scale", "mounting")
    if scale is None and link is None:
        yield finding("scale-not-proven")
    elif scale is not None and (days := (today - scale.day).days) > OLD_DAYS:
        yield finding("scale-proof-old", days=days, date=_spoken(scale.day))


def _spoken(day: date) -> str:
    return f"{day.day} {day:%B %Y}"
