#!/usr/bin/env python3
"""The drawing as a file: readable text, embedded fonts, whole, equal for equal input, refused where
it must be.

check_drawing.py PROGRAM [--self-test]

Every demo request is drawn. What the PDF says is read by pdftotext, its fonts by pdffonts, its pages
by pdfinfo (poppler): every page bears title, box, date, mark of demo data, caution and its number;
every part of the bill that stands in the box is named, with its size; words of a stop and --draft as
the contract says. With --self-test each judge must find a planted fault.
Exit 0: clean, 1: faults, 3: could not look."""
import json
import os
import re
import subprocess
import sys
import tempfile
import zipfile

TREE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")
FEWEST_PAGES, FEWEST_PARTS = 24, 80
# Roles of the bill that have no place of their own: material, and what belongs to a device.
MATERIAL = {"accessory", "rail", "duct", "wire", "enclosure", "plate", "labels", "terminal"}


class CannotLook(Exception):
    pass


def output_of(*words):
    try:
        done = subprocess.run(words, capture_output=True, text=True, timeout=120)
    except OSError as fault:
        raise CannotLook("%s: %s" % (words[0], fault)) from fault
    if done.returncode:
        raise CannotLook("%s: %s" % (" ".join(words), done.stderr))
    return done.stdout


def plain(text):
    return re.sub(r"\s+", " ", text)


def pages_of(path):
    text = output_of("pdftotext", "-layout", path, "-")
    pages = [plain(page) for page in text.split("\f")[:-1]]
    told = int(re.search(r"^Pages:\s+(\d+)", output_of("pdfinfo", path), re.M).group(1))
    if told != len(pages):
        raise CannotLook("%s: %d pages of text, %d pages" % (path, len(pages), told))
    return pages


def font_faults(listing):
    rows = listing.splitlines()[2:]
    faults = [] if rows else ["no font"]
    for row in rows:
        name, embedded = row.split()[0], re.search(r"\s(yes|no)\s+(yes|no)\s+(yes|no)\s", row)
        if not embedded or embedded.group(1) != "yes":
            faults.append("font %s is not embedded" % name)
        if "DejaVu" not in name:
            faults.append("font %s is not the drawing's" % name)
    return faults


def page_faults(pages, estimate, draft=False):
    job = estimate["request"]["job"]
    names = [box["name"] for box in estimate["boxes"]]
    faults = []
    for number, page in enumerate(pages, 1):
        wanted = [job["title"], job["date"], "sheet %d of %d" % (number, len(pages)),
                  "This is an estimate, not a design", "demo data"]
        wanted += ["DRAFT"] if draft else []
        for word in wanted:
            if word not in page:
                faults.append("page %d lacks %r" % (number, word))
        if not any(name in page for name in names):
            faults.append("page %d names no box" % number)
        if not draft and "DRAFT" in page:
            faults.append("page %d is marked DRAFT" % number)
    return faults


def part_faults(text, estimate):
    """Every device of the bill is named; how many were looked for."""
    faults, judged = [], 0
    for line in estimate["bill"]:
        if not line["part"] or line["role"] in MATERIAL or line["unit"] != "piece":
            continue
        judged += 1
        if line["part"] not in text:
            faults.append("%s of box %s is on no sheet" % (line["part"], line["box"]))
    for box in estimate["boxes"]:
        enclosure = box["enclosures"][0]
        if enclosure["part"] and enclosure["part"] not in text:
            faults.append("enclosure %s is on no sheet" % enclosure["part"])
    return faults, judged


class Bench:
    def __init__(self, program, folder):
        self.program, self.folder = program, folder

    def path(self, name):
        return os.path.join(self.folder, name)

    def run(self, *words):
        return subprocess.run([self.program, *words, "--library", ":starter:"],
                              capture_output=True, text=True, timeout=120)

    def estimate(self, request):
        return json.loads(self.run("estimate", request, "--json").stdout)

    def request(self, name, data):
        with open(self.path(name), "w", encoding="utf-8") as file:
            json.dump(data, file)
        return self.path(name)


def read(path):
    with open(path, "rb") as file:
        return file.read()


def check_request(bench, request):
    faults, name = [], os.path.basename(request)
    estimate = bench.estimate(request)
    for end in ("pdf", "svg", "png"):
        paths = [bench.path("%s%d.%s" % (name, i, end)) for i in range(2)]
        for path in paths:
            done = bench.run("quote", request, "--drawing", path)
            if done.returncode:
                return ["%s: status %d: %s" % (name, done.returncode, done.stderr)], 0, 0
        if read(paths[0]) != read(paths[1]):
            faults.append("two %s files of one request differ" % end)
    stem = bench.path("%s0." % name)
    if not read(stem + "png").startswith(b"\x89PNG"):
        faults.append("the PNG is none")
    if not read(stem + "svg").rstrip().endswith(b"</svg>"):
        faults.append("the SVG is not whole")
    pages = pages_of(stem + "pdf")
    faults += font_faults(output_of("pdffonts", stem + "pdf"))
    faults += page_faults(pages, estimate)
    missing, judged = part_faults(" ".join(pages), estimate)
    return ["%s: %s" % (name, fault) for fault in faults + missing], len(pages), judged


def check_refusals(bench):
    faults = []
    base = {"format": "backplate-request/1",
            "job": {"title": "Refusals", "client": "Invented client", "date": "2026-11-24"},
            "boxes": [{"name": "CP1", "points": [{"signal": "DI", "count": 20}]}]}
    stopped = json.loads(json.dumps(base))
    stopped["boxes"][0]["equipment"] = [{"text": "Meter", "watts": 3}]
    request, path = bench.request("stopped.json", stopped), bench.path("stopped.pdf")
    with open(path, "w", encoding="utf-8") as file:
        file.write("as it was")
    done = bench.run("quote", request, "--drawing", path)
    if done.returncode != 1 or read(path) != b"as it was" or "NO_PRICE" not in done.stderr:
        faults.append("a stop does not forbid the drawing: %s" % done.stderr)
    done = bench.run("quote", request, "--drawing", path, "--draft")
    if done.returncode:
        faults.append("--draft: status %d" % done.returncode)
    faults += page_faults(pages_of(path), bench.estimate(request), True)
    narrow = json.loads(json.dumps(base))
    narrow["boxes"][0]["site"] = {"max_mm": {"width": 100}}
    path = bench.path("narrow.pdf")
    done = bench.run("quote", bench.request("narrow.json", narrow), "--drawing", path)
    if done.returncode != 1 or os.path.exists(path):
        faults.append("what nothing builds is drawn: status %d" % done.returncode)
    request = bench.request("base.json", base)
    for words, what in ((("--drawing", bench.path("a.dxf")), "another ending"), ((), "no file")):
        done = bench.run("quote", request, *words)
        if done.returncode != 2 or "expected" not in done.stderr:
            faults.append("%s: status %d, %s" % (what, done.returncode, done.stderr))
    done = bench.run("quote", request, "--drawing", bench.path("no/such/folder.pdf"))
    if done.returncode != 3:
        faults.append("a folder that is not there: status %d" % done.returncode)
    return faults


def check_workbook(bench):
    """The internal workbook holds a picture of every sheet."""
    request = os.path.join(TREE, "demo/requests/kelp_barn.json")
    pdf, book = bench.path("with.pdf"), bench.path("with.xlsx")
    done = bench.run("quote", request, "--workbook", book, "--drawing", pdf)
    if done.returncode:
        return ["workbook and drawing: status %d" % done.returncode]
    with zipfile.ZipFile(book) as file:
        pictures = [name for name in file.namelist() if name.startswith("xl/media/")]
        sheets = file.read("xl/workbook.xml").decode()
    if len(pictures) != len(pages_of(pdf)) or 'name="Drawing"' not in sheets:
        return ["the workbook holds %d pictures" % len(pictures)]
    return []


def self_test():
    estimate = {"request": {"job": {"title": "Gates", "date": "2026-01-01"}},
                "boxes": [{"name": "B", "enclosures": [{"part": "E-1"}]}],
                "bill": [{"part": "P-1", "role": "module", "unit": "piece", "box": "B"}]}
    good = "Gates B 2026-01-01 sheet 1 of 1 This is an estimate, not a design demo data E-1 P-1"
    heads = "name type\n----\n"
    row = "ABCDEF+%s TrueType WinAnsi %s yes yes 6 0\n"
    judged = [
        (page_faults([good], estimate), False), (page_faults([good + " DRAFT"], estimate), True),
        (page_faults([good.replace("Gates ", "")], estimate), True),
        (page_faults([good], estimate, True), True),
        (page_faults([good.replace("1 of 1", "1 of 2")], estimate), True),
        (part_faults(good, estimate)[0], False),
        (part_faults(good.replace("P-1", ""), estimate)[0], True),
        (part_faults(good.replace("E-1", ""), estimate)[0], True),
        (font_faults(heads + row % ("DejaVuSans", "yes")), False),
        (font_faults(heads + row % ("DejaVuSans", "no")), True),
        (font_faults(heads + row % ("Helvetica", "yes")), True), (font_faults(heads), True)]
    missed = [str(i) for i, (faults, planted) in enumerate(judged) if bool(faults) != planted]
    try:
        output_of("a-program-that-is-not-there")
        missed.append("a missing program")
    except CannotLook:
        pass
    print("%d planted faults judged, %d missed" % (len(judged) + 1, len(missed)))
    return 1 if missed else 0


def main():
    if len(sys.argv) < 2:
        sys.exit("usage: check_drawing.py PROGRAM [--self-test]")
    if "--self-test" in sys.argv:
        return self_test()
    faults, pages, parts = [], 0, 0
    requests = sorted(os.listdir(os.path.join(TREE, "demo/requests")))
    try:
        with tempfile.TemporaryDirectory() as folder:
            bench = Bench(os.path.abspath(sys.argv[1]), folder)
            for name in requests:
                found, more, judged = check_request(
                    bench, os.path.join(TREE, "demo/requests", name))
                faults += found
                pages += more
                parts += judged
            faults += check_refusals(bench) + check_workbook(bench)
    except (CannotLook, subprocess.TimeoutExpired, OSError, ValueError) as fault:
        print("could not look: %s" % fault)
        return 3
    if pages < FEWEST_PAGES or parts < FEWEST_PARTS:
        faults.append("only %d pages and %d parts judged" % (pages, parts))
    for fault in faults:
        print("FAULT", fault)
    print("%d pages with %d parts judged, %d faults" % (pages, parts, len(faults)))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
