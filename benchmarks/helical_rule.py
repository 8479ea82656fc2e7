"""Write docs/helical-cutter-rule.md and its plot: the handbook's rule against the virtual cut, over a grid of gears and cutters.

python benchmarks/helical_rule.py
"""

from __future__ import annotations

import math
from itertools import product
from pathlib import Path

import numpy as np

from evenpitch.flank.rule import RuleTried, rule_tried
from evenpitch.flank.wanted import wanted_flank
from evenpitch.quantity.units import Millimetre, Radian

DOCS = Path(__file__).parents[1] / "docs"
MODULES, TEETH, HELICES, OUTSIDES = (1.0, 2.0, 4.0), (12, 17, 24, 40, 64, 100), (10, 20, 30, 40, 45), (50.0, 63.0, 80.0)
Row = tuple[float, int, int, float, RuleTried]


def tried() -> list[Row]:
    """Every gear of the grid; the 4 module ones by the two larger cutters."""
    rows = []
    for module, teeth, helix, outside in product(MODULES, TEETH, HELICES, OUTSIDES):
        if module == 4.0 and outside < 60.0:
            continue
        wanted = wanted_flank(teeth, Millimetre(module), Radian(math.radians(20)), Radian(math.radians(helix)))
        found = rule_tried(wanted, Millimetre(outside), Millimetre(0.25 * module))
        if math.isfinite(found.best_left + found.rule_left + found.virtual_left):
            rows.append((module, teeth, helix, outside, found))
    return rows


def shares(rows: list[Row]) -> str:
    """Quantiles of both rules over the best count."""
    lines = ["| of the best count | least | a tenth below | middle | a tenth above | greatest |", "|---|---|---|---|---|---|"]
    for name, pick in (("z / cos³ β", lambda r: r.virtual / r.best), ("with the cutter's diameter", lambda r: r.rule / r.best)):
        values = np.quantile([pick(row[4]) for row in rows], (0, 0.1, 0.5, 0.9, 1))
        lines.append(f"| {name} | " + " | ".join(f"{value:.3f}" for value in values) + " |")
    return "\n".join(lines)


def errors(rows: list[Row]) -> str:
    """Median profile deviation for each millimetre of module, by helix angle."""
    lines = ["| helix | z / cos³ β | with the cutter's diameter | best count | gears |", "|---|---|---|---|---|"]
    for helix in (*HELICES, None):
        some = [row for row in rows if helix in (None, row[2])]
        means = [
            np.median([1e3 * getattr(row[4], name) / row[0] for row in some])
            for name in ("virtual_left", "rule_left", "best_left")
        ]
        lines.append(
            f"| {'all' if helix is None else f'{helix}°'} | "
            + " | ".join(f"{value:.1f}" for value in means)
            + f" | {len(some)} |"
        )
    return "\n".join(lines)


def plot(rows: list[Row]) -> str:
    """Count over best count against helix angle: crosses z / cos^3, rings the rule with the diameter."""

    def at(helix: float, share: float) -> tuple[float, float]:
        return 60 + 11 * (helix - 5), 340 - 380 * (share - 0.3)

    parts = [
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 560 400" font-family="sans-serif" font-size="12" stroke="black" fill="none">'
    ]
    parts.append('<title>Count of teeth by rule, as a share of the best count, against helix angle</title><g stroke-width="1">')
    for share in (0.4, 0.6, 0.8, 1.0):
        x, y = at(5, share)
        parts.append(
            f'<line x1="{x}" y1="{y:.1f}" x2="520" y2="{y:.1f}" stroke-dasharray="{"none" if share == 1.0 else "2 4"}"/>'
        )
        parts.append(f'<text x="{x - 30}" y="{y + 4:.1f}" stroke="none" fill="black">{share:.1f}</text>')
    parts += [f'<text x="{at(helix, 0.3)[0] - 8:.0f}" y="360" stroke="none" fill="black">{helix}°</text>' for helix in HELICES]
    for place, (module, _teeth, helix, _outside, found) in enumerate(rows):
        aside = helix + (place % 9 - 4) * 0.12 + 0.25 * math.log2(module)
        x, y = at(aside, found.virtual / found.best)
        parts.append(f'<path d="M{x - 3:.1f} {y - 3:.1f}l6 6m0 -6l-6 6"/>')
        x, y = at(aside, found.rule / found.best)
        parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3"/>')
    parts.append(
        '<text x="60" y="385" stroke="none" fill="black">helix angle; crosses: z / cos³ β; rings: with the cutter’s diameter</text>'
    )
    return "\n".join([*parts, "</g></svg>", ""])


def page(rows: list[Row]) -> str:
    """The page."""
    worst = max(rows, key=lambda row: abs(row[4].rule / row[4].best - 1))
    return f"""# Which cutter for a helical gear: the handbook's rule and the virtual cut

A disc cutter leaves in a helical space a flank that no count of teeth fits exactly. The rule of the handbook (*Machinery's Handbook*,
its form from memory) takes the form made for

    z / cos³ β + (D − 2 h_f) tan² β / m_n

teeth, where D − 2 h_f is the pitch diameter of the cutter; the older rule stops after z / cos³ β. Both were held against the count,
whole or not, that leaves the least total profile deviation in the virtual cut: swing = helix angle, depth by the tooth's thickness, tip
corner a quarter module, 20° pressure angle, inspected from the start of contact with an equal rack. Modules {MODULES}, teeth {TEETH},
helix angles {HELICES}°, cutters {OUTSIDES} mm: {len(rows)} gears. No outside figure gives these counts; the virtual cut stands on two
independent methods.

{shares(rows)}

Median total profile deviation in micrometres for each millimetre of module, with an ideal cutter of each count:

{errors(rows)}

![Count of teeth by rule, as a share of the best count](helical-cutter-rule.svg)

The rule with the diameter is farthest from the best count at {worst[1]} teeth, module {worst[0]:g}, {worst[2]}°, cutter {worst[3]:g} mm:
{worst[4].rule:.1f} against {worst[4].best:.1f}. Written by `python benchmarks/helical_rule.py`.
"""


def main() -> None:
    """Write both files."""
    rows = tried()
    (DOCS / "helical-cutter-rule.md").write_text(page(rows), encoding="utf-8")
    (DOCS / "helical-cutter-rule.svg").write_text(plot(rows), encoding="utf-8")


if __name__ == "__main__":
    main()
