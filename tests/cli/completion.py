#!/usr/bin/python3
"""Completion: what the program offers, and what bash, zsh and fish make of it, each at a terminal of its own.

usage: completion.py ENDBAND SAMPLE_WORKSHOP
"""

import fcntl
import hashlib
import os
import pty
import select
import shutil
import sqlite3
import subprocess
import sys
import termios
import time
import unittest

import program

# Odd on purpose: quotes, blanks, accents, signs that a shell reads.
PLACE = """Zoë's "blue" chest, 3rd drawer & a half"""
ADD = {"material add", "customer add", "outlet add"}  # these take a code that nobody has yet


def fill(bench):
    """Of everything that has a code or a number at least one."""
    book = bench.write("book.toml", 'endband = 1\nheight = "210 mm"\nwidth = "148 mm"\npages = 160\nleather = "goat-moss-08"\n'
                       'title = "Łódź & Zoë"\n[[outside]]\nwords = "a brass die"\nprice = "80.00"\n')
    bench.good("outlet", "add", "market", bench.write("outlet.toml", bench.json("outlet", "show", "--example")["text"]))
    bench.good("rates", "carriage", "parcel", str(program.ROOT / "sample_data" / "carriage" / "wend.toml"))
    bench.good("rates", "tax", "reduced", "7 %")
    bench.good("listing", "post", book, "--through", "market")
    bench.good("quote", "make", book, "--customer", "ida-quill")
    bench.good("stock", "count", "text-wove-90", "40 sheets", "--place", PLACE)
    bench.good("quote", "accept", "1")
    bench.good("job", "hold", "1", "the proof of the title")


class Offered(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.bench = program.Bench(ENDBAND, SAMPLE)
        cls.bench.__enter__()
        fill(cls.bench)
        cls.commands = program.commands(cls.bench)

    @classmethod
    def tearDownClass(cls):
        cls.bench.__exit__()

    def ask(self, *words, **more):
        done = self.bench.run("complete", "--", *words, day=False, **more)
        self.assertEqual((done.returncode, done.stderr), (0, b""))
        kind, typed, *offers = done.stdout.decode().splitlines()
        self.assertEqual(typed, words[-1])
        return kind, [offer.split("\t")[0] for offer in offers]

    def test_nouns_then_verbs_then_flags(self):
        nouns = {command["noun"] for command in self.commands}
        self.assertEqual(set(self.ask("")[1]), nouns | {"help", "completion"})
        self.assertEqual(self.ask("li"), ("words", ["listing"]))
        for noun in nouns:
            verbs = {command["verb"] for command in self.commands if command["noun"] == noun}
            self.assertEqual(set(self.ask(noun, "")[1]), verbs)
            self.assertEqual(set(self.ask("help", noun, "")[1]), verbs)
        for command in self.commands:
            flags = {flag["name"] for flag in command["flags"]}
            self.assertEqual(set(self.ask(command["noun"], command["verb"], "--")[1]), flags)
        self.assertEqual(self.ask("completion", "")[1], ["bash", "zsh", "fish"])

    def test_what_is_said_is_not_offered_again_and_flags_may_stand_first(self):
        self.assertNotIn("--json", self.ask("--json", "quote", "list", "--")[1])
        self.assertIn("make", self.ask("--on", "2026-01-01", "--json", "quote", "")[1])
        self.assertEqual(self.ask("quote", "list", "--", "--")[1], [])

    def test_every_value_of_a_closed_list_is_offered_in_both_ways_of_writing_it(self):
        told = set()
        for command in self.commands:
            for flag in command["flags"]:
                if flag["choices"] and (flag["name"], len(flag["choices"])) not in told:
                    told.add((flag["name"], len(flag["choices"])))
                    line = (command["noun"], command["verb"])
                    self.assertEqual(self.ask(*line, flag["name"], "")[1], flag["choices"])
                    self.assertEqual(self.ask(*line, flag["name"] + "=")[1], [f"{flag['name']}={each}" for each in flag["choices"]])
        self.assertGreaterEqual(len(told), 8)

    def test_each_choice_of_a_closed_list_is_one_that_the_command_takes(self):
        for words in (["margins", "list", "--by"], ["margins", "list", "--sort"], ["margins", "list", "--binding"],
                      ["quote", "print", "1", "--dry-run", "--level"], ["book", "start"]):
            offers = self.ask(*words, "")[1]
            self.assertGreaterEqual(len(offers), 3)
            for offer in offers:
                self.bench.good(*words, offer)
        for offer in self.ask("quote", "make", "--made-to", "")[1]:
            self.bench.good("quote", "make", "book.toml", "--made-to", offer, "--because", "why", "--dry-run")

    def test_every_code_and_number_of_the_table_is_asked_of_the_workshop(self):
        asked = set()
        for command in self.commands:
            line = [command["noun"], command["verb"]]
            words = []
            for word in command["words"]:
                if any(name in word["name"] for name in ("CODE", "NUMBER", "LOT", "STEP", "CLASS", "GATE", "ENTRY", "QUOTE", "MODEL",
                                                         "FIGURE", "WHAT", "NAME=")) and " ".join(line) not in ADD:
                    with self.subTest(usage=command["usage"], word=word["name"]):
                        self.assertNotEqual(self.ask(*line, *words, "")[1], [])
                if "FILE" in word["name"] or "BOOK" in word["name"]:
                    with self.subTest(usage=command["usage"], word=word["name"]):
                        self.assertEqual(self.ask(*line, *words, "")[0], "files")
                words.append("1")
            for flag in command["flags"]:
                if (flag["name"], flag["value"], len(flag["choices"])) in asked:
                    continue
                asked.add((flag["name"], flag["value"], len(flag["choices"])))
                if flag["value"] in ("CODE", "CODES", "LOT") or flag["name"] in ("--with", "--job"):
                    with self.subTest(usage=command["usage"], flag=flag["name"]):
                        self.assertNotEqual(self.ask(*line, flag["name"], "")[1], [])
                if flag["value"] in ("FILE", "DIR"):
                    self.assertEqual(self.ask(*line, flag["name"], "")[0], "files" if flag["value"] == "FILE" else "folders")

    def test_what_the_workshop_has_is_what_is_offered(self):
        for words, offer in ((["quote", "show", "26"], "26-001a"), (["job", "show", ""], "26-001"), (["material", "show", "goat-m"], "goat-moss-08"),
                             (["quote", "list", "--customer", "ida"], "ida-quill"), (["listing", "end", ""], "1"),
                             (["outlet", "show", ""], "market"), (["listing", "price", "b", "--through", "market,m"], "market,market"),
                             (["stock", "scrap", "L"], "L1"), (["stock", "list", "--place", "Zo"], PLACE),
                             (["job", "approve", "1", "the"], "the proof of the title"), (["job", "use", "1", "--outside", "a"], "a brass die"),
                             (["steps", "set", "sew-se"], "sew-sections"), (["workshop", "set", "goal.m"], "goal.margin="),
                             (["workshop", "set", "tax.mode="], "tax.mode=added"), (["workshop", "set", "tax-rate.r"], "tax-rate.reduced="),
                             (["quote", "make", "b", "--service", ""], "parcel"), (["rates", "tax", ""], "reduced"),
                             (["quote", "explain", "1", "spine-w"], "spine-width"), (["margins", "reprice", "--if", "goat-mo"], "goat-moss-08=")):
            with self.subTest(words=words):
                self.assertIn(offer, self.ask(*words)[1])

    def test_what_it_is_stands_behind_a_tab(self):
        done = self.bench.run("complete", "--", "quote", "show", "26", day=False)
        self.assertEqual(done.stdout.decode(), "words\n26\n26-001a\tŁódź & Zoë\n")

    def test_the_workshop_of_the_line_is_the_one_that_is_asked(self):
        self.bench.good("workshop", "new", "--name", "B", "--currency", "EUR", "--workshop", "other.db")
        self.bench.good("customer", "add", "only-here", "--name", "X", "--workshop", "other.db")
        self.assertEqual(self.ask("--workshop", "other.db", "customer", "show", "")[1], ["only-here"])
        self.assertEqual(self.ask("customer", "show", "--workshop=~/other.db", "")[1], ["only-here"])
        self.assertNotIn("only-here", self.ask("customer", "show", "")[1])

    def test_it_reads_only_says_no_error_and_makes_no_workshop(self):
        was = hashlib.sha256(self.bench.workshop.read_bytes()).hexdigest()
        names = sorted(os.listdir(self.bench.folder))
        self.ask("material", "show", "")
        self.assertEqual(hashlib.sha256(self.bench.workshop.read_bytes()).hexdigest(), was)
        self.assertEqual(sorted(os.listdir(self.bench.folder)), names)
        bad = self.bench.write("bad.db", "not a workshop " * 400)
        for path in ("nowhere.db", "no/such/folder.db", bad, "."):
            self.assertEqual(self.ask("--workshop", path, "material", "show", "")[1], [])
            self.assertIn("show", self.ask("--workshop", path, "material", "")[1])
        self.assertFalse((self.bench.folder / "nowhere.db").exists())
        for words in ([], ["--"], ["--line"], ["--line", "--"], ["nonsense"]):
            done = self.bench.run("complete", *words, day=False)
            self.assertEqual((done.returncode, done.stderr), (0, b""))

    def test_a_workshop_of_before_is_not_brought_up_to_date_by_a_keystroke(self):
        old = self.bench.folder / "old.db"
        shutil.copy(self.bench.workshop, old)
        with sqlite3.connect(old) as file:
            file.execute("PRAGMA user_version = 6")
        file.close()
        self.assertEqual(self.ask("--workshop", "old.db", "customer", "show", "")[1], [])
        self.assertEqual([name for name in os.listdir(self.bench.folder) if name.startswith("old.db")], ["old.db"])

    def test_while_another_writes_it_is_read_as_it_stood(self):
        writer = sqlite3.connect(self.bench.workshop, isolation_level=None)
        try:
            writer.execute("BEGIN IMMEDIATE")
            self.assertIn("goat-moss-08", self.ask("material", "show", "goat")[1])
        finally:
            writer.execute("ROLLBACK")
            writer.close()

    def test_a_line_of_a_shell_is_taken_apart_to_the_cursor(self):
        for line, typed in (("endband quote sh", "sh"), ("endband quote ", ""), ("endband stock list --place 'Zoë", "Zoë"),
                            ('endband stock list --place="plan ch', "--place=plan ch"), ("endband stock list --place plan\\ ch", "plan ch")):
            done = self.bench.run("complete", "--line", "--", line, day=False)
            self.assertEqual(done.stdout.decode().splitlines()[1], typed, line)

    def test_it_is_quick(self):
        best = min(self.seconds("material", "show", "") for _ in range(20))
        self.assertLess(best, 0.2)  # on a busy machine; it is 8 ms of work

    def seconds(self, *words):
        began = time.perf_counter()
        self.ask(*words)
        return time.perf_counter() - began


class Shell:
    """A shell at a terminal, typed into."""

    def __init__(self, words, bench, setup, **env):
        self.master, slave = pty.openpty()
        # A shell that completes wants a terminal that is its own.
        self.child = subprocess.Popen(words, stdin=slave, stdout=slave, stderr=slave, cwd=bench.folder, start_new_session=True,
                                      preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0), env={**bench.env, "TERM": "xterm", "PS1": "$ ", "SHELL": "/bin/sh", **env})
        os.close(slave)
        self.shown = ""
        self.type(setup + "; echo rea''dy\r", "ready")

    def type(self, text, until):
        """Types, and waits for what is to be seen behind what was seen before."""
        begins = len(self.shown)
        os.write(self.master, text.encode())
        end = time.monotonic() + 30
        while until not in self.shown[begins:] and time.monotonic() < end:
            if select.select([self.master], [], [], 0.5)[0]:
                try:
                    self.shown += os.read(self.master, 65536).decode(errors="replace")
                except OSError:
                    break
        if until not in self.shown[begins:]:
            raise AssertionError(f"no {until!r} in {self.shown[begins:]!r}")
        return self.shown[begins:]

    def complete(self, text, asked):
        """Types it and a tab, and waits until the program was asked and the shell has nothing more to show."""
        before = asked.stat().st_size if asked.exists() else 0
        os.write(self.master, (text + "\t").encode())
        end = time.monotonic() + 30
        while time.monotonic() < end:
            if select.select([self.master], [], [], 0.6)[0]:
                self.shown += os.read(self.master, 65536).decode(errors="replace")
            elif asked.exists() and asked.stat().st_size > before:
                return
        raise AssertionError(f"endband was not asked: {self.shown[-300:]!r}")

    def close(self):
        self.child.kill()
        self.child.wait()
        os.close(self.master)


# What is typed, a tab, and the words that the program is then called with.
LINES = [
    ("quote sh{tab}26-0{tab}", ["quote", "show", "26-001a"]),
    ("material show goat-mo{tab}", ["material", "show", "goat-moss-08"]),
    ("stock list --pl{tab}Zo{tab}", ["stock", "list", "--place", PLACE]),
    ('stock list --place "Zo{tab}', ["stock", "list", "--place", PLACE]),
    ("quote list --customer=ida{tab}", ["quote", "list", "--customer=ida-quill"]),
    ("listing price boo{tab}--through mar{tab}", ["listing", "price", "book.toml", "--through", "market"]),
    ("book measure Zoë{tab}", ["book", "measure", "Zoës book's.toml"]),
    ("job approve 1 the{tab}", ["job", "approve", "1", "the proof of the title"]),
]
# zsh itself leaves such a quote open, whatever the command.
QUOTED = [("book measure 'Zoës b{tab}", ["book", "measure", "Zoës book's.toml"])]


class Shells(unittest.TestCase):
    """Each shell completes the same lines; in place of endband a script stands that keeps what it was called with."""

    def typed_in(self, words, load, lines):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            fill(bench)
            bench.write("Zoës book's.toml", "endband = 1\n")
            links = bench.folder / "bin"
            links.mkdir()
            fake = links / "endband"
            fake.write_text(f'#!/bin/bash\ncase $1 in\ncompletion) exec {bench.endband} "$@" ;;\n'
                            f'complete) {bench.endband} "$@"; printf x >> {bench.folder}/asked; exit ;;\nesac\n'
                            f'printf "%s\\0" "$@" > {bench.folder}/called.new\nmv {bench.folder}/called.new {bench.folder}/called\necho call"ed"\n',
                            encoding="utf-8")
            fake.chmod(0o755)
            bench.env["PATH"] = f"{links}:/usr/bin:/bin"
            shell = Shell(words, bench, load)
            try:
                for line, expected in lines:
                    with self.subTest(line=line):
                        head, *rest = line.split("{tab}")
                        (bench.folder / "called").unlink(missing_ok=True)
                        text = "endband " + head
                        for piece in rest:
                            shell.complete(text, bench.folder / "asked")
                            text = piece
                        shell.type(text + "\r", "called")
                        said = (bench.folder / "called").read_bytes().decode().split("\0")[:-1]
                        self.assertEqual(said, expected, shell.shown[-600:])
            finally:
                shell.close()

    def test_bash(self):
        self.typed_in(["bash", "--norc", "--noprofile", "-i"], 'eval "$(endband completion bash)"', LINES + QUOTED)

    def test_zsh(self):
        self.typed_in(["zsh", "-f", "-i"], 'PS1="$ "; autoload -U compinit; compinit -u -D; source <(endband completion zsh)', LINES)

    def test_fish(self):
        self.typed_in(["fish", "--no-config", "-i"], "endband completion fish | source", LINES + QUOTED)

    def test_bash_without_a_terminal(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            script = bench.write("script.bash", bench.good("completion", "bash", day=False))
            for line, cursor, word, before, expected in (("endband mater", 1, "mater", "endband", ["material"]),
                                                         ("endband material add x --kind=pap", 6, "pap", "=", ["paper"])):
                done = subprocess.run(["bash", "-c", f"source ./{script}; COMP_LINE=$1; COMP_POINT=${{#1}}; COMP_WORDS=($1); COMP_CWORD={cursor}; "
                                       f'_endband {bench.endband} "$2" "$3"; printf "%s\\n" "${{COMPREPLY[@]}}"', "bash", line, word, before],
                                      cwd=bench.folder, env=bench.env, capture_output=True, check=True)
                self.assertEqual(done.stderr, b"")
                self.assertLessEqual(set(done.stdout.decode().split()[:1]), set(expected))
                self.assertNotEqual(done.stdout.decode().strip(), "")

    def test_the_scripts_are_sound_to_their_own_shells(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for shell, check in (("bash", ["bash", "-n"]), ("zsh", ["zsh", "-n"]), ("fish", ["fish", "--no-execute"])):
                script = bench.write(f"script.{shell}", bench.good("completion", shell, day=False))
                done = subprocess.run([*check, script], cwd=bench.folder, env=bench.env, capture_output=True, check=False)
                self.assertEqual((done.returncode, done.stderr), (0, b""), shell)

    def test_another_shell_is_refused_with_those_there_are(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            done = bench.run("completion", "bsh", day=False)
            self.assertEqual(done.returncode, 2)
            self.assertIn(b'did you mean "bash"', done.stderr)
            self.assertEqual(bench.run("completion", day=False).returncode, 2)


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
