"""The outside world, one file per thing."""
