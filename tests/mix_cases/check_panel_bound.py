#!/usr/bin/env python3
"""Whole panels beside what a general solver says their modules cost at least.

check_panel_bound.py PROGRAM [--count N]

Made requests of one box, 60 to 600 points, on the demo price book. For every platform GLPK finds the
cheapest modules with their accessories that carry the required channels, limits summed over the
system (mix_program.py). The modules of the answer cost no less than those of its platform, and its
material no less than the least of all platforms with the cheapest enclosure and supply. Prints how
far above the bounds the answers lie. Exit 0: no fault, 1: faults."""
import argparse
import csv
import decimal
import json
import os
import random
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays clean
import make_mixes  # noqa: E402
import mix_program  # noqa: E402

SIGNALS = ("DI", "DO", "DO_RELAY", "AI_MA", "AI_V", "AO_MA", "AO_V", "RTD", "CNT")
FEEDS = 20  # at most in the bound: more than any answer takes
OWN_ROLES = ("controller", "head", "feed", "module", "accessory")


def made_request(seed):
    rng = random.Random(seed)
    kinds = rng.sample(SIGNALS, rng.randint(3, len(SIGNALS)))
    total = rng.randint(60, 600)
    shares = [rng.random() + 0.05 for _ in kinds]
    points = [{"signal": kind, "count": max(1, round(total * share / sum(shares)))}
              for kind, share in zip(kinds, shares)]
    return {"format": "backplate-request/1", "spare": {"percent": rng.choice([0, 10, 20, 30])},
            "boxes": [{"points": points, "site": {"ambient_c": [0, 40]}}]}


def least_price(name):
    with open(os.path.join(make_mixes.PRICES, name), encoding="utf-8", newline="") as file:
        return min(make_mixes.net_cents(row) for row in csv.DictReader(file)
                   if row["kind"] in ("enclosure", "supply") and row["list"])


def least_modules(platform, required, folder):
    """Cents, or None where no modules of the platform carry the channels."""
    family = make_mixes.price_book_family(platform)
    for one in family["controllers"] + family["heads"]:
        one["max_feeds"] = FEEDS
    made = {"max_lead_days": None, "demand": {kind: {"need": n} for kind, n in required.items()}}
    program = mix_program.Program(made, family)
    status, cost, faults = mix_program.solved(program, mix_program.by_glpk, folder)
    if faults or status not in ("optimal", "infeasible"):
        raise ValueError("%s: %s %s" % (platform, status, faults))
    return cost


def cents(text):
    return int(decimal.Decimal(text) * 100)


def judge(program, seed, rest, folder):
    """(faults, gaps of the modules and of the material in percent, is it proven) or None."""
    path = os.path.join(folder, "request.json")
    with open(path, "w", encoding="utf-8") as file:
        json.dump(made_request(seed), file)
    done = subprocess.run([program, "--library", ":starter:", "estimate", path, "--json"],
                          capture_output=True, text=True, check=False)
    told = json.loads(done.stdout)
    if not told["buildable"]:
        return None
    required = {row["signal"]: row["required"] for row in told["points"]}
    least = {name: least_modules(name, required, folder) for name in make_mixes.PLATFORMS}
    platform = told["systems"][0]["platform"]
    own = sum(cents(line["line_net"]) for line in told["bill"] if line["role"] in OWN_ROLES)
    material = cents(told["price"]["material"])
    bound = min(cost for cost in least.values() if cost is not None) + rest
    faults = []
    if least[platform] is None or own < least[platform]:
        faults.append("request %d: modules for %d, GLPK needs %s" % (seed, own, least[platform]))
    if material < bound:
        faults.append("request %d: material %d is below the bound %d" % (seed, material, bound))
    gaps = 100 * (own / (least[platform] or own) - 1), 100 * (material / bound - 1)
    return faults, *gaps, told["systems"][0]["proven_cheapest"]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--count", type=int, default=16)
    given = parser.parse_args()
    rest = least_price("enclosures.csv") + least_price("supplies.csv")
    with tempfile.TemporaryDirectory() as folder:
        results = [judge(given.program, seed, rest, folder) for seed in range(given.count)]
    built = [each for each in results if each]
    faults = [text for each in built for text in each[0]]
    if 2 * len(built) < given.count:
        faults.append("only %d of %d requests are built" % (len(built), given.count))
    for place, name in ((1, "modules"), (2, "material")):
        gaps = sorted(each[place] for each in built) or [0]
        print("%s above the solver's bound: median %.1f %%, most %.1f %%" % (
            name, gaps[len(gaps) // 2], gaps[-1]))
    proven = sum(each[3] for each in built)
    print("proven cheapest: %d of %d" % (proven, len(built)))
    if 2 * proven < len(built):
        faults.append("too few are proven")
    for text in faults:
        print("fault: " + text)
    print("%d whole panels judged, %d faults" % (len(built), len(faults)))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
