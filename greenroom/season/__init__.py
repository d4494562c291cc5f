"""What the facts mean: folds the ledger with the guide and the agronomy.

No Qt, no SQL, and no clock of its own: today and now come in as arguments.
"""
