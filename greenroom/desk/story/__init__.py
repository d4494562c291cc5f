"""The story panel: what happened to a plant, a holder or a packet, with its notes and pictures."""
