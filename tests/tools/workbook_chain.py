"""The price chain of an internal workbook in exact decimals, out of the inputs that it prints.

`book` gives named cells (`named`) and the rows of its tables (`rows`), see check_workbook.py."""
import re
from decimal import ROUND_HALF_UP, Decimal


def exact(value):
    return None if value is None else Decimal(str(value))


def rounded(value, digits):
    return value.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)


def is_formula(cell):
    return cell.data_type == "f"


def bill_total(book, digits, change=None):
    """Material out of the printed quantities, unit prices and box counts; `change` maps the
    coordinate of an input cell to another value."""
    change = change or {}
    by_box, total = {}, Decimal(0)
    sundries = book.named("sundries_percent")

    def given(cell):
        return change.get(cell.coordinate, exact(cell.value))

    for row in book.rows("Bill of material", "Line"):
        unit = row["Unit net"]
        if unit.value == "no price":
            continue
        box = row["Box"].value
        above = by_box.get(box, Decimal(0))
        if is_formula(unit):  # the share of the sundries that lines of their own take over
            less = re.search(r"sundries_percent-([0-9.]+)", str(unit.value))
            net = rounded(above * (sundries - Decimal(less.group(1) if less else 0)) / 100, digits)
        else:
            net = given(unit)
        line = rounded(net * given(row["Quantity"]), digits)
        by_box[box] = above + line
        total += rounded(line * given(row["Boxes"]), digits)
    return total


def hours_total(book, digits):
    total = Decimal(0)
    for row in book.rows("Hours", "Box"):
        heads = {head.split(",")[0]: cell for head, cell in row.items()}
        total += rounded(exact(heads["Hours"].value) * exact(heads["Rate"].value), digits)
    return total


def overhead(book, digits, chain, classes):
    rate = book.named
    if rate("overhead_of_direct") is not None:
        return rounded(chain["direct"] * rate("overhead_of_direct") / 100, digits)
    if rate("overhead_per_hour") is not None:
        return rounded(rate("hours_total") * rate("overhead_per_hour"), digits)
    if rate("overhead_material") is not None:
        weighed = sum(rounded(amount * rate("overhead_" + name) / 100, 4)
                      for name, amount in classes)
        return rounded(weighed * (100 + rate("contingency_percent")) / 100, digits)
    return rounded((chain["direct"] + chain["contingency"]) * rate("overhead_percent") / 100, digits)


def margin(book, digits, chain, classes):
    rate, cost = book.named, chain["cost"]

    def of_price(amount, percent):
        return rounded(amount * percent / (100 - percent), digits)

    if rate("margin_material") is not None:
        parts = [rounded(cost * amount / chain["direct"], digits) for _, amount in classes[:2]]
        parts.append(cost - sum(parts))
        return sum(of_price(part, rate("margin_" + name))
                   for part, (name, _) in zip(parts, classes))
    if rate("margin_percent") is not None:
        return of_price(cost, rate("margin_percent"))
    return rounded(cost * rate("markup_percent") / 100, digits)


def price_chain(book, digits, change=None):
    """The whole chain in exact decimals, from what the workbook prints as inputs."""
    rate = book.named
    chain = {"material": bill_total(book, digits, change), "labour": hours_total(book, digits)}

    def share(amount, percent):
        return rounded(amount * percent / 100, digits)

    charges, bought = rate("charges") or Decimal(0), rate("subcontract") or Decimal(0)
    chain["freight"] = share(chain["material"] - charges, rate("freight_percent"))
    classes = [("material", chain["material"] + chain["freight"] - bought),
               ("labour", chain["labour"]), ("subcontract", bought)]
    chain["direct"] = chain["material"] + chain["freight"] + chain["labour"]
    chain["contingency"] = share(chain["direct"], rate("contingency_percent"))
    chain["overhead"] = overhead(book, digits, chain, classes)
    chain["cost"] = chain["direct"] + chain["contingency"] + chain["overhead"]
    chain["margin"] = margin(book, digits, chain, classes)
    chain["concession"] = -share(chain["cost"] + chain["margin"], rate("concession_percent"))
    raw = chain["cost"] + chain["margin"] + chain["concession"]
    step = rate("price_step")
    whole, rest = divmod(raw, step) if step else (raw, 0)
    chain["price_total"] = rounded((whole + (1 if rest else 0)) * (step or 1), digits)
    chain["rounding"] = chain["price_total"] - raw
    if rate("tax_percent") is not None:
        chain["tax"] = share(chain["price_total"], rate("tax_percent"))
        chain["price_with_tax"] = chain["price_total"] + chain["tax"]
    return chain
