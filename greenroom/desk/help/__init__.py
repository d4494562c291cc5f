"""Help: the walk through the demo, the words of the trade, and what this program is."""
