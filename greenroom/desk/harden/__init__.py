"""The Harden page: who is out, for how long, when it comes back in, and when it is ready."""
