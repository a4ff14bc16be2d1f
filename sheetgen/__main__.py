"""`python -m sheetgen`."""

import sys

from sheetgen.cli import main

sys.exit(main())
