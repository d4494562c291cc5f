"""Set greenroom up in this checkout if need be, and start it: python3 packaging/start.py.

Everything after the file's name goes to the program itself. Needs nothing but Python.
"""

import sys

import _python


def main():  # noqa: ANN201 (annotations are a syntax error to the older Pythons refused here)
    """Refuse an older Python, make the environment ready, and start the program in it."""
    sentence = _python.refusal(sys.version_info)
    if sentence is not None:
        return sentence

    import _environment
    import _launch

    try:
        return _launch.start(sys.argv[1:])
    except _environment.SetupError as trouble:
        return str(trouble)


if __name__ == "__main__":
    sys.exit(main())
