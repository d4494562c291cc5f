"""What is known of the crops, each figure with its source."""

from greenroom.guide.catalogue import Guide
from greenroom.guide.entries import GuideError
from greenroom.guide.loader import load_guide, own_guide
from greenroom.guide.records import Cited, Crop, Rank, Seen, Source, Status
from greenroom.guide.shapes import Reading, Span

__all__ = [
    "Cited",
    "Crop",
    "Guide",
    "GuideError",
    "Rank",
    "Reading",
    "Seen",
    "Source",
    "Span",
    "Status",
    "load_guide",
    "own_guide",
]
