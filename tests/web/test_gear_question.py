"""The gear question as it is typed: the plane of a size, its unit, and what is refused."""

from __future__ import annotations

import math

import pytest

from evenpitch.quantity.refusal import Refusal
from evenpitch.web.gear_answer import gear_question


def asked(**typed: str) -> dict[str, object]:
    figures = gear_question({"teeth": "24", **{key.replace("_", "-"): value for key, value in typed.items()}}).json["figures"]
    return {name: figure["value"] for name, figure in figures.items()}


HELIX = {"helix": "22.5", "hand": "right"}


@pytest.mark.parametrize("size", ["3 transverse", "transverse 3", "mt 3", "module 3 transverse", "3 mm transverse"])
def test_a_transverse_module_needs_no_word_more(size: str) -> None:
    found = asked(module=size, **HELIX)
    assert found["transverse_module"] == pytest.approx(3, rel=1e-12)
    assert found["module"] == pytest.approx(3 * math.cos(math.radians(22.5)), rel=1e-11)


@pytest.mark.parametrize("size", ["16 transverse", "16 DP transverse", "tdp 16"])
def test_a_transverse_diametral_pitch_needs_no_word_more(size: str) -> None:
    found = asked(dp=size, **HELIX)
    assert found["transverse_module"] == pytest.approx(25.4 / 16, rel=1e-11)


@pytest.mark.parametrize("size", ["2", "2 mm", "2mm", "2 normal", "m 2"])
def test_a_module_is_normal_unless_it_says_otherwise(size: str) -> None:
    assert asked(module=size, **HELIX)["module"] == pytest.approx(2)


def test_a_diametral_pitch_has_no_unit() -> None:
    with pytest.raises(Refusal, match="no unit"):
        asked(dp="16 in")
