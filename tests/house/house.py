#!/usr/bin/python3
"""The house stands as DEVELOPERS.md draws it: the engine is pure, and includes go one way.

usage: house.py LIBENGINE [TEST ...]     the engine's archive; the tests as unittest names them
"""

import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LIBENGINE = ""

# What the engine may not ask of the world: files, clock, environment, chance, locale, database.
FORBIDDEN = re.compile(
    r"^(open|openat|creat|fopen|freopen|fdopen|popen|stat|lstat|access|unlink|rename)(64)?$"
    r"|^(getenv|secure_getenv|setenv|putenv|environ|getcwd|system)$"
    r"|^(time|clock|clock_gettime|gettimeofday|ftime|localtime(_r)?|gmtime(_r)?|mktime|tzset|nanosleep|sleep)$"
    r"|^(rand|srand|rand_r|random|srandom|drand48|lrand48|getrandom|getentropy|arc4random)$"
    r"|^(setlocale|uselocale|newlocale)$"
    r"|^sqlite3_|^SQLite::"
    r"|std::filesystem::|basic_(i|o)?fstream|basic_filebuf|std::random_device|std::locale::global"
    r"|(system|steady)_clock::now|std::this_thread"
)

# Standard headers that bring what is forbidden; a symbol may hide behind an inline function.
FORBIDDEN_HEADERS = {"filesystem", "fstream", "random", "ctime", "time.h", "clocale", "thread", "mutex", "iostream", "sqlite3.h"}

# Which libraries a folder may include beside std: by the first part of the include, or the whole of it.
BOOST, TOML, FMT, EXPECTED, EIGEN = "boost/", "toml++/", "fmt/", "tl/", "Eigen/"
SQLITE = ("SQLiteCpp/", "sqlite3.h")
LIBRARIES = re.compile(r"^(boost/|toml\+\+/|fmt/|tl/|Eigen/|SQLiteCpp/|sqlite3\.h|CLI/|nlohmann/|pugixml\.hpp)")

INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^>"]+)[>"]', re.MULTILINE)


def undefined_symbols(archive):
    done = subprocess.run(["nm", "--undefined-only", "--demangle", "--format=posix", archive],
                          capture_output=True, text=True, check=True)
    # A demangled name has blanks; the type letter ends it.
    return {line.rsplit(" U", 1)[0].strip() for line in done.stdout.splitlines() if " U" in line}


def impure(symbols):
    bare = {symbol.split("@", 1)[0] for symbol in symbols}
    return sorted(symbol for symbol in bare if FORBIDDEN.search(symbol))


def modules_in_order(root):
    """The engine's modules as engine/CMakeLists.txt lists them."""
    text = (root / "engine/CMakeLists.txt").read_text(encoding="utf-8")
    listed = re.search(r"foreach\(module IN ITEMS([^)]*)\)", text)
    return listed.group(1).split()


def allowed_libraries(path):
    """The libraries that a source may include, by its place."""
    top, module = path.parts[0], path.parts[1] if len(path.parts) > 2 else ""
    if top == "engine":
        if path.suffix == ".h" and is_public(path):
            return (EXPECTED,)
        return (EXPECTED, FMT, *{"money": (BOOST,), "stock": (BOOST,), "description": (TOML,), "review": (BOOST, EIGEN)}.get(module, ()))
    if top == "db":
        return (EXPECTED, FMT) if path.suffix == ".h" and is_public(path) else (EXPECTED, FMT, *SQLITE)
    if top == "cli":
        return (EXPECTED, FMT, "CLI/", "nlohmann/", "pugixml.hpp")
    return ()


def is_public(path, root=None):
    """A public header is one of its target's file set: named after HEADERS or FILES in the folder's CMakeLists.txt."""
    text = ((root or ROOT) / path.parent / "CMakeLists.txt").read_text(encoding="utf-8")
    return path.name in re.findall(r"[\w./-]+\.h\b", text)


def wrong_include(path, include, order):
    """Why `path` may not include it, or nothing."""
    top = path.parts[0]
    target = Path(include)
    first = target.parts[0]
    if first in ("engine", "db", "cli", "schema", "tests"):
        allowed = {"engine": {"engine"}, "schema": {"schema"}, "db": {"engine", "db", "schema"},
                   "cli": {"engine", "db", "cli"}}[top]
        if first not in allowed:
            return f"{top} may not include {first}"
        if top == "engine" and order.index(target.parts[1]) > order.index(path.parts[1]):
            return f"{path.parts[1]} comes before {target.parts[1]}"
        if top == "cli" and first == "db" and not is_public(target):
            return "not a public header of db"
    elif LIBRARIES.match(include):
        if not include.startswith(allowed_libraries(path)):
            return "a library that is not for this place"
    elif top == "engine" and include in FORBIDDEN_HEADERS:
        return "the engine asks nothing of the world"
    return ""


def wrong_includes(root):
    order = modules_in_order(root)
    wrong = []
    for top in ("engine", "schema", "db", "cli"):
        for path in sorted((root / top).rglob("*")):
            if path.suffix not in (".h", ".cpp"):
                continue
            name = path.relative_to(root)
            for include in INCLUDE.findall(path.read_text(encoding="utf-8")):
                if why := wrong_include(name, include, order):
                    wrong.append(f"{name} includes {include}: {why}")
    return wrong


NOISE = re.compile(r'//[^\n]*|/\*.*?\*/|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])\'', re.DOTALL)
TOKEN = re.compile(r"namespace\s+[\w:]*\s*\{|namespace\s*\{|\b(?:struct|class|enum(?:\s+class)?)\s+(?P<name>\w+)(?:\s+final)?\s*(?::(?!:)[^;{]*)?\{|[{}]")


def types_defined(text):
    """The types that a source defines for others to see, by namespace and name: two of one name are one to the linker."""
    within, found = [], []  # of each open brace: the namespace, "" for one without a name, None for what is none
    for token in TOKEN.finditer(NOISE.sub(" ", text)):
        word = token.group()
        if word == "}":
            if within:
                within.pop()
        elif word.startswith("namespace"):
            within.append(word[len("namespace"):-1].strip())
        else:
            if token.group("name") and all(within):
                found.append("::".join(within) + "::" + token.group("name"))
            within.append(None)
    return found


def types_of_two_homes(root):
    homes = {}
    for top in ("engine", "schema", "db", "cli"):
        for path in sorted((root / top).rglob("*")):
            if path.suffix in (".h", ".cpp"):
                for name in types_defined(path.read_text(encoding="utf-8")):
                    homes.setdefault(name, []).append(str(path.relative_to(root)))
    return {name: paths for name, paths in homes.items() if len(paths) > 1}


class Pure(unittest.TestCase):
    def test_the_engine_calls_nothing_of_the_world(self):
        symbols = undefined_symbols(LIBENGINE)
        self.assertIn("memcpy", symbols, "nm was read wrongly")
        self.assertEqual(impure(symbols), [])

    def test_each_kind_of_call_would_be_seen(self):
        source = """
            #include <chrono>
            #include <cstdio>
            #include <cstdlib>
            #include <ctime>
            #include <clocale>
            #include <filesystem>
            #include <fstream>
            #include <random>
            #include <fcntl.h>
            struct sqlite3; extern "C" int sqlite3_close(sqlite3*);
            int f1() { return ::open("a", 0); }
            FILE* f2() { return std::fopen("a", "r"); }
            char* f3() { return std::getenv("A"); }
            long f4() { return std::time(nullptr); }
            int f5() { return std::rand(); }
            char* f6() { return std::setlocale(LC_ALL, ""); }
            int f7() { return sqlite3_close(nullptr); }
            auto f8() { return std::chrono::system_clock::now(); }
            bool f9() { return std::filesystem::exists("a"); }
            unsigned f10() { return std::random_device{}(); }
            bool f11() { return std::ifstream("a").good(); }
            int f12() { timespec t; return clock_gettime(CLOCK_REALTIME, &t); }
        """
        with tempfile.TemporaryDirectory() as folder:
            (Path(folder) / "a.cpp").write_text(source, encoding="utf-8")
            subprocess.run(["c++", "-std=c++20", "-c", "a.cpp", "-o", "a.o"], cwd=folder, check=True)
            seen = " ".join(impure(undefined_symbols(f"{folder}/a.o")))
        for word in ("open ", "fopen", "getenv", "time", "rand", "setlocale", "sqlite3_close", "system_clock::now",
                     "filesystem", "random_device", "fstream", "clock_gettime"):
            self.assertIn(word, seen + " ")


class Includes(unittest.TestCase):
    def test_every_include_goes_the_way_of_the_data(self):
        self.assertEqual(wrong_includes(ROOT), [])

    def test_an_include_that_goes_the_wrong_way_would_be_seen(self):
        order = modules_in_order(ROOT)
        for name, include in (
            ("engine/money/text.cpp", "engine/measure/measure.h"),
            ("engine/book/structure.cpp", "engine/commission/commission.h"),
            ("engine/book/structure.cpp", "db/workshop.h"),
            ("engine/book/structure.cpp", "boost/rational.hpp"),
            ("engine/money/money.h", "fmt/format.h"),
            ("engine/book/structure.cpp", "toml++/toml.h"),
            ("engine/book/structure.cpp", "fstream"),
            ("engine/book/structure.cpp", "sqlite3.h"),
            ("db/quotes.cpp", "cli/command/command.h"),
            ("db/quotes.h", "SQLiteCpp/Database.h"),
            ("db/quotes.cpp", "nlohmann/json.hpp"),
            ("cli/main.cpp", "db/statement.h"),
            ("cli/main.cpp", "SQLiteCpp/Database.h"),
            ("schema/migrations.cpp", "db/workshop.h"),
        ):
            with self.subTest(name=name, include=include):
                self.assertNotEqual(wrong_include(Path(name), include, order), "")

    def test_every_module_stands_in_its_folder(self):
        folders = {path.parent.name for path in (ROOT / "engine").glob("*/CMakeLists.txt")}
        self.assertEqual(folders, set(modules_in_order(ROOT)))


class OneHome(unittest.TestCase):
    def test_every_type_that_others_may_see_has_one_home(self):
        self.assertEqual(types_of_two_homes(ROOT), {})

    def test_what_only_its_file_sees_is_its_own(self):
        text = """namespace a::b { struct Seen { int x; struct Inner { }; }; class Also final : public Seen { };
                  struct Ahead; namespace { struct Hidden { }; } enum class Kind : int { one }; void f() { struct Local { }; } }
                  // struct Comment { };
                  namespace c { struct Seen { }; }"""
        self.assertEqual(types_defined(text), ["a::b::Seen", "a::b::Also", "a::b::Kind", "c::Seen"])


if __name__ == "__main__":
    LIBENGINE = sys.argv[1]
    unittest.main(argv=[sys.argv[0], *sys.argv[2:]])
