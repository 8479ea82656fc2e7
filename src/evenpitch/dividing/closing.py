"""Where the error of a way lands, and how the last space closes."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.dividing.methods import Method, PlatePulses, Pulses
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class Closing:
    """All in seconds of arc at the work, + wide or ahead.

    `last_move`: what the move back to space 1 is out, if space 1 is not cut again. `pitch_errors`: (error of the distance between
    neighbouring spaces, how many such distances), greatest first. `worst_space`: number of the space furthest from its place.
    """

    closing_arcsec: float
    last_move: float
    pitch_errors: tuple[tuple[float, int], ...]
    worst_space: int
    worst_arcsec: float

    def words(self) -> str:
        """In a sentence."""
        if not self.closing_arcsec and not self.worst_arcsec:
            return "every space lies where it should; the last closes."
        error, many = self.pitch_errors[0]
        wide = "wide" if error > 0 else "narrow"
        return (
            f'space {self.worst_space} lies {abs(self.worst_arcsec):.2f}" from its place; '
            f'{many} of the distances between neighbours {"is" if many == 1 else "are"} {abs(error):.2f}" {wide}.'
        )


@cites("derived here", formula="neighbours are q moves apart, q k = 1 mod N: N - q of them err by q e, q by (q - N) e")
def closing(method: Method, divisions: int) -> Closing:
    """Where the error of one move, e, lands when it is made N times over the spaces, k at a time."""
    if isinstance(method, Pulses | PlatePulses):
        return _by_pulses(method, divisions)
    each = method.at_work(method.move_error)
    apart = pow(method.skip, -1, divisions) if divisions > 1 else 0
    pitches = [(apart * each, divisions - apart), ((apart - divisions) * each, apart)] if each else [(0.0, divisions)]
    last = (divisions - 1) * method.skip % divisions + 1
    return Closing(
        closing_arcsec=method.closing_error_arcsec,
        last_move=-(divisions - 1) * each if each else 0.0,
        pitch_errors=tuple(sorted((pitch for pitch in pitches if pitch[1]), key=lambda pitch: -abs(pitch[0]))),
        worst_space=last if each else 1,
        worst_arcsec=(divisions - 1) * each,
    )


def _by_pulses(method: Pulses | PlatePulses, divisions: int) -> Closing:
    total = method.pulses_per_turn if isinstance(method, Pulses) else method.pulses_in_all
    targets = method.targets()
    out = [target - k * total / divisions for k, target in enumerate(targets[:-1])]
    worst = max(range(divisions), key=lambda k: abs(out[k]))
    arcsec = method.at_work(method.head_ratio / method.pulses_per_turn)
    pitches = [(float(size - total / divisions) * arcsec, many) for size, many in method.counts]
    return Closing(
        closing_arcsec=method.closing_error_arcsec,
        last_move=float(targets[-1] - targets[-2] - total / divisions) * arcsec,
        pitch_errors=tuple(sorted(pitches, key=lambda pitch: -abs(pitch[0]))),
        worst_space=worst + 1,
        worst_arcsec=float(out[worst]) * arcsec,
    )
