"""What is known of the crops, each figure with its source."""

from greenroom.guide.catalogue import Guide
from greenroom.guide.entries import GuideError
from greenroom.guide.folder import resources_folder
from greenroom.guide.loader import load_guide, own_guide
from greenroom.guide.records import Cited, Crop, Rank, Seen, Source, Status
from greenroom.guide.shapes import Reading, Span
from greenroom.guide.troubles import Cause, Pest, Question, Sign, Troubles
from greenroom.guide.troubles_reading import load_troubles

__all__ = [
    "Cause",
    "Cited",
    "Crop",
    "Guide",
    "GuideError",
    "Pest",
    "Question",
    "Rank",
    "Reading",
    "Seen",
    "Sign",
    "Source",
    "Span",
    "Status",
    "Troubles",
    "load_guide",
    "load_troubles",
    "own_guide",
    "resources_folder",
]
