"""`python -m tests.benchmarks [NAME ...]`: runs the benchmarks."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from run import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
