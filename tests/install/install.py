#!/usr/bin/python3
"""What `cmake --install` puts where, and the Debian package: built, put into a root of its own, run from there, taken away.

usage: install.py BUILD_FOLDER CMAKE [Installed | Package]
"""

import gzip
import os
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# Filesystem Hierarchy Standard 3.0, 4.11: manual pages in man/man1, data in share; the folders of the shells are those
# that bash-completion 2.11, zsh 5.9 and fish 3.6 of Debian 12 look into.
FILES = ["bin/endband", "lib/endband/endband-pdf.so", "share/man/man1/endband.1.gz", "share/bash-completion/completions/endband",
         "share/zsh/vendor-completions/_endband", "share/fish/vendor_completions.d/endband.fish",
         "share/doc/endband/README.md", "share/doc/endband/description.md", "share/doc/endband/changelog.gz",
         "share/doc/endband/examples/books/pocket_herbal.toml", "share/endband/schema/json/quote-show.schema.json"]


def run(*words, **more):
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False, timeout=600, **more)
    if done.returncode != 0:
        raise AssertionError(f"{words} ended with {done.returncode}:\n{done.stdout}{done.stderr}")
    return done.stdout


def files_below(folder):
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if not path.is_dir())


class Tree(unittest.TestCase):
    def setUp(self):
        self.place = tempfile.TemporaryDirectory(prefix="endband-install-")
        self.folder = Path(self.place.name)

    def tearDown(self):
        self.place.cleanup()

    def holds_all(self, prefix):
        for name in FILES:
            with self.subTest(file=name):
                self.assertTrue((prefix / name).is_file(), name)
        program = prefix / "bin/endband"
        self.assertRegex(run(program, "--version"), r"^endband \d+\.\d+\.\d+\nworkshop schema \d+\nengine rules \d+\n$")
        page = gzip.decompress((prefix / "share/man/man1/endband.1.gz").read_bytes()).decode()
        self.assertEqual(page, run(program, "help", "--man"))
        for shell, name in zip(("bash", "zsh", "fish"), FILES[3:6]):
            self.assertEqual((prefix / name).read_text(encoding="utf-8"), run(program, "completion", shell))


class Installed(Tree):
    def test_a_prefix_of_ones_own_holds_all_of_it_and_the_program_runs_there(self):
        prefix = self.folder / "my own"
        run(CMAKE, "--install", BUILD, "--prefix", prefix)
        self.holds_all(prefix)

    def test_an_example_of_the_installed_ones_is_priced_by_the_installed_program(self):
        run(CMAKE, "--install", BUILD, "--prefix", self.folder)
        env = {"PATH": "/usr/bin:/bin", "ENDBAND_WORKSHOP": str(self.folder / "w.db"), "HOME": str(self.folder)}
        run(self.folder / "bin/endband", "workshop", "new", "--sample", env=env)
        book = self.folder / "share/doc/endband/examples/books/pocket_herbal.toml"
        self.assertIn("to pay", run(self.folder / "bin/endband", "quote", "make", book, "--dry-run", env=env))

    def test_the_installed_program_finds_its_pdf_writer(self):
        run(CMAKE, "--install", BUILD, "--prefix", self.folder)
        env = {"PATH": "/usr/bin:/bin", "ENDBAND_WORKSHOP": str(self.folder / "w.db"), "HOME": str(self.folder)}
        program, book = self.folder / "bin/endband", self.folder / "share/doc/endband/examples/books/pocket_herbal.toml"
        run(program, "workshop", "new", "--sample", env=env)
        run(program, "quote", "make", book, env=env)
        run(program, "quote", "print", "1", "-o", self.folder / "offer.pdf", env=env)
        self.assertTrue((self.folder / "offer.pdf").read_bytes().startswith(b"%PDF-"))


class Package(Tree):
    @classmethod
    def setUpClass(cls):
        cls.made = tempfile.TemporaryDirectory(prefix="endband-deb-")
        run("cpack", "-G", "DEB", "--config", Path(BUILD) / "CPackConfig.cmake", "-B", cls.made.name)
        cls.deb = next(Path(cls.made.name).glob("endband_*.deb"))

    @classmethod
    def tearDownClass(cls):
        cls.made.cleanup()

    def field(self, name):
        return run("dpkg-deb", "--field", self.deb, name).strip()

    def dpkg(self, *words):
        # The scripts of a package would need the root to be whole; this one has none.
        return run("dpkg", f"--root={self.folder}", f"--log={self.folder}.log", "--force-not-root", "--force-depends",
                   "--force-script-chrootless", *words)

    def test_the_fields_say_what_it_is_and_what_it_needs(self):
        self.assertEqual(self.field("Package"), "endband")
        self.assertIn(self.field("Version"), run(Path(BUILD) / "endband", "--version"))
        self.assertEqual(self.field("Section"), "office")
        depends = self.field("Depends")
        for needed in ("libc6 (>= ", "libstdc++6 (>= ", "libsqlite3-0 (>= ", "libpango-1.0-0 (>= ", "libcairo2 (>= "):
            self.assertIn(needed, depends)
        # Debian Policy 5.6.13: the first line stands alone, the rest is indented by one space, an empty line is a dot.
        first, *rest = run("dpkg-deb", "--field", self.deb, "Description").rstrip("\n").splitlines()
        self.assertLess(len(first), 80)
        self.assertTrue(rest and all(line.startswith(" ") for line in rest))

    def test_it_holds_what_it_should_and_everybody_may_read_it(self):
        listed = run("dpkg-deb", "--contents", self.deb).splitlines()
        names = {line.split(maxsplit=5)[5].removeprefix("./") for line in listed}
        self.assertLessEqual({"usr/" + name for name in FILES}, names)
        self.assertFalse([name for name in names if not name.startswith(("usr/",)) and name not in ("", ".")])
        for line in listed:
            with self.subTest(line=line):
                self.assertIn(line.split()[0], ("drwxr-xr-x", "-rw-r--r--", "-rwxr-xr-x"))
                self.assertEqual(line.split()[1], "root/root")
                self.assertEqual(line.startswith("-rwx"), line.endswith("usr/bin/endband"))

    def test_it_is_installed_runs_and_goes_without_leaving_a_file(self):
        admin = self.folder / "var/lib/dpkg"
        for name in ("info", "updates", "triggers"):
            (admin / name).mkdir(parents=True)
        (admin / "status").touch()
        before = set(files_below(self.folder))
        self.dpkg("--install", self.deb)
        self.holds_all(self.folder / "usr")
        self.assertIn("install ok installed", run("dpkg-query", f"--admindir={admin}", "--show", "--showformat=${Status}", "endband"))
        self.dpkg("--purge", "endband")
        left = [name for name in files_below(self.folder) if name not in before and not name.startswith("var/lib/dpkg/")]
        self.assertEqual(left, [])
        self.assertFalse((self.folder / "usr").exists())
        self.assertEqual(list((admin / "info").glob("endband*")), [])


if __name__ == "__main__":
    BUILD, CMAKE = sys.argv[1:3]
    os.umask(0o077)  # whatever the builder's own habit is
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
