"""Tell an older Python, in one sentence, that it is too old.

This module, start.py and check.py are written so that any Python can read them: an older one
must get as far as the sentence instead of stopping at syntax it does not know.
"""

OLDEST = (3, 11)


def refusal(version):  # noqa: ANN001, ANN202 (annotations are a syntax error to Python 2)
    """Return the sentence for a Python too old to run greenroom, or None if it is new enough."""
    if tuple(version[:2]) >= OLDEST:
        return None
    needed = ".".join(str(part) for part in OLDEST)
    found = ".".join(str(part) for part in version[:3])
    return "greenroom needs Python " + needed + " or newer, and this is Python " + found + "."
