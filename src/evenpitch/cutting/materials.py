"""Materials of the blank: speed and chip for a form cutter of high-speed steel, how to cut it, what to beware of."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """`speed`: surface speed, ft/min; `chip`: feed per tooth, in; `soft`: full depth in one cut up to a larger pitch.

    `k_c`, `m_c`: specific cutting force, N/mm² at 1 mm of chip, and its exponent, where known.
    """

    words: str
    names: tuple[str, ...]
    speed: float
    chip: float
    soft: bool
    fluid: str
    sources: tuple[str, ...]
    expansion: tuple[float, float]
    k_c: float | None = None
    m_c: float | None = None
    cautions: tuple[str, ...] = ()


_IRON_DUST = "Grey iron dust is fine and gritty: no blowing, cover the ways, wear eye protection; a mask when cleaning up."
_MAGNESIUM = "Magnesium chips burn, and water makes it worse: cut dry with sharp tools only, sand at hand; better leave it alone."
_BERYLLIUM = "Beryllium copper dust harms the lungs for life: never dry, never ground or filed; better leave it alone."
_FIBRE = "Old laminated fibre may hold asbestos: do not cut it dry; have it tested first."
_BRASS = "Brass chips fly as needles: eye protection, and a chip guard."
_RULE = ("Observatory shop note", "common practice")

MATERIALS: tuple[Material, ...] = (
    Material(
        words="grey cast iron",
        names=("cast iron", "grey iron", "gray iron", "iron"),
        speed=60,
        chip=0.003,
        soft=True,
        fluid="dry",
        sources=("Observatory shop note", "Machine-Shop Work"),
        expansion=(10.0, 10.8),
        cautions=(_IRON_DUST,),
    ),
    Material(
        words="tool steel, annealed",
        names=("tool steel", "high carbon", "high-carbon"),
        speed=40,
        chip=0.0015,
        soft=False,
        fluid="cutting oil, flooded",
        sources=_RULE,
        expansion=(11.0, 13.0),
    ),
    Material(
        words="tough alloy steel",
        names=("alloy steel", "alloy", "nickel"),
        speed=45,
        chip=0.0015,
        soft=False,
        fluid="cutting oil, flooded",
        sources=_RULE,
        expansion=(11.0, 13.0),
    ),
    Material(
        words="stainless steel",
        names=("stainless",),
        speed=40,
        chip=0.0015,
        soft=False,
        fluid="cutting oil, flooded",
        sources=("common practice",),
        expansion=(10.0, 17.0),
    ),
    Material(
        words="mild steel",
        names=("mild steel", "low carbon", "low-carbon", "cold-rolled", "free-cutting"),
        speed=80,
        chip=0.003,
        soft=False,
        fluid="cutting oil, flooded",
        sources=_RULE,
        expansion=(11.0, 13.0),
    ),
    Material(
        words="medium-carbon steel",
        names=("medium-carbon", "medium carbon", "steel"),
        speed=70,
        chip=0.0025,
        soft=False,
        fluid="cutting oil, flooded",
        sources=("OD1645", "common practice"),
        expansion=(11.0, 13.0),
        k_c=1700.0,
        m_c=0.25,
    ),
    Material(
        words="beryllium copper",
        names=("beryllium",),
        speed=80,
        chip=0.002,
        soft=False,
        fluid="cutting oil, flooded",
        sources=("common practice",),
        expansion=(16.0, 18.0),
        cautions=(_BERYLLIUM,),
    ),
    Material(
        words="bronze",
        names=("bronze", "gunmetal"),
        speed=100,
        chip=0.003,
        soft=True,
        fluid="dry",
        sources=_RULE,
        expansion=(17.0, 19.0),
    ),
    Material(
        words="brass",
        names=("brass",),
        speed=200,
        chip=0.003,
        soft=True,
        fluid="dry",
        sources=_RULE,
        expansion=(18.7, 19.0),
        cautions=(_BRASS,),
    ),
    Material(
        words="magnesium",
        names=("magnesium",),
        speed=200,
        chip=0.003,
        soft=True,
        fluid="dry, never water",
        sources=("common practice",),
        expansion=(25.0, 27.0),
        cautions=(_MAGNESIUM,),
    ),
    Material(
        words="aluminium",
        names=("aluminium", "aluminum"),
        speed=200,
        chip=0.003,
        soft=True,
        fluid="light oil",
        sources=_RULE,
        expansion=(22.0, 24.0),
    ),
    Material(
        words="laminated fibre",
        names=("fibre", "fiber", "phenolic", "laminated"),
        speed=200,
        chip=0.003,
        soft=True,
        fluid="dry, with extraction",
        sources=("common practice",),
        expansion=(20.0, 30.0),
        cautions=(_FIBRE,),
    ),
    Material(
        words="plastic",
        names=("plastic", "nylon", "acetal"),
        speed=200,
        chip=0.004,
        soft=True,
        fluid="dry",
        sources=("common practice",),
        expansion=(80.0, 120.0),
    ),
)
"""Speeds for form cutters: 60 to 75 % of those of plain mills, because a form is dear to restore (common practice)."""

UNKNOWN = MATERIALS[5]
"""Taken where the material is not named: cut as medium-carbon steel, which is safe for the softer ones."""


def material_named(text: str | None) -> Material | None:
    """The material that the words name, by their longest match; None where they name none of the list or nothing was said."""
    if not text:
        return None
    words = text.casefold()
    hits = [(len(name), material) for material in MATERIALS for name in material.names if name in words]
    return max(hits, key=lambda hit: hit[0])[1] if hits else None
