"""The scripts of deploy/ are no package: they find each other by the folder that they stand in."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[2] / "deploy"))
