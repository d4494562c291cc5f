"""The window on the desk: the only place that knows Qt widgets."""
