"""The table behind each list and chart: to read, to copy, to save; and the chart as a picture."""
