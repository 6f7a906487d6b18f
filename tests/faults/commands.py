#!/usr/bin/python3
"""Every writing command of the program over a disk that fails at each of its steps, in each way.

The examples of the help run in their order; before each that writes to the workshop stands a copy of it, on which
walk_command then runs that line over failing disks.

usage: commands.py ENDBAND SAMPLE_WORKSHOP WALK_COMMAND [PART/PARTS [STRIDE]]
"""

import hashlib
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))
import examples  # noqa: E402
import program  # noqa: E402

def digest(path):
    return hashlib.sha256(Path(path).read_bytes()).hexdigest() if Path(path).exists() else ""


def lines(bench):
    """Of each command that writes, what its examples write with, in the order of the help."""
    for command in program.commands(bench):
        examples.BEFORE.get(command["noun"] + " " + command["verb"], lambda _: None)(bench)
        for example in command["examples"]:
            yield command, shlex.split(example)[1:]


def main():
    endband, sample, walker, *rest = sys.argv[1:]
    part, parts = (int(word) for word in (rest or ["1/1"])[0].split("/"))
    stride = rest[1] if len(rest) > 1 else "1"
    walked, silent, failed, count = set(), set(), 0, 0
    with program.Bench(endband, sample) as bench:
        before = bench.folder / "before.db"
        for command, words in lines(bench):
            name = command["noun"] + " " + command["verb"]
            shutil.copy(bench.workshop, before)
            bench.good(*words)
            if not command["writes"] or digest(before) == digest(bench.workshop):
                continue
            count += 1
            walked.add(name)
            if count % parts != part % parts:
                continue
            line = [str(Path(walker).resolve()), stride, str(before), *program.ON, *words]
            done = subprocess.run(line, cwd=bench.folder, env=bench.env, capture_output=True, check=False, text=True)
            print(f"{' '.join(words)}: {done.stdout.strip()}", flush=True)
            if done.returncode != 0:
                failed += 1
                print(done.stderr)
    print(f"{len(walked)} commands, {count} lines; failed: {failed}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
