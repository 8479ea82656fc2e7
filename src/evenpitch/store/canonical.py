"""One spelling for any JSON value, so that the same content always has the same digest."""

from __future__ import annotations

import hashlib
import json
from datetime import UTC, datetime
from typing import Any


def canonical(value: Any) -> str:
    """JSON with sorted keys and no spaces; NaN and infinities are refused with ValueError."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def digest_of(value: Any) -> str:
    """SHA-256, in hexadecimal, of the canonical form."""
    return hashlib.sha256(canonical(value).encode()).hexdigest()


def time_text(at: datetime) -> str:
    """A time as stored: UTC, to the microsecond. A time without a zone is our own mistake: ValueError."""
    if at.tzinfo is None:
        raise ValueError("a time without its zone cannot be stored")
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def time_of(text: str) -> datetime:
    """The time, in UTC, that `time_text` wrote."""
    return datetime.fromisoformat(text).astimezone(UTC)


def holdable(number: int) -> bool:
    """Whether the book could hold that number at all: asked for a longer one SQLite does not look, it breaks off."""
    return -(2**63) <= number < 2**63
