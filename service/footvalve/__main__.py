"""`python -m footvalve`: the same as the command `footvalve`."""

import sys

from footvalve.command import main

sys.exit(main())
