#!/usr/bin/env python3
"""The life of saved jobs with the program: saved, copied, confirmed, sent, revised, repriced after
changes of prices and rules, handed to a colleague. Amounts are added up here in exact decimals.

    check_saved_jobs.py PROGRAM
"""
import csv
import json
import random
import subprocess
import sys
import tempfile
import zipfile
from collections import Counter
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
REQUEST = ROOT / "demo/requests/kelp_barn.json"
FLOOR = 60
REPRICINGS = 8


class Bench:
    def __init__(self, program, folder):
        self.program, self.folder, self.judged, self.bad = program, Path(folder), 0, 0

    def run(self, *words, library="library.backplate", status=0):
        done = subprocess.run([self.program, "--library", str(self.folder / library),
                               *map(str, words)], capture_output=True, check=False, timeout=120)
        said = done.stderr.decode()
        self.check(done.returncode == status,
                   f"{' '.join(map(str, words))}: status {done.returncode}: {said}")
        return done.stdout

    def asked(self, *words, **more):
        return json.loads(self.run(*words, "--json", **more))

    def check(self, holds, what):
        self.judged += 1
        if not holds:
            self.bad += 1
            print(f"fault: {what}")

    def equal(self, found, expected, what):
        self.check(found == expected, f"{what}: {found!r}, expected {expected!r}")


def strings_of(workbook):
    with zipfile.ZipFile(workbook) as book:
        return book.read("xl/sharedStrings.xml")


def codes(estimate):
    return {finding["code"] for finding in estimate["findings"]}


def unbuilt(bench):
    """What nothing builds can be saved, says so, and is set beside what can be built."""
    nothing = bench.folder / "nothing.json"
    request = json.loads(REQUEST.read_text(encoding="utf-8"))
    request["boxes"][0]["choices"] = {"platforms": ["nowhere"]}
    nothing.write_text(json.dumps(request), encoding="utf-8")
    run = {"library": "unbuilt.backplate"}
    bench.run("jobs", "save", nothing, status=1, **run)
    bench.run("jobs", "save", REQUEST, **run)
    bench.equal([job["price"] is None for job in bench.asked("jobs", "list", **run)["jobs"]],
                [True, False], "prices of a job that nothing builds, and of another")
    for words in (("send", "1"), ("reprice", "1"), ("reprice", "2", "--against", "job:1")):
        bench.run("jobs", *words, status=1, **run)
    told = bench.asked("jobs", "show", "2", "--difference", "job:1", "1", **run)["changes"]
    bench.check(any(change["what"] == "points" and "not built" in change["before"]
                    for change in told), "points that nothing builds")
    bench.equal([job["price_per_point"] for job in
                 bench.asked("jobs", "similar", "job:2", **run)["jobs"]], [None], "no price")


def parted(bench):
    """Points that no single box within the site's size holds: offered over several, and taken."""
    run = {"library": "parted.backplate"}
    counts = {"DI": 100, "DO": 30}
    request = {"format": "backplate-request/1", "boxes": [{
        "points": [{"signal": signal, "count": count} for signal, count in counts.items()],
        "site": {"max_mm": {"width": 600, "height": 800, "depth": 300}},
        "choices": {"platforms": ["slice"]}}],
        "commercial": {"options": [{"title": "Own store", "kind": "instead", "change": {
            "boxes": {"CP1": {"choices": {"in_stock_only": True}}}}}]}}
    full = bench.folder / "full.json"
    full.write_text(json.dumps(request), encoding="utf-8")
    bench.run("jobs", "save", full, status=1, **run)
    found = bench.asked("alternatives", "job:1", status=1, **run)
    bench.equal(found["base"]["price"], None, "price of the base")
    bench.check(len(found["alternatives"]) >= 2, "no boxes parted")
    bench.run("alternatives", "job:1", "--take", "100", status=2, **run)
    for number, each in enumerate(found["alternatives"], 1):
        bench.equal(set(each["difference"].values()), {None}, "difference from no price")
        taken = bench.folder / f"taken{number}.json"
        taken.write_bytes(bench.run("alternatives", "job:1", "--take", number, **run))
        estimate = bench.asked("estimate", taken, **run)
        bench.equal(estimate["price"]["price"], each["price"], f"price of {each['title']}")
        bench.equal(points_of(estimate), Counter(counts), f"points of {each['title']}")
        boxes = len(estimate["boxes"])
        bench.check(each["title"].startswith(f"CP1 over {boxes} boxes"), each["title"])
        bench.check(all(box["enclosures"][0]["width_mm"] <= 600 for box in estimate["boxes"]),
                    f"wider than the site: {each['title']}")
        options = json.loads(taken.read_text(encoding="utf-8"))["commercial"]["options"]
        bench.equal(len(options[0]["change"]["boxes"]), boxes, "boxes of the option")


def points_of(estimate):
    """Points by signal, of all boxes."""
    boxes = {box["name"]: box["quantity"] for box in estimate["boxes"]}
    counts = Counter()
    for point in estimate["points"]:
        counts[point["signal"]] += point["used"] * boxes[point["box"]]
    return counts


def saved_estimate(bench, job):
    """The estimate as it was saved with the latest revision, out of the job's file."""
    path = bench.folder / "similar.json"
    path.unlink(missing_ok=True)
    bench.run("jobs", "export", str(job["number"]), path)
    saved = json.loads(path.read_bytes())["revisions"]
    return json.loads(next(each["estimate"] for each in saved
                           if each["revision"] == job["revision"]))


def alike(bench):
    """The likeness of jobs, their price and hours per point, from the estimates."""
    asked = bench.asked("estimate", "job:1")
    told = bench.asked("jobs", "similar", "job:1", "--most", "1000")
    numbers = [job["number"] for job in told["jobs"]]
    bench.check(1 not in numbers and len(numbers) == told["found"], f"similar jobs: {numbers}")
    shares = []
    for job in told["jobs"]:
        estimate = saved_estimate(bench, job)
        one, other = points_of(asked), points_of(estimate)
        share = Decimal(100 * sum((one & other).values())) / sum((one | other).values())
        shares.append(share)
        bench.equal(Decimal(str(job["points_in_common_percent"])),
                    share.quantize(Decimal("0.0001"), ROUND_HALF_UP), "points in common")
        each = sum(other.values())
        bench.equal(money(job["price_per_point"]), (money(job["price"]) / each)
                    .quantize(Decimal("0.01"), ROUND_HALF_UP), "price per point")
        hours = sum(Decimal(str(line["hours"])) for line in estimate["labour"])
        bench.equal(Decimal(str(job["hours_per_point"])),
                    (hours / each).quantize(Decimal("0.001"), ROUND_HALF_UP), "hours per point")
    bench.check(shares and shares == sorted(shares, reverse=True), f"order of similar: {shares}")


def files(folder):
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def saved(bench):
    """A request with comments comes back to the byte, and is estimated like its file."""
    given = bench.folder / "given.json"
    given.write_bytes(b"// as given, na\xc3\xafve\n" + REQUEST.read_bytes())
    made = bench.asked("jobs", "save", given)
    bench.equal((made["number"], made["state"], made["revision"]), (1, "enquiry", 1), "saved")
    bench.equal(bench.run("jobs", "show", "1", "--request"), given.read_bytes(), "the request")
    bench.equal(bench.run("estimate", "job:1", "--json"), bench.run("estimate", given, "--json"),
                "the estimate of the saved job")
    bench.run("quote", "job:1", "--workbook", bench.folder / "internal.xlsx", "--client",
              bench.folder / "client.xlsx", "--drawing", bench.folder / "drawing.pdf")
    bench.run("quote", given, "--workbook", bench.folder / "given.xlsx")
    for name, expected in (("internal", True), ("client", True), ("given", False)):
        bench.equal(b"job 1, revision 1" in strings_of(bench.folder / f"{name}.xlsx"), expected,
                    f"{name}.xlsx names job and revision")
    again = bench.asked("jobs", "save", given, "--number", "1", "--title", "Kelp barn")
    bench.equal((again["number"], again["state"], again["title"]), (1, "estimating", "Kelp barn"),
                "saved again")
    bench.equal(bench.asked("jobs", "save", "job:1")["title"], "Kelp barn", "title by hand stays")
    return given


def listed(bench):
    rows = bench.asked("jobs", "list")["jobs"]
    price = bench.asked("estimate", "job:1")["price"]["price"]
    bench.equal([{key: row[key] for key in ("number", "title", "state", "revision", "due", "price")}
                 for row in rows],
                [{"number": 1, "title": "Kelp barn", "state": "estimating", "revision": 1,
                  "due": bench.asked("estimate", "job:1")["request"]["job"].get("due"),
                  "price": price}], "the list")
    bench.equal(bench.asked("jobs", "list", "KELP", "--state", "estimating")["jobs"], rows, "found")
    bench.equal(bench.asked("jobs", "list", "--state", "won")["jobs"], [], "nothing won")
    bench.check(b"demo data" in bench.run("jobs", "list"), "prices without the words demo data")


def copied(bench):
    """A copy may not be sent until every value is confirmed or changed."""
    before = bench.asked("jobs", "show", "1")
    made = bench.asked("jobs", "copy", "1")
    bench.equal(made["copied_from"], {"job": 1, "revision": 1}, "template")
    bench.equal(bench.asked("jobs", "show", "1"), before, "the template after the copy")
    estimate = bench.asked("estimate", "job:2")
    bench.check("INHERITED_UNCONFIRMED" in codes(estimate), "the copy raises no stop")
    bench.check("INHERITED_UNCONFIRMED" not in codes(bench.asked("estimate", "job:1")),
                "the template raises the stop")
    bench.run("jobs", "send", "2", status=1)
    opened = bench.asked("jobs", "confirm", "2")["values"]
    fields = [value["field"] for value in opened]
    bench.equal(len(fields), made["unconfirmed"], "values to be confirmed")
    for asked in ("/spare", "/commercial", "/boxes/0/site"):
        bench.check(asked in fields, f"{asked} is not asked again")
    counted = [f for f in estimate["findings"] if f["code"] == "INHERITED_UNCONFIRMED"]
    places = Counter("/".join(field.split("/")[:4 if field.startswith("/boxes/") else 2])
                     for field in fields)
    bench.equal([f["params"] for f in counted],
                [{"count": str(len(fields)), "job": "1", "places": ", ".join(
                    f"{place} ({places[place]})" for place in sorted(places))}],
                "what the stop says")
    left = bench.asked("jobs", "confirm", "2", "/boxes/0/points", "/spare")
    bench.equal(left["unconfirmed"] + len(left["confirmed"]), len(fields), "confirmed and left")
    request = json.loads(bench.run("jobs", "show", "2", "--request"))
    for key in ("date", "due", "enquiry"):
        bench.check(key not in request.get("job", {}), f"{key} came from the template")
    request["boxes"][0]["name"] = "CP-NEW"
    changed = bench.folder / "changed.json"
    changed.write_text(json.dumps(request), encoding="utf-8")
    answered = bench.asked("jobs", "save", changed, "--number", "2")
    bench.equal(answered["unconfirmed"], left["unconfirmed"] - 1, "left after a change of one value")
    bench.asked("jobs", "confirm", "2", "--all")
    bench.check("INHERITED_UNCONFIRMED" not in codes(bench.asked("estimate", "job:2")),
                "the stop stays after confirming all")


def sent(bench):
    """What was sent comes back to the byte, whatever happens later."""
    bench.asked("jobs", "send", "1", "--into", bench.folder / "sent")
    first = files(bench.folder / "sent")
    bench.equal(sorted(first), ["job-1-revision-1" + end for end in
                                ("-client.xlsx", "-drawing.pdf", "-estimate.json",
                                 "-internal.xlsx", "-request.json", "-rows.json")],
                "files sent")
    bench.equal(first["job-1-revision-1-request.json"], (bench.folder / "given.json").read_bytes(),
                "request as sent")
    for name in ("internal", "client"):
        bench.equal(first[f"job-1-revision-1-{name}.xlsx"],
                    (bench.folder / f"{name}.xlsx").read_bytes(), f"{name} workbook as sent")
    bench.equal(first["job-1-revision-1-drawing.pdf"],
                (bench.folder / "drawing.pdf").read_bytes(), "drawing as sent")
    rows = json.loads(first["job-1-revision-1-rows.json"])
    estimate = json.loads(first["job-1-revision-1-estimate.json"])
    parts = {row["key"] for row in rows if row["table"] == "parts"}
    bench.check({line["part"] for line in estimate["bill"] if line["part"]} <= parts,
                "a part of the bill is not among the rows used")
    bench.run("jobs", "save", bench.folder / "given.json", "--number", "1", status=2)
    return first


def as_sent(bench, first, what, library="library.backplate", job="job:1/1"):
    folder = bench.folder / "as_sent"
    for path in folder.glob("*"):
        path.unlink()
    bench.run("jobs", "show", job, "--as-sent", folder, library=library)
    found = {name.replace("job-2-", "job-1-"): text for name, text in files(folder).items()}
    bench.equal(found, first, f"as sent {what}")


def money(text):
    return Decimal(text)


def adds_up(bench, told, what):
    lines = told["bill"] + told["labour"]
    for line in lines:
        bench.check(money(line["before"]) + money(line["by_quantity"]) + money(line["by_price"])
                    == money(line["after"]), f"{what}: {line['item']} does not add up")
    total = sum((money(line["difference"]) for line in lines + told["chain"]), Decimal(0))
    bench.equal(total, money(told["difference"]), f"{what}: sum of the lines")
    bench.equal(money(told["after"]["price"]) - money(told["before"]["price"]), total,
                f"{what}: difference of the prices")


def repriced(bench, given):
    """Random prices and rates: the lines add up, and today's side is what estimate says."""
    bench.run("jobs", "save", given, "--title", "to reprice")
    job = bench.asked("jobs", "list", "reprice")["jobs"][0]["number"]
    still = bench.asked("jobs", "reprice", job)
    bench.equal((still["difference"], still["bill"], still["labour"]), ("0.00", [], []), "no change")
    bench.run("parts", "export", bench.folder / "parts")
    bench.run("rules", "export", bench.folder / "rules")
    draw, lines = random.Random(20261124), 0
    for turn in range(REPRICINGS):
        for path in sorted((bench.folder / "parts").iterdir()):
            change_column(path, "list", draw)
        change_column(bench.folder / "rules/rates.csv", "value", draw)
        bench.run("parts", "import", bench.folder / "parts")
        bench.run("rules", "import", bench.folder / "rules/rates.csv")
        told = bench.asked("jobs", "reprice", job)
        adds_up(bench, told, f"turn {turn}")
        price = bench.asked("estimate", f"job:{job}")["price"]
        bench.equal(told["after"]["price"], price["price"], "today's price")
        lines += len(told["bill"]) + len(told["labour"])
    bench.check(lines > 20 * REPRICINGS, f"only {lines} lines changed")
    bench.run("jobs", "send", job, status=1)  # the price is another one than was saved
    bench.run("jobs", "save", f"job:{job}")
    bench.run("jobs", "send", job)
    return lines


def change_column(path, column, draw):
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.reader(file))
    head = next(i for i, row in enumerate(rows) if column in row)
    place = rows[head].index(column)
    for row in rows[head + 1:]:
        if len(row) > place and row[place] and draw.random() < 0.5:
            row[place] = str((Decimal(row[place]) * draw.randint(80, 125) / 100)
                             .quantize(Decimal("0.01")))
    with open(path, "w", newline="", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)


def revised(bench, first):
    bench.run("jobs", "revise", "1", "--reason", "forty more inputs")
    request = json.loads(b"\n".join(line for line in (bench.folder / "given.json").read_bytes()
                                    .split(b"\n") if not line.strip().startswith(b"//")))
    request["boxes"][0]["points"].append({"signal": "DI", "count": 40, "wiring": "contact"})
    more = bench.folder / "more.json"
    more.write_text(json.dumps(request), encoding="utf-8")
    bench.run("jobs", "save", more, "--number", "1")
    told = bench.asked("jobs", "show", "1", "--difference", "1", "2")["changes"]
    what = {change["what"] for change in told}
    bench.check({"points", "modules", "hours", "price"} <= what, f"difference tells only {what}")
    bench.check(any(c["what"] == "points" and c["name"] == "CP-KELP DI" for c in told),
                "the signal with more points is not told")
    as_sent(bench, first, "after a new revision")
    bench.run("jobs", "send", "1")
    bench.run("jobs", "outcome", "1", "won")
    as_sent(bench, first, "of the won job")


def handed_over(bench, first):
    """A colleague's library gives the same bytes; the file goes round without a change."""
    bench.run("jobs", "export", "1", bench.folder / "job.json")
    bench.run("jobs", "save", bench.folder / "given.json", library="other.backplate")
    made = bench.asked("jobs", "import", bench.folder / "job.json", library="other.backplate")
    bench.equal((made["number"], made["state"], made["revision"], made["origin"]),
                (2, "won", 2, "job 1 of job.json"), "imported")
    as_sent(bench, first, "in the other library", "other.backplate", "job:2/1")
    bench.run("jobs", "export", "2", bench.folder / "back.json", library="other.backplate")
    one, two = (json.loads((bench.folder / name).read_bytes()) for name in ("job.json", "back.json"))
    for job in (one, two):
        for key in ("number", "origin"):
            job.pop(key)
    bench.equal(two, one, "the file that went round")
    for library in ("library.backplate", "other.backplate"):
        bench.run("library", "check", library=library)


def main():
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(sys.argv[1], folder)
        given = saved(bench)
        listed(bench)
        copied(bench)
        first = sent(bench)
        lines = repriced(bench, given)
        as_sent(bench, first, "after other prices")
        revised(bench, first)
        alike(bench)
        unbuilt(bench)
        parted(bench)
        handed_over(bench, first)
    print(f"{lines} lines of {REPRICINGS} repricings added up")
    print(f"{bench.judged} statements on saved jobs judged, {bench.bad} faults")
    return 1 if bench.bad or bench.judged < FLOOR else 0


if __name__ == "__main__":
    sys.exit(main())
