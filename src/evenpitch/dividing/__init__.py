"""How far the work turns: direct, simple, block, compound, differential, pulses; change-gear trains and lead."""
