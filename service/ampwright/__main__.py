"""`python -m ampwright` is the command `ampwright`."""

import sys

from ampwright.cli import main

sys.exit(main())
