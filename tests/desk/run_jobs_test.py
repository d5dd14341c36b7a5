#!/usr/bin/env python3
"""Saved jobs in the window: a bid becomes a job, is changed and saved again, found by what is typed,
copied as template; copied values bear their mark until they are confirmed, a crash keeps that, undo
marks them again; a job comes out of the recent ones, what was sent stays and the next revision goes on;
the command line says the same as the window."""

import json
import os
import shutil
import subprocess

import desk_driver


def told(desk, arguments, library, *words):
    run = [arguments.backplate, "--library", library, *words, "--json"]
    return json.loads(subprocess.run(run, check=True, env=desk.surroundings,
                                     stdout=subprocess.PIPE, text=True).stdout)


def becomes_a_job(desk, arguments, library):
    desk.settled("a price", lambda s: s["price"] != "No price")
    desk.keys("ctrl+shift+j")
    state = desk.wait("saved as job 1", lambda s: s["file"] == "job:1" and not s["dirty"])
    desk.check("it says so", "Saved as job 1" in state["said"])
    jobs = told(desk, arguments, library, "jobs", "list")["jobs"]
    desk.check("the library holds it", [(job["number"], job["title"]) for job in jobs]
               == [(1, "Eel ladder pump")])
    amount = state["price"].split(" ")[0].replace("\u202f", "")
    desk.check("at the price in view", jobs[0]["price"] == amount)


def changed_and_saved_again(desk, arguments, library):
    desk.keys("ctrl+1", "ctrl+Home", "Right")
    desk.type("40")
    desk.keys("Return")
    state = desk.settled("another count", lambda s: s["cells"][0][1] == "40")
    desk.check("not saved yet", state["dirty"])
    desk.keys("ctrl+s")
    state = desk.wait("saved", lambda s: not s["dirty"] and s["file"] == "job:1")
    amount = state["price"].split(" ")[0].replace("\u202f", "")
    desk.check("one job, its price follows",
               [job["price"] for job in told(desk, arguments, library, "jobs", "list")["jobs"]]
               == [amount])


def found_as_one_types(desk):
    desk.keys("ctrl+n")
    desk.wait("an empty bid", lambda s: "untitled" in s["title"])
    desk.keys("ctrl+j")
    desk.window_focus("Jobs - Backplate")
    desk.type("eel 1")
    desk.keys("Return")
    state = desk.settled("the job", lambda s: s["file"] == "job:1" and s["cells"][0][1] == "40")
    desk.check("nothing to save", not state["dirty"])


def copied_as_template(desk):
    desk.keys("ctrl+j")
    desk.window_focus("Jobs - Backplate")
    desk.type("eel")
    desk.keys("ctrl+Return")
    state = desk.settled("the copy", lambda s: s["file"] == "job:2" and s["unconfirmed"])
    desk.check("it may not be sent", "Not to be sent" in state["send"])
    desk.check("what is copied stands among the findings",
               any(doubt["cells"][0] == "copied" for doubt in state["doubts"]))
    return state


def confirmed_by_key(desk, arguments, library, copied):
    first = len(copied["unconfirmed"])
    desk.window_focus("Backplate - ")
    desk.keys("ctrl+1", "ctrl+Home", "ctrl+k")
    row = desk.settled("a row is confirmed", lambda s: len(s["unconfirmed"]) < first)
    desk.check("that row alone", all(not place.startswith("/boxes/0/points/0/")
                                     for place in row["unconfirmed"])
               and any(place.startswith("/boxes/0/points/1/") for place in row["unconfirmed"]))
    desk.wait("it is kept", lambda s: s["kept"] == s["asked"])
    desk.kill()
    desk.start("job:2", library=library)
    again = desk.settled("a crash keeps what was confirmed",
                         lambda s: s["unconfirmed"] == row["unconfirmed"] and s["dirty"])
    desk.check("it says so", "Brought back" in again["said"])
    desk.keys("ctrl+z")
    desk.settled("undo marks it again", lambda s: len(s["unconfirmed"]) == first)
    desk.keys("ctrl+shift+k")
    state = desk.settled("all is confirmed", lambda s: not s["unconfirmed"])
    desk.check("still to be saved", state["dirty"])
    desk.keys("ctrl+s")
    desk.wait("saved", lambda s: not s["dirty"])
    shown = told(desk, arguments, library, "jobs", "confirm", "2")
    desk.check("nothing is left in the library", shown["values"] == [])


def chosen_among_the_recent(desk):
    desk.keys("ctrl+n")
    desk.wait("an empty bid", lambda s: "untitled" in s["title"])
    desk.keys("alt+f", "r", "Return")
    desk.settled("the job opened last", lambda s: s["file"] == "job:2")
    desk.keys("alt+f", "r", "Down", "Return")
    desk.settled("the one before it", lambda s: s["file"] == "job:1" and s["cells"][0][1] == "40")


def next_revision(desk, arguments, library):
    """What is typed after the sending is in the next revision alone."""
    desk.keys("alt+f", "v")
    desk.wait("refused while revision 1 is in work", lambda s: "not sent yet" in desk.faults_said())
    run = [arguments.backplate, "--library", library, "jobs", "send", "1"]
    subprocess.run([*run, "--into", os.path.join(desk.work, "sent")], check=True,
                   env=desk.surroundings, stdout=subprocess.DEVNULL)
    desk.keys("ctrl+1", "ctrl+Home", "Right")
    desk.type("56")
    desk.keys("Return")
    changed = desk.settled("another count", lambda s: s["cells"][0][1] == "56")
    desk.keys("ctrl+s")
    desk.wait("what was sent is not saved over", lambda s: "was sent" in desk.faults_said()
              and s["dirty"])
    desk.keys("alt+f", "v")
    desk.settled("revision 2", lambda s: "Revision 2 is open" in s["said"] and s["dirty"]
                 and s["cells"][0][1] == "56")
    desk.keys("ctrl+s")
    desk.wait("saved", lambda s: not s["dirty"] and "revision 2" in s["said"])
    job = told(desk, arguments, library, "jobs", "show", "1")
    amount = changed["price"].split(" ")[0].replace("\u202f", "")
    prices = {revision["revision"]: revision["price"] for revision in job["revisions"]}
    desk.check(f"two revisions, the first as it was sent: {prices}",
               sorted(prices) == [1, 2] and prices[2] == amount != prices[1])


def opens_by_its_number(desk, library):
    desk.ends_quietly()
    desk.start("job:1", library=library)
    state = desk.settled("the job", lambda s: s["file"] == "job:1")
    desk.check("its state", state["cells"][0][1] == "56" and not state["dirty"])


def scenario(desk, arguments):
    request = os.path.join(desk.work, "request.json")
    shutil.copy(arguments.request, request)
    library = os.path.join(desk.work, "library.backplate")
    desk.start(request, library=library)
    becomes_a_job(desk, arguments, library)
    changed_and_saved_again(desk, arguments, library)
    found_as_one_types(desk)
    copied = copied_as_template(desk)
    confirmed_by_key(desk, arguments, library, copied)
    chosen_among_the_recent(desk)
    next_revision(desk, arguments, library)
    opens_by_its_number(desk, library)
    desk.ends_quietly()


desk_driver.run(__doc__, scenario, "--request", "--backplate")
