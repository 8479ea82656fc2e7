"""What readings may have to say beside their figures: one table, code by code. Texts are filled from the case."""

from __future__ import annotations

from dataclasses import dataclass

from evenpitch.quantity.finding import Finding, Weight

PRACTICE = "common practice"
OWN = "derived here"


@dataclass(frozen=True, slots=True)
class Note:
    """One kind of finding. Braces in the texts are filled from the case."""

    weight: Weight
    says: str
    why: str
    do: str
    sources: tuple[str, ...] = (PRACTICE,)
    about: str = ""


NOTES: dict[str, Note] = {
    # readings as such
    "reading-stands-out": Note(
        "stop",
        "{where} is {times:.0f} times as far off as the others: {off}, where they lie within {others}.",
        "One slip of the pen or of a display's figure bends every result; nothing was left out on the quiet.",
        "Read that place again, or take the line out and say so.",
        (OWN,),
    ),
    "direction-missing": Note(
        "look",
        "All readings are approached {direction}.",
        "What turns with the direction, the reversal, cannot be seen.",
        "Take the same places once more from the other side.",
        ("ISO 230-2:2014",),
        "reversal",
    ),
    "too-few-places": Note(
        "look",
        "{places} places were read; {need} are wanted.",
        "With few places a wave passes for a gain.",
        "Read {need} places or more, unevenly spread.",
        ("ISO 230-2:2014",),
        "gain",
    ),
    "not-covered": Note(
        "look",
        "The readings cover {covered:.0f} mm; the travel used is {used:.0f}.",
        "Beyond the readings the scale is not proven.",
        "Read on to both ends of the travel used.",
        (PRACTICE,),
        "gain",
    ),
    "drift": Note(
        "look",
        "Drift {drift:.1f} ± {U:.1f} µm between the first reading and the last.",
        "Warmth of hands, lamp and motor moves block and scale while one reads. The gain here has the drift fitted beside it.",
        "Repeat faster, or after everything has stood together for an hour.",
        ("JCGM 100:2008",),
        "drift",
    ),
    "drift-hidden": Note(
        "note",
        "The places were read in one row from end to end: drift and gain cannot be told apart.",
        "A drift would be taken for gain.",
        "Come back to the first place at the end, or read up and then down.",
        (OWN,),
        "drift",
    ),
    "temperature-spread": Note(
        "look",
        "The temperature went from {least:.1f} to {most:.1f} °C.",
        "A difference of 1 K between a steel block and the scale is 11.5 µm in a metre.",
        "Let both stand together, and read again.",
        ("published tables",),
        "gain",
    ),
    "block-not-in-set": Note(
        "look",
        "{size} is not in the set, and no four blocks of it make it up.",
        "The table did not move by what was typed, or the set on the rig page is another.",
        "Read the sizes off the blocks.",
        (PRACTICE,),
        "reference",
    ),
    # the scale
    "gain-not-shown": Note(
        "note",
        "The gain is {gain:.0f} ± {U:.0f} µm in a metre: none can be shown.",
        "",
        "Leave the ratio as it is.",
        ("JCGM 100:2008",),
        "gain",
    ),
    "gain-leave": Note(
        "note",
        "The scale reads {way} by {gain:.0f} ± {U:.0f} µm in a metre: {um:.1f} µm over {length:.0f} mm.",
        "",
        "Leave it; for {long:.0f} mm of rack it is {rack:.0f} µm: correct it there.",
        (OWN,),
        "gain",
    ),
    "gain-correct": Note(
        "look",
        "The scale reads {way} by {gain:.0f} ± {U:.0f} µm in a metre: {um:.1f} µm over {length:.0f} mm.",
        "It is more than the readings doubt, and more than a micrometre counts here.",
        "Enter the lead times {factor:.6f}.",
        (OWN,),
        "gain",
    ),
    "reversal-large": Note(
        "look",
        "From the two sides the scale reads {reversal:.1f} ± {U:.1f} µm apart; one count is {count:.1f}.",
        "The bracket gives, or the gib is slack.",
        "Push the reader with 10 N each way and look for counts; then the gib.",
        (PRACTICE,),
        "reversal",
    ),
    # the head
    "worm-not-seen": Note(
        "note",
        "These readings cannot show the wave of the worm, {per_turn} in a turn.",
        "{reason}",
        "Read 12 places or more within one turn of the crank, over three turns.",
        (OWN,),
        "harmonics",
    ),
    "wheel-not-seen": Note(
        "note",
        "These readings cannot show the wave of the wheel, {per_turn} in a turn.",
        "{reason}",
        "Turn a square or a hexagon through all its places.",
        (OWN,),
        "harmonics",
    ),
    "waves-alias": Note(
        "look",
        "With {faces} faces {first} and {second} waves in a turn look alike.",
        "The places are too few to tell them apart.",
        "Read the worm by bar and indicator, within one turn of the crank.",
        (OWN,),
        "harmonics",
    ),
    "directions-turned": Note(
        "look",
        "From below the work stood {ahead:.0f}″ ahead of where it stood from above.",
        "Play can only leave it behind: the two directions were named the wrong way round.",
        "Change up and down, or read once more.",
        (OWN,),
        "backlash",
    ),
    "runs-not-both-ways": Note(
        "look",
        "Each run was approached from one side only.",
        "The play then rests on the indicator's zero having stood still from run to run.",
        "Read each place from both sides within one run.",
        (PRACTICE,),
        "backlash",
    ),
    "map-does-not-pay": Note(
        "note",
        "With the map taken out the head would be {factor:.1f} times as good.",
        "Pulse and repeatability leave {left:.1f}″ of {before:.1f}″.",
        "Leave the targets plain.",
        (OWN,),
        "map",
    ),
    # the link
    "proof-half": Note(
        "stop",
        "The work turned {found:.4f}° where {wanted:.4f}° was wanted: {words}.",
        "{why}",
        "{do}",
        (OWN,),
        "link",
    ),
    "proof-off": Note(
        "look",
        "The work turned {off:.0f}″ ± {U:.0f} more than the table asks.",
        "It is more than the proof doubts: ratio, scale gain or play.",
        "Prove once more over another stretch; then look at the ratio entered.",
        (OWN,),
        "link",
    ),
    "both-sides-equal": Note(
        "look",
        "Both approaches agree, and a backlash of {backlash:.1f}′ is known.",
        "",
        "Was the second really made from the other side?",
        (PRACTICE,),
        "backlash",
    ),
    "backlash-known": Note(
        "note",
        "From the other side the work stood {play:.1f}′ apart: {known}.",
        "",
        "Take it up before the blank.",
        (OWN,),
        "backlash",
    ),
    "arm-not-measured": Note(
        "look",
        "An arm known only to ±{arm:.3f} mm leaves ±{arcmin:.1f}′.",
        "It hides what you want to see.",
        "Measure the arm to 0.005 mm.",
        (OWN,),
        "link",
    ),
    "not-proven": Note(
        "look",
        "{check} found {found:.0f} ± {U:.0f} {unit}, good within {good:.0f}: not proven.",
        "",
        "Go on; measure again over a longer stretch where it counts.",
        ("ISO 14253-1:2017",),
        "checks",
    ),
    "hand-wrong": Note(
        "stop",
        "{found}-hand line on a {wanted}-hand job.",
        "Scale sign or motor direction.",
        "Change one, draw again.",
        (PRACTICE,),
        "hand",
    ),
    "pen-off": Note(
        "stop",
        "The pen line rises {found:.1f} mm in {moved:.0f}; {wanted:.1f} is wanted.",
        "A ruler shows 1 %: this is {percent:.1f} %.",
        "Look for inch and millimetre, a factor, or the mate's lead.",
        (OWN,),
        "link",
    ),
    "walks": Note(
        "look",
        "It walks {um:.0f} µm a stroke, one way.",
        "Counts are being lost.",
        "Slow the stroke; check reader gap and cable.",
        (PRACTICE,),
        "strokes",
    ),
    "strokes-scatter": Note(
        "look",
        "The strokes come back within {um:.0f} µm; two counts are {good:.0f}.",
        "Reader, bracket or the stop itself moves.",
        "Push the reader, look at the indicator's stand, and repeat.",
        (PRACTICE,),
        "strokes",
    ),
    "display-in-inches": Note(
        "look",
        "{shown} is the inches of {moved}.",
        "The display is in inches.",
        "Change it to millimetres, or type the unit.",
        (PRACTICE,),
        "scale",
    ),
    "count-entered-wrong": Note(
        "stop",
        "{wanted} expected, {shown} is {words}.",
        "{why}",
        "{do}",
        (OWN,),
        "scale",
    ),
    "part-turns": Note(
        "look",
        "{turns:.2f} turns of the dial are not whole turns.",
        "Within a turn the screw itself waves by more than the scale can be wrong.",
        "Use whole turns, lash taken up one way.",
        (PRACTICE,),
        "scale",
    ),
    "stops-outside": Note(
        "stop",
        "The reader leaves the scale {over:.0f} mm before the table stops.",
        "The first full stroke tears it off its scale.",
        "Set table stops first.",
        (PRACTICE,),
        "scale",
    ),
    "misaligned": Note(
        "look",
        "The indicator found {found:.2f} mm along the scale; the maker's limit is {limit:.2f}.",
        "It protects the reader: of the lead it costs {ppm:.1f} µm in a metre.",
        "Shift the scale in its slots.",
        (OWN,),
        "scale",
    ),
    "noise-counts": Note(
        "look",
        "{counts} counts came from the spindle and the motor.",
        "A false count is a false angle.",
        "Scale cable apart from motor and spindle cables; screen earthed as the scale's maker says.",
        (PRACTICE,),
        "scale",
    ),
    "bracket-gives": Note(
        "look",
        "Pushed with 10 N the reader moves {counts} counts.",
        "The cut pushes harder.",
        "A stiffer bracket, shorter and thicker.",
        (PRACTICE,),
        "scale",
    ),
    "outside-range": Note(
        "look",
        "{value:.3f} mm is outside the range of the {kind}, {least:.0f} to {most:.0f} mm.",
        "It cannot have been read on it.",
        "Which instrument was it?",
        (PRACTICE,),
        "instrument",
    ),
    "calibration-old": Note(
        "look",
        "The {what} was last proven {days} days ago, on {date}.",
        "A belt, plate or scale moved since would not show.",
        "Prove it again before a job that counts.",
        (PRACTICE,),
        "link",
    ),
    "calibration-missing": Note(
        "look",
        "The {what} was never proven on this rig.",
        "What the link is good to rests on usual values.",
        "Prove the rig: half an hour.",
        (PRACTICE,),
        "link",
    ),
}


def note(code: str, **facts: object) -> Finding:
    """The finding of that code with its texts filled from the facts of the case."""
    kind = NOTES[code]
    says, why, do = (text.format(**facts) for text in (kind.says, kind.why, kind.do))
    return Finding(code=code, weight=kind.weight, says=says, why=why, do=do, sources=kind.sources, about=kind.about)
