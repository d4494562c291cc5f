"""Start greenroom: ``python -m greenroom``."""

import sys

from greenroom.app import main

if __name__ == "__main__":
    sys.exit(main())
