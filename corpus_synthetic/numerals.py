"""Numbers in words, in the several ways in which people say them."""

from decimal import Decimal

from corpus_synthetic.model import plain

ONES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
        "nineteen")  # fmt: skip
TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
FIGURE_WORDS = {*ONES, *TENS[2:], "oh", "nought", "point", "half", "a"}


def below_hundred(number: int, hyphen: str = "-") -> str:
    """42 as "forty-two"."""
    if number < 20:
        return ONES[number]
    tens, ones = divmod(number, 10)
    return TENS[tens] + (hyphen + ONES[ones] if ones else "")


def whole(number: int, *, joint: str = " and ", hyphen: str = "-", one: str = "one") -> str:
    """A whole number below a million; `joint` stands between hundreds and the rest, `one` before
    "hundred" and "thousand" when there is one of them ("a hundred")."""
    if number < 100:
        return below_hundred(number, hyphen)
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        head = (one if hundreds == 1 else ONES[hundreds]) + " hundred"
        return head + (joint + below_hundred(rest, hyphen) if rest else "")
    thousands, rest = divmod(number, 1000)
    head = (one if thousands == 1 else whole(thousands, joint=joint, hyphen=hyphen)) + " thousand"
    if not rest:
        return head
    link = joint if rest < 100 else " "
    return head + link + whole(rest, joint=joint, hyphen=hyphen)


def in_pairs(number: int, hyphen: str = "-") -> str | None:
    """220 as "two twenty", 1200 as "twelve hundred", 105 as "one oh five"; None where nobody says
    it so."""
    if 100 < number < 1000:
        hundreds, rest = divmod(number, 100)
        if rest == 0:
            return None
        if rest < 10:
            return f"{ONES[hundreds]} oh {ONES[rest]}"
        return f"{ONES[hundreds]} {below_hundred(rest, hyphen)}"
    if 1000 < number < 10000 and number % 100 == 0 and number % 1000:
        return f"{below_hundred(number // 100, hyphen)} hundred"
    return None


def digit_names(digits: str, zero: str = "zero") -> str:
    """ "2206" as "two two zero six"."""
    return " ".join(zero if d == "0" else ONES[int(d)] for d in digits)


def spoken(
    number: Decimal,
    *,
    joint: str = " and ",
    hyphen: str = "-",
    one: str = "one",
    nought: str = "zero",
    pairs: bool = False,
) -> str:
    """A decimal number in words: "four point seven", "zero point four seven", "minus twelve".

    `nought` is what stands for the whole part of a number below one; "" leaves it out.
    """
    if number < 0:
        return "minus " + spoken(-number, joint=joint, hyphen=hyphen, one=one, nought=nought)
    text = plain(number)
    head, _, tail = text.partition(".")
    if not tail:
        short = in_pairs(int(head), hyphen) if pairs else None
        return short or whole(int(head), joint=joint, hyphen=hyphen, one=one)
    zero = nought if nought in ("oh", "nought") else "zero"
    if int(head) == 0:
        front = f"{nought} point" if nought else "point"
    else:
        front = whole(int(head), joint=joint, hyphen=hyphen, one=one) + " point"
    return f"{front} {digit_names(tail, zero)}"
