"""Where the one-folder program begins."""

import sys

from greenroom.app import main

if __name__ == "__main__":
    sys.exit(main())
