"""The shape of the work: involute gears, their sizes, and what to measure on them."""
