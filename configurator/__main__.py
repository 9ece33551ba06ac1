"""`python -m configurator` is `blocks`."""

import sys

from configurator.cli import main

sys.exit(main())
