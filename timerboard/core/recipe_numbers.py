"""Numbers as recipes write them: '1½', '1 1/2', 'half an', 'forty-five', 'a couple of'."""

import re
from fractions import Fraction

FRACTIONS = {
    "½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3),
    "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip
WORDS = {
    "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "eighteen": 18, "twenty": 20, "thirty": 30,
    "forty": 40, "fifty": 50, "sixty": 60, "ninety": 90, "twenty-five": 25, "thirty-five": 35, "forty-five": 45,
    "forty-eight": 48, "twenty-four": 24,
}  # fmt: skip
PHRASES = {
    "half an": Fraction(1, 2), "half a": Fraction(1, 2), "half": Fraction(1, 2), "one and a half": Fraction(3, 2),
    "two and a half": Fraction(5, 2), "three and a half": Fraction(7, 2), "three quarters of an": Fraction(3, 4),
    "three-quarters of an": Fraction(3, 4), "a quarter of an": Fraction(1, 4), "quarter of an": Fraction(1, 4),
    "a couple of": Fraction(2), "a couple": Fraction(2), "one or two": Fraction(2), "two or three": Fraction(3),
}  # fmt: skip
_SIGNS = "".join(FRACTIONS)
_FIGURES = (
    rf"[0-9]{{1,4}}\s?[{_SIGNS}]|[0-9]{{1,3}}(?:\s|\s?-\s?|\sand\s)[1-9]\s?[/⁄]\s?[1-9](?![0-9])"
    rf"|[1-9]\s?[/⁄]\s?[1-9](?![0-9/])|[0-9]{{1,4}}(?:[.,][0-9]{{1,2}})?|[{_SIGNS}]"
)
_SPELLED = "|".join(sorted((re.escape(word) for word in (*PHRASES, *WORDS)), key=len, reverse=True))
AMOUNT = re.compile(rf"(?:{_FIGURES}|(?:{_SPELLED})\b)", re.IGNORECASE)
FIGURES = re.compile(_FIGURES)


def amount(written: str) -> Fraction:
    """The value of something that AMOUNT matches."""
    words = " ".join(written.lower().split())
    if words in PHRASES:
        return PHRASES[words]
    if words in WORDS:
        return Fraction(WORDS[words])
    if words[-1] in FRACTIONS:
        whole = words[:-1].strip()
        return FRACTIONS[words[-1]] + (Fraction(whole) if whole else 0)
    parts = re.fullmatch(r"(?:([0-9]+)(?:\s|\s?-\s?|\sand\s))?([0-9])\s?[/⁄]\s?([0-9])", words)
    if parts is not None:
        return Fraction(parts[1] or 0) + Fraction(int(parts[2]), int(parts[3]))
    return Fraction(words.replace(",", "."))
