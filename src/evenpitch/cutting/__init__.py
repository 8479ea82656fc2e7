"""Tool and chip: cutter by number, its form error, blank, depth and passes, speed and feed, room on the machine."""
