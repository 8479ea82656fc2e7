"""Which label of a gear line belongs to which number: every reading of least strain, none chosen in silence."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from evenpitch.quantity.gear_words import Piece, Unit

_ODD = 10
"""Strain of a number that nothing names and that is no angle, and of a label without a number."""
_LOOSE = 1
"""Strain of an angle that nothing names."""
_MOST_TIES = 16
CUSTOMARY = {Fraction(29, 2), Fraction(20), Fraction(35, 2), Fraction(45, 2), Fraction(25)}
"""Pressure angles met in the trade, degrees; common practice."""


@dataclass(frozen=True, slots=True)
class Given:
    """One field with its text as typed, and whether a unit stands in it."""

    field: str
    text: str
    unit: Unit
    number: Fraction


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to read the line: fields given, angles that nothing names, numbers and labels that nothing explains."""

    given: tuple[Given, ...]
    loose: tuple[Piece, ...]
    odd: tuple[Piece, ...]
    empty: tuple[Piece, ...]

    def meaning(self) -> tuple[frozenset[tuple[str, Fraction]], tuple[Fraction, ...]]:
        """What it comes to, whatever stands beside what."""
        return frozenset((given.field, given.number) for given in self.given), tuple(
            piece.number for piece in self.loose + self.odd
        )

    def customary(self) -> bool:
        """Whether its pressure angle is one met in the trade."""
        named = [given.number for given in self.given if given.field == "pressure_angle"]
        return (named or [piece.number for piece in self.loose] or [Fraction(0)])[0] in CUSTOMARY

    def words(self) -> str:
        """For the question back: "helix 20, pressure angle 15"."""
        said = [f"{given.field.replace('_', ' ')} {given.text}" for given in self.given]
        return ", ".join(said + [f"an angle of {piece.text}" for piece in self.loose])


@dataclass(frozen=True, slots=True)
class _Path:
    strain: int
    pairs: tuple[tuple[int, int], ...] = ()


def readings(pieces: tuple[Piece, ...]) -> tuple[Reading, ...]:
    """All readings of least strain, at most sixteen: each label takes the number before or behind it, no number serves two.

    From label to label it keeps only what the next one can feel: which number was taken last.
    """
    paths = {-1: [_Path(0)]}
    for at, piece in enumerate(pieces):
        if piece.kind == "label":
            paths = _extend(paths, pieces, at)
    ends = [path for group in paths.values() for path in group]
    least = min(path.strain for path in ends)
    return tuple(_reading(path, pieces) for path in ends if path.strain == least)


def _extend(paths: dict[int, list[_Path]], pieces: tuple[Piece, ...], at: int) -> dict[int, list[_Path]]:
    further: dict[int, list[_Path]] = {}
    for last, group in paths.items():
        for taken, strain in _options(pieces, at):
            if taken == last and taken >= 0:
                continue
            state = taken if taken >= 0 else last
            grown = [_Path(path.strain + strain, (*path.pairs, (at, taken)) if taken >= 0 else path.pairs) for path in group]
            further.setdefault(state, []).extend(grown)
    return {state: _least(group) for state, group in further.items()}


def _least(group: list[_Path]) -> list[_Path]:
    least = min(path.strain for path in group)
    return [path for path in group if path.strain == least][:_MOST_TIES]


def _options(pieces: tuple[Piece, ...], at: int) -> list[tuple[int, int]]:
    """The numbers this label may take, and the strain of each; -1 for none."""
    label = pieces[at]
    equals = at + 1 < len(pieces) and pieces[at + 1].kind == "equals"
    behind = at + 2 if equals else at + 1
    options = [(-1, _ODD)]
    if _fits(label, pieces, behind):
        options.append((behind, _pull(label, pieces[behind], "after", equals or pieces[behind].start == label.end)))
    if not equals and _fits(label, pieces, at - 1):
        options.append((at - 1, _pull(label, pieces[at - 1], "before", pieces[at - 1].end == label.start)))
    return options


def _fits(label: Piece, pieces: tuple[Piece, ...], at: int) -> bool:
    return 0 <= at < len(pieces) and pieces[at].kind == "quantity" and pieces[at].unit in label.accepts


def _pull(label: Piece, number: Piece, side: str, close: bool) -> int:
    against = 0 if close or label.side in (side, "either") else 1
    return against - (_LOOSE if _may_be_angle(number) else _ODD)


def _may_be_angle(piece: Piece) -> bool:
    return piece.unit == "angle" or (piece.unit == "bare" and 10 <= piece.number <= 45)


def _reading(path: _Path, pieces: tuple[Piece, ...]) -> Reading:
    given = tuple(_given(pieces[label], pieces[number]) for label, number in path.pairs)
    used = {at for pair in path.pairs for at in pair}
    left = [piece for at, piece in enumerate(pieces) if at not in used and piece.kind == "quantity"]
    named = {one.field for one in given}
    return Reading(
        given,
        tuple(piece for piece in left if _may_be_angle(piece)),
        tuple(piece for piece in left if not _may_be_angle(piece)),
        tuple(piece for at, piece in enumerate(pieces) if at not in used and piece.kind == "label" and piece.field not in named),
    )


def _given(label: Piece, number: Piece) -> Given:
    text = number.text
    if label.field == "pitch":
        text = f"{number.text} {label.text}" if number.start < label.start else f"{label.text} {number.text}"
    return Given(label.field, text, number.unit, number.number)
