#!/usr/bin/python3
"""Sums up ctest's JUnit reports: the seconds of each share of the tests, the skipped ones with their reasons, the failed
ones, and as the last line "N passed, N failed, N skipped". Exits 1 when a test failed, a report is missing or empty, or,
with --skips-fail=yes, when a test was skipped."""

import sys
import xml.etree.ElementTree as ElementTree
from collections import defaultdict
from pathlib import Path


def last_words(case):
    """What a skipped test said last is its reason; else what ctest has to say."""
    lines = [line.strip() for line in (case.findtext("system-out") or "").splitlines() if line.strip()]
    told = case.find("skipped")
    return lines[-1] if lines else (told.get("message", "") if told is not None else "") or "no reason given"


def main():
    words = sys.argv[1:]
    skips_fail = "--skips-fail=yes" in words
    reports = [Path(word) for word in words if not word.startswith("--")]
    seconds, skipped, failed, passed, broken = defaultdict(float), [], [], 0, False
    for report in reports:
        suite = report.parent.name
        cases = ElementTree.parse(report).getroot().findall("testcase") if report.is_file() else []
        if not cases:
            print(f"{report}: no tests were run")
            broken = True
        for case in cases:
            name, status = case.get("name", "?"), case.get("status", "?")
            seconds[f"{suite}: {name.split(':')[0]}"] += float(case.get("time", 0))
            if status == "run":
                passed += 1
            elif status in ("notrun", "disabled"):
                skipped.append(f"{suite}: {name}: {last_words(case)}")
            else:
                failed.append(f"{suite}: {name}")
    print("\nseconds of each share")
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
