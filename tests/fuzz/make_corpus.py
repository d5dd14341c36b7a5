#!/usr/bin/env python3
"""Makes first inputs for the fuzzing programs out of the lists and spellings of the project.

    make_corpus.py FOLDER      writes FOLDER/list and FOLDER/classify
"""
import csv
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MOST_BYTES = 20_000
PARTS = ("xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/styles.xml")


def member(archive, name):
    return archive.read(name) if name in archive.namelist() else b""


def list_inputs(path):
    data = path.read_bytes()
    yield b"0" + data
    if not zipfile.is_zipfile(path):
        return
    with zipfile.ZipFile(path) as archive:
        if "content.xml" in archive.namelist():
            yield b"2" + archive.read("content.xml")
        else:
            yield b"1" + b"\x1e".join(member(archive, name) for name in PARTS)


def classify_inputs():
    with open(ROOT / "catalog/starter/rules/spellings.csv", encoding="utf-8", newline="") as file:
        texts = [row["text"] for row in csv.DictReader(file)]
    for i, text in enumerate(texts):
        cells = [text, texts[i * 7 % len(texts)], "%I0.1", "LSH-101…104", "2,0 Stk"]
        yield "\x1e".join(cells).encode()


def write(folder, inputs):
    folder.mkdir(parents=True, exist_ok=True)
    for i, data in enumerate(each for each in inputs if len(each) <= MOST_BYTES):
        (folder / f"{i:04}").write_bytes(data)


def main():
    target = Path(sys.argv[1])
    lists = [path for path in sorted((ROOT / "tests/lists/takeoff").glob("*/*"))
             if path.name != "expected.json"]
    write(target / "list", (data for path in lists for data in list_inputs(path)))
    write(target / "classify", classify_inputs())


if __name__ == "__main__":
    main()
