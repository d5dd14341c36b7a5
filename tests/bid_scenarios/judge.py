"""Reads an estimate in the words of the scenarios and judges it."""
import csv
import os

from rule_set import KINDS

HERE = os.path.dirname(os.path.abspath(__file__))
MOST_EXPLAINED = 3

ACTIVITIES = {"build": "purchasing enclosure_preparation mounting wiring wire_check packing",
              "engineering": "engineering drawings",
              "software": "software screens network safety",
              "fat_and_checkout": "works_test witness",
              "documentation": "documents", "project_management": "project_lead"}


def modules_of(boxes, keys):
    """Modules by kind over the boxes."""
    names, modules = {key: name for name, key in keys.items()}, {}
    for row in (row for box in boxes for row in box["modules"] if row["role"] == "module"):
        kind = names[row["part"]].replace("module ", "")
        modules[kind] = modules.get(kind, 0) + row["quantity"]
    return modules


def counts_of(estimate, scenario, keys):
    """The block exact_under_RS1 as the estimate has it."""
    points = {row["signal"]: row for row in estimate["points"]}
    kinds, box = list(scenario["points"]), estimate["boxes"][0]
    of = {kind: points.get(KINDS[kind][0]) or {} for kind in kinds}
    modules = modules_of([box], keys)
    return {"required_channels": {kind: of[kind].get("required") for kind in kinds},
            "modules": modules, "modules_total": sum(modules.values()),
            "channels_fitted": {kind: of[kind].get("fitted") for kind in kinds},
            "spare_achieved_pct_of_used": {kind: of[kind].get("spare_achieved_percent")
                                           for kind in kinds},
            "signal_terminals": box["terminals"]}


def hours_of(estimate, activities):
    """Hours of the first box and of all boxes. The project lead is a percentage of all other hours:
    the first box has the same percentage of its own."""
    def sums(rows):
        return (sum(row["once_hours"] + row["each_hours"] for row in rows),
                sum(row["hours"] for row in rows))
    first, every = sums([row for row in estimate["labour"] if row["activity"] in activities.split()])
    if activities != ACTIVITIES["project_management"]:
        return first, every
    first_others, others = sums([row for row in estimate["labour"]
                                 if row["activity"] not in activities.split()])
    return every * first_others / others, every


def class_index(estimate, scenario, keys, rule_set):
    """Number of the enclosure class; of an existing plate the first class that is as large."""
    areas = [area for _, area in rule_set["plate_classes_m2"]]
    box, names = estimate["boxes"][0], {key: name for name, key in keys.items()}
    if scenario["site"].get("existing_plate_m2"):
        return next(i for i, area in enumerate(areas)
                    if area >= scenario["site"]["existing_plate_m2"])
    return int(names[box["enclosures"][0]["part"]].split()[1])


def range_rows(estimate, scenario, keys, rule_set):
    """(field, value, lowest, highest)"""
    expect, box = scenario["expect"], estimate["boxes"][0]
    titles = [title for title, _ in rule_set["plate_classes_m2"]]
    supply, quantity = box["supplies"][0], scenario["quantity"]
    plausible = expect["supply_24V"]["plausible_load_A"]
    yield ("supply load", sum(row["load_a"] for row in box["supplies"]), plausible["min"],
           plausible["max"])
    picks = [float(expect["supply_24V"]["pick"][key].split()[0])
             for key in ("with_simultaneity", "all_on")]
    units = supply["quantity"] if supply["arrangement"] == "parallel" else 1
    yield "supply pick", supply["rated_a"] * units, min(picks), max(picks)
    yield ("heat inside", box["heat"]["inside_w"], expect["heat_inside_W"]["min"],
           expect["heat_inside_W"]["max"])
    classes = expect["enclosure_class"]
    yield ("enclosure class", class_index(estimate, scenario, keys, rule_set),
           titles.index(classes["min"]), titles.index(classes["max"]))
    for name, activities in ACTIVITIES.items():
        first, all_boxes = hours_of(estimate, activities)
        limits = expect["hours_first_panel"][name]
        yield "hours " + name, first, limits["min"], limits["max"]
        if quantity > 1:
            share = expect["hours_all_panels"][name] / limits["nominal"]
            yield ("hours of all boxes " + name, all_boxes, limits["min"] * share,
                   limits["max"] * share)
    price = estimate["price"]
    yield ("material", float(price["material"]) / quantity, expect["material_CU_each"]["min"],
           expect["material_CU_each"]["max"])
    yield ("price", float(price["price"]), expect["price_CU_total"]["min"],
           expect["price_CU_total"]["max"])


def outside(estimate, scenario, keys, rule_set):
    """field -> text of every value outside its range; rows judged."""
    rows = list(range_rows(estimate, scenario, keys, rule_set))
    return {field: "%s: %.10g, expected %.10g to %.10g" % (field, value, low, high)
            for field, value, low, high in rows if not low <= value <= high}, len(rows)


def not_raised(estimate, codes):
    raised = {row["code"] for row in estimate["findings"]}
    return ["%s is not raised" % code for code in codes if code not in raised]


def explained():
    """(scenario, field) -> the row that explains why the value lies outside."""
    with open(os.path.join(HERE, "explained.csv"), newline="", encoding="utf-8") as file:
        rows = {(row["scenario"], row["field"]): row for row in csv.DictReader(file)}
    for row in rows.values():
        if not all(row[key] for key in ("rule", "value", "reason")):
            raise ValueError("explained.csv: %s %s lacks rule, value or reason" %
                             (row["scenario"], row["field"]))
    if len(rows) > MOST_EXPLAINED:
        raise ValueError("explained.csv: %d differences, at most %d" % (len(rows), MOST_EXPLAINED))
    return rows
