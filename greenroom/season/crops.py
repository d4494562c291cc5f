"""Crops as the season needs them: the guide's entry for a variety, and the table it emerges by."""

from __future__ import annotations

EMERGENCE_TABLE = {
    "aubergine": "eggplant",
    "eggplant": "eggplant",
    "tomato": "tomato",
    "cabbage": "cabbage",
    "cauliflower": "cauliflower",
    "lettuce": "lettuce",
    "onion": "onion",
    "celery": "celery",
    "cucumber": "cucumber",
    "melon": "muskmelon",
    "parsley": "parsley",
}
"""Crops of the guide and the rows of Harrington and Minges' table; peppers take the pepper row."""


def emergence_crop(crop: str | None) -> str:
    """Return the row of the emergence table for a crop; peppers where nothing else is known."""
    for word, row in EMERGENCE_TABLE.items():
        if crop is not None and word in crop:
            return row
    return "pepper"
