"""Copies of the ledger: taken while the window is open, restored, and brought in where it is damaged."""
