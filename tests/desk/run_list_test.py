#!/usr/bin/env python3
"""A client's list in the window: rows with their outcomes, two questions answered, points taken
into the bid in one step, one undo, and a list that is refused."""

import os
import shutil

import desk_driver


def open_list(desk, path):
    desk.keys("ctrl+t")
    desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Take off")
    desk.type(path)
    desk.keys("Return")
    return desk.wait("the list is read", lambda s: s["takeoff"]["open"]
                     and not s["takeoff"]["reading"] and s["takeoff"]["words"])


def answers_and_takes_in(desk, path):
    before = desk.settled("a price", lambda s: s["price"])
    state = open_list(desk, path)
    desk.check("every row has an outcome", state["takeoff"]["words"].startswith(
        "12 rows: 5 counted, 3 not counted, 3 asked, 1 refused"))
    desk.check("the questions with their proposals",
               [row[2] for row in state["takeoff"]["questions"]] == ["as 1 AI_MA", "please choose"])
    desk.keys("Return")
    desk.wait("one proposal taken", lambda s: len(s["takeoff"]["questions"]) == 1)
    desk.tab_to("count_as")
    desk.type("widget")
    desk.keys("Return", "ctrl+a")
    desk.type("2 do")
    desk.keys("Return")
    desk.wait("the other one answered by hand", lambda s: s["takeoff"]["questions"] == []
              and "8 counted" in s["takeoff"]["words"])
    desk.keys("ctrl+Return")
    desk.settled("the points are in the bid and priced", lambda s: not s["takeoff"]["open"]
                 and s["faults"] == 0 and s["price"] != before["price"]
                 and [row[:2] for row in s["cells"][:-1]]
                 == [["DI", "2"], ["DO", "4"], ["AI_MA", "3"]])
    desk.keys("ctrl+z")
    desk.settled("one undo takes them out", lambda s: s["cells"] == before["cells"]
                 and s["price"] == before["price"])


def is_refused(desk, path):
    with open(path, "wb") as file:
        file.write(b"PK\x03\x04 no workbook")
    desk.keys("ctrl+t")
    desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Take off")
    desk.type(path)
    desk.keys("Return")
    desk.wait("a refused list says why", lambda s: s["takeoff"]["fault"])
    desk.keys("Escape")
    desk.wait("back at the bid", lambda s: not s["takeoff"]["open"])


def scenario(desk, arguments):
    request = os.path.join(desk.work, "request.json")
    shutil.copy(arguments.request, request)
    path = os.path.join(desk.work, "list.csv")
    shutil.copy(arguments.list, path)
    desk.start(request)
    answers_and_takes_in(desk, path)
    is_refused(desk, os.path.join(desk.work, "bad.csv"))
    desk.ends_quietly()


desk_driver.run(__doc__, scenario, "--request", "--list")
