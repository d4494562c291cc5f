"""The jobs of the round: each module knows one kind of work and when it is due."""
