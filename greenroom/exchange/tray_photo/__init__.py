"""Reading a photograph of a tray: where its cells are, how green each is, what came up."""
