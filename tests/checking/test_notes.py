"""Every note that readings can call forth: each is used, each fills its texts, each source is in the library."""

import re
from pathlib import Path

import numpy as np
import pytest

import evenpitch
from checking.made import scale
from evenpitch.checking.notes import NOTES, note
from evenpitch.job.commissioning import commission_scale
from evenpitch.quantity.finding import WEIGHTS
from evenpitch.sources.library import source_named
from evenpitch.store.files.rig_file import read_rig

ROOT = Path(evenpitch.__file__).parent
RIG = read_rig((Path(__file__).parents[2] / "examples" / "museum-mill.toml").read_bytes()).rig


@pytest.mark.parametrize("code", NOTES)
def test_each_note_is_used_and_stands_on_a_source(code):
    text = "".join(path.read_text() for room in ("checking", "job") for path in (ROOT / room).glob("*.py"))
    assert len(re.findall(rf'"{code}"', text)) >= 2
    kind = NOTES[code]
    assert kind.weight in WEIGHTS
    for source in kind.sources:
        assert source_named(source)


def test_a_reversal_larger_than_a_count_is_said():
    made = commission_scale(scale(np.random.default_rng(1), reversal=0.012), rig=RIG)
    said = next(one for one in made.findings if one.code == "reversal-large")
    assert "one count is 1.0" in said.says


def test_correcting_is_advised_over_a_long_face():
    made = commission_scale(scale(np.random.default_rng(1), gain=-180e-6), face=400.0)
    assert "gain-correct" in {one.code for one in made.findings}


def test_texts_are_filled():
    said = note("walks", um=3.0)
    assert (said.says, said.weight) == ("It walks 3 µm a stroke, one way.", "look")
