"""greenroom carries every seedling from packet to ripe pod."""

__version__ = "0.1.0"
# The name a desktop knows the program by. Nobody can own home.arpa (RFC 8375), so it names no one's host.
APP_ID = "arpa.home.greenroom"
