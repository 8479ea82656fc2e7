"""Numbers that mean something: names, units, exact ratios, reading, showing, figures, refusals."""
