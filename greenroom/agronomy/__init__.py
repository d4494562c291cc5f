"""What the trade knows: pure functions on numbers, dates and arrays."""
