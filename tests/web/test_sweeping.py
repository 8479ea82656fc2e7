"""A long sweep on the command line says how far it is, and the interrupt key stops it with what is done."""

from __future__ import annotations

import json
import signal

import pytest

from evenpitch.cli import run, sweeping
from evenpitch.store.museum import museum_folder

JOB, RIG = (str(museum_folder() / f"{name}.toml") for name in ("timing-pair", "museum-mill"))


def test_progress_is_told_and_the_first_interrupt_stops(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sweeping, "LARGE", 100)
    before = signal.getsignal(signal.SIGINT)
    with sweeping.watched() as progress:
        assert progress(5000, 20_000)
        assert "5000 of 20000 gears drawn. Ctrl-C stops" in capsys.readouterr().err
        signal.raise_signal(signal.SIGINT)
        assert not progress(6000, 20_000)
        assert "stopped: the answer is of these" in capsys.readouterr().err
    assert signal.getsignal(signal.SIGINT) == before


def test_what_was_drawn_is_answered(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """The key is pressed after the second thousand."""
    monkeypatch.setattr(sweeping, "LARGE", 100)
    monkeypatch.setattr(sweeping, "EVERY", 1000)
    echo = sweeping.click.echo

    def pressed(text: str = "", **how: bool) -> None:
        echo(text, **how)
        if text.startswith("\r2000 of"):
            signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(sweeping.click, "echo", pressed)
    assert run(["predict", JOB, "--rig", RIG, "--draws", "50000", "--json"]) == 0
    told = capsys.readouterr()
    shown = json.loads(told.out)
    assert shown["draws"] == 2000
    assert "draws-stopped" in {one["code"] for one in shown["findings"]}
    assert told.err.endswith("\n")
