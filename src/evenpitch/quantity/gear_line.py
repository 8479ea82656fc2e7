"""A gear in one line, as it stands on an old card: "97t 12DP 14½ face 3/4" -> the fields it fills, each as typed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from evenpitch.quantity.gear_binding import Reading, readings
from evenpitch.quantity.gear_words import Piece, pieces
from evenpitch.quantity.numeral import Typed, asked
from evenpitch.quantity.read_pitch import read_pitch
from evenpitch.quantity.refusal import Fault, Refusal

EXPECTED = "a gear such as 97 t, 12 DP, 14½, face 3/4 in"
_LENGTHS = {"face", "bore", "thinning", "outside_found", "pin"}


@dataclass(frozen=True, slots=True)
class _Line:
    """The line, what it was cut into, and the field of its refusals."""

    text: str
    pieces: tuple[Piece, ...]
    field: str

    def no(self, given: str, likely: str, do: str) -> Fault:
        return Fault(self.field, given[:80], EXPECTED, likely, do)


def read_gear_line(text: Typed, *, field: str = "gear") -> dict[str, str]:
    """The fields of a gear that one line names: teeth, pitch, pressure_angle, helix, hand, face, ... each with the text as typed.

    A length without a unit takes that of the pitch, inches beside a diametral pitch. What can be read two ways is asked back.
    """
    asked(text, field, EXPECTED)
    line = _Line(str(text), pieces(str(text)), field)
    _refuse_unknown(line)
    found = _single_words(line)
    chosen = _choose(readings(line.pieces), line)
    for given in chosen.given:
        if given.field in found:
            raise Refusal(line.no(given.text, f"The {_plain(given.field)} is given twice.", "Leave one of them out."))
        found[given.field] = given.text
    _take_loose_angles(found, chosen, line)
    if not found:
        raise Refusal(line.no(line.text, "Nothing in it names a part of a gear.", "Write it like 97 t, 12 DP, 14½, face 3/4 in."))
    bare = {given.field for given in chosen.given if given.unit == "bare"} & _LENGTHS
    return _with_units(found, bare, field)


def _plain(field: str) -> str:
    return field.replace("_", " ")


def _refuse_unknown(line: _Line) -> None:
    faults = [
        line.no(
            piece.text,
            f"{piece.text!r} is no word of a gear that is known here.",
            "Leave it out, or name the field: face 3/4 in.",
        )
        for piece in line.pieces
        if piece.kind == "unknown"
    ]
    if faults:
        raise Refusal(*faults)


def _single_words(line: _Line) -> dict[str, str]:
    """Words that say all by themselves: hand, material, depth, spur."""
    found: dict[str, str] = {}
    for piece in line.pieces:
        if piece.kind != "word":
            continue
        if found.get(piece.field, piece.value) != piece.value:
            likely = f"Both {found[piece.field]} and {piece.value} are named."
            raise Refusal(line.no(piece.text, likely, f"Name one {_plain(piece.field)}."))
        found[piece.field] = piece.value
    return found


def _choose(best: tuple[Reading, ...], line: _Line) -> Reading:
    """The one reading of the line; where two differ, the one with a customary pressure angle; else it is asked back."""
    chosen = best[0]
    if len({reading.meaning() for reading in best}) > 1:
        customary = [reading for reading in best if reading.customary()]
        if len({reading.meaning() for reading in customary}) != 1:
            first, second = best[0], next(other for other in best if other.meaning() != best[0].meaning())
            likely = f"It may mean {first.words()}; or {second.words()}."
            raise Refusal(line.no(line.text, likely, "Put commas between the parts: pressure angle 20, helix 15."))
        chosen = customary[0]
    name_it = "Name it: 97 teeth, 12 DP, face 3/4 in, helix 20."
    faults = [line.no(piece.text, f"Nothing says what {piece.text} is.", name_it) for piece in chosen.odd]
    faults += [
        line.no(piece.text, f"{piece.text!r} has no number beside it.", "Write the number after it.") for piece in chosen.empty
    ]
    if faults:
        raise Refusal(*faults)
    return chosen


def _take_loose_angles(found: dict[str, str], chosen: Reading, line: _Line) -> None:
    """An angle with no name is the pressure angle, unless it might be the helix angle: then it is asked back."""
    helical = found.get("hand") in ("left", "right") or any(_hints_at_helix(piece) for piece in line.pieces)
    for number, piece in enumerate(chosen.loose):
        doubtful = "helix" not in found and piece.number != Fraction(29, 2) and (helical or piece.hyphen)
        if "pressure_angle" in found or number or len(chosen.loose) > 1 or doubtful:
            likely = f"{piece.text} may be the pressure angle, the helix angle or both."
            angle = f"{float(piece.number):.7g}"
            do = f"Write pressure angle {angle}, or helix {angle}, or both; helix 0 for straight teeth."
            raise Refusal(line.no(piece.text, likely, do))
        found["pressure_angle"] = piece.text


def _hints_at_helix(piece: Piece) -> bool:
    word = piece.text.lower()
    return piece.kind == "hint" or (
        piece.kind == "label" and piece.field == "pitch" and ("trans" in word or word in ("mt", "m_t"))
    )


def _with_units(found: dict[str, str], bare: set[str], field: str) -> dict[str, str]:
    if not bare:
        return found
    unit = "in" if "pitch" in found and read_pitch(found["pitch"], field=f"{field}, pitch").inch else "mm"
    return {name: f"{text} {unit}" if name in bare else text for name, text in found.items()}
