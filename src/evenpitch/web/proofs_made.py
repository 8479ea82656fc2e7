"""The proofs of a rig in the book, as a plan needs them."""

from __future__ import annotations

from typing import Literal

from evenpitch.job.proven import ProofMade
from evenpitch.quantity.refusal import Refusal
from evenpitch.rig.rig import Rig
from evenpitch.store.book import Book
from evenpitch.store.files.rig_file import read_rig
from evenpitch.store.kept import KeptProof

MILLION = 1e6
OF_RIG: dict[str, Literal["mounting", "scale", "head"]] = {"mounting": "mounting", "scale": "scale", "head": "head"}


def proofs_of(book: Book, name: str, rig: Rig, job: str) -> tuple[ProofMade, ...]:
    """All proofs of a rig; of its link only those made on this job."""
    kept = [proof for proof in book.proofs(name) if proof.kind != "link" or proof.job == job]
    changed = {proof.rig_version: "" for proof in kept}
    for version in changed:
        changed[version] = _changed(book, name, version, rig)
    return tuple(_made(proof, changed[proof.rig_version]) for proof in kept)


def _changed(book: Book, name: str, version: int, rig: Rig) -> str:
    """What of head and link is no longer as it was when that version was proven."""
    try:
        then = read_rig(book.rig(name, version).text).rig
    except Refusal:
        return "the rig's description"
    if then.head.ratio != rig.head.ratio:
        return "the worm ratio"
    before, after = then.link, rig.link
    if before is None or after is None:
        return "" if before is after else "the link"
    words = (("belt", "the belt"), ("microsteps", "the microsteps"), ("full_steps", "the motor"), ("count", "the count of the scale"),
             ("motor_on", "where the motor drives"), ("input", "what the link counts"), ("plate_turns", "the plate drive"))  # fmt: skip
    return next((said for field, said in words if getattr(before, field) != getattr(after, field)), "")


def _made(proof: KeptProof, changed: str) -> ProofMade:
    day = proof.date.astimezone().date()
    facts = proof.facts.get("link")
    if proof.kind != "link" or not isinstance(facts, dict):
        return ProofMade(kind=OF_RIG.get(proof.kind, "mounting"), day=day, changed=changed)
    error, U = float(facts["error_arcsec"]), float(facts["U_arcsec"])
    wanted = float(facts["wanted_deg"]) * 3600
    return ProofMade(
        kind="link",
        day=day,
        changed=changed,
        gear=proof.gear,
        lead=float(proof.facts.get("lead_mm", 0.0)),
        of_lead=float(facts["U_ppm_of_lead"]) / MILLION,
        off=error / wanted if abs(error) > U else 0.0,
    )
