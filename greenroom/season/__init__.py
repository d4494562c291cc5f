"""What the facts mean: folds the ledger with the guide and the agronomy. No Qt, no SQL, no clock of its own."""
