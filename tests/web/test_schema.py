"""Requests made at random from the description of the JSON interface: whatever is sent, the answer is not a fault of ours."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from schemathesis import GenerationMode
from starlette.testclient import TestClient

from evenpitch.store.book import Book
from evenpitch.store.where import places
from evenpitch.web.app import make_app
from evenpitch.web.demo import set_up_museum

HOST = "testserver"
EXAMPLES = 220 if os.environ.get("EVENPITCH_FULL") == "1" else 1
"""Of each route and method, twice; in full, with the words below, some 20 000 requests."""


@pytest.fixture(scope="module")
def described(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """The description that the server gives of itself, over a book of its own with the museum workshop in it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EVENPITCH_HOME", str(tmp_path_factory.mktemp("asked-at-random")))
        now = datetime(2026, 3, 12, 8, 0, tzinfo=UTC)
        with Book.open(places().book, now) as book:
            set_up_museum(book, lambda: now)
            yield schemathesis.openapi.from_asgi(
                "/openapi.json", make_app(book, now=lambda: now, allowed_hosts=frozenset({HOST}))
            )


def test_nothing_sent_is_a_fault_of_ours(described: Any) -> None:
    """Each route and method in turn, with requests that fit its description and requests that do not."""
    asked = 0
    for found in described.get_all_operations():
        operation = found.ok()
        asked += 1
        examples = max(1, EXAMPLES // 20) if "/chart/" in operation.path else EXAMPLES
        _ask(operation.as_strategy(generation_mode=GenerationMode.POSITIVE), examples)
        if len(operation.query) or len(operation.body):  # what takes no fields cannot be asked wrongly
            _ask(operation.as_strategy(generation_mode=GenerationMode.NEGATIVE), examples)
    assert asked > 20


def _ask(requests: Any, examples: int) -> None:
    @settings(
        max_examples=examples,
        deadline=None,
        derandomize=True,
        database=None,
        phases=(Phase.explicit, Phase.generate),
        suppress_health_check=list(HealthCheck),
    )
    @given(requests)
    def ask(case: Any) -> None:
        answer = case.call(headers={"origin": f"http://{HOST}"})
        assert answer.status_code < 500, (case.as_curl_command(), answer.text)

    ask()


WORDS = (
    "", " ", "0", "-0", "-1", "1", "2", "7", "40", "97", "113", "12.5", "14½", "1/3", "1 3/8", "0.001", "1e-300", "1e300", "1e9999", "nan",
    "inf", "999983", "1000000", "don't know", "none", "full", "stub", "fine", "iso53-d", "left", "right", "12 DP", "mn 2", "module 2",
    "17/64 in circular", "16 DP transverse", "20 in", "3/4\"", "1 um", "514.38mm", "2 hundredths", "20d5m12s", "89.999", "90", "45°", "2-9",
    "9-2", "15,16,17", "15,16;21,23", "24,24,28,32", "40:1", "1:40", "z=28 mn=2 beta=20", "z=28 mn=2", "a4", "192000", "65535", "Ω²", "٣",
    "'; --", "\x00", "9" * 400, "Museum horizontal mill", "[head]\nratio = 40",
)  # fmt: skip
"""What hands type, and what breaks readers."""
FIELDS: dict[str, tuple[str, ...]] = {
    "gear": ("teeth", "module", "dp", "pressure-angle", "helix", "hand", "shift", "face", "depth", "thinning", "spanned", "pin",
             "tolerance-class"),
    "divide": ("divisions", "angle", "rig", "worm-ratio", "circles", "direct", "change-gears", "pulses-per-turn"),
    "lead": ("lead", "rig", "worm-ratio", "screw-lead", "change-gears", "helix-of", "face", "pair-with"),
    "ratio": ("lead", "pulses-per-turn", "count", "largest-pulses", "largest-counts", "helix-of", "face"),
    "simulate": ("rig", "gear", "feed", "crank", "ramp", "poll", "play", "vibration"),
    "audit": ("rig", "gear", "log", "space"),
}  # fmt: skip
SOUND = {
    "gear": {"teeth": "28", "module": "2"},
    "divide": {"divisions": "113"},
    "lead": {"lead": "20.25 in"},
    "ratio": {"lead": "514.38 mm", "pulses-per-turn": "192000", "count": "1 um"},
    "simulate": {"job": "B", "feed": "60 mm/min"},
    "audit": {"job": "B", "log": "time_s,count,pulse\n" + "".join(f"{t},{10 * t},{4 * t}\n" for t in range(12))},
}


@pytest.mark.parametrize("question", FIELDS)
def test_words_in_any_field_are_answered_or_refused(described: Any, question: str) -> None:
    client = TestClient(described.app, headers={"origin": f"http://{HOST}"}, raise_server_exceptions=False)

    @settings(
        max_examples=EXAMPLES * 12 if EXAMPLES > 1 else 30,
        deadline=None,
        derandomize=True,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(st.dictionaries(st.sampled_from(FIELDS[question]), st.sampled_from(WORDS), max_size=4))
    def ask(typed: dict[str, str]) -> None:
        answer = client.post(f"/api/{question}", json=SOUND[question] | typed)
        assert answer.status_code in (200, 404, 422), (typed, answer.text)
        assert bool(answer.json().get("refusals")) == (answer.status_code != 200), typed

    ask()
