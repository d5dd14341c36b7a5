"""Drives the window by keyboard under Xvfb and judges the state that it says it shows.

Every wait is for a state and ends after LIMIT seconds in a failure that keeps a picture and the
last state in the work folder.
"""

import argparse
import json
import os
import shutil
import signal
import subprocess
import sys
import time

# How many times longer than a plain build a wait may take, for builds with checks inside.
PATIENCE = float(os.environ.get("BACKPLATE_DESK_PATIENCE", "1"))
LIMIT = 20.0 * PATIENCE  # seconds; a machine at rest needs a fraction of one
ALLOWED_CRITICAL = (  # the toolkit's own
    "gtk_distribute_natural_allocation", "gtk_box_gadget_distribute",  # once at start
    "gtk_widget_set_allocation")  # a grid that scrolls moves its hidden cell editors
NEEDED = ["Xvfb", "dbus-run-session", "xdotool", "import"]


class Failure(Exception):
    pass


class Desk:
    """One X server, and on it the window, which may be started again and again."""

    def __init__(self, program, work, screen="1280x720", **surroundings):
        self.work = os.path.abspath(work)
        shutil.rmtree(self.work, ignore_errors=True)
        os.makedirs(self.work)
        self.dump = os.path.join(self.work, "shown.json")
        self.messages = os.path.join(self.work, "messages.txt")
        self.program = os.path.abspath(program)
        self.judged = 0
        self.keystrokes = 0
        self.window = None
        self.start_screen(screen, surroundings)

    def start_screen(self, screen, surroundings):
        end_to_read, end_to_write = os.pipe()
        self.screen = subprocess.Popen(
            ["Xvfb", "-displayfd", str(end_to_write), "-screen", "0", screen + "x24",
             "-nolisten", "tcp", "-noreset"],
            pass_fds=[end_to_write], stderr=open(os.path.join(self.work, "screen.txt"), "w"))
        os.close(end_to_write)
        with os.fdopen(end_to_read) as answer:
            display = answer.readline().strip()
        if not display:
            raise Failure("Xvfb gave no display")
        theme = surroundings.pop("GTK_THEME", "Adwaita")
        self.surroundings = dict(os.environ, DISPLAY=":" + display, GTK_THEME=theme,
                                 LC_ALL="C.UTF-8", NO_AT_BRIDGE="1", HOME=self.work,
                                 XDG_DATA_HOME=os.path.join(self.work, "data"),
                                 XDG_CONFIG_HOME=os.path.join(self.work, "config"),
                                 **surroundings)

    def start(self, *request, library=":starter:", also=None):
        """Starts the window and gives it the focus: there is no window manager. `also`: variables of
        its surroundings."""
        if os.path.exists(self.dump):
            os.remove(self.dump)
        with open(self.messages, "a") as messages:
            self.window = subprocess.Popen(
                ["dbus-run-session", "--", self.program, "--library", library,
                 "--ui-dump", self.dump, *request],
                env=dict(self.surroundings, **(also or {})), stdout=messages, stderr=messages)
        self.settled("a first answer")
        window = self.xdotool("search", "--sync", "--onlyvisible", "--name", "Backplate").split()[0]
        self.xdotool("windowfocus", "--sync", window)

    def kill(self):
        """Ends the window as a crash would."""
        os.kill(self.shown()["pid"], signal.SIGKILL)
        self.window.wait(LIMIT)

    def ended(self):
        """Waits for the end of a window that ends by itself."""
        try:
            self.window.wait(LIMIT)
        except subprocess.TimeoutExpired:
            raise Failure("the window does not end") from None

    def stop(self):
        for process in (self.window, self.screen):
            if process and process.poll() is None:
                process.terminate()
                process.wait()

    def xdotool(self, *words):
        return subprocess.run(["xdotool", *words], env=self.surroundings, check=True, timeout=LIMIT,
                              stdout=subprocess.PIPE, text=True).stdout

    def keys(self, *names):
        """Presses keys; of a chord every key counts."""
        self.keystrokes += sum(len(name.split("+")) for name in names)
        self.xdotool("key", "--delay", "40", *names)

    def type(self, text):
        self.keystrokes += len(text)
        self.xdotool("type", "--delay", "40", "--", text)

    def shown(self):
        try:
            with open(self.dump) as file:
                return json.load(file)
        except (FileNotFoundError, json.JSONDecodeError):
            return {}

    def faults_said(self):
        """What a user would have read in boxes; under test it goes to standard error."""
        with open(self.messages) as file:
            return "".join(line for line in file if line.startswith("backplate-desk: "))

    def wait(self, what, condition, seconds=20.0):
        """Until the state shown meets the condition; `seconds` are those of a plain build."""
        limit = seconds * PATIENCE
        end = time.monotonic() + limit
        while time.monotonic() < end:
            state = self.shown()
            if state and condition(state):
                self.judged += 1
                return state
            if self.window.poll() is not None:
                raise Failure(f"the program ended with {self.window.returncode} before: {what}")
            time.sleep(0.05)
        raise Failure(f"not within {limit:.0f} s: {what}")

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
            end = time.monotonic() + 1.0 * PATIENCE
            while self.shown().get("focus") == before and time.monotonic() < end:
                time.sleep(0.03)
        raise Failure(f"Tab never reaches {name}")

    def window_focus(self, name):
        """Gives the keyboard to the window whose title holds this; there is no window manager."""
        window = self.xdotool("search", "--sync", "--onlyvisible", "--name", name).split()[0]
        self.xdotool("windowfocus", "--sync", window)

    def picture(self, path):
        subprocess.run(["import", "-window", "root", path], env=self.surroundings, check=False)

    def keep_evidence(self):
        self.picture(os.path.join(self.work, "picture.png"))


    def ends_quietly(self):
        self.check("no assertion was met", self.shown()["asserts"] == 0)
        self.keys("ctrl+q")
        try:
            status = self.window.wait(LIMIT)
        except subprocess.TimeoutExpired:
            raise Failure("Ctrl+Q does not end the program") from None
        self.check(f"exit status {status}", status == 0)
        with open(self.messages) as file:
            critical = [line for line in file if "CRITICAL" in line
                        and not any(known in line for known in ALLOWED_CRITICAL)]
        self.check("messages of the toolkit: " + "".join(critical), not critical)


def run(describe, scenario, *options):
    """Runs a scenario with the options of the command line; the work folder keeps the evidence."""
    parser = argparse.ArgumentParser(description=describe)
    for option in ("--program", "--work", *options):
        parser.add_argument(option, required=True)
    arguments = parser.parse_args()
    missing = [program for program in NEEDED if not shutil.which(program)]
    if missing:
        sys.exit("cannot look without " + ", ".join(missing))
    desk = Desk(arguments.program, arguments.work)
    try:
        scenario(desk, arguments)
        print(f"{desk.judged} judgements, {desk.keystrokes} keystrokes, all right")
    except (Failure, subprocess.SubprocessError) as fault:
        desk.keep_evidence()
        sys.exit(f"after {desk.judged} judgements: {fault}\nsee {desk.work}")
    finally:
        desk.stop()
