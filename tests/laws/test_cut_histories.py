"""Random but legal histories of a cut fold to the same place in one go or in pieces; what cannot be at a point is refused there."""

from __future__ import annotations

import os
from dataclasses import replace
from itertools import pairwise
from random import Random

import pytest

from evenpitch.job.following import complete, follow, next_space
from evenpitch.job.record import Cutting, Entry, entry_of, payload_of
from evenpitch.quantity.refusal import Refusal
from job.cut_records import any_history, by_link, in_blocks, two_rounds

HISTORIES = 2000
LENGTH = 60
PLANS = (by_link(), by_link(12, 192_000, 4), two_rounds(), two_rounds(12), in_blocks())


def _seeds() -> range:
    return range(HISTORIES if os.environ.get("EVENPITCH_FULL") == "1" else HISTORIES // 10)


def _plain_place(cutting: Cutting, entries: tuple[Entry, ...]) -> tuple[set[int], str]:
    """The second method: spaces of the last pass put into a set and taken out again, nothing else."""
    cut: set[int] = set()
    running = cutting.rounds()[0]
    for entry in entries:
        if entry.kind == "begin" or (entry.kind == "cut" and entry.pass_name not in (None, running)):
            cut, running = set(), entry.pass_name or running
        if entry.kind == "cut":
            cut.add(entry.space or 0)
        if entry.kind == "not cut":
            cut.discard(entry.space or 0)
    return cut, running


@pytest.mark.long
def test_histories_fold_the_same_in_one_go_or_in_pieces() -> None:
    finished = 0
    for seed in _seeds():
        random = Random(seed)
        cutting = random.choice(PLANS)
        entries = any_history(random, cutting, LENGTH)
        whole = follow(cutting, entries)
        finished += complete(cutting, whole)
        pieces = None
        left = entries
        while left:
            size = random.randint(1, len(left))
            pieces, left = follow(cutting, left[:size], pieces), left[size:]
        assert pieces == whole
        assert (set(whole.cut), whole.running) == _plain_place(cutting, entries)
        space = next_space(cutting, whole)
        assert (space is None) == complete(cutting, whole)
        assert space not in whole.cut
        kept = tuple(entry_of(one.number, one.at, one.kind, one.space, payload_of(one)) for one in entries)
        assert follow(cutting, kept) == whole
    assert finished  # some of them come to the end of a pass


@pytest.mark.long
def test_two_cuts_in_the_wrong_order_are_refused_though_the_numbers_run_on() -> None:
    swapped = 0
    for seed in _seeds():
        random = Random(seed)
        cutting = random.choice(PLANS)
        entries = list(any_history(random, cutting, 20))
        pairs = [
            at
            for at, (one, two) in enumerate(pairwise(entries))
            if one.kind == two.kind == "cut" and one.pass_name == two.pass_name
        ]
        for at in pairs[:2]:
            one, two = entries[at], entries[at + 1]
            spoiled = [*entries[:at], replace(two, number=one.number), replace(one, number=two.number), *entries[at + 2 :]]
            with pytest.raises(Refusal):
                follow(cutting, spoiled)
            swapped += 1
    assert swapped > len(_seeds()) / 2


@pytest.mark.long
def test_histories_out_of_order_or_with_an_entry_lost_or_twice_are_refused() -> None:
    for seed in _seeds():
        random = Random(seed)
        cutting = random.choice(PLANS)
        entries = list(any_history(random, cutting, 12))
        place = random.randrange(len(entries) - 1)
        spoiled = random.choice(
            (
                [*entries[:place], entries[place + 1], entries[place], *entries[place + 2 :]],
                [*entries[:place], *entries[place + 1 :]],
                [*entries[: place + 1], *entries[place:]],
            )
        )
        with pytest.raises(Refusal):
            follow(cutting, spoiled)
