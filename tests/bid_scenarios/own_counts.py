"""Counts of a bid scenario from its points and the rule set, in whole numbers.

This is the second arithmetic: it knows the text of the scenarios and imports nothing of the
program. Rule (`how_to_use` of scenarios.json): channels = ceil(used × (100 + p) ÷ 100) or, of the
installed, ceil(used × 100 ÷ (100 − p)); the added spare is at least the minimum of channels or of
modules; modules = ceil(channels ÷ channels per module); terminals on fitted channels where the
spare is wired, else on used ones."""
from fractions import Fraction


def ceil_div(number, by):
    return -(-number // by)


def required_channels(kind, used, spare, per_module):
    percent = spare.get("pct_by_type", {}).get(kind, spare["pct"])
    if spare["basis"] == "of_used":
        required = ceil_div(used * (100 + percent), 100)
    else:
        required = ceil_div(used * 100, 100 - percent)
    least = max(spare.get("min_spare_channels_by_type", {}).get(kind, 0),
                spare.get("min_spare_modules", 0) * per_module)
    return max(required, used + least)


def tenth(value):
    """A fraction to one decimal, half away from zero."""
    return float(Fraction((abs(value) * 10 + Fraction(1, 2)).__floor__(), 10))


def exact_counts(scenario, rule_set):
    """The block exact_under_RS1 of a scenario."""
    spare, counts = scenario["spare_rule"], {"required_channels": {}, "modules": {},
                                             "channels_fitted": {}, "spare_achieved_pct_of_used": {}}
    terminals = 0
    for kind, used in scenario["points"].items():
        per_module = rule_set["channels_per_module"][kind]
        required = required_channels(kind, used, spare, per_module)
        modules = ceil_div(required, per_module)
        fitted = modules * per_module
        counts["required_channels"][kind] = required
        counts["modules"][kind] = modules
        counts["channels_fitted"][kind] = fitted
        counts["spare_achieved_pct_of_used"][kind] = tenth(Fraction(100 * (fitted - used), used))
        terminals += (fitted if spare["wired"] else used) * \
            rule_set["terminals_per_channel"][kind]
    counts["modules_total"] = sum(counts["modules"].values())
    counts["signal_terminals"] = terminals
    return counts


def differences(want, have):
    """Text of every figure in which two blocks of counts differ."""
    found = []
    for key in ("required_channels", "modules", "channels_fitted", "spare_achieved_pct_of_used"):
        for kind in sorted(set(want[key]) | set(have[key])):
            a, b = want[key].get(kind), have[key].get(kind)
            if a != b:
                found.append("%s of %s: %s, expected %s" % (key, kind, b, a))
    for key in ("modules_total", "signal_terminals"):
        if want[key] != have[key]:
            found.append("%s: %s, expected %s" % (key, have[key], want[key]))
    return found
