"""What a link does on one gear: the sizes that its sentence needs, and the chain from table to work."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.checking.good_to import OnGear
from evenpitch.gear.gear import Gear
from evenpitch.gear.sizes import base_helix, lead, pitch_diameter
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import Radian
from evenpitch.rig.rig import Rig


def on_gear(gear: Gear) -> OnGear:
    """What the sentence needs of a gear; a Refusal for a spur gear, where nothing is linked while a space is cut."""
    if not gear.helix or gear.face is None:
        given = "a spur gear" if not gear.helix else "no face"
        likely = "The link turns the work only while a helix is cut." if not gear.helix else "A slope needs a length."
        raise Refusal(Fault("job", given, "a helical gear with its face", likely, "Prove the link on a helical job."))
    return OnGear(
        pitch_diameter=pitch_diameter(gear),
        helix=Radian(abs(gear.helix)),
        base_helix=Radian(abs(base_helix(gear))),
        face=gear.face,
        lead=lead(gear),
    )


def link_chain(rig: Rig) -> tuple[Fraction, float]:
    """Pulses of a turn and the travel of one count, mm; a Refusal where one of them is not known."""
    pulses, link = rig.pulses_per_turn(), rig.link
    faults = []
    if pulses is None:
        do = "Fill in full steps, microsteps and belt on the rig page."
        faults.append(Fault("rig, link", "", "the pulses of a turn", "The link or a part of it is not known.", do))
    if link is None or link.count is None:
        faults.append(
            Fault(
                "rig, link.count", "", "the table travel of one count", "It is not known.", "Fill in count, or period and edges."
            )
        )
    if faults or pulses is None or link is None or link.count is None:
        raise Refusal(*faults)
    return pulses, float(link.count)
