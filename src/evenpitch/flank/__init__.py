"""The virtual cut: what a real disc cutter on a real motion leaves on the flanks, in micrometres, before metal is cut."""
