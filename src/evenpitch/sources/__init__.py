"""Who says so: the bibliography, citations on formulas, tables transcribed from print. Imports nothing of ours."""
