#!/usr/bin/env python3
"""What is done in the drawing: a device is chosen, another part takes its place at the price that
was said before, undo brings the old one back; the menu of a device; the door comes into view; Tab leads
out again; alternatives come one by one and the search can be stopped."""

import os
import re

import desk_driver


def amount(text):
    """"+12 345.60" or "12 345.60 EUR" as a number."""
    return float(text.replace("\u202f", "").replace("+", "").split(" ")[0])


def marks(desk, what, part):
    """Goes from device to device until one of the kind wanted is marked."""
    seen = set()
    if part in desk.shown()["built"]["marked"]:
        return desk.shown()["built"]["marked"]
    for _ in range(400):
        before = desk.shown()["built"]["marked"]
        desk.keys("Right")
        state = desk.wait("another device", lambda s: s["built"]["marked"] not in ("", before))
        marked = state["built"]["marked"]
        if part in marked:
            return marked
        if marked in seen:
            break
        seen.add(marked)
    raise desk_driver.Failure(f"no {what} in the drawing")


def opens_replacements(desk, part):
    desk.keys("r")
    return desk.wait(f"parts in place of {part}", lambda s: s["built"]["replacing"] == part
                     and not s["built"]["looking"] and s["built"]["replacements"])


def replaces_a_module(desk):
    first = desk.settled("a first price", lambda s: s["box"]["modules"])
    part = first["box"]["modules"][0]["part"]
    desk.keys("F6")
    desk.wait("the drawing has the cursor", lambda s: s["focus"] == "drawing")
    marks(desk, "module", part)
    state = opens_replacements(desk, part)
    rows = state["built"]["replacements"]
    built = [row for row in rows if not row[2].startswith("✗")]
    desk.check("the cheapest comes first",
               [amount(row[2]) for row in built] == sorted(amount(row[2]) for row in built))
    desk.check("nothing was changed by asking", state["asked"] == first["asked"])
    desk.window_focus("In place of")
    desk.keys("Home", "Return")
    taken = desk.settled("the part is replaced", lambda s: s["asked"] > first["asked"]
                         and s["price"] != first["price"])
    desk.check("the window closes", taken["built"]["replacing"] == "")
    desk.check("its price is the one that was said",
               abs(amount(taken["price"]) - amount(first["price"]) - amount(built[0][2])) < 0.005)
    modules = [module["part"] for module in taken["box"]["modules"]]
    desk.check("the other one stands there", built[0][0] in modules and part not in modules)
    desk.window_focus("Backplate - ")
    desk.keys("ctrl+z")
    desk.settled("undo brings the old one back", lambda s: s["price"] == first["price"])
    return part


def escape_takes_nothing(desk, part):
    before = desk.shown()
    goes_to_the_drawing(desk)
    marks(desk, "module", part)
    opens_replacements(desk, part)
    desk.window_focus("In place of")
    desk.keys("Escape")
    state = desk.wait("closed", lambda s: s["built"]["replacing"] == "")
    desk.check("nothing changed", state["asked"] == before["asked"])
    desk.window_focus("Backplate - ")


def menu_of_a_device(desk, part):
    """Keep, leave out, and what the price rests on; undo takes each back."""
    before = desk.shown()
    marks(desk, "module", part)
    desk.keys("Return", "k")
    kept = desk.settled("the part is kept by hand", lambda s: s["asked"] > before["asked"]
                        and any(d["where"] == "/boxes/0/choices" for d in s["doubts"]))
    desk.check("the price stays", kept["price"] == before["price"])
    desk.keys("ctrl+z")
    desk.settled("undo", lambda s: not s["dirty"])
    goes_to_the_drawing(desk)
    marks(desk, "module", part)
    desk.keys("Return", "o")
    without = desk.settled("built without it", lambda s: s["price"] != before["price"])
    desk.check("it is gone", part not in [m["part"] for m in without["box"]["modules"]])
    desk.keys("ctrl+z")
    desk.settled("undo brings it back", lambda s: s["price"] == before["price"])
    goes_to_the_drawing(desk)
    marks(desk, "module", part)
    desk.keys("Return", "w")
    desk.wait("what the bill rests on", lambda s: s["why"])
    desk.window_focus("Why?")
    desk.keys("Escape")
    desk.wait("closed", lambda s: s["why"] == "")
    desk.window_focus("Backplate - ")


def marked_device_in_words(desk, part):
    goes_to_the_drawing(desk)
    words = marks(desk, "module", part)
    desk.check(f"name, width, heat and price: {words}", re.fullmatch(
        r"[A-Z]\d+: " + re.escape(part) + r" · [\d.]+ (mm|in) wide · [\d.]+ W · [\d.]+ EUR · .+", words))


def goes_to_the_drawing(desk):
    while desk.shown()["focus"] != "drawing":
        focus = desk.shown()["focus"]
        desk.keys("F6")
        desk.wait("the next column", lambda s: s["focus"] != focus)


def door_and_plate(desk):
    desk.wait("the drawing", lambda s: s["focus"] == "drawing")
    if not desk.shown()["built"]["door"]:
        desk.keys("d")
    desk.wait("the door", lambda s: s["built"]["door"])
    desk.tab_to("door")
    desk.keys("space")
    desk.wait("the plate", lambda s: not s["built"]["door"])
    desk.keys("space")
    desk.wait("the door by its key", lambda s: s["built"]["door"])
    desk.keys("shift+Tab", "Left")
    for _ in range(100):
        if not desk.shown()["built"]["door"]:
            break
        before = desk.shown()["built"]["marked"]
        desk.keys("Left")
        desk.wait("another device", lambda s: s["built"]["marked"] != before)
    desk.check("a device of the plate brings the plate", not desk.shown()["built"]["door"])


def tab_leaves(desk):
    desk.keys("Tab")
    desk.wait("out of the drawing", lambda s: s["focus"] != "drawing")
    desk.keys("shift+Tab")
    desk.wait("and back", lambda s: s["focus"] in ("drawing", "built_pages"))


def types_a_bid(desk):
    desk.keys("ctrl+n")
    desk.wait("an empty bid", lambda s: "untitled" in s["title"] and s["focus"] == "points")
    for entry in ("48di", "20do", "12aim", "8rt"):
        desk.type(entry)
        desk.keys("Return")
    return desk.settled("a price", lambda s: len(s["cells"]) == 5 and s["faults"] == 0)


def alternatives_come_one_by_one(desk):
    """What the search finds is in view while it looks for more."""
    asked = types_a_bid(desk)["asked"]
    while_looking = set()

    def found_all(state):
        if state["looking"]:
            while_looking.add(len(state["alternatives"]))
        return state["settled"] and state["answered"] == asked
    found = desk.wait("all alternatives", found_all, 90.0)
    desk.check("nothing hinders the bid", found["faults"] == 0 and not found["looking"])
    desk.check(f"{sorted(while_looking)} in view before {len(found['alternatives'])}",
               len(while_looking - {0}) >= 2)


def stops_looking(desk):
    """A change starts the search anew; it can be stopped, and begun again."""
    before = desk.shown()
    desk.keys("ctrl+1", "ctrl+Home", "Right", "plus")
    desk.wait("a price", lambda s: s["answered"] == s["asked"] > before["asked"]
              and s["faults"] == 0 and s["looking"], 90.0)
    desk.keys("shift+Escape")
    stopped = desk.wait("stopped", lambda s: s["settled"] and s["looking"])
    desk.check("what was found bears no number", all(row[0] == "" for row in stopped["alternatives"]))
    desk.keys("F5")
    desk.wait("and looked for again", lambda s: s["settled"] and s["asked"] > stopped["asked"]
              and not s["looking"] and s["alternatives"][0][0] == "1", 90.0)


def scenario(desk, arguments):
    desk.start(os.path.abspath(arguments.request))
    part = replaces_a_module(desk)
    escape_takes_nothing(desk, part)
    marked_device_in_words(desk, part)
    menu_of_a_device(desk, part)
    goes_to_the_drawing(desk)
    door_and_plate(desk)
    tab_leaves(desk)
    alternatives_come_one_by_one(desk)
    stops_looking(desk)
    desk.ends_quietly()


desk_driver.run(__doc__, scenario, "--request")
