"""An exported job: one JSON Lines file that opens without the book, with a version line first and a digest last."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from evenpitch.quantity.refusal import Refusal, refuse
from evenpitch.store.canonical import canonical, digest_of, time_of, time_text
from evenpitch.store.kept import KeptEntry, KeptInspection, KeptJob, KeptRelease, KeptRig

EDITION = 2
"""Of the form of the file: 2 has inspections. A job without any is written as edition 1, which an older program takes in too."""

LARGEST = 64_000_000
"""Bytes that are read of one file."""

KINDS = ("job", "rig", "release", "entry", "inspection")


@dataclass(frozen=True, slots=True, kw_only=True)
class Exported:
    """What one exported job holds. `read_only`: written by a later edition; `later`: kinds of line this one does not know."""

    edition: int
    program: str
    jobs: tuple[KeptJob, ...]
    rigs: tuple[KeptRig, ...] = ()
    releases: tuple[KeptRelease, ...] = ()
    entries: tuple[tuple[int, KeptEntry], ...] = ()
    inspections: tuple[KeptInspection, ...] = ()
    later: tuple[str, ...] = ()

    @property
    def read_only(self) -> bool:
        """A later edition may mean things that this one does not know: it may be looked at, not taken into the book."""
        return self.edition > EDITION

    def entries_of(self, number: int) -> tuple[KeptEntry, ...]:
        """The cut record of the plan of that number."""
        return tuple(entry for of, entry in self.entries if of == number)


def write_exported(found: Exported) -> str:
    """The file's text. Lines are in canonical form; the last one is the SHA-256 over all before it."""
    lines: list[dict[str, Any]] = [{"evenpitch exported job": EDITION if found.inspections else 1, "program": found.program}]
    lines += [{"job": _job_line(job)} for job in found.jobs]
    lines += [
        {"rig": {"name": r.name, "version": r.version, "text": r.text, "created": time_text(r.created)}} for r in found.rigs
    ]
    lines += [{"release": _release_line(release)} for release in found.releases]
    lines += [{"entry": _entry_line(number, entry)} for number, entry in found.entries]
    lines += [{"inspection": _inspection_line(one)} for one in found.inspections]
    return "".join(canonical(line) + "\n" for line in [*lines, {"digest": _digest(lines)}])


def read_exported(data: bytes) -> Exported:
    """Read an exported job; a Refusal where it is damaged, cut short, too long or something else."""
    if len(data) > LARGEST:
        raise _damaged(f"{len(data)} bytes", f"at most {LARGEST} bytes", "This is not an exported job.")
    try:
        lines = [_object(line) for line in data.decode("utf-8-sig").splitlines() if line.strip()]
        digest = _digest(lines[:-1])
    except (ValueError, RecursionError) as trouble:
        raise _damaged(
            str(trouble), "one JSON object on each line", "The file is damaged or is not an exported job."
        ) from trouble
    if not lines or not isinstance(edition := lines[0].get("evenpitch exported job"), int) or edition < 1:
        raise _damaged("", "the line that names the edition first", "This is not an exported job.")
    if len(lines) < 2 or lines[-1] != {"digest": digest}:
        raise _damaged("", "a last line with the digest of all before it", "The file was changed or cut short on its way.")
    try:
        return _gather(edition, str(lines[0].get("program", "")), lines[1:-1])
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError, RecursionError) as trouble:
        raise _damaged(repr(trouble), "lines as evenpitch writes them", "Another program has written it.") from trouble


def _damaged(given: str, expected: str, likely: str) -> Refusal:
    return refuse("exported job", given, expected, likely, "Export it again, or fetch the file again.")


def _object(line: str) -> dict[str, Any]:
    found = json.loads(line, parse_constant=_no_constant)
    if not isinstance(found, dict):
        raise ValueError("a line that is no object")
    return found


def _no_constant(name: str) -> Any:
    raise ValueError(f"{name} is no number")


def _digest(lines: Iterable[Mapping[str, Any]]) -> str:
    return hashlib.sha256("".join(canonical(line) + "\n" for line in lines).encode("utf-8", "surrogatepass")).hexdigest()


def _job_line(job: KeptJob) -> dict[str, Any]:
    return {
        "name": job.name,
        "version": job.version,
        "title": job.title,
        "text": job.text,
        "rig": job.rig,
        "rig_version": job.rig_version,
        "created": time_text(job.created),
    }


def _release_line(release: KeptRelease) -> dict[str, Any]:
    return {
        "job_version": release.job_version,
        "number": release.number,
        "date": time_text(release.date),
        "program": release.program,
        "digest": release.digest,
        "plan": release.plan,
        "document": release.document,
    }


def _entry_line(number: int, entry: KeptEntry) -> dict[str, Any]:
    return {
        "release": number,
        "number": entry.number,
        "at": time_text(entry.at),
        "kind": entry.kind,
        "space": entry.space,
        "payload": entry.payload,
    }


def _inspection_line(one: KeptInspection) -> dict[str, Any]:
    return {
        "job_version": one.job_version,
        "number": one.number,
        "gear": one.gear,
        "plan": one.plan,
        "date": time_text(one.date),
        "program": one.program,
        "digest": one.digest,
        "typed": one.typed,
        "facts": one.facts,
        "document": one.document,
    }


def _gather(edition: int, program: str, lines: list[dict[str, Any]]) -> Exported:
    kinds: dict[str, list[Any]] = {kind: [] for kind in KINDS}
    later = []
    for line in lines:
        for kind, held in line.items():
            if kind in kinds:
                kinds[kind].append(held)
            elif edition > EDITION:
                later.append(kind)
            else:
                raise _damaged(kind, f"lines of {', '.join(KINDS)}", "Another program has written it.")
    jobs = tuple(map(_job_of, kinds["job"]))
    if not jobs or len({job.name for job in jobs}) != 1:
        raise _damaged("", "one job", "The file holds no job, or several.")
    return Exported(
        edition=edition,
        program=program,
        jobs=jobs,
        rigs=tuple(map(_rig_of, kinds["rig"])),
        releases=tuple(_release_of(held, jobs[0].name) for held in kinds["release"]),
        entries=tuple((_whole(held["release"]), _entry_of(held)) for held in kinds["entry"]),
        inspections=tuple(_inspection_of(held, jobs[0].name) for held in kinds["inspection"]),
        later=tuple(dict.fromkeys(later)),
    )


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(f"{value!r} is no text")
    value.encode()
    return value


def _whole(value: Any) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value < 2**53:
        raise TypeError(f"{value!r} is no count")
    return value


def _time(value: Any) -> datetime:
    found = datetime.fromisoformat(_text(value))
    if found.tzinfo is None:
        raise ValueError(f"{value!r} has no time zone")
    return time_of(_text(value))


def _mapping(value: Any) -> Mapping[str, Any]:
    if not isinstance(value, dict):
        raise TypeError("no JSON object")
    digest_of(value)  # refuses what has no one spelling
    return value


def _rig_of(held: Any) -> KeptRig:
    return KeptRig(
        name=_text(held["name"]), version=_whole(held["version"]), text=_text(held["text"]), created=_time(held["created"])
    )


def _job_of(held: Any) -> KeptJob:
    return KeptJob(
        name=_text(held["name"]),
        version=_whole(held["version"]),
        title=_text(held["title"]),
        text=_text(held["text"]),
        rig=None if held["rig"] is None else _text(held["rig"]),
        rig_version=None if held["rig_version"] is None else _whole(held["rig_version"]),
        created=_time(held["created"]),
    )


def _release_of(held: Any, job: str) -> KeptRelease:
    plan = _mapping(held["plan"])
    if digest_of(plan) != held["digest"]:
        raise _damaged(
            f"plan {held['number']}", "a plan that agrees with its digest", "The plan was changed after it was issued."
        )
    return KeptRelease(
        key=0,
        job=job,
        job_version=_whole(held["job_version"]),
        number=_whole(held["number"]),
        date=_time(held["date"]),
        program=_text(held["program"]),
        digest=_text(held["digest"]),
        plan=plan,
        document=_text(held["document"]),
    )


def _entry_of(held: Any) -> KeptEntry:
    return KeptEntry(
        number=_whole(held["number"]),
        at=_time(held["at"]),
        kind=_text(held["kind"]),
        space=None if held["space"] is None else _whole(held["space"]),
        payload=_mapping(held["payload"]),
    )


def _inspection_of(held: Any, job: str) -> KeptInspection:
    typed, facts = _mapping(held["typed"]), _mapping(held["facts"])
    for name, text in typed.items():
        _text(name), _text(text)
    if digest_of([typed, facts]) != held["digest"]:
        raise _damaged(
            f"inspection {held['number']}",
            "readings and verdict that agree with their digest",
            "The inspection was changed after it was kept.",
        )
    return KeptInspection(
        job=job,
        job_version=_whole(held["job_version"]),
        number=_whole(held["number"]),
        gear=_whole(held["gear"]),
        plan=None if held["plan"] is None else _whole(held["plan"]),
        date=_time(held["date"]),
        program=_text(held["program"]),
        digest=_text(held["digest"]),
        typed=typed,
        facts=facts,
        document=_text(held["document"]),
    )
