#!/usr/bin/env python3
"""Judges an estimate without the product: sums, decimals, stations, findings and every entry of
its basis, against the price book and the rule tables it was made with.

check_estimate.py ESTIMATE.json --parts DIR --rules DIR-or-FILE [--rules …]
check_estimate.py --self-test [the same]   plants faults; each must be reported

Several --rules: a table of a later one replaces it. Exit 0: sound, 1: faults, 2: usage."""
import argparse
import copy
import os
import re
import sys
from decimal import Decimal
from fractions import Fraction

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "worked_jobs"))
import exact  # noqa: E402
import two_film  # noqa: E402
from channels import channel_faults, channel_plants  # noqa: E402
from tables import at, numbers, read_json, read_parts, read_rules  # noqa: E402

FLOOR_FIGURES, FLOOR_BASIS = 60, 25  # of a buildable estimate
LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
NOISE = Fraction(1, 10 ** 9)  # of a physical value: double arithmetic against exact
PAINTED = {"emissivity_out": 0.9, "emissivity_in": 0.5, "wall_m": 0.0015, "wall_conductivity": 50.0}
# Decimals of every printed number, by its pointer; the first match counts.
DECIMALS = [
    (r"/labour/\d+/(once_hours|each_hours|hours)$", 3),
    (r"_percent$", 1),
    (r"/(supplies/\d+|incoming)/\w+_a$", 2),
    (r"/(derating/\w+|batch_factor)$", 3),
    (r"/ratios/\d+/(value|low|high)$", None),
    (r"(_w|_c|_mm|_ka|_m3h|_va|/volts)$", 1),
    (r".", 0),
]
MONEY = (r"^/(price/(?!currency)\w+|bill/\d+/line_\w+|labour/\d+/cost|boxes/\d+/price/\w+"
         r"|systems/.*gap|unit_prices/\d+/(price|with_module))$")
UNIT_MONEY = r"^/(bill/\d+/(list|unit_net)|labour/\d+/rate)$"


def name_of(index):
    """a to z, A to Z, then a1 to Z1 and so on."""
    turn, place = divmod(index, len(LETTERS))
    return LETTERS[place] + (str(turn) if turn else "")


def also(finding):
    """Further places of a finding, four of them at most, as they stand behind its text."""
    places = [place for place in finding["params"].get("further", "").split("; ") if place]
    rest = " and %d more" % (len(places) - 4) if len(places) > 4 else ""
    return " Also: " + "; ".join(places[:4]) + rest + "." if places else ""


class Check:
    def __init__(self, estimate, parts, rules):
        self.e, self.parts, self.rules = estimate, parts, rules
        self.faults, self.figures, self.basis = [], 0, 0
        price = estimate["price"] or {}
        self.digits = exact.places_of(price["price"]) if price.get("price") else 2

    def say(self, place, text):
        self.faults.append("%s: %s" % (place, text))

    def expect(self, place, have, want):
        if have != want:
            self.say(place, "is %s, must be %s" % (have, want))

    def run(self):
        self.decimals()
        self.findings()
        if self.e["buildable"]:
            self.points()
            self.bill()
            self.labour()
            self.price()
            for index in range(len(self.e["boxes"])):
                self.box(index)
        for index, entry in enumerate(self.e["basis"]):
            self.entry(index, entry)
        if self.e["buildable"] and self.figures < FLOOR_FIGURES:
            self.say("figures", "only %d judged, floor %d" % (self.figures, FLOOR_FIGURES))
        if self.e["buildable"] and self.basis < FLOOR_BASIS:
            self.say("basis", "only %d judged, floor %d" % (self.basis, FLOOR_BASIS))
        return self

    # ------------------------------------------------------------ print
    def decimals(self):
        for pointer, value in numbers(self.e):
            if re.match(r"^/(request|basis|assumptions|findings|issue|program)", pointer):
                continue
            self.figures += 1
            places = exact.places_of(value)
            if isinstance(value, str):
                if re.search(UNIT_MONEY, pointer):
                    if places not in (self.digits, 4):
                        self.say(pointer, "unit price %s has %d decimals" % (value, places))
                elif re.search(MONEY, pointer):
                    if places != self.digits:
                        self.say(pointer, "money %s has %d decimals" % (value, places))
                continue
            want = next(n for pattern, n in DECIMALS if re.search(pattern, pointer))
            if want is not None and places != want:
                self.say(pointer, "%s has %d decimals, must have %d" % (value, places, want))

    # ------------------------------------------------------------ findings
    def findings(self):
        seen = set()
        for index, finding in enumerate(self.e["findings"]):
            place = "/findings/%d (%s)" % (index, finding["code"])
            row = self.rules["findings"].get(finding["code"])
            if row is None:
                self.say(place, "no such row")
                continue
            self.expect(place + "/severity", finding["severity"], row["severity"])
            try:
                self.expect(place + "/text", finding["text"],
                            row["text"].format(**finding["params"]) + also(finding))
            except KeyError as error:
                self.say(place, "the text wants %s" % error)
            where = finding["where"]
            try:
                at(self.e, where[1:]) if where.startswith("#") else at(self.e["request"], where)
            except (KeyError, IndexError, ValueError, TypeError):
                self.say(place, "points nowhere: " + where)
            key = (finding["code"], finding["params"].get("box"))
            if key in seen:
                self.say(place, "twice for one box")
            seen.add(key)

    # ------------------------------------------------------------ sums
    def points(self):
        for index, point in enumerate(self.e["points"]):
            place = "/points/%d" % index
            box = next(b for b in self.e["boxes"] if b["name"] == point["box"])
            held = sum(1 for s in box["stations"] for p in s["places"] for c in p["channels"]
                       if c["signal"] == point["signal"])
            self.expect(place + "/fitted", point["fitted"], held)
            if point["fitted"] < point["required"] or point["required"] < point["used"]:
                self.say(place, "used, required and fitted do not rise")
            asked = next(b for b in self.e["request"]["boxes"] if b["name"] == point["box"])
            self.expect(place + "/used", point["used"],
                        sum(p["count"] for p in asked["points"] if p["signal"] == point["signal"]))
        for box in self.e["boxes"]:
            asked = next(b for b in self.e["request"]["boxes"] if b["name"] == box["name"])
            wanted = [x["tag"] for p in asked["points"] for x in p["list"] or [] if x.get("tag")]
            held = [c["tag"] for s in box["stations"] for p in s["places"] for c in p["channels"]]
            self.expect("tags of " + box["name"], sorted(filter(None, held)), sorted(wanted))

    def bill(self):
        quantities = {b["name"]: b["quantity"] for b in self.e["boxes"]}
        shown = set()
        for index, line in enumerate(self.e["bill"]):
            place = "/bill/%d" % index
            self.expect(place + "/line", line["line"], index + 1)
            key = (line["box"], line["part"] or (line["description"], line["role"]))
            if key in shown:
                self.say(place, "the part stands twice in one box")
            shown.add(key)
            if line["unit_net"] is None:
                self.expect(place + "/line_net", line["line_net"], None)
                continue
            product = Fraction(line["unit_net"]) * line["quantity"]
            self.expect(place + "/line_net", Fraction(line["line_net"]),
                        exact.round_half_away(product, self.digits))
            self.expect(place + "/line_all", Fraction(line["line_all"]),
                        Fraction(line["line_net"]) * quantities[line["box"]])
            if line["part"]:
                self.unit_price(place, line)

    def exchanged(self, amount):
        """An amount in the job's currency, four decimals."""
        wanted = self.e["price"]["currency"]
        if wanted == self.rules["price_policy"]["currency"]["value"]:
            return amount
        row = {k: Fraction(self.rules["exchange_rates"][wanted][k]) for k in ("rate", "buffer_percent")}
        return exact.round_half_away(amount * row["rate"] * (1 + row["buffer_percent"] / 100), 4)

    def unit_price(self, place, line):
        row = self.parts.get(line["part"])
        if row is None:
            self.say(place, "no such part: " + line["part"])
            return
        net = self.exchanged(Fraction(row["list"]))
        self.expect(place + "/list", Fraction(line["list"]), net)
        for step in (row.get("discount_percent") or "0").split("/"):
            net *= 1 - Fraction(step) / 100
        self.expect(place + "/unit_net", Fraction(line["unit_net"]), exact.round_half_away(net, 4))

    def labour(self):
        for index, line in enumerate(self.e["labour"]):
            place = "/labour/%d" % index
            if all(box["quantity"] == 1 for box in self.e["boxes"]):
                self.expect(place + "/hours", line["hours"], line["once_hours"] + line["each_hours"])
            cost = exact.to_fraction(line["hours"]) * Fraction(line["rate"])
            cost = exact.round_half_away(cost, self.digits)
            self.expect(place + "/cost", Fraction(line["cost"]), cost)
            rate = Fraction(self.rules["rates"][line["class"]]["value"])
            self.expect(place + "/rate", Fraction(line["rate"]), self.exchanged(rate))

    def price(self):
        p = {k: Fraction(v) for k, v in self.e["price"].items() if v and k != "currency"}
        lines = {"material": sum(Fraction(b["line_all"]) for b in self.e["bill"] if b["line_all"]),
                 "labour": sum(Fraction(x["cost"]) for x in self.e["labour"]),
                 "direct": p["material"] + p["freight"] + p["labour"],
                 "cost": p["direct"] + p["contingency"] + p["overhead"],
                 "price": p["cost"] + p["margin"] - p["concession"] + p["rounding"]}
        for key, want in lines.items():
            self.expect("/price/" + key, p[key], want)
        step = Fraction(self.rules["price_policy"]["round_up_to"]["value"])
        if p["price"] % step or not 0 <= p["rounding"] < step:
            self.say("/price/rounding", "the price is not the next multiple of %s" % step)
        if not p["p50"] <= p["p80"]:
            self.say("/price/p80", "below p50")

    def box(self, index):
        box, place = self.e["boxes"][index], "/boxes/%d" % index
        held = {}
        for station in box["stations"]:
            for spot in station["places"]:
                held[spot["part"]] = held.get(spot["part"], 0) + 1
        self.expect(place + "/modules", {m["part"]: m["quantity"] for m in box["modules"]}, held)
        for spot, fault in channel_faults(box, self.parts):
            self.say(place + spot, fault)
        billed = {b["part"]: b["quantity"] for b in self.e["bill"] if b["box"] == box["name"]}
        for part, count in held.items():
            self.expect("%s: %s in the bill" % (place, part), billed.get(part), count)
        for supply in box["supplies"]:
            if supply["required_a"] is None:  # the air at the supply is not known
                continue
            if Fraction(supply["required_a"]) > Fraction(supply["rated_a"]):
                self.say(place + "/supplies", "requires more than rated")
        material = sum(Fraction(b["line_all"]) for b in self.e["bill"]
                       if b["box"] == box["name"] and b["line_all"])
        self.expect(place + "/price/material", Fraction(box["price"]["material"]), material)
        labour = sum(Fraction(x["cost"]) for x in self.e["labour"] if x["box"] == box["name"])
        self.expect(place + "/price/labour", Fraction(box["price"]["labour"]), labour)

    # ------------------------------------------------------------ basis
    def entry(self, index, entry):
        place = "/basis/%d (%s)" % (index, entry["figure"])
        self.basis += 1
        try:
            figure = at(self.e, entry["figure"])
        except (KeyError, IndexError, ValueError, TypeError):
            self.say(place, "points nowhere")
            return
        value, places = exact.to_fraction(entry["value"]), exact.places_of(figure)
        # the double nearest to a half may lie below it
        noise = NOISE * abs(value)
        if Fraction(str(figure)) not in [exact.round_half_away(value + n, places)
                                         for n in (0, noise, -noise)]:
            self.say(place, "value %s is not the figure %s" % (entry["value"], figure))
        for given in entry["inputs"]:
            self.given(place, given)
        if "simulated(" in entry["formula"]:
            return  # drawn, no closed formula: its inputs were judged
        if "two_film(" in entry["formula"]:
            self.temperature(place, entry)
            return
        names = {name_of(n): i["value"] for n, i in enumerate(entry["inputs"])}
        try:
            got = exact.evaluate(entry["formula"], names)
        except (ValueError, ZeroDivisionError) as error:
            self.say(place, "formula: %s" % error)
            return
        once_rounded = isinstance(figure, str) or entry["figure"].startswith("/labour/") \
            or entry["figure"].endswith("batch_factor")
        printed = 4 if entry["figure"].endswith("unit_net") else places
        printed = 6 if entry["figure"].endswith("batch_factor") else printed
        close = abs(got - value) <= NOISE * max(1, abs(value))
        if not close and not (once_rounded and exact.round_half_away(got, printed) == value):
            self.say(place, "formula %s gives %.9g, not %s" %
                     (entry["formula"], got, entry["value"]))

    def given(self, place, given):
        """An input stands where it says."""
        value = exact.to_fraction(given["value"])
        try:
            if "figure" in given:
                known = [b["value"] for b in self.e["basis"] if b["figure"] == given["figure"]]
                found = [known[0] if known else at(self.e, given["figure"])]
            elif "request" in given:
                found = [at(self.e["request"], given["request"])]
            elif "part" in given:
                found = self.part_field(given["part"])
            else:
                table, row = given["rule"].split("/", 1)
                cells = self.rules[table][row]
                found = [cells["value"]] if "value" in cells else list(cells.values())
        except (KeyError, IndexError, ValueError, TypeError):
            self.say(place, "input points nowhere: %s" % given)
            return
        if value not in [Fraction(str(x)) for x in found if re.fullmatch(r"-?[\d.]+", str(x))]:
            self.say(place, "input %s is %s there" % (given, found))

    def part_field(self, path):
        """Channel data stand in a column of their own or in the short form `SIGNAL*N@AMPS`."""
        part, field = path.rsplit("/", 1)
        row = self.parts[part]
        if field == "channel_a" and not row.get(field):
            return re.findall(r"@([\d.]+)", row["groups"])
        return [row[field]]

    def temperature(self, place, entry):
        """Heat of the two-film balance at the recorded temperature against the heat stated."""
        watts, height, width, depth, outside, altitude, *sun = (float(i["value"])
                                                                for i in entry["inputs"])
        box = at(self.e, "/".join(entry["figure"].split("/")[:3]))
        asked = next(b for b in self.e["request"]["boxes"] if b["name"] == box["name"])
        stage = box["heat"]["stage"]
        if stage not in ("sealed", "circulation_fan", "filter_fan"):
            self.say(place, "no two-film balance decides with stage " + stage)
            return
        heat_rules = self.rules["heat"]
        film, flow = None, 0.0
        if stage == "circulation_fan":
            film = float(heat_rules["stirred_film"]["value"])
        if stage == "filter_fan":
            flow = float(heat_rules["fouling_factor"]["value"]) * sum(
                float(self.parts[p["part"]]["flow_m3h"]) * p["quantity"]
                for p in box["heat"]["parts"])
        enclosures = box["enclosures"][0]["quantity"]
        if enclosures > 1:  # the fullest sheds an even share
            watts *= sun.pop(0) / 100
        judge = two_film.Box(height / 1000, width / 1000, depth / 1000,
                             self.surface(box["enclosures"][0]["material"]), altitude, film,
                             asked["site"]["mounting"], flow, sun[0] * sun[1] if sun else 0.0,
                             enclosures)
        residual = judge.heat(float(entry["value"]), outside) / watts - 1
        if abs(residual) >= 0.01:
            self.say(place, "two-film balance is off by %.2f %%" % (residual * 100))

    def surface(self, material):
        row = self.rules.get("materials", {}).get(material)
        if row is None:
            return PAINTED
        return {"emissivity_out": float(row["emissivity_out"]),
                "emissivity_in": float(row["emissivity_in"]),
                "wall_m": float(row["wall_mm"]) / 1000,
                "wall_conductivity": float(row["wall_conductivity"])}


def planted(estimate):
    """Copies of a sound estimate with one fault each."""
    def change(pointer, value):
        copied = copy.deepcopy(estimate)
        *head, last = pointer.split("/")
        at(copied, "/".join(head))[int(last) if last.isdigit() else last] = value
        return pointer, copied
    def basis(figure, key, value):
        return next(change("/basis/%d/%s" % (i, key), value)
                    for i, b in enumerate(estimate["basis"]) if b["figure"] == figure)
    cent = str(Decimal(estimate["bill"][0]["line_net"]) + Decimal("0.01"))
    yield change("/bill/0/line_net", cent)
    yield change("/price/labour", str(Decimal(estimate["price"]["labour"]) + Decimal("0.01")))
    yield change("/points/0/fitted", estimate["points"][0]["fitted"] + 1)
    yield from (change(*fault) for fault in channel_plants(estimate))
    yield change("/labour/0/hours", Decimal("1.00"))
    yield change("/findings/0/text", estimate["findings"][0]["text"] + " Really.")
    yield change("/findings/0/where", "/boxes/9/name")
    yield basis("/points/0/required", "formula", "a × (100 + b) ÷ 100 + 1")
    yield basis("/price/margin", "formula", "a × b ÷ 100")
    yield basis("/price/freight", "inputs/1/value", 3)
    yield basis("/boxes/0/heat/inside_w", "value", estimate["boxes"][0]["heat"]["inside_w"])
    warm = next(b for b in estimate["basis"] if b["figure"].endswith("/heat/mid_c"))
    yield basis(warm["figure"], "value", warm["value"] + Decimal("0.3"))


def self_test(estimate, parts, rules):
    """Every planted fault must be reported beside those that the estimate has itself."""
    own = set(Check(estimate, parts, rules).run().faults)
    missed = [name for name, wrong in planted(estimate)
              if not set(Check(wrong, parts, rules).run().faults) - own]
    print("".join("self-test: not noticed: %s\n" % name for name in missed), end="")
    print("self-test: %d planted faults, %d missed" % (len(list(planted(estimate))), len(missed)))
    return 1 if missed else 0


def main():
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("estimate")
    reader.add_argument("--parts", required=True)
    reader.add_argument("--rules", required=True, action="append")
    reader.add_argument("--self-test", action="store_true")
    given = reader.parse_args()
    estimate, rules = read_json(given.estimate), read_rules(given.rules)
    parts = read_parts(given.parts)
    if given.self_test:
        return self_test(estimate, parts, rules)
    check = Check(estimate, parts, rules).run()
    for fault in check.faults:
        print(fault)
    print("%d figures, %d basis entries, %d findings judged, %d faults" %
          (check.figures, check.basis, len(estimate["findings"]), len(check.faults)))
    return 1 if check.faults else 0


if __name__ == "__main__":
    sys.exit(main())
