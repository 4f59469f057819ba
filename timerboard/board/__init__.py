"""Qt: draws what it is told, sends commands, decides nothing."""
