#!/usr/bin/python3
"""What the take-off of long lists costs, in instructions and memory.

    takeoff_bench.py PROGRAM

Lists of 1,000 and 10,000 rows as CSV and XLSX: the instructions of a row (callgrind counts them, no
clock) must not grow by more than 1.3 with the length. The fullest lists that the limits let through
must stay below 300 MB at their peak. Exit 0: all judged and held.
"""
import csv
import random
import re
import resource
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

import openpyxl

MOST_GROWTH = 1.3
MOST_MEGABYTES = 300
BASE, SHORT, LONG = 10, 1_000, 10_000
HEADING = ["Tag", "Description", "I/O Type", "Signal", "Panel", "Remarks"]
KINDS = [("DI", "24 VDC"), ("DO", "relay"), ("AI", "4-20 mA"), ("RTD", "Pt100 3-wire"),
         ("Digital Output", "24VDC")]


def rows(count):
    source = random.Random(5)
    for i in range(count):
        kind, signal = source.choice(KINDS)
        yield [f"T-{i}", f"Point {i} of something", kind, signal, f"CP-{i % 7}",
               "NC contact" if i % 5 == 0 else ""]


def write_csv(path, count):
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(HEADING)
        writer.writerows(rows(count))


def write_xlsx(path, count):
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("Points")
    sheet.append(HEADING)
    for row in rows(count):
        sheet.append(row)
    book.save(path)


def command(program, path):
    return [program, "--library", ":starter:", "takeoff", str(path), "--json"]


def instructions(program, path):
    done = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null",
                           *command(program, path)], capture_output=True, text=True, check=True)
    return int(re.search(r"Collected : (\d+)", done.stderr).group(1))


def judge_growth(program, folder):
    faults = []
    for ending, write in (("csv", write_csv), ("xlsx", write_xlsx)):
        counts = {}
        for count in (BASE, SHORT, LONG):
            path = folder / f"list{count}.{ending}"
            write(path, count)
            counts[count] = instructions(program, path)
        each = {count: (counts[count] - counts[BASE]) / (count - BASE) for count in (SHORT, LONG)}
        growth = each[LONG] / each[SHORT]
        print(f"{ending}: {each[SHORT]:.0f} instructions a row of {SHORT}, {each[LONG]:.0f} of "
              f"{LONG}, growth {growth:.2f}")
        if growth > MOST_GROWTH:
            faults.append(f"{ending}: the cost of a row grows by {growth:.2f}")
    return faults


def full_csv(path):
    """Most rows, most cells, most text in a code page, and no two rows or types alike."""
    with open(path, "w", encoding="windows-1252") as file:
        file.write(",".join(HEADING + ["Fläche"] * 13) + "\n")
        for i in range(99_998):
            file.write(f"T-{i},Point number {i:06d},DI{i},24 VDC,Pänel{i},a text longer than 15,"
                       + ",".join(["another text lon g er than"] * 13) + "\n")


def full_xlsx(path):
    """As many shared texts and cells as the limits let through."""
    texts = "".join(f"<si><t>a text that is longer {i:07d}</t></si>" for i in range(300_000))
    cells = "".join(f"<row>{''.join(f'<c t=_s_><v>{(r * 18 + c) % 300_000}</v></c>' for c in range(18))}"
                    "</row>" for r in range(66_000)).replace("_s_", "'s'")
    heading = "".join(f"<c t='inlineStr'><is><t>{text}</t></is></c>" for text in HEADING)
    kinds = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    parts = {
        "_rels/.rels": f"<R><Relationship Id='a' Type='{kinds}/officeDocument' "
                       "Target='xl/workbook.xml'/></R>",
        "xl/workbook.xml": f"<w xmlns:r='{kinds}'><sheets><sheet name='A' r:id='a'/></sheets></w>",
        "xl/_rels/workbook.xml.rels":
            f"<R><Relationship Id='a' Type='{kinds}/worksheet' Target='s.xml'/>"
            f"<Relationship Id='b' Type='{kinds}/sharedStrings' Target='t.xml'/></R>",
        "xl/s.xml": f"<worksheet><sheetData><row>{heading}</row>{cells}</sheetData></worksheet>",
        "xl/t.xml": f"<sst>{texts}</sst>",
    }
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in parts.items():
            archive.writestr(name, text)


def judge_memory(program, folder):
    """Peak of the children, which only ever grows: the greatest of all."""
    faults = []
    for ending, write in (("csv", full_csv), ("xlsx", full_xlsx)):
        path = folder / f"full.{ending}"
        write(path)
        with open(folder / "out.json", "wb") as out:
            done = subprocess.run(command(program, path), stdout=out, stderr=subprocess.PIPE,
                                  text=True, check=False)
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        print(f"full {ending}: {path.stat().st_size / 1e6:.0f} MB, status {done.returncode}, "
              f"peak {peak:.0f} MB")
        if done.returncode not in (0, 2):
            faults.append(f"full {ending}: status {done.returncode}: {done.stderr.strip()}")
        if peak > MOST_MEGABYTES:
            faults.append(f"full {ending}: {peak:.0f} MB at the peak, at most {MOST_MEGABYTES}")
    return faults


def main():
    program = sys.argv[1]
    with tempfile.TemporaryDirectory() as name:
        faults = judge_memory(program, Path(name)) + judge_growth(program, Path(name))
    for fault in faults:
        print(fault)
    print(f"4 lengths and 2 full lists judged: {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
