"""What may have to be said of the gear it runs with."""

from __future__ import annotations

from evenpitch.quantity.finding import PRACTICE, Kind

KINDS: dict[str, Kind] = {
    "same-hands": Kind(
        "stop",
        "Both gears are {hand}-hand.",
        "On parallel shafts they do not mesh.",
        "Make one of them {other}-hand.",
        ("ISO 21771:2007",),
        "hand",
    ),
    "pair-differs": Kind(
        "stop",
        "The two gears differ in {what}: {first} and {second}.",
        "They share no base pitch and cannot run together.",
        "Correct the one that is wrong.",
        ("ISO 21771:2007",),
        "module",
    ),
    "centres-too-close": Kind(
        "stop",
        "At {centres:.3f} mm the pair jams: normal circular backlash {backlash:.3f} mm.",
        "The centres without backlash are {tight:.3f} mm.",
        "Thin the teeth by {more:.3f} mm more in all, or open the centres.",
        ("ISO 21771:2007",),
        "centre_distance",
    ),
    "centres-far": Kind(
        "look",
        "At {centres:.3f} mm the contact ratio is {ratio:.3f}.",
        "Under 1.2 it runs unevenly; under 1 the teeth lose one another.",
        "Shift the profiles to suit the centres, or check that they were measured right.",
        (PRACTICE,),
        "contact_ratio",
    ),
    "transverse-for-normal": Kind(
        "look",
        "This module gives centres of {given:.2f} mm; yours are {centres:.2f}, which fits the {plane} module {module:.4g}.",
        "A normal size was read as transverse, or the reverse.",
        "Say which it is: normal or transverse.",
        ("ISO 21771:2007",),
        "centre_distance",
    ),
    "backlash-differs": Kind(
        "look",
        "Normal circular backlash comes to {found:.3f} mm; {wanted:.3f} was asked for.",
        "The thinning of both gears and the centres decide it.",
        "Thin the two teeth by {thinning:.3f} mm in all.",
        ("ISO 21771:2007",),
        "backlash_normal_circular",
    ),
}
