#!/usr/bin/env python3
"""What is done in the drawing: a device is chosen, another part takes its place at the price that
was said before, undo brings the old one back; the door comes into view; Tab leads out again."""

import os

import desk_driver


def amount(text):
    """"+12 345.60" or "12 345.60 EUR" as a number."""
    return float(text.replace("\u202f", "").replace("+", "").split(" ")[0])


def marks(desk, what, part):
    """Goes from device to device until one of the kind wanted is marked."""
    seen = set()
    for _ in range(200):
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
    desk.keys("F6")
    desk.wait("the drawing", lambda s: s["focus"] in ("drawing", "alternatives", "points"))
    while desk.shown()["focus"] != "drawing":
        focus = desk.shown()["focus"]
        desk.keys("F6")
        desk.wait("the next column", lambda s: s["focus"] != focus)
    marks(desk, "module", part)
    opens_replacements(desk, part)
    desk.window_focus("In place of")
    desk.keys("Escape")
    state = desk.wait("closed", lambda s: s["built"]["replacing"] == "")
    desk.check("nothing changed", state["asked"] == before["asked"])
    desk.window_focus("Backplate - ")


def door_and_plate(desk):
    desk.wait("the drawing", lambda s: s["focus"] == "drawing")
    if not desk.shown()["built"]["door"]:
        desk.keys("d")
    desk.wait("the door", lambda s: s["built"]["door"])
    desk.keys("d")
    desk.wait("the plate", lambda s: not s["built"]["door"])


def tab_leaves(desk):
    desk.keys("Tab")
    desk.wait("out of the drawing", lambda s: s["focus"] != "drawing")
    desk.keys("shift+Tab")
    desk.wait("and back", lambda s: s["focus"] in ("drawing", "built_pages"))


def stops_looking(desk):
    """A change starts the search anew; what it finds comes one by one, and it can be stopped."""
    before = desk.wait("all alternatives and steps", lambda s: s["settled"], 90.0)
    desk.keys("ctrl+1", "ctrl+Home", "Right", "plus")
    desk.wait("a price", lambda s: s["answered"] == s["asked"] > before["asked"], 90.0)
    desk.keys("shift+Escape")
    stopped = desk.wait("stopped or found", lambda s: s["settled"])
    desk.check("what is still looked for bears no number",
               not stopped["looking"] or all(row[0] == "" for row in stopped["alternatives"]))
    desk.keys("F5")
    desk.wait("and looked for again", lambda s: s["settled"] and s["asked"] > stopped["asked"]
              and not s["looking"] and s["alternatives"][0][0] == "1", 90.0)


def scenario(desk, arguments):
    desk.start(os.path.abspath(arguments.request))
    part = replaces_a_module(desk)
    escape_takes_nothing(desk, part)
    door_and_plate(desk)
    tab_leaves(desk)
    stops_looking(desk)
    desk.ends_quietly()


desk_driver.run(__doc__, scenario, "--request")
