"""A form of readings as it was sent: fields as typed, and the table, typed or from a file."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

from evenpitch.quantity.refusal import Fault
from evenpitch.store.files.readings import LARGEST_READINGS

MOST_FIELDS = 200
TABLE = "readings"
FILE = "file"


class Sent(dict[str, str]):
    """Fields that were filled in, by their names; `faults`: of a file that cannot be read as a table."""

    faults: tuple[Fault, ...] = ()


async def _sent(request: Request) -> Sent:
    async with request.form(max_files=1, max_fields=MOST_FIELDS, max_part_size=LARGEST_READINGS) as form:
        found = Sent({name: value for name, value in form.multi_items() if isinstance(value, str) and value.strip()})
        file = form.get(FILE)
        if isinstance(file, UploadFile) and file.filename:
            found.faults = _taken(found, file.filename, await file.read())
    return found


def _taken(found: Sent, name: str, content: bytes) -> tuple[Fault, ...]:
    """A file in place of the table typed; or what is wrong with it."""
    if not content.strip():
        return (Fault(TABLE, name, "a file with something in it", "It is empty.", "Choose another file."),)
    try:
        found[TABLE] = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return (Fault(TABLE, name, "text in UTF-8", "It is not plain text.", "Save it as CSV, UTF-8."),)
    return ()


SentForm = Annotated[Sent, Depends(_sent)]
"""A posted form with perhaps one file."""
