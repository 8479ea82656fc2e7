"""What prediction, simulation and audit may have to say beside their figures: one table, code by code, filled from the case."""

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
    # the drive
    "link-unknown": Note(
        "look",
        "{count} quantities of link, head and set-up are not known: usual values stand in for them.",
        "{worst}",
        "{first}",
        (PRACTICE,),
        "budget",
    ),
    "motor-stalls": Note(
        "stop",
        "At {feed:.0f} mm/min the cut needs {needed:.2f} Nm of the motor; it has {there:.2f}.",
        "It stalls inside the cut, and slips by whole electrical turns.",
        "{instead}",
        ("Acarnley", "textbook mechanics"),
        "torque_factor",
    ),
    "torque-low": Note(
        "look",
        "Torque factor {factor:.2f} at {feed:.0f} mm/min; 2 is usual.",
        "Cutting force is known to ±40 % only, and the motor's resonance is outside the curve.",
        "{instead}",
        ("Acarnley", "textbook mechanics", PRACTICE),
        "torque_factor",
    ),
    "table-too-fast": Note(
        "stop",
        "{feed:.0f} mm/min is {pulses:.0f} pulses a second, {rpm:.0f} rpm of the motor; {words} allow {most:.0f} mm/min.",
        "Table and work part company, and the flank is lost.",
        "Feed at {most:.0f} mm/min or slower.",
        (OWN,),
        "table_feed",
    ),
    "pulse-jumps": Note(
        "look",
        "The drag at the motor is {drag:.2f} Nm; one pulse holds {one:.2f}.",
        "The worm sticks and slips by a pulse either way.",
        "Find the drag (gib of the worm, grease), set fewer parts in a full pulse, or gear the motor down.",
        ("motor and drive notes",),
        "worm_drag",
    ),
    "not-seated": Note(
        "look",
        "The cut does not keep the worm seated: {backlash:.0f}″ of play, {um:.1f} µm on the flank, can jump inside a pass.",
        "It leaves a jump along the face that no finer scale or drive mends.",
        "{instead}",
        (OWN, PRACTICE),
        "backlash",
    ),
    "not-self-locking": Note(
        "look",
        "This worm does not lock itself: friction {friction:.2f} against {needed:.2f}.",
        "The cut can turn the work back through the worm when the motor lets go.",
        "Keep the motor under power, or clamp the spindle between moves.",
        ("textbook mechanics",),
        "worm_friction",
    ),
    "needs-ramp": Note(
        "look",
        "Without a ramp the motor starts at {start:.0f} pulses a second at most; the cut asks for {pulses:.0f}.",
        "It loses pulses in its first turn.",
        "Begin the feed slowly, before the blank, or let the controller ramp.",
        (OWN,),
        "pulse_rate",
    ),
    "turn-by-hand": Note(
        "look",
        "The helix stands at {angle:.0f}° on the pitch circle: the work turns further than the table travels.",
        "Pulse rate, torque and jerk grow with it.",
        "Turn the work by hand and let the table follow where the machine allows; else power feed, the slowest, with ramps.",
        (OWN, PRACTICE),
        "lead",
    ),
    "no-link-helix": Note(
        "look",
        "The rig has no link: of this helical gear only the spacing is predicted.",
        "What change gears leave along the face is in the plan.",
        "Fill in the link, even with don't-knows, if there is one.",
        (OWN,),
        "helix_slope",
    ),
    # the class
    "class-doubtful": Note(
        "look",
        "Class {cls} is kept with probability {chance:.2f}.",
        "{symbol} decides: {p95:.1f} µm in 95 of 100 gears, {limit:.1f} is the limit.",
        "{instead}",
        ("JCGM 101:2008", "ISO 1328-1:2013"),
        "class_probability",
    ),
    "finer-no-gain": Note(
        "note",
        "Finer pulses or a finer scale would take {finer:.0f} % off {symbol}; {best} takes {gain:.0f} %.",
        "",
        "Spend time or money there.",
        (OWN,),
        "budget",
    ),
    "form-apart": Note(
        "note",
        "The class holds for spacing and helix; the tooth form is the cutter's{form}.",
        "",
        "Look at the cutter's own page before a class is promised.",
        ("ISO 1328-1:2013",),
        "profile_total",
    ),
    "class-from-memory": Note(
        "note",
        "The limits of the classes come from formulas partly recalled from memory.",
        "No text of the standard was at hand to compare with.",
        "Compare them with the standard before a class is promised to anyone.",
        ("ISO 1328-1:2013",),
        "class_probability",
    ),
    # one pass
    "falls-behind": Note(
        "stop",
        "From {place:.2f} mm on the drive holds pulses back, by {delay:.0f} ms at worst: {um:.1f} µm on the flank.",
        "It gives {most:.0f} pulses a second; the table asks for {asked:.0f}.",
        "Feed no faster than {feed:.0f} mm/min at any moment.",
        (OWN,),
        "lag",
    ),
    "lag-changes": Note(
        "look",
        "The delay of {delay:.1f} ms moves the flank by {um:.1f} µm as the feed swings.",
        "A steady delay moves every tooth alike and is harmless; a changing one is not.",
        "Feed more evenly, or shorten the delay.",
        (OWN,),
        "lag",
    ),
    "keeps-up": Note(
        "note",
        "The link keeps up: no pulse is late by more than its delay of {delay:.1f} ms.",
        "",
        "",
        (OWN,),
        "lag",
    ),
    # a log
    "pulses-lost": Note(
        "stop",
        "At {place:.2f} mm ({time:.1f} s) {pulses} pulses were {word}: {um:.1f} µm on space {space} from there, and on all after it.",
        "{seen}. They do not come back by themselves.",
        "Re-pick up before the next space, and look at space {space}.",
        (OWN,),
        "events",
    ),
    "rotor-slipped": Note(
        "stop",
        "At {place:.2f} mm ({time:.1f} s) the rotor slipped by {pulses} pulses, {turns} electrical turn{s}: {um:.0f} µm on space {space}.",
        "A rotor slips by four full pulses or multiples of them when the load is too much for it.",
        "Re-pick up; feed slower or lighten the cut before going on.",
        ("motor and drive notes", OWN),
        "events",
    ),
    "held-back": Note(
        "look",
        "From {first:.2f} to {last:.2f} mm the pulses were up to {pulses} late; both agree again afterwards.",
        "Held back, not lost: the position stands, that stretch of the flank does not.",
        "Look at space {space} there; feed slower.",
        (OWN,),
        "events",
    ),
    "ratio-off": Note(
        "look",
        "The ratio is off by {ppm} ± {U:.0f} ppm{um}.",
        "It grows along the face, the same on every tooth.",
        "Look at the ratio entered, then at the gain of the scale.",
        ("JCGM 100:2008", OWN),
        "ratio_error_ppm",
    ),
    "worm-seen": Note(
        "note",
        "The worm waves by ±{arcsec:.1f} ± {U:.1f}″: ±{um:.1f} µm.",
        "",
        "Compare it with the head's map; make a new one where they differ.",
        (OWN,),
        "worm_arcsec",
    ),
    "log-clean": Note("note", "Nothing was lost: {words}.", "", "", (OWN,), "events"),
    "log-proves-little": Note(
        "look",
        "Counts and commanded pulses show the controller only.",
        "That the work turned cannot be proven by them.",
        "Log the motor's or the work's angle beside them: an indicator on a bar, an encoder on the spindle.",
        (OWN,),
        "observable",
    ),
    "log-gap": Note(
        "look",
        "The log pauses at {time:.1f} s.",
        "What happened there is not in it.",
        "Log without pauses, or look at both sides of it.",
        (OWN,),
        "events",
    ),
    "log-wrapped": Note(
        "note",
        "The {column} of {bits} bits came round at {time:.1f} s; it was counted on.",
        "",
        "Check that it is such a counter.",
        (OWN,),
        "events",
    ),
    "bend-carried": Note(
        "note",
        "Less than a third of a turn was covered and no map of the head is known: a slow bend was fitted in place of the wheel.",
        "The wheel's wave would be taken for a ratio error and for jumps; the uncertainties are wider for it.",
        "Measure the head, or log over a third of a turn.",
        (OWN,),
        "ratio_error_ppm",
    ),
    "leans-alike": Note(
        "note",
        "Neighbouring readings lean the same way: every uncertainty was widened by {factor:.1f}.",
        "Warmth, stick-slip or vibration does that.",
        "",
        (OWN,),
        "events",
    ),
    "deviations-logged": Note(
        "note",
        "The column of the work hardly moves: it was read as deviations, not as angles.",
        "",
        "If it holds angles, its unit is wrong.",
        (OWN,),
        "observable",
    ),
    "pulses-against-counts": Note(
        "note",
        "Pulses run down where counts run up; it was taken as the hand of the helix.",
        "",
        "Check the hand on a scratch if it was not meant.",
        (OWN,),
        "observable",
    ),
}


def note(code: str, **facts: object) -> Finding:
    """The finding of that code with its texts filled from the facts of the case."""
    kind = NOTES[code]
    says, why, do = (text.format(**facts) for text in (kind.says, kind.why, kind.do))
    return Finding(code=code, weight=kind.weight, says=says, why=why, do=do, sources=kind.sources, about=kind.about)
