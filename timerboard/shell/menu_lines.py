"""Lines of a text: where they end, how far in they begin, and which line ends the text uses."""


def line_start(text: str, at: int) -> int:
    """Where the line of a character begins."""
    return text.rfind("\n", 0, at) + 1


def after_line(text: str, at: int) -> int:
    """Where the line after that of a character begins; the end of the text when there is none."""
    found = text.find("\n", at)
    return len(text) if found < 0 else found + 1


def column(text: str, at: int) -> int:
    """How many characters stand before it in its line."""
    return at - line_start(text, at)


def newline(text: str) -> str:
    """The line end that the text uses."""
    return "\r\n" if "\r\n" in text else "\n"


def joined(text: str, lines: list[str]) -> str:
    """Lines with the text's own line ends, one after each."""
    end = newline(text)
    return "".join(line + end for line in lines)


def with_lines(text: str, at: int, added: str) -> str:
    """The text with whole lines put in where a line begins; a last line without an end gets one, and the new last
    line then has none."""
    if at and text[at - 1 : at] != "\n":
        return text[:at] + newline(text) + added.rstrip("\r\n") + text[at:]
    return text[:at] + added + text[at:]
