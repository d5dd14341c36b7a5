"""Expressions in exact fractions: + - * / (also × ÷ −), parentheses, names and a few functions.
Nothing of the product is used; numbers are read from their text, never as binary fractions."""
import math
import re
from decimal import Decimal
from fractions import Fraction

TOKEN = re.compile(r"\s*(?:(\d+(?:\.\d+)?)|([A-Za-z_][A-Za-z_0-9]*)|([-+*/(),×÷−]))")
SIGNS = {"×": "*", "÷": "/", "−": "-"}


def round_half_away(value, places):
    """The value rounded to `places` decimals, a half away from zero."""
    step = Fraction(1, 10 ** int(places))
    units, rest = divmod(abs(value), step)
    units += 1 if rest * 2 >= step else 0
    return units * step * (1 if value >= 0 else -1)


def power(base, exponent):
    """The one function that is not exact: 15 digits."""
    return Fraction(float(base) ** float(exponent)).limit_denominator(10 ** 15)


def crawford(slope_percent, units):
    """Hours of so many units in hours of the first; unit theory."""
    exponent = math.log(float(slope_percent) / 100) / math.log(2)
    return Fraction(sum(n ** exponent for n in range(1, int(units) + 1))).limit_denominator(10 ** 15)


def wright(slope_percent, units):
    """The same; cumulative-average theory."""
    exponent = math.log(float(slope_percent) / 100) / math.log(2)
    return Fraction(int(units) ** (1 + exponent)).limit_denominator(10 ** 15)


FUNCTIONS = {
    "crawford": crawford,
    "wright": wright,
    "ceil": lambda x: Fraction(-(-x.numerator // x.denominator)),
    "floor": lambda x: Fraction(x.numerator // x.denominator),
    "round": round_half_away,
    "min": min,
    "max": max,
    "abs": abs,
    "power": power,
}


def to_fraction(value):
    """Exact value of a number as it was written."""
    return value if isinstance(value, Fraction) else Fraction(str(value))


def places_of(value):
    """How many decimals a number was written with."""
    return max(0, -Decimal(str(value)).as_tuple().exponent)


class Reader:
    """One expression: product of signed factors, sums of products."""

    def __init__(self, text, names):
        self.names = names
        self.tokens = []
        at = 0
        while at < len(text.rstrip()):
            found = TOKEN.match(text, at)
            if not found:
                raise ValueError("cannot read '%s'" % text[at:])
            number, name, sign = found.groups()
            self.tokens.append(("number", number) if number else ("name", name) if name
                               else ("sign", SIGNS.get(sign, sign)))
            at = found.end()
        self.at = 0

    def peek(self, *signs):
        return self.at < len(self.tokens) and self.tokens[self.at] in [("sign", s) for s in signs]

    def take(self, sign):
        if not self.peek(sign):
            raise ValueError("'%s' expected" % sign)
        self.at += 1

    def sum(self):
        value = self.product()
        while self.peek("+", "-"):
            sign = self.tokens[self.at][1]
            self.at += 1
            right = self.product()
            value = value + right if sign == "+" else value - right
        return value

    def product(self):
        value = self.factor()
        while self.peek("*", "/"):
            sign = self.tokens[self.at][1]
            self.at += 1
            right = self.factor()
            value = value * right if sign == "*" else value / right
        return value

    def factor(self):
        if self.peek("-"):
            self.at += 1
            return -self.factor()
        if self.peek("("):
            self.at += 1
            value = self.sum()
            self.take(")")
            return value
        if self.at >= len(self.tokens) or self.tokens[self.at][0] == "sign":
            raise ValueError("a number or name expected")
        kind, text = self.tokens[self.at]
        self.at += 1
        if kind == "number":
            return Fraction(text)
        return self.call(text) if self.peek("(") else self.named(text)

    def named(self, name):
        if name not in self.names:
            raise ValueError("unknown name '%s'" % name)
        return to_fraction(self.names[name])

    def call(self, name):
        if name not in FUNCTIONS:
            raise ValueError("unknown function '%s'" % name)
        self.take("(")
        arguments = [self.sum()]
        while self.peek(","):
            self.at += 1
            arguments.append(self.sum())
        self.take(")")
        return FUNCTIONS[name](*arguments)


def evaluate(text, names):
    """Exact value of an expression; ValueError where it cannot be read."""
    reader = Reader(text, names)
    value = reader.sum()
    if reader.at != len(reader.tokens):
        raise ValueError("rest not understood in '%s'" % text)
    return value
