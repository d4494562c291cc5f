"""Setting up, starting and installing greenroom."""
