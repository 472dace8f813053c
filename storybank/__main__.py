"""`python -m storybank` is the command `storybank`."""

import sys

from storybank.cli import main

if __name__ == "__main__":
    sys.exit(main())
