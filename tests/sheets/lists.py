"""Lists to write: a plain one, and one with all that could do harm."""

from ferrule.sheets.table import Column, Table, table

COLUMNS = (
    Column("run", "run", 12),
    Column("cores", "cores", 6, "count"),
    Column("length", "length", 9, "number", "m", 2),
    Column("torque", "torque", 14, "number", "N·m", 1),
)

SCHEDULE = table(
    "cable-schedule",
    "Cable schedule",
    COLUMNS,
    [
        ("W1", 5, 12.349, 2.5),
        ("W2", 3, -0.001, "unknown: see the maker's sheet"),
        ("W3", 4, 100, None),
    ],
    ["Lengths with allowances at both ends."],
)

HOSTILE = (
    '=HYPERLINK("http://example.invalid","x")',
    "+1+1",
    "-2+3",
    "@SUM(A1)",
    "\t=1+1",
    "\n=1+1",
    "\r=1+1",
    "＝1+1",
    "'=1+1",
    "',",
    'a "quoted", comma;semicolon',
    "two\nlines",
    "<b>bold</b> & <!-- --> ]]>",
    "#evil *b* $x$ `raw`",
    "שלום 12 מטר",
    "left \u202e turned",
    "bell \x07 escape \x1b[31m null \x00 c1 \x9b",
    "_x0041_ and _x000D_",
    "no character \ufffe \uffff \ud800",
    "emoji 🔌, Ω, mm²",
    "http://example.invalid/",
    "0012",
    "  spaces  ",
    "",
    "x" * 32_767,
)


def of_texts(*texts: str) -> Table:
    return table("texts", "Texts", [Column("text", "text", 20), Column("at", "at", 4, "count")],
                 [(text, at) for at, text in enumerate(texts)])  # fmt: skip
