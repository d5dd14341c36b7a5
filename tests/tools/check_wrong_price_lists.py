#!/usr/bin/env python3
"""Imports every wrong price list and map, and undoes what cannot be undone, with the program: it
must name place and expectation, end with the status of the case and leave the library as it was,
byte for byte, with nothing else in its folder.

    check_wrong_price_lists.py PROGRAM [--print]

The cases stand in tests/lists/wrong_price_lists.json: name, list (text; null: no such file), map (a
text; absent: --supplier), words that must stand in the message (the program's own wording), options
and status where they are not the usual ones (none, 2), encoding where it is not UTF-8. Undo cases
have undo (the argument) in place of a list. --print tells what is said in place of judging.
"""
import hashlib
import json
import subprocess
import sys
import tempfile
from pathlib import Path

CASES = Path(__file__).resolve().parents[2] / "tests/lists/wrong_price_lists.json"
FLOOR = 30
SOUND = "Article No,List Price\nVC-101,301.00\n"


class Shop:
    def __init__(self, program, folder):
        self.program, self.folder = program, folder
        self.library = folder / "store" / "library.backplate"
        self.library.parent.mkdir()

    def run(self, *words):
        return subprocess.run([self.program, *words, "--library", str(self.library)],
                              capture_output=True, text=True, timeout=60)

    def prepare(self):
        """A library of three change sets, of which the third touches what the second did."""
        path = self.folder / "sound.csv"
        runs = [self.run("rules", "check")]
        for price in ("301.00", "302.00"):
            path.write_text(SOUND.replace("301.00", price), encoding="utf-8")
            runs.append(self.run("parts", "import", str(path), "--supplier"))
        return [run.stderr for run in runs if run.returncode]

    def command(self, case):
        if "undo" in case:
            return ["library", "undo", case["undo"]]
        path = self.folder / "list.csv"
        path.unlink(missing_ok=True)
        if case["list"] is not None:
            path.write_bytes(case["list"].encode(case.get("encoding", "utf-8")))
        words = ["parts", "import", str(path)]
        if "map" in case:
            mapped = self.folder / "map.json"
            mapped.unlink(missing_ok=True)
            if case["map"] is not None:
                mapped.write_text(case["map"], encoding="utf-8")
            words += ["--map", str(mapped)]
        elif not case.get("plain"):
            words.append("--supplier")
        return words + case.get("options", [])

    def digest(self):
        return hashlib.sha256(self.library.read_bytes()).hexdigest()

    def judge(self, case):
        before = self.digest()
        run = self.run(*self.command(case))
        faults = []
        if run.returncode != case.get("status", 2):
            faults.append(f"status {run.returncode}, expected {case.get('status', 2)}")
        if run.stdout:
            faults.append("printed a result")
        if self.digest() != before or len(list(self.library.parent.iterdir())) != 1:
            faults.append("the library or its folder changed")
        faults += [f"expected {word!r}, got {run.stderr.strip()[:400]}"
                   for word in case["words"] if not word or word not in run.stderr]
        return faults if case["words"] else faults + ["the case expects no words"], run.stderr


def main():
    program, printing = sys.argv[1], "--print" in sys.argv[2:]
    cases = json.loads(CASES.read_text(encoding="utf-8"))
    bad = 0
    with tempfile.TemporaryDirectory() as scratch:
        shop = Shop(program, Path(scratch))
        if faults := shop.prepare():
            print(f"no library to judge with: {faults}")
            return 1
        for case in cases:
            faults, said = shop.judge(case)
            if printing:
                print(f"{case['name']}: {said.strip().replace(scratch + '/', '')[:260]}")
            for fault in () if printing else faults:
                bad += 1
                print(f"{case['name']}: {fault}")
    few = len(cases) < FLOOR or len({case["name"] for case in cases}) < len(cases)
    print(f"{len(cases)} wrong price lists judged, {bad} faults" + (", too few" if few else ""))
    return 1 if bad or few else 0


if __name__ == "__main__":
    sys.exit(main())
