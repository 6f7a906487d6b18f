#!/usr/bin/python3
"""Makes the sample workshop that the tests of the program copy: make_sample.py ENDBAND FILE"""

import subprocess
import sys
from pathlib import Path

endband, workshop = sys.argv[1], Path(sys.argv[2])
workshop.unlink(missing_ok=True)
subprocess.run([endband, "--workshop", str(workshop), "--on", "2026-01-05", "--at", "08:00", "workshop", "new", "--sample"],
               check=True)
