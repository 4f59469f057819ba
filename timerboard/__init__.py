"""timerboard: a kitchen board that gets a whole multi-dish meal on to the table."""
