"""The place, its weather record and units, and the first run."""
