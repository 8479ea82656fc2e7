"""What may have to be said of dividing."""

from __future__ import annotations

from evenpitch.quantity.finding import OWN, PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "no-simple": Kind(
        "note",
        "No circle divides {n} simply: {ways}.",
        "{n} has a factor that none of your circles holds.",
        "Take the way marked chosen, or choose another.",
        (OWN,),
        "dividing",
    ),
    "no-way": Kind(
        "stop",
        "This rig divides {n} in no way.",
        "No circle, train or link closes within 60″.",
        "A plate with {n} holes, more change gears, or the link would do it.",
        (OWN,),
        "dividing",
    ),
    "way-impossible": Kind(
        "stop",
        "{way} indexing was chosen for {n}, and this rig cannot do it.",
        "{reason}",
        "Choose one of: {ways}.",
        (OWN,),
        "dividing",
    ),
    "inexact": Kind(
        "look",
        "The way chosen is not exact: after {n} moves it is {closing:+.1f}″ from where it began, {um:.1f} µm at the pitch line.",
        "The error lands in the last space cut.",
        "Accept it if class {cls} ({limit:.0f} µm for one pitch) is all you need, or choose an exact way.",
        (OWN,),
        "dividing",
    ),
    "belt-fights": Kind(
        "look",
        "Motor on the worm shaft: with the pin home the belt fights the plate.",
        "Crank and motor turn the same shaft.",
        "Divide by pulses with the pin out of the plate, or by crank with the motor's power off: never both.",
        (OWN,),
        "dividing",
    ),
    "plate-pulses": Kind(
        "look",
        "{n} is on no circle of yours: the motor adds {turns} turns of the plate, {pulses} pulses in all.",
        "By the crank alone this move gives {alone} spaces.",
        "Never make this move with the motor's power off.",
        (OWN,),
        "dividing",
    ),
    "differential-and-lead": Kind(
        "stop",
        "Differential indexing and a lead by change gears were chosen together.",
        "Both need the same gear bracket.",
        "Give one of them to the link: {instead}.",
        ("Practical Treatise on Milling and Milling Machines, ch. V",),
        "dividing",
    ),
    "idlers-unknown": Kind(
        "note",
        "How many idlers your head needs is not known.",
        "Heads differ; tables hold for one pattern only.",
        "Turn the crank through one turn of the work: the plate must turn {turns} times {sense} the crank. Then write the test in the rig.",
        (OWN,),
        "dividing",
    ),
    "head-not-measured": Kind(
        "look",
        "The head was never measured: ±45″ is assumed, ±{um:.1f} µm on this gear.",
        "Every figure of spacing rests on it.",
        "Measure the head; until then no class of spacing is promised.",
        (PRACTICE,),
        "dividing",
    ),
    "head-leads": Kind(
        "look",
        "The head is off by ±{arcsec:.0f}″ once a turn: ±{um:.1f} µm on this gear, {times:.0f} times the way chosen.",
        "Finer pulses or another plate gain nothing beside it.",
        "Use the head map of {date} to correct each space, or accept it.",
        (OWN,),
        "dividing",
    ),
    "head-alone": Kind(
        "look",
        "The head is off by ±{arcsec:.0f}″ once a turn: ±{um:.1f} µm on this gear; the way chosen adds nothing.",
        "What is left comes from the worm wheel.",
        "Use the head map of {date} to correct each space, or accept it.",
        (OWN,),
        "dividing",
    ),
    "one-division": Kind(
        "note",
        "One division is the whole turn: there is nothing to index.",
        "A head is wanted from two divisions on.",
        "Cut it as it stands.",
        (OWN,),
        "dividing",
    ),
}
