#!/usr/bin/env python3
"""Makes pictures of the window: PROGRAM FOLDER [NAME…].

Each state of the page (empty, filled, with findings, not to be built, 600 points, a list, a device of
the panel), its windows (why, in place of, jobs, your shop) and a copy that waits to be confirmed, in
light at 100 % and dark at 200 %, on 1280 x 720 and 1920 x 1080 logical units.
"""

import json
import os
import pathlib
import shutil
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[1]
sys.dont_write_bytecode = True
sys.path.insert(0, str(ROOT / "tests/desk"))
import desk_driver  # noqa: E402

WAYS = {"light_1280": ("1280x720", "Adwaita", "1"), "light_1920": ("1920x1080", "Adwaita", "1"),
        "dark_1280": ("2560x1440", "Adwaita:dark", "2"),
        "dark_1920": ("3840x2160", "Adwaita:dark", "2")}
FURTHER = 120.0  # seconds for alternatives and steps


def request_of(points, **site):
    return {"format": "backplate-request/1",
            "job": {"title": "Weir house, rebuilt", "client": "Invented river board",
                    "date": "2026-11-24", "due": "2026-12-08"},
            "boxes": [{"name": "CP1", "points": [{"signal": signal, "count": count}
                                                 for signal, count in points], "site": site}]}


LARGE = [("DI", 280), ("DO", 140), ("AI_MA", 90), ("AO_MA", 30), ("RTD", 30), ("DI_AC", 20),
         ("CNT", 10)]
SMALL_BOX = {"max_mm": {"width": 200, "height": 300}, "ambient_c": [5, 55]}


def prepared(work):
    """The request of every state: a file, or nothing for an empty bid."""
    files = {"large": request_of(LARGE), "unbuildable": request_of([("DI", 64)], **SMALL_BOX),
             "findings": request_of([("DI", 40), ("AI_MA", 12)], place="outdoor_sun", altitude_m=2500)}
    paths = {"filled": str(ROOT / "demo/requests/cranberry_sluices.json"),
             "replace": str(ROOT / "demo/requests/kelp_barn.json")}
    for name, request in files.items():
        paths[name] = os.path.join(work, name + ".json")
        with open(paths[name], "w", encoding="utf-8") as file:
            json.dump(request, file, indent=1)
    return paths


def settled(state):
    return state["settled"]


def show_why(desk, work):
    desk.wait("alternatives and steps", settled, FURTHER)
    desk.tab_to("why_heat")
    desk.keys("space")
    desk.wait("a formula", lambda s: s["why"])


def show_list(desk, work):
    path = os.path.join(work, "list.csv")
    shutil.copy(ROOT / "tests/desk/asking_list.csv", path)
    desk.keys("ctrl+t")
    desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Take off")
    desk.type(path)
    desk.keys("Return")
    desk.wait("the list", lambda s: s["takeoff"]["questions"])


def mark_device(desk, work):
    desk.wait("alternatives and steps", settled, FURTHER)
    desk.keys("F6")
    desk.wait("the drawing", lambda s: s["focus"] == "drawing")
    part = desk.shown()["box"]["modules"][0]["part"]
    while part not in desk.shown()["built"]["marked"]:
        desk.keys("Right")
        time.sleep(0.1)


def show_replacements(desk, work):
    mark_device(desk, work)
    desk.keys("r")
    desk.wait("parts in its place", lambda s: s["built"]["replacements"] and not s["built"]["looking"],
              FURTHER)


def show_jobs(desk, work):
    for title in ("", " north", " south"):
        if title:
            desk.keys("ctrl+shift+d")
            desk.wait("a copy", lambda s: "(copy)" in s["title"])
        desk.wait("a price", lambda s: s["answered"] == s["asked"] and s["price"] != "No price", FURTHER)
        desk.keys("ctrl+shift+j")
        desk.wait("saved", lambda s: s["file"].startswith("job:") and not s["dirty"])
    desk.keys("ctrl+j")
    desk.window_focus("Jobs - Backplate")


def show_copy(desk, work):
    show_jobs(desk, work)
    desk.keys("ctrl+Return")
    desk.wait("the copy", lambda s: s["unconfirmed"] and settled(s), FURTHER)


def show_shop(desk, work):
    desk.wait("alternatives and steps", settled, FURTHER)
    desk.keys("alt+f", "y")
    desk.window_focus("Your shop - Backplate")


def show_empty(desk, work):
    desk.keys("ctrl+n")
    desk.wait("an empty bid", lambda s: "untitled" in s["title"])


ACTS = {"empty": show_empty, "list": show_list, "marked": mark_device, "why": show_why,
        "replace": show_replacements, "jobs": show_jobs, "copy": show_copy, "shop": show_shop}


def show(desk, state, paths, work):
    if state not in ACTS:
        desk.start(paths[state])
        desk.wait("alternatives and steps", settled, FURTHER)
        return
    library = os.path.join(work, "library.backplate") if state in ("jobs", "copy") else ":starter:"
    desk.start(paths["replace" if state == "replace" else "filled"], library=library)
    desk.wait("a price", lambda s: s["answered"] == s["asked"] and s["price"] != "No price", FURTHER)
    ACTS[state](desk, work)


def main():
    program, folder, *names = sys.argv[1:]
    os.makedirs(folder, exist_ok=True)
    for state in ("filled", "findings", "unbuildable", "large", *ACTS):
        for way, (screen, theme, scale) in WAYS.items():
            name = f"{state}_{way}"
            if names and name not in names and state not in names:
                continue
            with tempfile.TemporaryDirectory() as work:
                desk = desk_driver.Desk(program, os.path.join(work, "desk"), screen,
                                        GTK_THEME=theme, GDK_SCALE=scale)
                try:
                    show(desk, state, prepared(work), work)
                    time.sleep(1)  # the last strokes of the brush
                    desk.picture(os.path.join(folder, name + ".png"))
                    print(name)
                finally:
                    desk.stop()


if __name__ == "__main__":
    main()
