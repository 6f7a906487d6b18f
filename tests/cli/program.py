"""What the tests of the whole program share: a folder with its own workshop, and the program run in it."""

import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BOOKS = ROOT / "sample_data" / "books"
ON = ["--on", "2026-11-25", "--at", "09:30"]


def quick_place():
    """In memory where there is room: a test waits for no disk."""
    memory = Path("/dev/shm")
    return memory if memory.is_dir() and shutil.disk_usage(memory).free > 1 << 25 else None


class Bench:
    """A folder of its own, with a copy of the sample workshop unless `empty`."""

    def __init__(self, endband, sample, empty=False, on_disk=False):
        self.endband, self.sample, self.empty, self.on_disk = str(Path(endband).resolve()), sample, empty, on_disk

    def __enter__(self):
        self.place = tempfile.TemporaryDirectory(prefix="endband-", dir=None if self.on_disk else quick_place())
        self.folder = Path(self.place.name)
        self.workshop = self.folder / "workshop.db"
        if not self.empty:
            shutil.copy(self.sample, self.workshop)
        self.env = {"PATH": "/usr/bin:/bin", "HOME": str(self.folder), "TZ": "UTC", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8",
                    "COLUMNS": "80", "TERM": "dumb", "ENDBAND_WORKSHOP": str(self.workshop)}
        for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
            if name in os.environ:
                self.env[name] = os.environ[name]
        return self

    def __exit__(self, *_):
        self.place.cleanup()

    def run(self, *words, day=True, **more):
        line = [self.endband, *(ON if day and "--on" not in words else []), *words]
        return subprocess.run(line, cwd=self.folder, env=self.env, capture_output=True, check=False, timeout=120, **more)

    def good(self, *words, **more):
        done = self.run(*words, **more)
        if done.returncode != 0:
            raise AssertionError(f"{' '.join(words)} ended with {done.returncode}: {done.stderr.decode()}")
        return done.stdout.decode()

    def json(self, *words, **more):
        return json.loads(self.good("--json", *words, **more))

    def write(self, name, text):
        (self.folder / name).write_text(text, encoding="utf-8")
        return name


def commands(bench):
    """The table of commands as the program tells it."""
    return bench.json("help", day=False)["commands"]


def schema(name):
    return json.loads((ROOT / "schema" / "json" / f"{name}.schema.json").read_text(encoding="utf-8"))
