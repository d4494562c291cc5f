"""The round: what to do today, by where one stands."""
