"""Words that people, or somebody who means harm, may type into a job."""

from hypothesis import strategies as st

HOSTILE = (
    "",
    " ",
    "<b>&amp;</b>",
    "]]><script>alert(1)</script>",
    '" onload="x" \'',
    "%%uunder%%u %%%%%%d %%c",
    "^J^M^ \\U+0041 \\M+1ABCD {\\fArial;x}\\P",
    "#let x = 1; *bold* $a$",
    "=HYPERLINK(1)",
    "two\nlines\r\nand\ttabs\x00\x1b[31m\x85\u2028",
    "עברית اَلْعَرَبِيَّةُ",
    "\u202eturned\u202c \u2066isolated\u2069 \u200f\ufeff",
    "e\u0301\u0302\u0303 👩\u200d🔧 ｆｕｌｌ",
    "\ud800 \ufffe \U0010ffff",
    "word " * 1000,
    "x" * 5000,
)
words = st.sampled_from(HOSTILE) | st.text(max_size=80)
