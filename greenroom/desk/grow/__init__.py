"""The Grow on page: trays and racks cell by cell, seedlings carried from one to the other."""
