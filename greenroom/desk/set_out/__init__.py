"""The Set out page: the gate, the plot with its hours of sun, and plants set into it."""
