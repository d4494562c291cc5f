"""Files in and out: every reader refuses a bad file with one sentence and keeps nothing of it."""
