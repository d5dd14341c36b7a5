#!/usr/bin/env python3
"""Makes pictures of the window: PROGRAM FOLDER [NAME…].

Each state of the page (empty, filled, with findings, not to be built, 600 points, a list, why) in
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
    paths = {"filled": str(ROOT / "demo/requests/cranberry_sluices.json")}
    for name, request in files.items():
        paths[name] = os.path.join(work, name + ".json")
        with open(paths[name], "w", encoding="utf-8") as file:
            json.dump(request, file, indent=1)
    return paths


def show(desk, state, paths, work):
    settled = lambda s: s["settled"]  # noqa: E731
    if state in paths:
        desk.start(paths[state])
        desk.wait("alternatives and steps", settled, FURTHER)
        return
    desk.start(paths["filled"])
    if state == "empty":
        desk.keys("ctrl+n")
        desk.wait("an empty bid", lambda s: "untitled" in s["title"])
    elif state == "why":
        desk.wait("alternatives and steps", settled, FURTHER)
        desk.tab_to("why_heat")
        desk.keys("space")
        desk.wait("a formula", lambda s: s["why"])
    elif state == "list":
        path = os.path.join(work, "list.csv")
        shutil.copy(ROOT / "tests/desk/asking_list.csv", path)
        desk.keys("ctrl+t")
        desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Take off")
        desk.type(path)
        desk.keys("Return")
        desk.wait("the list", lambda s: s["takeoff"]["questions"])


def main():
    program, folder, *names = sys.argv[1:]
    os.makedirs(folder, exist_ok=True)
    for state in ("empty", "filled", "findings", "unbuildable", "large", "list", "why"):
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
