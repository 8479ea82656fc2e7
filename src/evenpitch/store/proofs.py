"""Proofs of a rig: readings as they were typed, what they gave, and the sheet of it; written once, never changed."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from evenpitch.quantity.refusal import refuse
from evenpitch.store import shelf
from evenpitch.store.canonical import canonical, digest_of, holdable, time_of, time_text
from evenpitch.store.kept import PROOF_KINDS, KeptProof

_PROOF = (
    "SELECT proof.rig_name, rig.version, proof.number, proof.kind, proof.job_name, proof.gear, proof.date, proof.program, "
    "proof.digest, proof.typed, proof.facts, proof.document FROM proof JOIN rig ON rig.id = proof.rig WHERE proof.rig_name = ? "
)


def _proof_of(row: tuple[Any, ...]) -> KeptProof:
    rig, version, number, kind, job, gear, date, program, digest, typed, facts, document = row
    found = json.loads(facts)
    if digest_of([json.loads(typed), found]) != digest:
        likely = "The stored proof was changed outside evenpitch, or the disk is failing."
        raise refuse("proof", f"proof {number} of {rig}", f"the digest {digest[:12]}", likely, "Restore a copy of the book.")
    return KeptProof(
        rig=rig,
        rig_version=version,
        number=number,
        kind=kind,
        job=job,
        gear=gear,
        date=time_of(date),
        program=program,
        digest=digest,
        typed=json.loads(typed),
        facts=found,
        document=document,
    )


def add_proof(
    book: sqlite3.Connection,
    rig: str,
    kind: str,
    typed: Mapping[str, str],
    facts: Mapping[str, Any],
    document: str,
    at: datetime,
    program: str,
    *,
    rig_version: int | None,
    job: str | None,
    gear: int | None,
) -> KeptProof:
    """Write the next proof of a rig, on its newest version; a Refusal where the rig was changed since `rig_version`."""
    if kind not in PROOF_KINDS:
        raise ValueError(f"no kind of proof: {kind}")
    kept = shelf.rig(book, rig)
    if rig_version not in (None, kept.version):
        likely = "The rig was changed after this page was loaded."
        raise refuse(
            "rig", f"version {rig_version}", f"version {kept.version}", likely, "Judge the readings again, then keep them."
        )
    if job is not None:
        shelf.job(book, job)
    key = book.execute("SELECT id FROM rig WHERE name = ? AND version = ?", (kept.name, kept.version)).fetchone()[0]
    number = (book.execute("SELECT max(number) FROM proof WHERE rig_name = ?", (kept.name,)).fetchone()[0] or 0) + 1
    book.execute(
        "INSERT INTO proof (rig, rig_name, number, kind, job_name, gear, date, program, digest, typed, facts, document) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            key,
            kept.name,
            number,
            kind,
            job,
            gear,
            time_text(at),
            program,
            digest_of([dict(typed), dict(facts)]),
            canonical(dict(typed)),
            canonical(dict(facts)),
            document,
        ),
    )
    return proof(book, kept.name, number)


def proofs(book: sqlite3.Connection, rig: str) -> tuple[KeptProof, ...]:
    """The proofs of a rig, whatever version, the first first; each held against its digest."""
    return tuple(map(_proof_of, book.execute(_PROOF + "ORDER BY proof.number", (rig,))))


def proof(book: sqlite3.Connection, rig: str, number: int) -> KeptProof:
    """One proof of a rig."""
    row = book.execute(_PROOF + "AND proof.number = ?", (rig, number)).fetchone() if holdable(number) else None
    if row is None:
        shelf.rig(book, rig)
        raise refuse(
            "proof", number, "a proof that was kept", f"The rig {rig} has none of that number.", "Look on the rig's page."
        )
    return _proof_of(row)
