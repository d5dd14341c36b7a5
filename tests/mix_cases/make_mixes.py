#!/usr/bin/env python3
"""Makes instances of bare mixes (io-mix-1), each from its seed alone.

make_mixes.py FOLDER [--count N] [--seed S]

Every third comes from the demo price book: its controllers, heads, feeds and modules with prices,
channels, places and currents changed by the seed. The others are invented whole: families of plain
cards, wide classes of six to nine kinds, mixed cards, cards whose channels share one kind, onboard
channels. One in seven has an obstacle that usually leaves no answer. See README.md."""
import argparse
import csv
import decimal
import functools
import json
import math
import os
import random

HERE = os.path.dirname(os.path.abspath(__file__))
PRICES = os.path.join(HERE, "..", "..", "demo", "prices")
PLATFORMS = ("block", "compact", "large", "slice")
LABOUR = 95  # cents a minute
LEAST_POINTS, MOST_POINTS = 4, 600
SHAPES = ("plain", "wide", "mixed", "group", "onboard")
OBSTACLES = ("places", "bus", "kind", "late")
LISTS = ("controllers", "heads", "feeds", "modules")


def group(channels, accepts, one_kind=False):
    return {"n": channels, "accepts": sorted(accepts), "mode": "group" if one_kind else "channel"}


def item(name, price, accessory, minutes, **rest):
    return {"id": name, "price_cents": price, "accessory_cents": accessory, "labour_min": minutes,
            "cost_cents": price + accessory + minutes * LABOUR, **rest}


def reprice(one, price):
    one["price_cents"] = price
    one["cost_cents"] = price + one["accessory_cents"] + one["labour_min"] * LABOUR


# the demo price book

@functools.lru_cache(maxsize=None)
def platform_rows(platform):
    path = os.path.join(PRICES, "platform_%s.csv" % platform)
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def net_cents(row):
    net = decimal.Decimal(row["list"])
    for part in filter(None, row["discount_percent"].split("/")):
        net *= 1 - decimal.Decimal(part) / 100
    return int((net * 100).quantize(0, decimal.ROUND_HALF_UP))


def row_groups(row):
    """Channels of a part: AI_MA|AI_V*4@0.025+one_signal;… or the columns signal and channels."""
    if row.get("signal"):
        return [group(int(row["channels"]), [row["signal"]])]
    groups = []
    for text in filter(None, (row.get("groups") or "").split(";")):
        kinds, rest = text.split("*")
        channels = rest.split("@")[0].split("+")[0]
        groups.append(group(int(channels), kinds.split("|"), "one_signal" in rest))
    return groups


def price_book_family(platform):
    """The parts of one platform as they stand in the demo price book."""
    rows = platform_rows(platform)
    accessories = {row["part"]: net_cents(row) for row in rows if row["kind"] == "accessory"}
    family = {"id": platform, "kind": platform, **{key: [] for key in LISTS}}
    for row in rows:
        if row["kind"] not in ("controller", "head", "feed", "module") or row["function"]:
            continue
        own = decimal.Decimal(row["own_a"] or 0)
        one = item(row["part"], net_cents(row),
                   sum(accessories[name] for name in filter(None, row["accessory"].split(";"))), 0,
                   width_dmm=int(decimal.Decimal(row["width_mm"]) * 10),
                   heat_mw=int(own * 24000), i24_ma=int(own * 1000),
                   slots=int(row["places"] or 1), bus_ma=int(row.get("bus_ma") or 0),
                   lead_days=int(row["lead_days"]), groups=row_groups(row))
        if row["kind"] == "controller":
            one.update(max_heads=int(row.get("stations_max") or 0), max_feeds=0)
        family[row["kind"] + "s"].append(one)
    return family


def changed(rng, family):
    """The family with prices, channels, places, currents and lead times changed."""
    for key in LISTS:
        family[key] = [one for one in family[key] if key != "modules" or rng.random() < 0.85]
        for one in family[key]:
            one["labour_min"] = rng.randint(2, 12)
            reprice(one, round(one["price_cents"] * rng.uniform(0.6, 1.6)))
            one["bus_ma"] = round(one["bus_ma"] * rng.uniform(0.7, 1.3))
            one["lead_days"] = max(1, one["lead_days"] + rng.randint(-14, 14))
            for each in one["groups"]:
                if rng.random() < 0.25:
                    each["n"] = max(1, rng.choice((each["n"] // 2, each["n"] * 2, each["n"] + 1)))
                if len(each["accepts"]) > 1 and rng.random() < 0.2:
                    each["mode"] = "group" if each["mode"] == "channel" else "channel"
    feeds = rng.randint(1, 6) if family["feeds"] else 0
    for one in family["controllers"]:
        one["max_feeds"] = feeds
        one["slots"] = max(1, round(one["slots"] * rng.uniform(0.5, 1.5)))
        if family["heads"]:
            one["max_heads"] = max(one["max_heads"], rng.randint(0, 20))
    for one in family["heads"]:
        one["max_feeds"] = feeds // 2
        one["slots"] = max(2, round(one["slots"] * rng.uniform(0.5, 1.5)))
    return family


# invented families

def classes_of(rng, shape, kinds):
    """Sets of kinds that the cards of a family accept; every kind alone, some together."""
    together = [[kind] for kind in kinds]
    for _ in range(rng.randint(1, 4)):
        together.append(rng.sample(kinds, min(len(kinds), rng.randint(2, 4))))
    if shape == "wide":
        for _ in range(rng.randint(1, 2)):
            together.append(rng.sample(kinds, min(len(kinds), rng.randint(6, 9))))
    return together


def card_groups(rng, shape, classes):
    accepts = rng.choice(classes)
    channels = rng.choice((1, 2, 4, 8, 8, 16, 32))
    if shape == "mixed" and rng.random() < 0.5:
        return [group(rng.choice((2, 4, 6, 8)), rng.choice(classes))
                for _ in range(rng.randint(2, 3))]
    if shape == "group" and len(accepts) > 1 and rng.random() < 0.7:
        return [group(rng.choice((2, 4, 8)), accepts[:3], True) for _ in range(rng.randint(1, 3))]
    return [group(channels, accepts)]


def card(rng, name, groups):
    """A card whose price grows with its channels and with what they accept."""
    channels = sum(each["n"] for each in groups)
    widest = max(len(each["accepts"]) for each in groups)
    price = 1500 + round(channels ** rng.uniform(0.75, 1.0) * rng.randint(300, 2500) *
                         (1 + 0.25 * (widest - 1)))
    return item(name, price, rng.choice((0, 0, 450, 1180)), rng.randint(2, 9),
                width_dmm=rng.choice((120, 120, 240, 450)), heat_mw=rng.randint(200, 3000),
                i24_ma=rng.randint(8, 150), slots=rng.choice((1, 1, 1, 2)),
                bus_ma=rng.randint(10, 40 + 10 * channels), lead_days=rng.randint(2, 40),
                groups=groups)


def leader(rng, name, head, onboard, roomy):
    one = item(name, rng.randint(9000, 90000), rng.choice((0, 900)), rng.randint(10, 60),
               width_dmm=rng.randint(400, 1600), heat_mw=rng.randint(1500, 9000),
               i24_ma=rng.randint(80, 500), slots=rng.randint(4, 32) * roomy,
               bus_ma=rng.randint(600, 3500) * roomy, max_feeds=rng.randint(0, 4),
               lead_days=rng.randint(2, 32))
    if not head:
        one.update(max_heads=rng.choice((0, 2, 8, 24)), groups=onboard)
    return one


def invented_family(rng, name, shape, kinds):
    classes = classes_of(rng, shape, kinds)
    chance = 0.8 if shape == "onboard" else 0.15
    roomy = rng.choice((1, 1, 2))
    family = {"id": name, "kind": shape, **{key: [] for key in LISTS}}
    for k in range(rng.randint(1, 4)):
        onboard = [group(rng.choice((2, 6, 8, 14)), rng.choice(classes),
                         shape == "onboard" and rng.random() < 0.3)
                   for _ in range(rng.randint(1, 4)) if rng.random() < chance]
        family["controllers"].append(leader(rng, "%s-C%d" % (name, k), False, onboard, roomy))
    for k in range(rng.randint(0, 2)):
        family["heads"].append(leader(rng, "%s-H%d" % (name, k), True, [], 1))
    if rng.random() < 0.6:
        family["feeds"].append(
            item(name + "-P", rng.randint(3000, 30000), 0, 6, width_dmm=120, heat_mw=1500,
                 i24_ma=60, slots=1, bus_ma=rng.randint(800, 3000), lead_days=rng.randint(2, 25)))
    groups = [[group(rng.choice((4, 8, 16)), [kind])] for kind in kinds]
    groups += [card_groups(rng, shape, classes) for _ in range(rng.randint(len(kinds), 30))]
    family["modules"] = [card(rng, "%s-M%d" % (name, k), each) for k, each in enumerate(groups)]
    return family


# an instance

def demand_of(rng, kinds, points):
    """The points spread over the kinds, few kinds with most of them."""
    weights = [rng.paretovariate(0.9) for _ in kinds]
    demand = {}
    for kind, weight in zip(kinds, weights):
        count = round(points * weight / sum(weights))
        percent = rng.choice((0, 0, 5, 10, 20, 25))
        if count:
            demand[kind] = {"count": count, "spare_percent": percent,
                            "need": (count * (100 + percent) + 99) // 100}
    return demand


def hinder(rng, made, obstacle):
    """Takes places, bus, every card of a kind or time away, a little or much."""
    victim = rng.choice(sorted(made["demand"])) if made["demand"] else None
    if obstacle == "late":
        days = [one["lead_days"] for family in made["families"]
                for one in family[rng.choice(("controllers", "modules"))]]
        made["max_lead_days"] = max(0, min(days, default=1) - rng.randint(0, 1))
    for family in made["families"]:
        for one in family["controllers"] + family["heads"]:
            if obstacle == "places":
                one["slots"] = rng.randint(0, 2)
                one["max_heads"] = min(one.get("max_heads", 0), 1)
            if obstacle == "bus":
                one["bus_ma"] = one["bus_ma"] // rng.randint(4, 40)
                one["max_feeds"] = 0
        if obstacle == "kind":
            for key in ("controllers", "modules"):
                for one in family[key]:
                    one["groups"] = [each for each in one["groups"]
                                     if victim not in each["accepts"]]


def served_kinds(family):
    return {kind for key in ("controllers", "modules") for one in family[key]
            for each in one["groups"] for kind in each["accepts"]}


def instance(seed):
    """The instance of a seed; the same in every run."""
    rng = random.Random(seed)
    points = round(math.exp(rng.uniform(math.log(LEAST_POINTS), math.log(MOST_POINTS))))
    count = 2 if rng.random() < 0.3 else 1
    if seed % 3 == 0:
        shape = "price book"
        families = [changed(rng, price_book_family(name)) for name in rng.sample(PLATFORMS, count)]
        asked = [kind for kind in sorted(set.intersection(*map(served_kinds, families)))
                 if rng.random() < 0.6]
        longest = rng.choice((None, None, None, 45, 90))
    else:
        shape = SHAPES[seed // 3 % len(SHAPES)]
        asked = ["K%d" % k for k in range(rng.randint(9 if shape == "wide" else 2, 12))]
        families = [invented_family(rng, "F%d" % k, shape, asked) for k in range(count)]
        longest = rng.choice((None, None, None, 20, 30))
    made = {"schema": "io-mix-1", "name": "made-%d" % seed, "seed": seed, "size": points,
            "shape": shape, "labour_cents_per_min": LABOUR,
            "max_lead_days": longest,
            "signal_types": sorted(set(asked).union(*map(served_kinds, families))),
            "demand": demand_of(rng, asked, points), "families": families}
    if seed % 7 == 5:
        hinder(rng, made, rng.choice(OBSTACLES))
    return made


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("folder")
    parser.add_argument("--count", type=int, default=10)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    os.makedirs(given.folder, exist_ok=True)
    for seed in range(given.seed, given.seed + given.count):
        made = instance(seed)
        with open(os.path.join(given.folder, made["name"] + ".json"), "w",
                  encoding="utf-8") as file:
            json.dump(made, file, indent=1)


if __name__ == "__main__":
    main()
