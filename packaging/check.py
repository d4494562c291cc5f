"""Run every test of greenroom in a private environment: python3 packaging/check.py.

Everything after the file's name goes to pytest. Needs nothing but Python.
"""

import sys

import _python


def main():  # noqa: ANN201 (annotations are a syntax error to the older Pythons refused here)
    """Refuse an older Python, make the environment ready with its test tools, and run the tests."""
    sentence = _python.refusal(sys.version_info)
    if sentence is not None:
        return sentence

    import _environment
    import _launch

    try:
        return _launch.check(sys.argv[1:])
    except _environment.SetupError as trouble:
        return str(trouble)


if __name__ == "__main__":
    sys.exit(main())
