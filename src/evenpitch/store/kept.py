"""What the book keeps: frozen rows, handed out as nouns."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

PROOF_KINDS = ("mounting", "scale", "head", "link")
"""What a proof may be of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptRig:
    """A rig as typed. A change makes a new version; the old one stays."""

    name: str
    version: int
    text: str
    created: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptJob:
    """A job as typed, and the rig (and its version) it was last planned on; `rig` None: none named yet."""

    name: str
    version: int
    title: str
    text: str
    rig: str | None
    rig_version: int | None
    created: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptRelease:
    """A plan made final. `number`: of the plan within its job; `digest`: SHA-256 of the plan in canonical form."""

    key: int
    job: str
    job_version: int
    number: int
    date: datetime
    program: str
    digest: str
    plan: Mapping[str, Any]
    document: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Issued:
    """A plan made final, without its content. `key`: of the release in this book."""

    key: int
    number: int
    job_version: int
    date: datetime
    digest: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptEntry:
    """One line of the cut record. `space`: the space it speaks of, if one."""

    number: int
    at: datetime
    kind: str
    space: int | None
    payload: Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptProof:
    """One proof of a rig. `number`: of the proof within its rig; `rig_version`: the version that was proven.

    `job`, `gear`: of a link proof, the job and which gear of it, from 0; `typed`: readings and fields as typed; `facts`: JSON.
    """

    rig: str
    rig_version: int
    number: int
    kind: str
    job: str | None
    gear: int | None
    date: datetime
    program: str
    digest: str
    typed: Mapping[str, str]
    facts: Mapping[str, Any]
    document: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptInspection:
    """One inspection of a job. `number`: within its job; `gear`: from 0; `plan`: the number of the issued plan it was cut to, if any.

    `typed`: readings and fields as typed; `facts`: the verdict as it was given, JSON; `digest`: SHA-256 over both in canonical form.
    """

    job: str
    job_version: int
    number: int
    gear: int
    plan: int | None
    date: datetime
    program: str
    digest: str
    typed: Mapping[str, str]
    facts: Mapping[str, Any]
    document: str
