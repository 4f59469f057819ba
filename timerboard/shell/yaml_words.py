"""What the YAML parser trips over, in words that a cook can act on."""

from ruamel.yaml.error import MarkedYAMLError

from timerboard.core.faults import Fault

# (what the parser says, what is wrong, what would be right, whether the place where it began is the one to show)
_TROUBLES = (
    ("'\\t' that cannot start", "a tab stands here", "indent with spaces", False),
    ("mapping values are not allowed", "a second colon stands here", 'put text with a colon in quotes: "a: b"', False),
    ("expected ',' or ']'", "the list that opens here is not closed", "add ']' at its end, and commas in it", True),
    ("expected ',' or '}'", "the '{' that opens here is not closed", "add '}' at its end, and commas in it", True),
    ("unexpected end of stream", "the quote that opens here is not closed", "add the second quote", True),
    ("unexpected document separator", "the quote that opens here is not closed", "add the second quote", True),
    ("could not find expected ':'", "a key has no colon", "write key: value", True),
    ("unknown escape", "a backslash stands before a letter it cannot change", "use single quotes or '\\\\'", False),
    ("expected <block end>", "this line does not line up with those above it", "indent it as its neighbours", False),
    ("that cannot start any token", "a text cannot begin with this character", "put it in quotes", False),
    ("found duplicate anchor", "this name was given to another part above", "write the text itself", False),
    ("undefined alias", "this refers to nothing above it", "write the text itself", False),
    ("tag", "a tag stands here", "take it out; a menu has no tags", False),
    ("incompatible YAML document", "this is another version of YAML", "take out the %YAML line", False),
    ("directive", "a line cannot begin with '%'", "take it out, or put it in quotes", False),
)


def syntax_fault(trouble: MarkedYAMLError, text: str) -> Fault:
    """A parser's trouble as a fault with its position; the words of the parser itself are not shown."""
    said = f"{trouble.problem} {trouble.context}"
    known = next((t for t in _TROUBLES if t[0] in said), None)
    mark = trouble.problem_mark or trouble.context_mark
    if known is not None and known[3] and trouble.context_mark is not None:
        mark = trouble.context_mark
    line, column = (mark.line + 1, mark.column + 1) if mark is not None else (1, 1)
    if known is None:
        return Fault(line, column, "this line cannot be read", "write it as key: value, or as '- ' and an entry")
    return Fault(line, column, known[1], known[2])
