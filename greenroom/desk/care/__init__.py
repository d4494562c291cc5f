"""The care of one holder: water, feed, and what is seen on its plants."""
