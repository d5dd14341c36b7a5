#!/usr/bin/env python3
"""Drives the window by keyboard under Xvfb and judges the state that it says it shows.

Keyboard path to a count: Tab until the grid of points has the focus, Right to the column.
Without a window manager the window must be given the focus once. Every wait ends after LIMIT
seconds in a failure that keeps a picture and the last state in the work folder.
"""

import argparse
import json
import os
import shutil
import subprocess
import sys
import time

LIMIT = 10.0
ALLOWED_CRITICAL = (  # the toolkit's own
    "gtk_distribute_natural_allocation", "gtk_box_gadget_distribute",  # once at start
    "gtk_widget_set_allocation")  # a grid that scrolls moves its hidden cell editors
NEEDED = ["Xvfb", "dbus-run-session", "xdotool", "import"]


class Failure(Exception):
    pass


class Desk:
    def __init__(self, arguments):
        self.work = os.path.abspath(arguments.work)
        shutil.rmtree(self.work, ignore_errors=True)
        os.makedirs(self.work)
        self.dump = os.path.join(self.work, "shown.json")
        self.request = os.path.join(self.work, "request.json")
        self.messages = os.path.join(self.work, "messages.txt")
        shutil.copy(arguments.request, self.request)
        self.program = os.path.abspath(arguments.program)
        self.judged = 0

    def start(self):
        end_to_read, end_to_write = os.pipe()
        self.screen = subprocess.Popen(
            ["Xvfb", "-displayfd", str(end_to_write), "-screen", "0", "1280x720x24",
             "-nolisten", "tcp", "-noreset"],
            pass_fds=[end_to_write], stderr=open(os.path.join(self.work, "screen.txt"), "w"))
        os.close(end_to_write)
        with os.fdopen(end_to_read) as answer:
            display = answer.readline().strip()
        if not display:
            raise Failure("Xvfb gave no display")
        self.surroundings = dict(os.environ, DISPLAY=":" + display, GTK_THEME="Adwaita",
                                 LC_ALL="C.UTF-8", NO_AT_BRIDGE="1")
        with open(self.messages, "w") as messages:
            self.window = subprocess.Popen(
                ["dbus-run-session", "--", self.program, "--library", ":starter:",
                 "--ui-dump", self.dump, self.request],
                env=self.surroundings, stdout=messages, stderr=messages)

    def stop(self):
        for process in (getattr(self, "window", None), getattr(self, "screen", None)):
            if process and process.poll() is None:
                process.terminate()
                process.wait()

    def xdotool(self, *words):
        return subprocess.run(["xdotool", *words], env=self.surroundings, check=True, timeout=LIMIT,
                              stdout=subprocess.PIPE, text=True).stdout

    def keys(self, *names):
        self.xdotool("key", "--delay", "40", *names)

    def type(self, text):
        self.xdotool("type", "--delay", "40", text)

    def shown(self):
        try:
            with open(self.dump) as file:
                return json.load(file)
        except (FileNotFoundError, json.JSONDecodeError):
            return {}

    def wait(self, what, condition):
        end = time.monotonic() + LIMIT
        while time.monotonic() < end:
            state = self.shown()
            if state and condition(state):
                self.judged += 1
                return state
            if self.window.poll() is not None:
                raise Failure(f"the program ended with {self.window.returncode} before: {what}")
            time.sleep(0.05)
        raise Failure(f"not within {LIMIT:.0f} s: {what}")

    def check(self, what, right):
        self.judged += 1
        if not right:
            raise Failure(what)

    def settled(self, what, condition=lambda state: True):
        return self.wait(what, lambda s: s["answered"] == s["asked"] and condition(s))

    def tab_to(self, name):
        for _ in range(40):
            before = self.shown().get("focus")
            if before == name:
                return
            self.keys("Tab")
            end = time.monotonic() + 1.0
            while self.shown().get("focus") == before and time.monotonic() < end:
                time.sleep(0.03)
        raise Failure(f"Tab never reaches {name}")

    def keep_evidence(self):
        subprocess.run(["import", "-window", "root", os.path.join(self.work, "picture.png")],
                       env=self.surroundings, check=False)


def opens_priced(desk):
    first = desk.settled("a first price", lambda s: s["generation"] > 0 and s["price"] != "–")
    desk.check("the title holds program and job",
               "Backplate" in first["title"] and "Eel ladder pump" in first["title"])
    desk.check("demo data stands beside the price", "demo data" in first["price_notes"])
    desk.check("the points are in the grid",
               [row[:2] for row in first["cells"]][:3] == [["DI", "24"], ["DO", "8"],
                                                            ["AI_MA", "4"]])
    desk.check("modules, supply and enclosure are shown",
               first["box"]["modules"] and first["box"]["supply"] and first["box"]["enclosure"])
    window = desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Eel ladder pump").split()[0]
    desk.xdotool("windowfocus", "--sync", window)
    return first


def another_count_reprices(desk, first):
    desk.tab_to("points")
    desk.keys("Right")
    desk.type("72")
    desk.keys("Return")
    changed = desk.settled("another price after another count",
                           lambda s: s["cells"][0][1] == "72" and s["price"] != first["price"])
    desk.check("the generation rose", changed["generation"] > first["generation"])
    desk.check("more points, more hours", float(changed["hours"]) > float(first["hours"]))
    desk.check("the change is marked as not saved", changed["dirty"])
    return changed


def undo_and_redo(desk, first, changed):
    desk.keys("ctrl+z")
    desk.settled("the first price after undo", lambda s: s["price"] == first["price"])
    desk.check("undo cleans the mark", not desk.shown()["dirty"])
    desk.keys("ctrl+shift+z")
    desk.settled("the second price after redo", lambda s: s["price"] == changed["price"])


def fault_keeps_last_price(desk, changed):
    desk.keys("Up", "Up", "Delete")
    broken = desk.settled("a fault for a missing count", lambda s: s["faults"] == 1 and s["stale"])
    desk.check("the fault names its place",
               broken["doubts"][0]["where"] == "/boxes/0/points/0/count")
    desk.check("the last good price stays in view", broken["price"] == changed["price"])
    desk.keys("ctrl+z")
    desk.settled("the price again after undo", lambda s: s["faults"] == 0 and not s["stale"])


def copy_and_paste(desk, changed):
    desk.keys("ctrl+c", "Down", "ctrl+v")
    desk.settled("the pasted count", lambda s: s["cells"][1][1] == "72")
    desk.keys("ctrl+z")
    desk.settled("the count before", lambda s: s["price"] == changed["price"])


def new_row_by_keyboard(desk, changed):
    desk.keys("ctrl+Home", "Down", "Down", "Down")
    desk.type("rtd")
    desk.keys("Tab")
    desk.type("2")
    desk.keys("Return")
    grown = desk.settled("a row typed into the empty one",
                         lambda s: s["cells"][3][:2] == ["RTD", "2"] and s["faults"] == 0)
    desk.check("its wiring is taken and shown", grown["cells"][3][2] != "")
    desk.check("the change of the price stands beside it", "Last change: +" in
               grown["price_notes"])
    desk.keys("ctrl+z", "ctrl+z")
    desk.settled("the rows before", lambda s: len(s["cells"]) == 4
                 and s["price"] == changed["price"])


def finding_leads_to_its_field(desk):
    state = desk.shown()
    places = [doubt["where"] for doubt in state["doubts"]]
    desk.check("an unstated spare rule is a finding", "/spare" in places)
    desk.tab_to("findings")
    desk.keys("Home", *["Down"] * places.index("/spare"), "Return")
    desk.wait("the cursor in the spare field", lambda s: s["focus"] == "spare_percent")


def save_writes_the_change(desk):
    desk.keys("ctrl+s")
    desk.wait("saved", lambda s: not s["dirty"])
    with open(desk.request) as file:
        saved = json.load(file)
    desk.check("the file holds the new count", saved["boxes"][0]["points"][0]["count"] == 72)
    saved["boxes"][0]["points"][0]["count"] = 24
    with open(arguments.request) as file:
        desk.check("and nothing else changed", saved == json.load(file))


def ends_quietly(desk):
    desk.check("no assertion was met", desk.shown()["asserts"] == 0)
    desk.keys("ctrl+q")
    try:
        status = desk.window.wait(LIMIT)
    except subprocess.TimeoutExpired:
        raise Failure("Ctrl+Q does not end the program") from None
    desk.check(f"exit status {status}", status == 0)
    with open(desk.messages) as file:
        critical = [line for line in file
                    if "CRITICAL" in line and not any(known in line for known in ALLOWED_CRITICAL)]
    desk.check("messages of the toolkit: " + "".join(critical), not critical)


def run(desk):
    first = opens_priced(desk)
    changed = another_count_reprices(desk, first)
    undo_and_redo(desk, first, changed)
    fault_keeps_last_price(desk, changed)
    copy_and_paste(desk, changed)
    new_row_by_keyboard(desk, changed)
    finding_leads_to_its_field(desk)
    save_writes_the_change(desk)
    ends_quietly(desk)


parser = argparse.ArgumentParser(description=__doc__)
for option in ("--program", "--request", "--work"):
    parser.add_argument(option, required=True)
arguments = parser.parse_args()
missing = [program for program in NEEDED if not shutil.which(program)]
if missing:
    sys.exit("cannot look without " + ", ".join(missing))
desk = Desk(arguments)
try:
    desk.start()
    run(desk)
    print(f"{desk.judged} judgements, all right")
except (Failure, subprocess.SubprocessError) as fault:
    desk.keep_evidence()
    sys.exit(f"after {desk.judged} judgements: {fault}\nsee {desk.work}")
finally:
    desk.stop()
