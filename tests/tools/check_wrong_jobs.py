#!/usr/bin/env python3
"""Runs every wrong use of saved jobs (tests/lists/wrong_jobs.csv) with the program: it must name the
place and the expectation, end with the status of the row and leave the folder and the library as
they were, byte for byte.

    check_wrong_jobs.py PROGRAM [--self-test]

Job 1 was sent, job 2 is its copy with values to be confirmed, job 3 is in work, job 4 is won. Of a
row's arguments {request} is a sound request, {bad} one with an unknown signal, {text} no JSON,
{folder} the folder, {job} the file of job 1 in which `from` was replaced by `to` once. All words
between | must stand in the message."""
import csv
import hashlib
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TABLE = ROOT / "tests/lists/wrong_jobs.csv"
REQUEST = """// as given
{ "format": "backplate-request/1", "job": { "title": "Kiln" }, "spare": { "percent": 20 },
  "boxes": [ { "points": [ { "signal": "DI", "count": 8 }, { "signal": "DO", "count": 4 } ] } ] }
"""
FLOOR = 50


def listing(folder):
    return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in sorted(folder.rglob("*")) if path.is_file()}


class Bench:
    def __init__(self, program, folder):
        self.program, self.folder = program, folder
        self.library = folder / "library.backplate"
        self.files = {"folder": folder, "request": folder / "request.json",
                      "bad": folder / "bad.json", "text": folder / "text.json",
                      "job": folder / "job.json"}
        self.files["request"].write_text(REQUEST, encoding="utf-8")
        self.files["bad"].write_text(REQUEST.replace('"DI"', '"DX"'), encoding="utf-8")
        self.files["text"].write_text("signal;count\nDI;8\n", encoding="utf-8")
        self.make_jobs()

    def run(self, *words):
        named = [] if "--library" in words else ["--library", str(self.library)]
        return subprocess.run([self.program, *words, *named], capture_output=True, text=True,
                              timeout=60, check=False)

    def must(self, *words):
        done = self.run(*words)
        if done.returncode:
            raise SystemExit(f"no jobs to judge with: {' '.join(words)}: {done.stderr}")

    def make_jobs(self):
        request = str(self.files["request"])
        self.must("jobs", "save", request)
        self.must("jobs", "send", "1")
        self.must("jobs", "copy", "1")
        self.must("jobs", "save", request)
        self.must("jobs", "save", request)
        self.must("jobs", "send", "4")
        self.must("jobs", "outcome", "4", "won")
        self.must("jobs", "export", "1", str(self.files["job"]))
        self.sound = self.files["job"].read_text(encoding="utf-8")

    def judge(self, row):
        if row["from"] and row["from"] not in self.sound:
            return [f"nothing to replace: {row['from']}"]
        text = self.sound.replace(row["from"], row["to"], 1) if row["from"] else self.sound
        self.files["job"].write_text(text, encoding="utf-8")
        before = listing(self.folder)
        done = self.run(*row["arguments"].format(**self.files).split())
        faults = []
        if done.returncode != int(row["status"]):
            faults.append(f"status {done.returncode}, expected {row['status']}")
        if done.stdout:
            faults.append("printed a result")
        said = " ".join(done.stderr.split())
        faults += [f"expected '{words}', got {said[:300]}" for words in row["words"].split("|")
                   if words not in said]
        if listing(self.folder) != before:
            faults.append("the folder or the library changed")
        return faults


def main():
    with open(TABLE, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    with tempfile.TemporaryDirectory() as scratch:
        bench = Bench(sys.argv[1], Path(scratch))
        if sys.argv[2:] == ["--self-test"]:
            planted = [dict(rows[0], arguments="jobs show 1"), dict(rows[0], words="no such words"),
                       dict(rows[0], arguments="jobs copy 1")]
            missed = sum(not bench.judge(row) for row in planted)
            print(f"{missed} planted faults not found")
            return 1 if missed else 0
        bad = 0
        for row in rows:
            for fault in bench.judge(row):
                bad += 1
                print(f"{row['name']}: {fault}")
    print(f"{len(rows)} wrong uses of saved jobs judged, {bad} faults")
    return 1 if bad or len(rows) < FLOOR else 0


if __name__ == "__main__":
    sys.exit(main())
