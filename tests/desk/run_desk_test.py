#!/usr/bin/env python3
"""The window with a small request: price, undo, faults, copy and paste, findings, save."""

import json
import os
import shutil

import desk_driver


def opens_priced(desk):
    first = desk.settled("a first price", lambda s: s["generation"] > 0 and s["price"] != "No price")
    desk.check("the title holds program and job",
               "Backplate" in first["title"] and "Eel ladder pump" in first["title"])
    desk.check("demo data stands beside the price", "demo data" in first["price_notes"])
    desk.check("the points are in the grid",
               [row[:2] for row in first["cells"]][:3] == [["DI", "24"], ["DO", "8"],
                                                            ["AI_MA", "4"]])
    desk.check("modules, supply and enclosure are shown",
               first["box"]["modules"] and first["box"]["supply"] and first["box"]["enclosure"])
    return first


def another_count_reprices(desk, first):
    desk.check("the grid of points has the cursor", first["focus"] == "points")
    desk.keys("Right")
    desk.type("72")
    desk.keys("Return")
    changed = desk.settled("another price after another count",
                           lambda s: s["cells"][0][1] == "72" and s["price"] != first["price"])
    desk.check("what changed is said, with the heat", "Last change: +" in changed["price_notes"]
               and " W" in changed["price_notes"] and " h" in changed["price_notes"])
    desk.check("the price flashed", changed["flashes"] > first["flashes"])
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


def wrong_entries_are_refused(desk, changed):
    asked = desk.shown()["asked"]
    desk.keys("ctrl+Home", "Right")
    desk.type("many")
    desk.keys("Return")
    state = desk.wait("a word is no count", lambda s: "whole number" in s["refused"])
    desk.check("the count stays", state["cells"][0][1] == "72")
    desk.keys("ctrl+2")
    desk.wait("the page of the site", lambda s: s["page"] == 1 and s["focus"] == "ambient_low")
    desk.tab_to("altitude")
    desk.type("99999")
    desk.wait("too high", lambda s: "-500 to 6000 m" in s["refused"])
    desk.keys("ctrl+z")
    desk.keys("ctrl+1")
    desk.settled("the price stays", lambda s: s["price"] == changed["price"]
                 and s["asked"] >= asked)


def equipment_at_another_voltage(desk, changed):
    """Volts, current and amperes are typed one after the other; each that lacks is a fault of its own."""
    desk.keys("ctrl+4")
    desk.wait("the page of equipment", lambda s: s["page"] == 3 and s["focus"] == "equipment")
    desk.keys("ctrl+Home")
    desk.type("Chart recorder")
    desk.keys("Return")
    desk.settled("a row of equipment", lambda s: s["faults"] == 0
                 and s["price"] != changed["price"])
    desk.keys("ctrl+Home", *["Right"] * 6)
    desk.type("115")
    desk.keys("Return")
    state = desk.settled("volts alone", lambda s: s["faults"] == 2)
    desk.check("nothing was refused", state["refused"] == "")
    desk.check("what lacks is named", [doubt["where"] for doubt in state["doubts"][:2]]
               == ["/boxes/0/equipment/0/amps", "/boxes/0/equipment/0/current"])
    desk.keys("Up", "Right")
    desk.type("ac")
    desk.keys("Return", "Up", "Right")
    desk.type("0.5")
    desk.keys("Return")
    desk.settled("all three", lambda s: s["faults"] == 0 and not s["stale"])
    for _ in range(4):
        before = desk.shown()["asked"]
        desk.keys("ctrl+z")
        desk.settled("a step back", lambda s: s["asked"] > before)
    desk.keys("ctrl+1")
    desk.settled("no equipment any more", lambda s: s["price"] == changed["price"]
                 and s["faults"] == 0 and s["focus"] == "points")


def why_shows_the_formula(desk):
    desk.tab_to("why_heat")
    desk.keys("space")
    desk.wait("a formula", lambda s: s["why"].startswith("= "))
    desk.keys("Escape")
    desk.wait("closed again", lambda s: s["why"] == "")
    desk.keys("ctrl+1")


def default_leads_to_its_row(desk):
    desk.keys("ctrl+2")
    desk.wait("the page of the site", lambda s: s["focus"] == "ambient_low")
    desk.tab_to("dust")
    desk.keys("ctrl+i")
    desk.wait("a default that counts", lambda s: s["why"].startswith("Not stated"))
    desk.keys("Escape")
    desk.wait("closed again", lambda s: s["why"] == "")
    desk.keys("ctrl+1", "ctrl+Home", "Right", "ctrl+i")
    desk.wait("a count that was stated", lambda s: s["why"].startswith("Stated"))
    desk.keys("Escape")
    desk.wait("closed once more", lambda s: s["why"] == "")
    desk.keys("ctrl+1")


def box_after_box(desk, changed):
    desk.keys("ctrl+b")
    desk.wait("an empty box", lambda s: s["box_in_view"] == 1 and len(s["cells"]) == 1)
    desk.keys("ctrl+1", "ctrl+Home")
    desk.type("8di")
    desk.keys("Return")
    two = desk.settled("two boxes priced", lambda s: s["faults"] == 0
                       and s["price"] != changed["price"])
    desk.keys("ctrl+Prior")
    desk.wait("the first box", lambda s: s["box_in_view"] == 0 and s["cells"][0][1] == "72")
    desk.keys("ctrl+Next")
    desk.wait("the second box", lambda s: s["box_in_view"] == 1 and s["cells"][0][1] == "8")
    desk.check("looking changes nothing", desk.shown()["asked"] == two["asked"])
    desk.keys("ctrl+z", "ctrl+z")
    desk.settled("one box again", lambda s: s["price"] == changed["price"]
                 and s["box_in_view"] == 0)
    desk.keys("ctrl+1")


def guide_opens(desk):
    desk.keys("F1")
    desk.window_focus("Guide - Backplate")
    desk.keys("Escape")
    desk.window_focus("Backplate - ")


def copy_and_paste(desk, changed):
    desk.keys("ctrl+c", "Down", "ctrl+v")
    desk.settled("the pasted count", lambda s: s["cells"][1][1] == "72")
    desk.keys("ctrl+z")
    desk.settled("the count before", lambda s: s["price"] == changed["price"])


def block_with_headings(desk, changed):
    desk.keys("ctrl+Home", "shift+Right", "shift+Down", "ctrl+shift+c", "ctrl+Home",
              *["Down"] * 3, "ctrl+v")
    state = desk.settled("two rows more, their heading left out", lambda s: len(s["cells"]) == 6)
    desk.check("they are the first two",
               [row[:2] for row in state["cells"][3:5]] == [["DI", "72"], ["DO", "8"]])
    desk.keys("ctrl+z")
    desk.settled("one undo takes the block back", lambda s: s["price"] == changed["price"]
                 and len(s["cells"]) == 4)


def fills_down(desk, changed):
    desk.keys("ctrl+Home", "Right", "shift+Down", "shift+Down", "ctrl+d")
    desk.settled("the same count in three rows",
                 lambda s: [row[1] for row in s["cells"][:3]] == ["72"] * 3)
    desk.keys("ctrl+z")
    desk.settled("the counts before", lambda s: s["price"] == changed["price"])


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


def headings_sort(desk):
    given = desk.shown()["findings_shown"]
    desk.tab_to("findings")
    desk.keys("ctrl+Right", "ctrl+Right")
    desk.wait("sorted by what they are", lambda s: [row[1] for row in s["findings_shown"]]
              == sorted((row[1] for row in given), key=str.lower))
    desk.keys("ctrl+Down")
    state = desk.wait("the other way round", lambda s: [row[1] for row in s["findings_shown"]]
                      == sorted((row[1] for row in given), key=str.lower, reverse=True))
    places = [doubt["where"] for doubt in state["doubts"]
              if doubt["cells"] == state["findings_shown"][0]]
    desk.check("each row is still one of the findings", places)
    desk.keys("ctrl+Left", "ctrl+Left")
    desk.wait("as they came", lambda s: s["findings_shown"] == given)
    desk.keys("ctrl+1")


def save_writes_the_change(desk, request, original):
    desk.keys("ctrl+s")
    desk.wait("saved", lambda s: not s["dirty"])
    with open(request) as file:
        saved = json.load(file)
    desk.check("the file holds the new count", saved["boxes"][0]["points"][0]["count"] == 72)
    saved["boxes"][0]["points"][0]["count"] = 24
    with open(original) as file:
        desk.check("and nothing else changed", saved == json.load(file))


def copies_and_opens_again(desk, request):
    desk.keys("ctrl+shift+d")
    desk.settled("a copy of its own", lambda s: "(copy)" in s["title"] and s["file"] == ""
                 and s["cells"][0][1] == "72")
    desk.keys("ctrl+o")
    desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Open a request")
    desk.type(request)
    desk.keys("Return")
    desk.settled("the file again", lambda s: s["file"] == request and not s["dirty"]
                 and "(copy)" not in s["title"])


def scenario(desk, arguments):
    request = os.path.join(desk.work, "request.json")
    shutil.copy(arguments.request, request)
    desk.start(request)
    first = opens_priced(desk)
    changed = another_count_reprices(desk, first)
    undo_and_redo(desk, first, changed)
    fault_keeps_last_price(desk, changed)
    copy_and_paste(desk, changed)
    block_with_headings(desk, changed)
    fills_down(desk, changed)
    new_row_by_keyboard(desk, changed)
    wrong_entries_are_refused(desk, changed)
    equipment_at_another_voltage(desk, changed)
    why_shows_the_formula(desk)
    default_leads_to_its_row(desk)
    box_after_box(desk, changed)
    guide_opens(desk)
    finding_leads_to_its_field(desk)
    headings_sort(desk)
    save_writes_the_change(desk, request, arguments.request)
    copies_and_opens_again(desk, request)
    desk.ends_quietly()


desk_driver.run(__doc__, scenario, "--request")
