#!/usr/bin/python3
"""Sums up ctest's JUnit reports: the seconds of each share of the run, the skipped ones with their reasons, the failed
ones, and as the last line "N passed, N failed, N skipped". Exits 1 when a test failed, a report is missing or empty, or,
with --skips-fail=yes, when a test was skipped. A word such as build-of-dev=312 is a share that was timed outside."""

import sys
import xml.etree.ElementTree as ElementTree
from collections import defaultdict
from pathlib import Path


def last_words(case):
    """What a skipped test said last is its reason; else what ctest has to say."""
    lines = [line.strip() for line in (case.findtext("system-out") or "").splitlines() if line.strip()]
    told = case.find("skipped")
    return lines[-1] if lines else (told.get("message", "") if told is not None else "") or "no reason given"


WHOLE = ("golden", "docs", "hand", "sample", "install", "house")


def share_of(suite, name):
    """Which share a test belongs to."""
    kind = name.split(":")[0]
    if kind == "fuzz":
        return "fuzz corpora"
    if suite == "asan":
        return "sanitizer run"
    if kind == "faults":
        return "faults"
    return "golden, docs, whole program" if kind in WHOLE or name.startswith("cli: ") else "unit and properties"


def main():
    words = sys.argv[1:]
    skips_fail = "--skips-fail=yes" in words
    timed = [word.split("=") for word in words if "=" in word and not word.startswith("--")]
    reports = [Path(word) for word in words if "=" not in word and not word.startswith("--")]
    seconds, skipped, failed, passed, broken = defaultdict(float), [], [], 0, False
    for report in reports:
        suite = report.parent.name
        cases = ElementTree.parse(report).getroot().findall("testcase") if report.is_file() else []
        if not cases:
            print(f"{report}: no tests were run")
            broken = True
        for case in cases:
            name, status = case.get("name", "?"), case.get("status", "?")
            seconds[share_of(suite, name)] += float(case.get("time", 0))
            if status == "run":
                passed += 1
            elif status in ("notrun", "disabled"):
                skipped.append(f"{suite}: {name}: {last_words(case)}")
            else:
                failed.append(f"{suite}: {name}")
    print("\nseconds of each share; of tests the sum, of which two run at once")
    for what, spent in timed:
        print(f"{float(spent):9.2f}  {what.replace('-', ' ')}")
    for share, spent in sorted(seconds.items(), key=lambda item: -item[1]):
        print(f"{spent:9.2f}  {share}")
    for line in skipped:
        print(f"skipped  {line}")
    for line in failed:
        print(f"FAILED   {line}")
    print(f"{passed} passed, {len(failed)} failed, {len(skipped)} skipped")
    return 1 if failed or broken or (skips_fail and skipped) else 0


if __name__ == "__main__":
    sys.exit(main())
