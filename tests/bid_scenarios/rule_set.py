"""The rule set of scenarios.json as ordinary import files: a price book and rule tables.

RS-1 names kinds of signals, costs, currents, watts, hours and percentages. Where it is silent the
values stand in CHOSEN below; they were chosen so that they agree with `range_method` and the plate
areas of the scenarios, and no exact count rests on them. Everything is a file that `parts import`
and `rules import` read; nothing here is known to the program."""
import csv
import os
from decimal import Decimal

HERE = os.path.dirname(os.path.abspath(__file__))
STARTER = os.path.join(HERE, "..", "..", "catalog", "starter", "rules")

# kind of RS-1 -> (signal of a request, its wiring, isolated channel from channel)
KINDS = {"DI": ("DI", "contact", False), "DO": ("DO", "2-wire", False),
         "DOR": ("DO_RELAY", "contact", False), "AI": ("AI_MA", "2-wire", False),
         "AII": ("AI_MA", "2-wire", True), "AO": ("AO_MA", "2-wire", False),
         "RTD": ("RTD", "3-wire", False), "TC": ("TC", "2-wire", False),
         "HSC": ("CNT", "3-wire", False), "SDI": ("DI_SAFE", "contact", False),
         "SDO": ("DO_SAFE", "2-wire", False), "DI230": ("DI_AC", "contact", False),
         "LC": ("AI_BRIDGE", "6-wire", False)}

CHOSEN = {
    "module_mm": 32,  # fits the fifteen plate areas within their rounding, with 0.3 m beside it
    "places": {"compact": 12, "medium": 48, "large": 96, "pair": 96, "head": 32},
    "stations": {"medium": 4, "large": 16, "pair": 16},
    "supply_mm": {"5": 40, "10": 60, "20": 80, "40": 110, "60": 150},
    # after the enclosure costs of the scenarios; stainless: 2900 for 600 in O04
    "enclosure_cost": [280, 380, 470, 600, 900, 1500, 2200, 4200, 5200, 8000, 12000],
    "stainless_factor": Decimal("4.8"),
    # 520 in O12, the box of a room with chlorine in the air
    "glass_reinforced_factor": Decimal("1.1"),
    # gives the derating 0.8 that O09 states at 55 °C
    "knee_c": 50, "slope_percent_per_k": 4,
    # RS-1 takes 0.26 m of height for modules and 0.24 m for devices; here both share rows
    "row_mm": {"device_row_mm": 250, "terminal_row_mm": 170},
    "terminal_mm": "6.2",
}
# bays of a class: width and height of its mounting plate in mm, depth of the box
PLATES = [(350, 450, 210), (550, 550, 250), (550, 750, 300), (750, 950, 300), (750, 1150, 300),
          (710, 1900, 400), (1105, 1900, 400), (1420, 1900, 400), (2210, 1900, 400),
          (3315, 1900, 400), (4420, 1900, 400)]
# further shapes of a class: class, name, plate, cost
SHAPES = [(5, "wide", (1150, 1150, 390), 1300)]
STAINLESS = range(2, 7)
GLASS_REINFORCED = range(1, 5)

PRICE_DATE, VALID_UNTIL = "2026-11-01", "2027-12-31"


def part_names(rule_set):
    """Every article of the book by what it is, in a fixed order."""
    names = ["controller " + name for name in rule_set["controllers"] if name != "head"]
    names += ["head"] + ["module " + kind for kind in rule_set["channels_per_module"]]
    names += ["supply %d" % size for size in rule_set["psu_sizes_A"]]
    names += ["enclosure %d" % i for i in range(len(rule_set["plate_classes_m2"]))]
    names += ["enclosure %d %s" % (i, name) for i, name, _, _ in SHAPES]
    names += ["enclosure %d stainless" % i for i in STAINLESS]
    names += ["enclosure %d glass_reinforced" % i for i in GLASS_REINFORCED]
    return names + ["isolator", "terminal", "rail", "duct", "wire", "breaker", "channel 4",
                    "channel 10", "channel 20", "decoupling", "battery 40", "battery 200",
                    "circulation fan", "filter fan 120", "filter fan 400", "cooling unit 500",
                    "cooling unit 1500"]


class Book:
    """Rows of the price book; `keys` gives the article numbers."""

    def __init__(self, rule_set, keys):
        self.rules, self.keys, self.rows = rule_set, keys, []
        self.platform()
        self.power()
        self.boxes()
        self.small_parts()

    def add(self, name, kind, cost, size=(0, 0, 0), **more):
        width, height, depth = size
        self.rows.append({"part": self.keys[name], "kind": kind, "description": name.capitalize(),
                          "list": str(cost), "price_date": PRICE_DATE, "valid_until": VALID_UNTIL,
                          "lead_days": 14, "width_mm": width, "height_mm": height,
                          "depth_mm": depth, "state": "current", "demo": "yes", **more})

    def platform(self):
        hot = {"min_c": -25, "max_c": 60, "platform": "rs"}
        for name, row in self.rules["controllers"].items():
            pieces = 2 if name == "pair" else 1
            more = dict(hot, own_a=Decimal(str(row["A"])) / pieces,
                        own_w=Decimal(str(row["W"])) / pieces,
                        places=CHOSEN["places"][name], bus_ma=100000)
            if name != "head":
                more["stations_max"] = CHOSEN["stations"].get(name, "")
                more["pair"] = "yes" if name == "pair" else ""
            self.add("head" if name == "head" else "controller " + name,
                     "head" if name == "head" else "controller",
                     Decimal(str(row["cost"])) / pieces, (row["mm"] / pieces, 120, 110), **more)
        for kind, channels in self.rules["channels_per_module"].items():
            signal, _, isolated = KINDS[kind]
            amps = {"DI": "0.006", "DO": "2", "SDO": "2", "DOR": "5", "AI": "0.025",
                    "AII": "0.025", "AO": "0.025"}.get(kind, "")
            groups = "%s*%d%s%s" % (signal, channels, "@" + amps if amps else "",
                                    "+isolated+hart" if isolated else "")
            heat = self.rules["module_heat_W"]
            self.add("module " + kind, "module", self.rules["module_cost_CU"][kind],
                     (CHOSEN["module_mm"], 120, 110), groups=groups, places=1, bus_ma=0,
                     own_a=self.rules["module_logic_A"], own_w=heat.get(kind, heat["default"]),
                     **hot)

    def power(self):
        for size in self.rules["psu_sizes_A"]:
            self.add("supply %d" % size, "supply", self.rules["psu_cost"][str(size)],
                     (CHOSEN["supply_mm"][str(size)], 125, 120), rated_a=size,
                     efficiency_row="supply_loss", min_c=-25, max_c=70, input_min_v=85,
                     input_max_v=264, phases=1)
        self.add("decoupling", "redundancy", 220, (60, 125, 110), rated_a=40, own_a=0, own_w=12,
                 min_c=-25, max_c=70)
        for wh, cost in ((40, 380), (200, 760)):
            self.add("battery %d" % wh, "backup", cost, (180, 125, 120), rated_a=20, own_a=0,
                     own_w=10, capacity_wh=wh, min_c=-25, max_c=60)
        self.add("breaker", "incoming", 60, (36, 90, 70), rated_a=16, rated_ka=6, phases=1)
        for amps in (4, 10, 20):
            self.add("channel %d" % amps, "protection", 45 + amps, (18, 90, 90), rated_a=amps,
                     own_a=0)

    def box(self, name, plate, cost, material="painted_steel"):
        width, height, depth = plate
        wall = depth < 400
        self.add(name, "enclosure", cost, (width + 50, height + (50 if wall else 100), depth),
                 protection="IP66", material=material, mounting="wall" if wall else "floor",
                 plate_width_mm=width, plate_height_mm=height, usable_depth_mm=depth - 25)

    def boxes(self):
        for i, _ in enumerate(self.rules["plate_classes_m2"]):
            self.box("enclosure %d" % i, PLATES[i], CHOSEN["enclosure_cost"][i])
        for i, name, plate, cost in SHAPES:
            self.box("enclosure %d %s" % (i, name), plate, cost)
        for material, classes in (("stainless", STAINLESS), ("glass_reinforced", GLASS_REINFORCED)):
            for i in classes:
                self.box("enclosure %d %s" % (i, material), PLATES[i],
                         CHOSEN["enclosure_cost"][i] * CHOSEN[material + "_factor"], material)
        self.add("circulation fan", "cooling", 70, (0, 120, 40), own_a="0.15", max_c=70,
                 stage="circulation_fan")
        for flow in (120, 400):
            self.add("filter fan %d" % flow, "cooling", 120 + flow // 2, (0, 255, 120), own_w=40,
                     min_c=-10, max_c=70, protection="IP55", stage="filter_fan", flow_m3h=flow)
        for watts in (500, 1500):
            self.add("cooling unit %d" % watts, "cooling", 900 + watts, (0, 600, 200), own_w=0,
                     min_c=-20, max_c=60, protection="IP66", stage="cooling_unit",
                     cooling_w=watts, cooling_hot_w=watts)  # RS-1: the same in hot air

    def small_parts(self):
        self.add("isolator", "interface", 165, ("12.5", 110, 110), own_a="0.045", own_w="1.1",
                 function="isolator, analogue", rated_a=1, min_c=-20, max_c=60)
        self.add("terminal", "terminal", "1.20", (CHOSEN["terminal_mm"], 60, 45))
        self.add("rail", "rail", 12, length_mm=2000)
        self.add("duct", "duct", 12, length_mm=2000)
        self.add("wire", "wire", "0.50", unit="metre")


class Rules:
    """Rows of one flat rule file; a table that it names is replaced whole."""

    COLUMNS = ("table", "row", "value", "unit", "low", "high", "amps", "activity", "class",
               "driver", "count", "learning", "condition", "source")

    def __init__(self, rule_set):
        self.rules, self.rows = rule_set, []
        self.counts()
        self.hours()
        self.figures()

    def plain(self, table, rows):
        self.rows += [dict(table=table, row=row, value=value, unit=unit, source="RS-1")
                      for row, value, unit in rows]

    def starter(self, table, column, values):
        """The table of the starter rules with some cells of a column given anew."""
        with open(os.path.join(STARTER, table + ".csv"), newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        missing = set(values) - {row["row"] for row in rows}
        if missing:
            raise KeyError("table %s has no row %s" % (table, ", ".join(sorted(missing))))
        for row in rows:
            if row["row"] in values:
                row.update({"low": "", "high": "", column: values[row["row"]], "source": "RS-1"})
            if row["active"] == "yes":
                self.rows.append({"table": table, **{key: row[key] for key in self.COLUMNS[1:]
                                                     if row.get(key, "") != ""}})

    def counts(self):
        for table, of in (("terminals", "terminals_per_channel"),
                          ("wires", "internal_wires_per_channel")):
            rows = {}
            for kind, value in self.rules[of].items():
                signal, wiring, isolated = KINDS[kind]
                row = signal + (" isolator" if isolated else " " + wiring)
                rows[row] = (row, value, "per channel")
            more = [("incoming", 0, "per box"), ("distribution", 0, "per box")]
            if table == "wires":
                more = [("per module", 3, "wires"), ("per device", 2, "wires"),
                        ("per box", 30, "wires"), ("length", "1.2", "m per wire"),
                        ("points per cable", 4, "points")]
            self.plain(table, list(rows.values()) + more)

    def hours(self):
        h = self.rules["hours"]
        rows = []

        def norm(name, value, unit, activity, work_class, driver, count="once",
                 condition="always"):
            rows.append({"table": "hours", "row": name, "value": value, "unit": unit, "activity": activity,
                         "class": work_class, "driver": driver, "count": count,
                         "learning": "yes" if work_class == "shop" else "no",
                         "condition": condition, "source": "RS-1"})

        norm("build_base", h["build_base"], "h", "enclosure_preparation", "shop", "box", "each")
        for driver in ("device", "module or controller"):
            norm("build " + driver, h["build_per_device"], "h", "mounting", "shop", driver, "each")
        norm("build wire", h["build_per_internal_wire"], "h", "wiring", "shop", "internal wire",
             "each")
        norm("engineering base", h["eng_base"], "h", "engineering", "engineering", "box")
        software = "scope.software=included"
        classes = {"digital": ("digital point", "safety point"),
                   "analog": ("analogue or temperature point",)}
        for kind, drivers in classes.items():
            for driver in drivers + {"digital": ("point CNT",), "analog": ("point AI_BRIDGE",)}[
                    kind]:
                norm("engineering " + driver, h["eng_per_" + kind], "h", "engineering",
                     "engineering", driver)
                per = h["sw_per_safety" if driver == "safety point" else "sw_per_" + kind]
                norm("software " + driver, per, "h",
                     "safety" if driver == "safety point" else "software", "software", driver,
                     condition=software)
        norm("soft point", h["sw_per_softpoint"], "h", "network", "software", "soft point",
             condition=software)
        norm("screen", h["per_screen"], "h", "screens", "software", "screen", condition=software)
        test = "scope.works_test=included"
        norm("test base", h["fat_base"], "h", "works_test", "test", "box", "each", test)
        norm("test channel", h["fat_per_channel"], "h", "works_test", "test", "channel tested",
             "each", test)
        norm("documents", h["doc_pct_of_eng_sw"], "%", "documents", "documents",
             "hours: engineering software safety screens network", condition="scope.documents!=none")
        norm("project lead", h["pm_pct"], "%", "project_lead", "project", "hours: all other")
        self.rows += rows

    def figures(self):
        rates = self.rules["rates_CU_h"]
        classes = ("engineering", "software", "test", "documents", "project", "site")
        self.plain("rates", [("shop", rates["shop"], "per h")] +
                   [(name, rates["engineering"], "per h") for name in classes])
        pricing = self.rules["pricing"]
        self.starter("price_policy", "value",
                     {"freight_percent": pricing["freight_pct_of_material"],
                      "contingency": pricing["contingency_pct"],
                      "overhead": pricing["overhead_pct"],
                      "margin": pricing["margin_pct_on_price"],
                      "round_up_to": "0.01", "sundries_percent": 0})
        reserve = Decimal(self.rules["psu_reserve_pct"])
        self.starter("supply", "value", {"utilisation": 100 / (100 + reserve),
                                         "knee_c": CHOSEN["knee_c"],
                                         "slope_percent_per_k": CHOSEN["slope_percent_per_k"]})
        loss = 1 / Decimal(str(self.rules["psu_efficiency"])) - 1
        self.plain("supply_loss", [("l0", 0, "of rated"), ("l1", round(loss, 6), "of rated"),
                                   ("l2", 0, "of rated")])
        # the method of RS-1 counts loops and the inputs of modules, no other field current
        self.starter("signals", "amps", {"AI_MA": self.rules["loop_A"],
                                         "AO_MA": self.rules["loop_A"], "CNT": 0})
        self.plain("protection", [("distribution_channels", 3, "per box")])
        self.plain("room", [("duct_and_clearance_mm", 10, "mm"), ("one_row_if_it_fits", 1, "")] +
                   [(row, mm, "mm") for row, mm in CHOSEN["row_mm"].items()])


def plain_keys(rule_set):
    return {name: "RS-%02d" % (i + 1) for i, name in enumerate(part_names(rule_set))}


def write_csv(path, columns, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, columns, restval="", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def write_files(rule_set, folder, keys=None, order=list):
    """parts/*.csv and rules.csv under `folder`; `order` gives the order of rows. Returns the
    article numbers by what they are."""
    keys = keys or plain_keys(rule_set)
    parts = os.path.join(folder, "parts")
    os.makedirs(parts)
    rows = Book(rule_set, keys).rows
    for kind in dict.fromkeys(row["kind"] for row in rows):
        of_kind = [row for row in rows if row["kind"] == kind]
        columns = tuple(dict.fromkeys(key for row in of_kind for key in row))
        write_csv(os.path.join(parts, kind + ".csv"), columns, order(of_kind))
    write_csv(os.path.join(folder, "rules.csv"), Rules.COLUMNS, order(Rules(rule_set).rows))
    return keys
