"""Sheets for the shelf, the door and the plot: PDF pages in exact millimetres, and the codes on the tags."""
