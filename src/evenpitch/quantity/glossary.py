"""The words of the trade as this program uses them, each in a sentence, with where the word is from."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Term:
    """A word, what it means here, and the key of the source it is taken from."""

    term: str
    meaning: str
    source: str


_VOCABULARY = "ISO 1122-1:1998"
_GEOMETRY = "ISO 21771:2007"
_LIMITS = "ISO 1328-1:2013"
_TREATISE = "Practical Treatise on Milling and Milling Machines"
_NAVY = "Machinery Repairman"
_HANDBOOK = "Machinery's Handbook"
_LOOM = "Cotton Manufacturing"
_OWN = "derived here"
_HABIT = "common practice"

GLOSSARY: tuple[Term, ...] = (
    Term("addendum", "height of the tooth outside the pitch circle", _NAVY),
    Term("arbor", "the shaft between spindle and overarm that carries the cutter", _NAVY),
    Term("backlash", "play between the teeth of a pair; always named by where it is measured", _VOCABULARY),
    Term("base circle", "the circle that the involute is unwound from", _VOCABULARY),
    Term("base pitch", "distance between like flanks along the line of action; what one tooth more adds to a span", _VOCABULARY),
    Term("bracket", "the slotted arm, or quadrant, that holds the studs of the change gears", _TREATISE),
    Term("centre distance", "distance between the two axes of a pair", _VOCABULARY),
    Term("change gears", "loose gears that join head and table screw, or spindle and index plate", _TREATISE),
    Term("change wheel", "the wheel of a loom that is changed to change the picks to the inch", _LOOM),
    Term("chordal addendum", "height from the tip to the chord on which the gear-tooth vernier reads", _HANDBOOK),
    Term("chordal thickness", "the tooth measured straight across, as the gear-tooth vernier does", _HANDBOOK),
    Term("circular pitch", "tooth to tooth along the pitch circle", _VOCABULARY),
    Term("clearance", "what is left between a tip and the root of its mate", _VOCABULARY),
    Term("closing test", "going back to space 1 after as many moves as there are spaces, to see what is missing", _OWN),
    Term("compound indexing", "two moves, one of the crank and one with the plate, that together give the space", _TREATISE),
    Term("count", "the smallest travel that the table scale tells apart", "ISO 230-2:2014"),
    Term("coverage factor k", "how many standard uncertainties make the one stated; 2 here", "JCGM 100:2008"),
    Term("cutter number", "which of a set of cutters; inch sets begin at the rack, module sets at the fewest teeth", _TREATISE),
    Term("decision rule", "a reading passes or fails only where its uncertainty leaves no doubt", "ISO 14253-1:2017"),
    Term("dedendum", "depth of the space inside the pitch circle", _NAVY),
    Term("depth from touch", "how far the knee rises from touch to full depth, for the blank as turned", _HABIT),
    Term("diametral pitch", "teeth to each inch of pitch diameter; written DP", _TREATISE),
    Term(
        "differential indexing",
        "the plate is geared to the spindle and turns a little as the crank does",
        "Machinery's Reference Series No. 97",
    ),
    Term(
        "direct indexing",
        "the plate on the spindle nose is set by its own pin, the worm out of gear",
        "Machinery's Reference Series No. 97",
    ),
    Term("dividend", "the number that, over the change wheel, gives the picks to the inch of a loom", _LOOM),
    Term("dividing head", "the head on the table that turns the work by known parts of a turn", _TREATISE),
    Term("dog", "the clamp that makes the work turn with the head, without play", "OD1644"),
    Term("driven", "a change gear that is turned by its neighbour", _TREATISE),
    Term("driver", "a change gear that turns its neighbour", _TREATISE),
    Term("expanded uncertainty U", "the true value lies within U of the reading, with about 95 in 100", "JCGM 100:2008"),
    Term("face", "length of the teeth along the axis; on a ratchet, the side that the pawl pushes", _TREATISE),
    Term("fit", "on a spline, the surfaces that keep the two parts on one axis", "ANSI B92.1"),
    Term("flank", "the working side of a tooth", _VOCABULARY),
    Term("floor", "the bottom of a space of a spline", "BS 2059"),
    Term("fly cutter", "a single tooth in a bar, ground to the form of the space", _NAVY),
    Term("footstock", "carries the far end of the work on its centre; also tailstock", _TREATISE),
    Term("formed cutter", "a cutter whose teeth keep their form when ground on the face", _TREATISE),
    Term("gash", "the first cut of a worm wheel, before it is hobbed", _TREATISE),
    Term("hand", "right: the teeth of the gear held upright rise to the right", _VOCABULARY),
    Term("head map", "the error of the head, by angle, as measured on a day", _OWN),
    Term("helix angle", "lean of the teeth against the axis, on the pitch cylinder", _VOCABULARY),
    Term("hole circle", "a ring of evenly spaced holes of an index plate", _TREATISE),
    Term("hook", "lean of a ratchet's face that draws the pawl in", _HABIT),
    Term("idler", "a gear between two others that changes the sense and not the ratio", _TREATISE),
    Term("index crank", "turns the worm, and carries the index pin", _TREATISE),
    Term("index pin", "enters a hole of the plate and so holds the crank", _TREATISE),
    Term("index plate", "the plate with the hole circles", _TREATISE),
    Term("knee", "carries saddle and table up and down", _NAVY),
    Term("lag", "how far the work is behind where the table travel says it should be", _OWN),
    Term("land", "the flat left at a tip", _HABIT),
    Term("lead", "length in which a helix goes once round", _VOCABULARY),
    Term("lead of the machine", "head ratio times screw lead: the lead that equal gears give", _TREATISE),
    Term("link proof", "turn of the work measured against a table move by a block, before anything is cut", _OWN),
    Term("link ratio", "pulses of the motor for one count of the scale", _OWN),
    Term("module", "pitch diameter over teeth, in millimetres", "ISO 54:1996"),
    Term("normal", "in the plane square to the tooth", _GEOMETRY),
    Term("offset", "how far a bevel blank is set sideways for its second cut", _NAVY),
    Term("outside diameter", "over the tips", _VOCABULARY),
    Term("over balls", "a measure across two balls in opposite spaces", _GEOMETRY),
    Term("over pins", "a measure across two pins in opposite spaces", _GEOMETRY),
    Term("overarm", "the beam above the arbor that carries its outer bearing", _NAVY),
    Term("pick", "one thread of weft", _LOOM),
    Term("pitch diameter", "of the cylinder on which pitch and helix angle are given", _VOCABULARY),
    Term("plate drive", "the motor turns the index plate, with the pin left in", _OWN),
    Term("pressure angle", "slope of the rack's flank", _VOCABULARY),
    Term("profile shift", "how far the rack that makes the gear is drawn out, in modules", _GEOMETRY),
    Term("roll", "how far a bevel blank is turned to go with its offset", _NAVY),
    Term("root diameter", "at the bottom of the spaces", _VOCABULARY),
    Term("run sheet", "the page that is followed at the machine, space by space", _OWN),
    Term("runout", "how much a pin in the spaces goes in and out, once round", _LIMITS),
    Term("scale", "the graduated rule with its reader along the table", "ISO 230-2:2014"),
    Term("sector arms", "two arms on the plate that mark off the spaces to be moved", _TREATISE),
    Term("simple indexing", "whole turns and so many spaces of one hole circle, the plate standing still", _TREATISE),
    Term("single pitch deviation", "error from one tooth to the next", _LIMITS),
    Term("single-angle cutter", "a cutter with one sloping side, as for ratchets", _NAVY),
    Term("space k of N", "the space now in hand, counted from the first cut", _OWN),
    Term("span", "measure over k teeth between two flat anvils, along the base tangent", _GEOMETRY),
    Term("standard wheel", "the wheel of a loom's take-up that is not changed", _LOOM),
    Term(
        "table swing", "the table turned on its saddle to the helix angle; head swing where the milling head turns instead", _NAVY
    ),
    Term("take-up", "table travel before the blank that closes the play; in a loom, what winds the cloth on", _HABIT),
    Term("tooth space", "the gap between two teeth, which is what is cut", _VOCABULARY),
    Term("tooth thickness", "of the tooth on the pitch cylinder, along the arc unless the chord is named", _VOCABULARY),
    Term("total cumulative pitch deviation", "greatest span of the pitch errors round the gear", _LIMITS),
    Term("touch-off", "the cutter just reaches the blank, or the paper on it", _NAVY),
    Term("transverse", "in the plane of rotation", _GEOMETRY),
    Term("whole depth", "from tip to root", _NAVY),
    Term("working depth", "how far the teeth of a pair reach into each other", _NAVY),
    Term("worm", "the screw on the crank shaft of the head", _TREATISE),
    Term("worm shaft", "the shaft of the head's worm; the motor may drive it", _OWN),
    Term("worm wheel", "the wheel on the spindle of the head that the worm turns", _TREATISE),
)
"""In the order of the alphabet. The meanings are our own words; the source says whose word it is."""
