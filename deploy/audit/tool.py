"""A tool of the audit, run beside the environment: its packages are none of those that are audited."""

import os
import subprocess
import sys
from pathlib import Path

TOOLS = Path(sys.prefix) / "tools" / "audit"


def run_tool(module: str, *arguments: str | Path, folder: Path | None = None) -> subprocess.CompletedProcess[str]:
    """What a tool has said, with its exit code. It sees the environment's packages too."""
    command = [sys.executable, "-m", module, *arguments]
    environment = os.environ | {"PYTHONPATH": str(TOOLS)}
    return subprocess.run(command, cwd=folder, env=environment, check=False, capture_output=True, text=True)
