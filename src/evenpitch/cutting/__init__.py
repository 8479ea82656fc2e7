"""Tool and chip: cutter, blank, depth, passes, speed, feed, room."""
