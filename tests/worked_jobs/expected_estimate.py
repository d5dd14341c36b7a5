"""Compares an estimate with one worked before, key by key. What may differ, and why:

program, issue, demo_data   of the run, not of the job: another version, issues of a fresh library,
                            a price book that is not marked as demo data
offer_texts, incoming conductor_a, protection, batch_factor, unit_prices, options,
number, group, device, spare, fed_from of channels
                            keys that the example does not have
basis                       judged by check_estimate.py; the example records fewer entries
price p50, p80              simulated here, by the normal law there: 1 %
heat mid_c, top_c, second_method_top_c, supply air_c
                            two-film balance here, closed form there: 5 % of the rise
derating temperature, required_a
                            follow from that air; judged by their basis, here within 5 %
findings                    one per code and box, order free; DEMO_DATA stands only over a demo
                            price book; the example's supply states no inrush (INRUSH_UNKNOWN) and
                            its switch no handle (SWITCH_HANDLE), and
                            FUTURE_HEAT is newer than it; the reason in TERMINALS and the air in DERATING_TEMP are
                            words and figures of this program"""
import copy
from decimal import Decimal

FREE = ("/program/", "/issue/", "/demo_data", "/basis", "/findings", "/offer_texts")
ADDED = ("/incoming/conductor_a", "/incoming/supply_wire_a", "/incoming/bending_mm",
         "/protection/part", "/protection/channels", "/batch_factor",
         "/unit_prices", "/options", "/number", "/group", "/device", "/spare", "/fed_from",
         "/choices/separate_output_supply", "/volts", "/current", "/amps")
WARM = ("/heat/mid_c", "/heat/top_c", "/heat/second_method_top_c", "/supplies/0/air_c")
NEAR = {"/price/p50": "0.01", "/price/p80": "0.01", "/derating/temperature": "0.05",
        "/required_a": "0.05"}
FREE_FINDINGS = ("DEMO_DATA", "INRUSH_UNKNOWN", "SWITCH_HANDLE", "FUTURE_HEAT")
FREE_WORDING = ("TERMINALS", "DERATING_TEMP")
FLOOR = 600
PLANTED = 4


def leaves(node, pointer=""):
    if isinstance(node, dict) and node:
        for key, value in node.items():
            yield from leaves(value, pointer + "/" + key)
    elif isinstance(node, list) and node:
        for index, value in enumerate(node):
            yield from leaves(value, "%s/%d" % (pointer, index))
    else:
        yield pointer, node


def allowed(pointer, want, have, outside):
    """Equal, or within what the head of this file grants."""
    if have == want and (not isinstance(want, Decimal) or str(have) == str(want)):
        return True
    for end in WARM:
        if pointer.endswith(end):
            return abs(have - want) <= Decimal("0.05") * (want - outside) + Decimal("0.05")
    for end, share in NEAR.items():
        if pointer.endswith(end):
            return abs(Decimal(have) - Decimal(want)) <= Decimal(share) * Decimal(want)
    return False


def compare_findings(expected, estimate):
    def by_code(document):
        return {(f["code"], f["params"].get("box")): f for f in document["findings"]
                if f["code"] not in FREE_FINDINGS}
    want, have, faults = by_code(expected), by_code(estimate), []
    for key in sorted(set(want) ^ set(have), key=str):
        faults.append("finding %s stands on one side only" % (key,))
    for key in set(want) & set(have):
        fields = ["severity"] if key[0] in FREE_WORDING else ["severity", "text", "params"]
        faults += ["finding %s: %s is %r, expected %r" % (key, f, have[key][f], want[key][f])
                   for f in fields if have[key][f] != want[key][f]]
    return len(want), faults


def compare(expected, estimate):
    """How many values were compared, and the differences."""
    count, faults = compare_findings(expected, estimate)
    outside = Decimal(expected["request"]["boxes"][0]["site"]["ambient_c"][1])
    have = dict(leaves(estimate))
    want = dict(leaves(expected))
    for pointer in list(want) + [p for p in have if p not in want and not p.endswith(ADDED)]:
        if pointer.startswith(FREE):
            continue
        count += 1
        if pointer not in want or pointer not in have:
            faults.append(pointer + " stands on one side only")
        elif not allowed(pointer, want[pointer], have[pointer], outside):
            faults.append("%s is %r, expected %r" % (pointer, have[pointer], want[pointer]))
    if count < FLOOR:
        faults.append("only %d values compared, floor %d" % (count, FLOOR))
    return count, faults


def missed_faults(estimate):
    """Planted differences that `compare` does not see."""
    missed = []
    for what, change in (
            ("a cent in the bill", lambda e: e["bill"][0].update(line_net="0.01")),
            ("a channel more", lambda e: e["points"][0].update(required=99)),
            ("ten degrees", lambda e: e["boxes"][0]["heat"].update(mid_c=Decimal("12.0"))),
            ("a finding less", lambda e: e["findings"].pop())):
        wrong = copy.deepcopy(estimate)
        change(wrong)
        if not [f for f in compare(estimate, wrong)[1] if "floor" not in f]:
            missed.append(what)
    return missed
