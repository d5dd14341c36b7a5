#!/usr/bin/env python3
"""Runs every wrong request through the program: it must name the place and the expectation, end with
status 2 and leave the folder and the library as they were, byte for byte.

    check_wrong_requests.py PROGRAM
"""
import hashlib
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CASES = ROOT / "tests/lists/wrong_requests"
FLOOR = 30
EXPECTED = re.compile(r"//\s*expect:\s*(\S*)\s*\|\s*(.*\S)")


def listing(folder):
    return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in sorted(folder.rglob("*")) if path.is_file()}


def judge(program, case, folder, library):
    request = folder / "request.json"
    shutil.copyfile(case, request)
    pointer, words = EXPECTED.match(case.read_text(encoding="utf-8").splitlines()[0]).groups()
    before = listing(folder)
    faults = []
    for command in (["estimate", str(request)],
                    ["quote", str(request), "--workbook", str(folder / "quote.xlsx")]):
        run = subprocess.run([program, *command, "--library", str(library)],
                             capture_output=True, text=True, timeout=60)
        if run.returncode != 2:
            faults.append(f"{command[0]}: status {run.returncode}, expected 2")
        if run.stdout:
            faults.append(f"{command[0]}: printed a result")
        if pointer not in run.stderr or words not in run.stderr:
            faults.append(f"{command[0]}: expected {pointer} | {words}, got {run.stderr.strip()}")
    if listing(folder) != before:
        faults.append("the folder or the library changed")
    return faults


def main():
    program = sys.argv[1]
    cases = sorted(CASES.glob("*.json"))
    bad = 0
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        library = folder / "library.backplate"
        made = subprocess.run([program, "rules", "check", "--library", str(library)],
                              capture_output=True, text=True)
        if made.returncode or not library.exists():
            print(f"no library to judge with: {made.stderr}")
            return 1
        for case in cases:
            for fault in judge(program, case, folder, library):
                bad += 1
                print(f"{case.name}: {fault}")
    print(f"{len(cases)} wrong requests judged, {bad} faults")
    return 1 if bad or len(cases) < FLOOR else 0


if __name__ == "__main__":
    sys.exit(main())
