#!/usr/bin/python3
"""The workshop as a file among others: what it is called, where it lies, what lies beside it, and how it is lost and found again.

usage: file.py ENDBAND SAMPLE_WORKSHOP [TEST...]
"""

import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))
import program  # noqa: E402  (it lies beside the tests of the program)

NEW = ["workshop", "new", "--name", "Quay Bindery", "--currency", "EUR"]


class Names(unittest.TestCase):
    def test_a_name_that_sqlite_would_read_otherwise_is_a_name(self):
        for name in ("file:zz.db?mode=memory", "file:zz.db?mode=ro", "file:zz%41.db", ":memory:", "zz.db?immutable=1#x", "-zz.db"):
            with self.subTest(name=name), program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
                on = f"--workshop={name}"
                bench.good(*NEW, on)
                self.assertEqual([path.name for path in bench.folder.iterdir()], [name])
                bench.good("customer", "add", "ida-quill", "--name", "Ida Quill", on)
                self.assertIn("Ida Quill", bench.good("customer", "list", on))
                bench.good("workshop", "backup", "file:copy.db?mode=memory", on)
                bench.good("workshop", "check", "--workshop=file:copy.db?mode=memory")
                self.assertIn("ida-quill", bench.good("complete", "--", "customer", "show", "--workshop", name, "", day=False))
                self.assertEqual(sorted(path.name for path in bench.folder.iterdir()), sorted([name, "file:copy.db?mode=memory"]))

    def test_no_name_is_refused(self):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            for words in (NEW, ["customer", "list"]):
                done = bench.run(*words, "--workshop=")
                self.assertIn(done.returncode, (2, 3), done)
                self.assertEqual(list(bench.folder.iterdir()), [])


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
