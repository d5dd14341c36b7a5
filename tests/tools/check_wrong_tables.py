#!/usr/bin/env python3
"""Imports every wrong table of parts, prices and rules with the program: it must name the place and
the expectation, end with status 2 and leave the library as it was, byte for byte.

    check_wrong_tables.py PROGRAM [--print]

Each folder of tests/lists holds its cases and `expected.txt` with a line per case:
    NAME.csv: words | further words
All words must stand in the message; they are the program's own wording. Names of rule files begin
with the table (rates.negative.csv is imported as rates.csv; flat.*.csv as rules.csv). Cases that no
text file can hold (encodings, size) are made here. --print tells what is said in place of judging.
"""
import hashlib
import subprocess
import sys
import tempfile
from pathlib import Path

LISTS = Path(__file__).resolve().parents[2] / "tests/lists"
FLOORS = {"wrong_parts": 55, "wrong_prices": 28, "wrong_rules": 55}
PART = "part,kind,width_mm\nZZ-1,module,45\n"


def made_cases():
    """Name, command, bytes and the words expected of what is made here."""
    many = "part,kind,width_mm\n" + "".join(f"ZZ-{i},module,45\n" for i in range(100_000))
    return [
        ("utf_16.csv", "parts", PART.encode("utf-16"), ["expected UTF-8"]),
        ("latin_1.csv", "parts", "part,kind,maker\nZZ-1,module,Gerät\n".encode("cp1252"),
         ["expected UTF-8"]),
        ("nul_byte.csv", "parts", PART.encode() + b"ZZ-2,\0,1\n", ["line 3", "expected plain text"]),
        ("mark_and_fault.csv", "parts", b"\xef\xbb\xbf" + PART.replace("45", "wide").encode(),
         ["line 2: part ZZ-1: column 'width_mm'"]),
        ("carriage_returns.csv", "parts", PART.replace("45", "wide").replace("\n", "\r\n").encode(),
         ["line 2: part ZZ-1: column 'width_mm'"]),
        ("long_cell.csv", "parts", ("part,kind,maker\nZZ-1,module," + "x" * 40_000 + "\n").encode(),
         ["line 2", "at most 32767 characters"]),
        ("hundred_thousand_lines.csv", "parts", (many + "ZZ-7,module,45\n").encode(),
         ["line 100002: part ZZ-7 stands already at", "line 9;"]),
        ("fault_in_last_line.csv", "parts", (many + "ZZ,module,45 mm\n").encode(),
         ["line 100002: part ZZ: column 'width_mm' is '45 mm'"]),
        ("rates.csv", "rules", "row,value\nshop,52\n".encode("utf-16"), ["expected UTF-8"]),
        ("rates.csv", "rules", b"row,value\n" + b"shop,52\n" * 20_000,
         ["line 20001, row shop", "stands twice"]),
        ("rates.csv", "rules", b"row,value\nshop,\0\n", ["line 2", "expected plain text"]),
    ]


def cases():
    """Of every folder: name, command, file name to import, bytes, expected words."""
    for folder in FLOORS:
        lines = (LISTS / folder / "expected.txt").read_text(encoding="utf-8").splitlines()
        expected = dict(line.split(": ", 1) for line in lines if line)
        files = sorted((LISTS / folder).glob("*.csv"))
        for name in set(expected) - {path.name for path in files}:
            yield f"{folder}/{name}", "parts", name, None, []
        for path in files:
            command = "rules" if folder == "wrong_rules" else "parts"
            table = path.name.split(".")[0]
            name = ("rules" if table == "flat" else table) + ".csv" if command == "rules" \
                else path.name
            words = expected.get(path.name, "").split(" | ")
            yield f"{folder}/{path.name}", command, name, path.read_bytes(), words
    for name, command, content, words in made_cases():
        yield f"made/{name}", command, name, content, words


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


def judge(program, library, command, path, words):
    before = digest(library)
    run = subprocess.run([program, command, "import", str(path), "--library", str(library)],
                         capture_output=True, text=True, timeout=60)
    faults = []
    if run.returncode != 2:
        faults.append(f"status {run.returncode}, expected 2")
    if run.stdout:
        faults.append("printed a result")
    if digest(library) != before or len(list(library.parent.iterdir())) != 1:
        faults.append("the library or its folder changed")
    for word in words:
        if not word or word not in run.stderr:
            faults.append(f"expected {word!r}, got {run.stderr.strip()[:400]}")
    return faults, run.stderr.strip()


def main():
    program, printing = sys.argv[1], "--print" in sys.argv[2:]
    count, bad, judged = 0, 0, dict.fromkeys(FLOORS, 0)
    with tempfile.TemporaryDirectory() as scratch:
        library = Path(scratch) / "store" / "library.backplate"
        library.parent.mkdir()
        made = subprocess.run([program, "rules", "check", "--library", str(library)],
                              capture_output=True, text=True, timeout=60)
        if made.returncode or not library.exists():
            print(f"no library to judge with: {made.stderr}")
            return 1
        for name, command, file_name, content, words in cases():
            count += 1
            if content is None:
                bad += 1
                print(f"{name}: is expected, but no such file is there")
                continue
            path = Path(scratch) / file_name
            path.write_bytes(content)
            faults, said = judge(program, library, command, path, words)
            path.unlink()
            if printing:
                print(f"{name}: {said.replace(str(path.parent) + '/', '')[:260]}")
            folder = name.split("/")[0]
            if folder in judged:
                judged[folder] += 1
            for fault in () if printing else faults:
                bad += 1
                print(f"{name}: {fault}")
    few = [folder for folder, floor in FLOORS.items() if judged[folder] < floor]
    print(f"{count} wrong tables judged, {bad} faults" + (f", too few in {few}" if few else ""))
    return 1 if bad or few else 0


if __name__ == "__main__":
    sys.exit(main())
