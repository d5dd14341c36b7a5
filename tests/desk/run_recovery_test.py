#!/usr/bin/env python3
"""What the window keeps: it is killed while counts are typed, and the last state that it called
kept is there after the next start; closing asks nothing and loses nothing; a rule that is changed
on the command line is followed."""

import os
import shutil
import subprocess

import desk_driver


ACTS = 8  # write, sync and renaming of a draft, again and again
TYPED = 6


def count_of(state):
    return int(state["cells"][0][1])


def killed_while_typing(desk, request, library, kills):
    """Each time a few more points are typed before the end."""
    desk.start(request, library=library)
    for kill in range(kills):
        state = desk.settled("the counts", lambda s: s["cells"][0][1])
        base, first = count_of(state), state["asked"]
        desk.keys("ctrl+1", "ctrl+Home", "Right", *["plus"] * (3 + kill))
        seen = desk.wait("something is kept", lambda s: s["kept"] > first)
        kept = base + seen["kept"] - first
        desk.kill()
        desk.start(request, library=library)
        state = desk.settled("the bid is back", lambda s: s["cells"][0][1])
        desk.check(f"{kept} were kept, {count_of(state)} came back",
                   count_of(state) >= kept and state["dirty"])
        desk.check("it says so", "Brought back" in state["said"])


def dies_at_every_act(desk, request, library, dying_writes):
    """The window ends at the n-th write, sync or renaming of a draft, half a write done: what it called
    kept before that is there after the next start."""
    drafts = os.path.join(desk.work, "data", "backplate", "drafts")
    options = os.environ.get("ASAN_OPTIONS", "")
    for act in range(1, ACTS + 1):
        desk.kill()
        shutil.rmtree(drafts, ignore_errors=True)
        desk.start(request, library=library, also={
            "LD_PRELOAD": dying_writes, "BACKPLATE_DIES_IN": drafts, "BACKPLATE_DIES_AT": str(act),
            "ASAN_OPTIONS": options + ":verify_asan_link_order=0"})
        state = desk.settled("the counts of the file", lambda s: s["cells"][0][1] == "24")
        first = state["asked"]
        desk.keys("ctrl+1", "ctrl+Home", "Right", *["plus"] * TYPED)
        desk.ended()
        kept = max(0, desk.shown().get("kept", 0) - first)
        desk.start(request, library=library)
        state = desk.settled("the bid is back", lambda s: s["cells"][0][1])
        desk.check(f"act {act}: {kept} changes were kept, {count_of(state) - 24} came back",
                   kept <= count_of(state) - 24 <= TYPED)
        desk.check("a whole draft or none", state["dirty"] == (count_of(state) > 24)
                   and state["dirty"] == ("Brought back" in state["said"]))


def closing_asks_nothing(desk, request, library):
    state = desk.settled("a bid", lambda s: s["cells"][0][1])
    desk.ends_quietly()
    desk.start(request, library=library)
    again = desk.settled("the same counts", lambda s: count_of(s) == count_of(state))
    desk.check("still not saved", again["dirty"])
    while desk.shown()["dirty"]:
        before = desk.shown()["asked"]
        desk.keys("ctrl+z")
        desk.settled("a step back", lambda s: s["asked"] > before)
    desk.check("undo leads to what the file holds", desk.shown()["cells"][0][1] == "24")
    desk.wait("no draft is needed", lambda s: s["kept"] == s["asked"])
    drafts = os.path.join(desk.work, "data", "backplate", "drafts")
    desk.check("and none is left", not [f for f in os.listdir(drafts) if f.endswith(".json")])


def follows_the_rules(desk, request, library, backplate):
    first = desk.settled("a price", lambda s: s["price"])
    rules = os.path.join(desk.work, "rules")
    run = [backplate, "--library", library]
    subprocess.run([*run, "rules", "export", rules], check=True, env=desk.surroundings,
                   stdout=subprocess.DEVNULL)
    rates = os.path.join(rules, "rates.csv")
    with open(rates) as file:
        text = file.read()
    desk.check("the rate to change is there", "\nshop,52.00," in text)
    with open(rates, "w") as file:
        file.write(text.replace("\nshop,52.00,", "\nshop,57.00,"))
    subprocess.run([*run, "rules", "import", rates], check=True, env=desk.surroundings,
                   stdout=subprocess.DEVNULL)
    desk.keys("F5")
    dearer = desk.settled("the price follows", lambda s: s["price"] != first["price"])
    desk.ends_quietly()
    desk.start(request, library=library)
    desk.settled("and stays after another start", lambda s: s["price"] == dearer["price"])
    summary = subprocess.run([*run, "estimate", request], check=True, env=desk.surroundings,
                             stdout=subprocess.PIPE, text=True).stdout
    plain = dearer["price"].replace("\u202f", ",")
    desk.check("the command line says the same", plain in summary)


def makes_the_norms_its_own(desk):
    before = desk.settled("a price", lambda s: s["price"])
    unconfirmed = "Hours not yet your own"
    desk.check("the norms are nobody's yet",
               unconfirmed in [doubt["cells"][1] for doubt in before["doubts"]])
    desk.keys("alt+f", "y")
    desk.xdotool("search", "--sync", "--onlyvisible", "--name", "Your shop - Backplate")
    desk.type("5700")
    desk.keys("Return", "ctrl+a")  # refused: a hundred times the rate
    desk.type("61")
    desk.keys("Return")
    after = desk.settled("another price", lambda s: s["price"] != before["price"])
    desk.check("and they are the shop's now",
               unconfirmed not in [doubt["cells"][1] for doubt in after["doubts"]])


def scenario(desk, arguments):
    request = os.path.join(desk.work, "request.json")
    shutil.copy(arguments.request, request)
    library = os.path.join(desk.work, "library.backplate")
    killed_while_typing(desk, request, library, 3)
    dies_at_every_act(desk, request, library, os.path.abspath(arguments.dying_writes))
    before = count_of(desk.settled("a bid", lambda s: s["cells"][0][1]))
    desk.keys("ctrl+1", "ctrl+Home", "Right", "plus")
    desk.settled("one more", lambda s: count_of(s) == before + 1)
    closing_asks_nothing(desk, request, library)
    follows_the_rules(desk, request, library, arguments.backplate)
    makes_the_norms_its_own(desk)
    desk.ends_quietly()


desk_driver.run(__doc__, scenario, "--request", "--backplate", "--dying-writes")
