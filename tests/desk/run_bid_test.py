#!/usr/bin/python3
"""From an empty bid to a workbook by keyboard alone, every key counted, nothing on the clipboard:
ten signals, the site, a price, the second alternative and back, the workbook. Then a job that no
single box holds, taken over several."""

import json
import os

import desk_driver
import openpyxl

MOST_KEYS = 80
FURTHER = 90.0  # seconds; alternatives are dozens of whole panels, priced in the background
SIGNALS = ["48di", "20do", "6aim", "4aom", "6rt", "4t", "2c", "2e", "8dia", "4dor"]
EXPECTED = ["DI", "DO", "AI_MA", "AO_MA", "RTD", "TC", "CNT", "ENC", "DI_AC", "DO_RELAY"]


def amount(text):
    return float(text.split(" ")[0].replace("\u202f", ""))


def price_in(workbook):
    """The number beside the word Price, where the workbook has one."""
    for sheet in openpyxl.load_workbook(workbook, data_only=True):
        for row in sheet.iter_rows(values_only=True):
            if row and str(row[0]) in ("Price", "Price as estimated"):
                numbers = [cell for cell in row if isinstance(cell, (int, float))]
                if numbers:
                    return float(numbers[0])
    raise desk_driver.Failure("the workbook names no price")


def types_ten_signals(desk):
    desk.keys("ctrl+n")
    desk.wait("an empty bid", lambda s: s["cells"] == [[""] * len(s["cells"][0])]
              and s["focus"] == "points" and "untitled" in s["title"])
    for entry in SIGNALS:
        desk.type(entry)
        desk.keys("Return")
    state = desk.settled("ten rows", lambda s: [r[0] for r in s["cells"][:-1]] == EXPECTED)
    desk.check("their counts", [r[1] for r in state["cells"][:3]] == ["48", "20", "6"])
    desk.check("nothing was refused", state["refused"] == "")


def states_the_site(desk):
    desk.keys("ctrl+2")
    desk.wait("the page of the site", lambda s: s["focus"] == "ambient_low")
    desk.type("-5")
    desk.keys("Tab")
    desk.type("45")
    return desk.wait("a price with alternatives", lambda s: s["answered"] == s["asked"]
                     and s["faults"] == 0 and len(s["alternatives"]) >= 2
                     and not s["looking"], FURTHER)


def takes_the_second_and_back(desk, base):
    desk.keys("alt+2")
    taken = desk.settled("another price", lambda s: s["price"] != base["price"])
    desk.check("what changed is said and nothing flashes",
               "Last change" in taken["price_notes"] and taken["flashes"] == 0)
    stated = amount(base["alternatives"][1][2].replace("≈ ", "").replace("+", ""))
    desk.check("it is the price that was stated",
               abs(amount(taken["price"]) - amount(base["price"]) - stated) < 0.005)
    desk.keys("ctrl+z")
    return desk.settled("the price before", lambda s: s["price"] == base["price"])


def writes_the_workbook(desk, base):
    desk.keys("ctrl+e")
    desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Documents - Backplate")
    desk.keys("Return")
    state = desk.wait("a workbook", lambda s: s["documents"])
    path = state["documents"][0]
    desk.check("it lies in the user's folder", os.path.dirname(path).startswith(desk.work))
    desk.check("its price is the window's", price_in(path) == amount(base["price"]))
    return path


def writes_every_document(desk, before):
    """Client edition, drawing and enquiry sheet as well; what lies there stays as it is."""
    held = {path: os.path.getmtime(path) for path in before}
    desk.keys("ctrl+e")
    desk.window_focus("Documents - Backplate")
    for box in ("with_client", "with_drawing", "with_enquiry"):
        desk.tab_to(box)
        desk.keys("space")
    desk.tab_to("write_documents")
    desk.keys("Return")
    desk.window_focus("Backplate - ")
    paths = desk.wait("four documents", lambda s: len(s["documents"]) == 4)["documents"]
    desk.check(f"all new and none empty: {paths}", len(set(paths) | held.keys()) == 4 + len(held)
               and all(os.path.getsize(path) > 0 for path in paths))
    desk.check("a drawing among them", any(path.endswith(".pdf") for path in paths))
    desk.check("the others are untouched",
               all(os.path.getmtime(path) == time for path, time in held.items()))


def wants_no_animations(desk):
    folder = os.path.join(desk.work, "config", "gtk-3.0")
    os.makedirs(folder)
    with open(os.path.join(folder, "settings.ini"), "w") as file:
        file.write("[Settings]\ngtk-enable-animations=0\n")


def takes_boxes_for_one(desk):
    """What no single box of the site's size holds is offered over several, taken and undone."""
    full = os.path.join(desk.work, "full.json")
    box = {"points": [{"signal": "DI", "count": 80}, {"signal": "DO", "count": 24}],
           "site": {"max_mm": {"width": 600, "height": 800, "depth": 300}},
           "choices": {"platforms": ["slice"]}}
    with open(full, "w", encoding="utf-8") as file:
        json.dump({"format": "backplate-request/1", "boxes": [box]}, file)
    desk.start(full)
    found = desk.wait("boxes for one", lambda s: s["settled"] and s["alternatives"], FURTHER)
    desk.check("nothing builds it as asked", found["price"] == "No price")
    desk.check("each is a number of boxes", all(" over " in row[1] for row in found["alternatives"]))
    desk.keys("alt+1")
    taken = desk.wait("a price", lambda s: s["answered"] == s["asked"] > found["asked"]
                      and s["price"] != "No price", FURTHER)
    desk.check("it is the price that was stated",
               amount(taken["price"]) == amount(found["alternatives"][0][2]))
    desk.keys("ctrl+z")
    desk.wait("one box again", lambda s: s["answered"] == s["asked"] > taken["asked"]
              and s["price"] == "No price", FURTHER)
    desk.ends_quietly()


def scenario(desk, arguments):
    wants_no_animations(desk)
    desk.start()
    before = desk.keystrokes
    types_ten_signals(desk)
    base = states_the_site(desk)
    takes_the_second_and_back(desk, base)
    path = writes_the_workbook(desk, base)
    used = desk.keystrokes - before
    desk.check(f"{used} keys, at most {MOST_KEYS}", used < MOST_KEYS)
    print(f"{used} keys from an empty bid to the workbook")
    again = os.path.getmtime(path)
    desk.keys("ctrl+e")
    desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Documents - Backplate")
    desk.keys("Return")
    state = desk.wait("a second workbook", lambda s: s["documents"] and s["documents"][0] != path)
    desk.check("the first one was not touched",
               os.path.getmtime(path) == again and os.path.exists(state["documents"][0]))
    writes_every_document(desk, [path, state["documents"][0]])
    desk.ends_quietly()
    takes_boxes_for_one(desk)


desk_driver.run(__doc__, scenario)
