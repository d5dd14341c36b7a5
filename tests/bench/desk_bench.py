#!/usr/bin/env python3
"""How long the window takes: DESK BACKPLATE [PARTS].

Makes a library of so many parts (20,000) through the command line: the demo price book, and what is
no part of a platform again and again under further keys at slightly higher prices. Then prints milliseconds, best and worst
of four starts after a first one that warms the files: to the first page in view and to the first price; and of jobs of 600
and 2,000 points the longest handler of the window while counts are typed. Prints, never judges.

Modules of the platforms are not multiplied here; estimate_bench prices a book of near copies of them.
"""

import csv
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.dont_write_bytecode = True
sys.path.insert(0, str(ROOT / "tests/desk"))
import desk_driver  # noqa: E402

STARTS = 5
SHARES = [("DI", 0.46), ("DO", 0.24), ("AI_MA", 0.15), ("AO_MA", 0.05), ("RTD", 0.05), ("DI_AC", 0.05)]


def more_parts(source, target, wanted):
    files = sorted(source.glob("*.csv"))
    tables = {file.name: list(csv.DictReader(open(file, encoding="utf-8"))) for file in files}
    again_and_again = {name for name in tables if not name.startswith("platform")}
    held = sum(len(tables[name]) for name in again_and_again)
    made = sum(len(tables[name]) for name in tables if name not in again_and_again)
    for name, rows in tables.items():
        with open(target / name, "w", encoding="utf-8", newline="") as file:
            out = csv.DictWriter(file, list(rows[0]))
            out.writeheader()
            for again in range(wanted // held + 1 if name in again_and_again else 1):
                for row in rows:
                    if name in again_and_again and made == wanted:
                        break
                    made += name in again_and_again
                    more = dict(row)
                    if again:
                        more["part"] += f"-{again:03}"
                        if more.get("list"):
                            more["list"] = f"{float(more['list']) * (1 + again / 1000):.2f}"
                    out.writerow(more)
    return made


def job_of(points, path):
    lines = [{"signal": signal, "count": round(points * share)} for signal, share in SHARES]
    request = {"format": "backplate-request/1", "job": {"title": f"{points} points"},
               "boxes": [{"name": "CP1", "points": lines[:], "site": {"ambient_c": [5, 40]}}]}
    if points > 600:  # as many as boxes hold
        request["boxes"] = [{"name": f"CP{n}", "points": [
            {"signal": line["signal"], "count": line["count"] // 4} for line in lines],
            "site": {"ambient_c": [5, 40]}} for n in range(1, 5)]
    path.write_text(json.dumps(request), encoding="utf-8")
    return str(path)


def until(desk, condition, limit=120.0):
    end = time.monotonic() + limit
    while time.monotonic() < end:
        state = desk.shown()
        if state and condition(state):
            return state
        time.sleep(0.005)
    raise SystemExit("the window does not come that far")


def starts(desk, request, library):
    page, price = [], []
    for _ in range(STARTS):
        if os.path.exists(desk.dump):
            os.remove(desk.dump)
        began = time.monotonic()
        window = subprocess.Popen([desk.program, "--library", library, "--ui-dump", desk.dump, request],
                                  env=desk.surroundings, stderr=subprocess.DEVNULL)
        until(desk, lambda s: s["cells"])
        page.append(time.monotonic() - began)
        until(desk, lambda s: s["price"] != "No price")
        price.append(time.monotonic() - began)
        window.terminate()
        window.wait()
    for what, taken in (("page in view", page[1:]), ("first price", price[1:])):
        print(f"  {what}: {min(taken) * 1000:.0f} to {max(taken) * 1000:.0f} ms")


def typing(desk, request):
    desk.start(request, library=":starter:")
    first = desk.wait("a price", lambda s: s["price"] != "No price", 120.0)
    desk.keys("ctrl+Home", "Right", *["plus"] * 12)
    state = desk.wait("the last price", lambda s: s["asked"] > first["asked"]
                      and s["answered"] == s["asked"], 120.0)
    desk.wait("alternatives and steps", lambda s: s["settled"], 240.0)
    state = desk.shown()
    print(f"  longest handler at the start {first['slowest_ms']} ms, typing {state['slowest_ms']} ms"
          f" ({state['slowest']})")
    desk.keys("ctrl+q")
    desk.window.wait(30)


def main():
    program, backplate = sys.argv[1:3]
    wanted = int(sys.argv[3]) if len(sys.argv) > 3 else 20000
    with tempfile.TemporaryDirectory() as work:
        work = pathlib.Path(work)
        desk = desk_driver.Desk(program, work / "desk")
        try:
            parts = work / "parts"
            parts.mkdir()
            made = more_parts(ROOT / "demo/prices", parts, wanted)
            library = str(work / "library.backplate")
            subprocess.run([backplate, "--library", library, "parts", "import", str(parts)], check=True,
                           env=desk.surroundings, stdout=subprocess.DEVNULL)
            print(f"{made} parts")
            starts(desk, str(ROOT / "demo/requests/cranberry_sluices.json"), library)
            for points in (600, 2000):
                print(f"{points} points, demo price book")
                typing(desk, job_of(points, work / "job.json"))
        finally:
            desk.stop()


if __name__ == "__main__":
    main()
