#!/usr/bin/python3
"""Runs one .test file of tests/golden: commands, and what they must print and end with.

usage: golden.py ENDBAND SAMPLE_WORKSHOP FILE.test [--update]

A file is read line by line:
  # ...            a remark
  sample           the sample workshop lies at $ENDBAND_WORKSHOP; without it there is none
  file NAME        the lines after it that begin with "| " are put into this file
  $ COMMAND        run by bash in the test's own folder; `endband` is the program under test
  > LINE           expected on standard output
  ! LINE           expected on standard error
  = N              expected exit code; 0 where none is said
Width, zone, language, day and time are pinned. --update writes what is printed as what is expected: read it before you keep it.
"""

import difflib
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path


# A command that says no day of its own is run on one day, at one time.
PINNING = """#!/bin/bash
case " $* " in *" --on "*|*" help "*|*" -h "*|*" --help "*|*" --version "*) exec {0} "$@" ;; esac
if [ $# -lt 2 ]; then exec {0} "$@"; fi
exec {0} --on 2026-11-25 --at 09:30 "$@"
"""


class Step:
    def __init__(self, command):
        self.command = command
        self.out, self.err, self.code = [], [], 0

    def lines(self):
        marked = [f"> {line}".rstrip() for line in self.out] + [f"! {line}".rstrip() for line in self.err]
        return marked + ([f"= {self.code}"] if self.code else [])


def environment(endband, folder):
    """Nothing of the caller's surroundings reaches the program."""
    links = folder / ".bin"
    links.mkdir()
    (links / "endband").write_text(PINNING.format(endband), encoding="utf-8")
    (links / "endband").chmod(0o755)
    pinned = {"PATH": f"{links}:/usr/bin:/bin", "HOME": str(folder / ".home"), "TZ": "UTC", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8",
              "COLUMNS": "80", "TERM": "dumb", "ENDBAND_WORKSHOP": "workshop.db"}
    if "ASAN_OPTIONS" in os.environ:
        pinned["ASAN_OPTIONS"] = os.environ["ASAN_OPTIONS"]
    return pinned


def run(command, folder, surroundings):
    done = subprocess.run(["bash", "-c", command], cwd=folder, env=surroundings, capture_output=True, check=False, timeout=120)
    step = Step(command)
    # The folder has another name in every run.
    step.out = done.stdout.decode().replace(str(folder), "$HERE").splitlines()
    step.err = done.stderr.decode().replace(str(folder), "$HERE").splitlines()
    step.code = done.returncode
    return step


def read(path):
    """The file's preamble, then its steps, each with the lines before it that are kept as they are."""
    items = []
    for line in path.read_text(encoding="utf-8").splitlines():
        mark, rest = line[:2], line[2:]
        if mark == "$ ":
            items.append(Step(rest))
        elif mark.strip() in (">", "!", "=") and items and isinstance(items[-1], Step):
            if mark.strip() == ">":
                items[-1].out.append(rest)
            elif mark.strip() == "!":
                items[-1].err.append(rest)
            else:
                items[-1].code = int(rest)
        else:
            items.append(line)
    return items


def prepare(line, folder, sample, opened):
    """One kept line: what it puts into the folder. Gives the file that is being filled."""
    if line == "sample":
        shutil.copy(sample, folder / "workshop.db")
    elif line.startswith("file "):
        opened = folder / line[5:]
        opened.write_text("", encoding="utf-8")
    elif line.startswith("|"):
        with opened.open("a", encoding="utf-8") as file:
            file.write(line[2:] + "\n")
    elif line and not line.startswith("#"):
        raise SystemExit(f"cannot read the line: {line}")
    return opened


def main():
    endband, sample, path = Path(sys.argv[1]).resolve(), Path(sys.argv[2]).resolve(), Path(sys.argv[3])
    update = "--update" in sys.argv
    written, wrong, opened = [], [], None
    with tempfile.TemporaryDirectory(prefix="endband-golden-") as name:
        folder = Path(name)
        surroundings = environment(endband, folder)
        for item in read(path):
            if not isinstance(item, Step):
                opened = prepare(item, folder, sample, opened)
                written.append(item)
                continue
            got = run(item.command, folder, surroundings)
            if got.lines() != item.lines():
                wrong += [f"$ {item.command}", *difflib.unified_diff(item.lines(), got.lines(), "expected", "printed", lineterm="")]
            written += [f"$ {item.command}", *got.lines()]
    if update:
        path.write_text("\n".join(written) + "\n", encoding="utf-8")
    elif wrong:
        sys.exit("\n".join(wrong))


if __name__ == "__main__":
    main()
