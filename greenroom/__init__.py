"""greenroom carries every seedling from packet to ripe pod."""

__version__ = "0.1.0"
