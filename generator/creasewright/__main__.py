"""Runs the command line: `python -m creasewright`."""

import sys

from creasewright.cli import main

sys.exit(main())
