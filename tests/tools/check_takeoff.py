#!/usr/bin/env python3
"""Takes off every list of the tests with the program itself, and what goes with it.

    check_takeoff.py PROGRAM [--self-test]

Each list of tests/lists/takeoff: the keys of its expected.json, the exit status, the sum of the four
outcomes, and the request that --into makes: counts by box, origin of each point, and a request that
the program accepts. A refused list must leave the request and its folder untouched. Then: answers
that settle every question, answers remembered for a client, two revisions with their prices.
--self-test changes what is expected, list by list, and must notice. Exit 0: no fault, else 1.
"""
import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

LISTS = Path(__file__).resolve().parents[2] / "tests/lists/takeoff"
FLOOR = 40
JUDGED = ["outcome", "reason", "counts", "panels", "spare_rows", "bus_rows", "rows_counted",
          "rows_not_counted", "ask", "refuse_rows", "warn", "file_warnings", "totals_check",
          "counts_if_proposals_accepted", "panels_if_proposals_accepted"]


class Runner:
    def __init__(self, program, folder):
        self.program, self.folder = program, folder

    def run(self, *words, library=":starter:"):
        return subprocess.run([self.program, "--library", library, *map(str, words)],
                              capture_output=True, text=True, timeout=120)

    def take(self, *words, library=":starter:"):
        return json.loads(self.run("takeoff", *words, "--json", library=library).stdout)


def differences(expected, got):
    faults = [f"{key}: {got.get(key)} instead of {expected[key]}"
              for key in JUDGED if key in expected and got.get(key) != expected[key]]
    for key, value in expected["read"].items():
        if key != "hostile" and got["read"].get(key) != value:
            faults.append(f"read {key}: {got['read'].get(key)} instead of {value}")
    outcomes = got["rows_counted"] + sum(got["rows_not_counted"].values()) + len(got["refuse_rows"])
    outcomes += sum(1 for each in got["ask"] if "row" in each and each["reason"] != "fill_down_panel")
    if outcomes != got["rows_read"]:
        faults.append(f"{outcomes} outcomes of {got['rows_read']} rows")
    return faults


def counts_of(request):
    boxes = {}
    for box in request["boxes"]:
        counts = {}
        for line in box["points"]:
            counts[line["signal"]] = counts.get(line["signal"], 0) + line["count"]
        boxes[box["name"]] = counts
    return boxes


def feed_faults(runner, path, expected):
    """A request made of the list."""
    target = runner.folder / "request.json"
    target.unlink(missing_ok=True)
    panels = expected["panels"]
    done = runner.run("takeoff", path, "--into", target)
    if not panels:
        return [] if done.returncode in (0, 2) else [f"--into: status {done.returncode}"]
    if expected["outcome"] == "ask_file":
        return [] if done.returncode == 2 and not target.exists() else ["--into wrote in question"]
    if done.returncode:
        return [f"--into: status {done.returncode}: {done.stderr}"]
    request = json.loads(target.read_text(encoding="utf-8"))
    wanted = {name or "CP1": counts for name, counts in panels.items()
              if name or len(panels) == 1}
    faults = [] if counts_of(request) == wanted else [f"--into: {counts_of(request)}"]
    for box in request["boxes"]:
        for line in box["points"]:
            if len(line["list"]) != line["count"]:
                faults.append(f"--into: {len(line['list'])} entries of {line['count']} points")
            faults += [f"--into: origin {entry['origin']}" for entry in line["list"]
                       if entry["origin"]["file"] != path.name or entry["origin"]["row"] < 1 or
                       ("sheet" in entry["origin"]) != (expected["kind"] in ("xlsx", "ods"))]
    estimate = runner.run("estimate", target)
    if estimate.returncode not in (0, 1):
        faults.append(f"the request is refused: {estimate.stderr.strip()}")
    return faults


def untouched_faults(runner, path):
    """A list that is refused whole leaves the request as it was, and nothing beside it."""
    folder = runner.folder / "kept"
    folder.mkdir(exist_ok=True)
    target = folder / "request.json"
    target.write_text('{ "format": "backplate-request/1", "boxes": [ { "name": "A", '
                      '"points": [ { "signal": "DI", "count": 3 } ] } ] }', encoding="utf-8")
    before = target.read_bytes()
    done = runner.run("takeoff", path, "--into", target)
    faults = [] if done.returncode == 2 and path.name in done.stderr and "expected" in done.stderr \
        else [f"refused with status {done.returncode}: {done.stderr}"]
    if target.read_bytes() != before or len(list(folder.iterdir())) != 1:
        faults.append("a refused list changed the request or left a file")
    return faults


def named_list(runner, folder, expected):
    """The list under the name that the client gave it; names beyond ASCII are stored otherwise."""
    stored = folder / expected.get("stored_as", expected["file"])
    if stored.name == expected["file"]:
        return stored
    named = runner.folder / "named"
    named.mkdir(exist_ok=True)
    return Path(shutil.copy(stored, named / expected["file"]))


def judge_list(runner, folder, change=None):
    expected = json.loads((folder / "expected.json").read_text(encoding="utf-8"))
    if change:
        change(expected)
    path = named_list(runner, folder, expected)
    done = runner.run("takeoff", path, "--json")
    refused = expected["outcome"] == "refuse_file"
    faults = differences(expected, json.loads(done.stdout))
    if done.returncode != (2 if refused else 0):
        faults.append(f"status {done.returncode}")
    faults += untouched_faults(runner, path) if refused else feed_faults(runner, path, expected)
    return [f"{folder.name}: {fault}" for fault in faults]


def answers_faults(runner):
    """Every question is answered; remembered for a client, offered, and given again."""
    path = LISTS / "o09_multi_signal/device list.xlsx"
    answers = runner.folder / "answers.json"
    answers.write_text(json.dumps({
        "format": "backplate-takeoff-answers/1",
        "answers": [{"reason": "type_unknown", "type": "see note 3", "answer": {"DI": 1}},
                    {"reason": "io_unspecific", "answer": {"DI": 2, "DO": 1}},
                    {"reason": "by_others", "answer": "count"}]}), encoding="utf-8")
    library = str(runner.folder / "library.backplate")
    faults = []
    once = runner.take(path, "--answers", answers, "--client", "Brine", "--remember",
                       library=library)
    if once["ask"] or once["counts"]["DI"] != 20 or once["counts"]["DO"] != 7:
        faults.append(f"answers: {once['ask']} {once['counts']}")
    offered = runner.take(path, "--client", "Brine", library=library)
    if [each.get("last_time") for each in offered["ask"]] != ["DI 2, DO 1"]:
        faults.append(f"offered: {offered['ask']}")  # the type is a spelling by now
    if any("last_time" in each for each in runner.take(path, library=library)["ask"]):
        faults.append("offered without a client")
    again = runner.take(path, "--client", "Brine", "--recall", library=library)
    if again["ask"] or again["counts"] != once["counts"]:
        faults.append(f"recalled: {again['ask']} {again['counts']}")
    if "see note 3" not in runner.run("rules", "show", "spellings", library=library).stdout:
        faults.append("no rule row was made of the answer")
    refused = runner.run("takeoff", path, "--answers", answers, "--client", "B", "--remember")
    if refused.returncode != 2:
        faults.append("the starter data remembered something")
    if runner.run("takeoff", "--example").returncode:
        faults.append("no example of answers")
    return faults


def revision_faults(runner):
    old = LISTS / "o01_clean_words/io list.csv"
    text = old.read_text(encoding="utf-8")
    new = runner.folder / "new list.csv"
    new.write_text(text.replace("LSL-101,Header tank low level,Digital Input",
                                "LSL-101,Header tank low level,Digital Output")
                   .replace("HN-190,Horn,Digital Output,Relay,CP-HATCH-1,\n", "")
                   .replace("TE-203,Tray 3 water temperature,RTD,Pt100 3-wire,CP-HATCH-2",
                            "TE-203,Tray 3 water temperature,RTD,Pt100 3-wire,CP-HATCH-1")
                   + "XX-1,New,Digital Input,24 VDC,CP-HATCH-2,\n", encoding="utf-8")
    request = runner.folder / "base.json"
    runner.run("takeoff", old, "--into", request)
    before = request.read_bytes()
    changes = runner.take(new, "--against", old, "--request", request)
    tags = {word: [each["tag"] for each in changes[word]]
            for word in ("added", "removed", "changed", "moved")}
    faults = []
    if tags != {"added": ["XX-1"], "removed": ["HN-190"], "changed": ["LSL-101"],
                "moved": ["TE-203"]}:
        faults.append(f"revision: {tags}")
    priced = json.loads(runner.run("estimate", request, "--json").stdout)["price"]["price"]
    price = changes["price"]
    if price["before"] != priced or price["difference"] is None:
        faults.append(f"revision: price {price} of {priced}")
    elif round(float(price["after"]) - float(price["before"]) - float(price["difference"]), 2):
        faults.append(f"revision: difference {price}")
    if request.read_bytes() != before:
        faults.append("the comparison changed the request")
    return faults


def plant(expected):
    """Something else than the list holds."""
    if expected["counts"]:
        signal = next(iter(expected["counts"]))
        expected["counts"][signal] += 1
    else:
        expected["outcome"] = "import"


def main():
    with tempfile.TemporaryDirectory() as name:
        runner = Runner(sys.argv[1], Path(name))
        folders = sorted(path for path in LISTS.iterdir() if path.is_dir())
        if sys.argv[2:] == ["--self-test"]:
            missed = [folder.name for folder in folders if not judge_list(runner, folder, plant)]
            print(f"{len(folders)} planted lists judged, {len(missed)} not found: {missed}")
            return 1 if missed else 0
        faults = [fault for folder in folders for fault in judge_list(runner, folder)]
        faults += answers_faults(runner) + revision_faults(runner)
    if len(folders) < FLOOR:
        faults.append(f"{len(folders)} lists, expected at least {FLOOR}")
    for fault in faults:
        print(fault)
    print(f"{len(folders)} lists judged: {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
