"""Whatever stands in a file or form: a noun or a Refusal, never another exception."""

from __future__ import annotations

from typing import Any

import pytest
import tomlkit
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from evenpitch.quantity.refusal import Refusal
from evenpitch.store.exported import read_exported
from evenpitch.store.files.job_file import job_from_fields, read_job
from evenpitch.store.files.job_tables import JobTable
from evenpitch.store.files.rig_file import read_rig, rig_from_fields
from evenpitch.store.files.rig_tables import RigTable
from evenpitch.store.museum import JOBS, museum_text

QUICK = settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow])
RIG, JOB = museum_text("museum-mill"), museum_text("timing-pair")

snippets = st.sampled_from(
    ["97", "12 DP", "module 2", "14½", "0.75 in", "don't know", "+0/-0.05 mm", "1,234", "-5", "½ ¾ in/min", "20:60", "none", "20..50 mm",
     "\x00", "9" * 500, "1e400", "1/0", "nan", "'", '"', "٣", "2 tenths", "with 1 idler", "2026-03-12", "true", "", " ", "[]", "1e-9 kg m2"]
)  # fmt: skip
words = st.one_of(snippets, st.text(max_size=12))
plain = st.one_of(words, st.integers(), st.floats(), st.booleans(), st.dates())


def told(read: Any, *given: Any) -> Any:
    """What was read, or None where it was refused in full."""
    try:
        return read(*given)
    except Refusal as refusal:
        faults = refusal.faults
    assert faults
    assert all(fault.field and fault.expected and fault.do for fault in faults)
    return None


@QUICK
@given(st.one_of(st.binary(max_size=200), st.text(max_size=200)))
def test_any_bytes(data: bytes | str) -> None:
    told(read_rig, data)
    told(read_job, data)
    told(read_exported, data if isinstance(data, bytes) else data.encode("utf-8", "surrogatepass"))


@QUICK
@given(st.integers(0, len(RIG)), st.integers(0, 30), st.text(max_size=6))
def test_a_file_with_a_piece_changed(place: int, length: int, put: str) -> None:
    told(read_rig, RIG[:place] + put + RIG[place + length :])
    place %= len(JOB)
    told(read_job, JOB[:place] + put + JOB[place + length :])


def tables(shape: Any) -> st.SearchStrategy[dict[str, Any]]:
    """Tables with right and wrong names, right and wrong kinds of values."""
    from evenpitch.store.files.tables import nested

    options: dict[str, st.SearchStrategy[Any]] = {}
    for name, field in shape.model_fields.items():
        inner = nested(field.annotation)
        value: st.SearchStrategy[Any] = st.one_of(plain, st.lists(plain, max_size=3))
        if inner is not None:
            one = tables(inner)
            value = st.one_of(one, st.lists(one, max_size=3), plain)
        options[name] = value
    return st.fixed_dictionaries({}, optional={**options, "mistaken": plain})


@QUICK
@given(tables(RigTable), tables(JobTable))
def test_any_tables(rig: dict[str, Any], job: dict[str, Any]) -> None:
    told(read_rig, tomlkit.dumps(rig))
    told(read_job, tomlkit.dumps(job))


paths = st.one_of(
    st.sampled_from([path for path, _ in read_rig(RIG).typed] + [path for path, _ in read_job(JOB).typed]),
    st.lists(st.sampled_from(["gear", "head", "plate", "0", "7", "teeth", "map", "harmonics", "link", ""]), max_size=5).map(
        ".".join
    ),
)


@QUICK
@given(st.dictionaries(paths, words, max_size=12), st.booleans())
def test_any_form(changes: dict[str, str], over: bool) -> None:
    for text, read, form in ((RIG, read_rig, rig_from_fields), (JOB, read_job, job_from_fields)):
        fields = {**dict(read(text).typed), **changes} if over else changes
        found = told(form, fields, *((text,) if over else ()))
        if found is not None:
            again: Any = read(found.text)
            assert getattr(again, "works", None) == getattr(found, "works", None)
            assert getattr(again, "rig", None) == getattr(found, "rig", None)


kept = st.text(st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp")), min_size=1, max_size=40).filter(
    lambda text: text == text.strip()
)


@QUICK
@given(kept, st.sampled_from([""] + [museum_text(name) for name in JOBS.values()]))
def test_free_text_goes_to_the_file_and_back(title: str, over: str) -> None:
    fields = dict(read_job(museum_text("draft-wheel")).typed) | {"title": title, "choice.cutter": title}
    found = told(job_from_fields, fields, over)
    if found is not None:
        assert dict(read_job(found.text).typed) == fields
        assert read_job(found.text).choice == found.choice


@pytest.mark.parametrize(
    "text", ["a." * 3000 + "b = 1", "[" + ".".join("a" * 1 for _ in range(3000)) + "]", "a = " + "{b = " * 2000]
)
def test_deep_nesting(text: str) -> None:
    assert told(read_rig, text) is None
    assert told(read_job, text) is None
