"""The print desk: what goes on paper, how it will look, and the ways to a file or a printer."""
