"""Measuring and judging: readings, scale and head maps, what a link is good to, and what a wrong reading means."""
