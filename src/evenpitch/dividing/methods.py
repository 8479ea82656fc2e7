"""Every way of dividing, as one closed union."""

from __future__ import annotations

from evenpitch.dividing.by_hand import Block, Compound, Direct, Simple
from evenpitch.dividing.geared import Differential
from evenpitch.dividing.pulsed import PlatePulses, Pulses

Method = Direct | Simple | Block | Compound | Differential | Pulses | PlatePulses
"""`PlatePulses` occurs only where the motor drives the plate."""

__all__ = ["Block", "Compound", "Differential", "Direct", "Method", "PlatePulses", "Pulses", "Simple"]
