"""The Pick page: what is ripe by when, what was picked, and what to make of it."""
