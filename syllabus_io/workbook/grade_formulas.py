"""Formulas of a course's grades sheet: drops, running grade, what is still possible and what is enough.

The idea: every mark has a key, a number made of its category, its percentage and its row. The k lowest marks of a
category are then those up to the k-th smallest key of that category, whatever rows stand between; so one comparison
tells what is dropped, for all marks, for the marks down to a row, and for the best and worst that can still come.
"""

from __future__ import annotations

from dataclasses import dataclass

from syllabus_io.workbook.layout import GRADES_COLUMNS, TableLayout, column_letter

__all__ = ["Block", "category_formulas", "mark_formulas", "summary_formulas"]

_FIRST_HELPER = len(GRADES_COLUMNS) + 1
_NAME, _DROP, _EXTRA = "B", "E", "F"  # columns of the category rows
_RESULTS = (
    "order",
    "weight",
    "extra",
    "count_now",
    "limit_now",
    "earned_now",
    "whole_now",
    "count_all",
    "limit_best",
    "earned_best",
    "open_best",
    "whole_best",
    "limit_worst",
    "earned_worst",
    "whole_worst",
)
_HELD = {key: column_letter(number) for number, key in enumerate(_RESULTS, start=12)}
"""Hidden columns of the category rows, from L on, that hold results."""


@dataclass(frozen=True, slots=True)
class Block:
    """Where things stand on one grades sheet: rows of marks, categories and scale, and the cells at the top."""

    marks: TableLayout
    last_mark: int
    first_category: int
    last_category: int
    last_scale: int
    method: str = "$C$8"
    current: str = "$B$6"
    letter: str = "$C$6"
    lowest: str = "$D$6"
    highest: str = "$E$6"
    target: str = "$G$6"
    enough: str = "$I$6"
    fixed: str = "$L$6"
    open_share: str = "$M$6"

    @property
    def category_count(self) -> int:
        """Rows for categories, free ones included."""
        return self.last_category - self.first_category + 1

    def column(self, key: str, down_to: int | None = None) -> str:
        """The marks in a column, all or down to a row."""
        letter = self.marks.letter(key)
        last = f"${letter}${self.last_mark}" if down_to is None else f"${letter}{down_to}"
        return f"${letter}${self.marks.first_row}:{last}"

    def categories(self, letter: str) -> str:
        """A column of the category rows."""
        return f"${letter}${self.first_category}:${letter}${self.last_category}"

    def held(self, key: str) -> str:
        """A hidden column of the category rows."""
        return self.categories(_HELD[key])

    def sum_letters(self, number: int) -> tuple[str, str]:
        """The hidden columns in which the earned and whole of category ``number`` add up, mark by mark."""
        return (
            column_letter(_FIRST_HELPER + number - 1),
            column_letter(_FIRST_HELPER + self.category_count + number - 1),
        )

    def across(self, row: str, whole: bool = False) -> str:
        """The sums of all categories in a row: earned, or whole."""
        first, last = self.sum_letters(1)[int(whole)], self.sum_letters(self.category_count)[int(whole)]
        return f"${first}{row}:${last}{row}"

    @property
    def last_column(self) -> str:
        """The last hidden column in use."""
        return self.sum_letters(self.category_count)[1]


@dataclass(frozen=True, slots=True)
class _Parts:
    """The ranges from which a grade is made, category by category."""

    earned: str
    whole: str
    weight: str
    extra: str  # 1 where a category only adds


def _grade(block: Block, parts: _Parts) -> str:
    """The grade: by weights, over the categories that have marks, extra credit added on top; or by what marks count."""
    shares = f"{parts.earned}/({parts.whole}+({parts.whole}=0))"
    usual = f"(1-{parts.extra})*{parts.weight}*({parts.whole}>0)"
    base = f"SUMPRODUCT({usual})"
    by_weight = (
        f'IF({base}=0,"",SUMPRODUCT({usual}*{shares})/{base}'
        f"+SUMPRODUCT({parts.extra}*{parts.weight}*({parts.whole}>0)*{shares}))"
    )
    total = f"SUMPRODUCT((1-{parts.extra})*{parts.whole})"
    by_marks = f'IF({total}=0,"",SUMPRODUCT({parts.earned})/{total})'
    return f'IF({block.method}="weights",{by_weight},{by_marks})'


def mark_formulas(block: Block, row: int) -> dict[str, str]:
    """What is computed in the row of a mark, by column key; the sums of the categories by column letter."""

    def cell(key: str) -> str:
        return block.marks.cell(key, row)

    possible, points, state, number = cell("possible"), cell("points"), cell("state"), cell("number")
    now = cell("key_now")
    counts = f"IF(ISNUMBER({cell('counts')}),{cell('counts')},{possible})"
    is_open = f'AND({state}="open",ISNUMBER({number}))'
    percent = f"ROUND(IF({possible}>0,MIN({points}/{possible},9),9),6)"
    formulas = {
        "state": f'IF(OR({cell("category")}="",NOT(ISNUMBER({possible}))),"",'
        f'IF(ISNUMBER({points}),"graded",IF({points}="","open","excused")))',
        "number": f'IF({state}="","",IFERROR(MATCH({cell("category")},{block.categories(_NAME)},0),""))',
        "key_now": f'IF(AND({state}="graded",ISNUMBER({number})),{_key(number, percent)},-1)',
        "key_best": f"IF({is_open},{_key(number, '1')},{now})",
        "key_worst": f"IF({is_open},{_key(number, '0')},{now})",
        "earned": f"IF({now}>0,IF({possible}>0,{counts}*{points}/{possible},{points}),0)",
        "whole": f"IF({cell('key_best')}>0,IF({possible}>0,{counts},0),0)",
        "open": f"IF({is_open},1,0)",
        "dropped": f"IF({now}>0,{_limit_down_to(block, row, number)},0)",
        "percent": f'IF(AND({state}="graded",N({possible})>0),{points}/{possible},IF({state}="excused",'
        f'IF(UPPER(TRIM({points}))="EX","excused","no mark"),IF(AND({points}<>"",{state}=""),"category?","")))',
        "share": _share(block, number, cell("whole")),
    }
    parts = _Parts(
        block.across(str(row)),
        block.across(str(row), whole=True),
        block.across(f"${block.marks.heading_row - 2}"),
        block.across(f"${block.marks.heading_row - 1}"),
    )
    formulas["running"] = f'IF({now}>0,{_grade(block, parts)},"")'
    return formulas | _sums(block, row, now, number)


def _key(number: str, percent: str) -> str:
    """Category first, then percentage, then row: differences of less than a millionth are ties, settled by row."""
    return f"{number}*10+{percent}+ROW()/1000000000"


def _limit(keys: str, category: str, drop: str, counted: str) -> str:
    """The key up to which marks of a category are dropped; at least one mark stays."""
    number = f"MIN({drop},{counted}-1)"
    return f'IF({number}<=0,0,SMALL({keys},COUNTIF({keys},"<"&{category}*10)+{number}))'


def _limit_down_to(block: Block, row: int, number: str) -> str:
    drop = f"N(INDEX({block.categories(_DROP)},{number}))"
    counted = f'COUNTIFS({block.column("number", row)},{number},{block.column("state", row)},"graded")'
    return _limit(block.column("key_now", row), number, drop, counted)


def _sums(block: Block, row: int, now: str, number: str) -> dict[str, str]:
    """What each category has earned, of how much, down to a row: carried on where the row is of another category."""
    keys, limit = block.column("key_now", row), block.marks.cell("dropped", row)
    formulas = {}
    for category in range(1, block.category_count + 1):
        for letter, key in zip(block.sum_letters(category), ("earned", "whole"), strict=True):
            before = f"{letter}{row - 1}" if row > block.marks.first_row else "0"
            kept = f"({block.column('number', row)}={category})*({keys}>{limit})*({keys}>0)*{block.column(key, row)}"
            formulas[letter] = f"IF(AND({now}>0,{number}={category}),SUMPRODUCT({kept}),{before})"
    return formulas


def _share(block: Block, number: str, whole: str) -> str:
    """What a mark counts of the whole grade, drops left out of account."""
    within = f"SUMIF({block.column('number')},{number},{block.column('whole')})"
    numbers, counts = block.column("number"), block.column("whole")
    course = f"SUMPRODUCT((1-{block.held('extra')})*SUMIF({numbers},{block.held('order')},{counts}))"
    by_weight = f"IF({within}=0,0,INDEX({block.held('weight')},{number})*{whole}/{within})"
    by_marks = f"IF({course}=0,0,{whole}/{course})"
    return (
        f'IF(ISNUMBER({number}),IF(INDEX({block.held("extra")},{number})=1,"extra",'
        f'IF({block.method}="weights",{by_weight},{by_marks})),"")'
    )


def category_formulas(block: Block, number: int) -> dict[str, str]:
    """What is computed in the row of category ``number``, from 1, by column letter."""
    row = block.first_category + number - 1
    held = {key: f"${letter}{row}" for key, letter in _HELD.items()}
    numbers, states = block.column("number"), block.column("state")
    drop = f"N(${_DROP}{row})"

    def kept(keys: str, limit: str, what: str) -> str:
        chosen = block.column(keys)
        return f"SUMPRODUCT(({numbers}={number})*({chosen}>{held[limit]})*({chosen}>0)*{what})"

    def limit(keys: str, counted: str) -> str:
        return _limit(block.column(keys), str(number), drop, held[counted])

    earned, whole, is_open = block.column("earned"), block.column("whole"), block.column("open")
    formulas = {
        "order": str(number),
        "weight": f"N($D{row})",
        "extra": f'IF(${_EXTRA}{row}="yes",1,0)',
        "count_now": f'COUNTIFS({numbers},{number},{states},"graded")',
        "limit_now": limit("key_now", "count_now"),
        "earned_now": kept("key_now", "limit_now", earned),
        "whole_now": kept("key_now", "limit_now", whole),
        "count_all": f'COUNTIFS({numbers},{number},{states},"open")+{held["count_now"]}',
        "limit_best": limit("key_best", "count_all"),
        "earned_best": kept("key_best", "limit_best", earned),
        "open_best": kept("key_best", "limit_best", f"{whole}*{is_open}"),
        "whole_best": kept("key_best", "limit_best", whole),
        "limit_worst": limit("key_worst", "count_all"),
        "earned_worst": kept("key_worst", "limit_worst", earned),
        "whole_worst": kept("key_worst", "limit_worst", whole),
    }
    shown = {
        "G": f'IF({held["whole_now"]}=0,"",{held["earned_now"]}/{held["whole_now"]})',
        "H": f'IF(${_NAME}{row}="","",{held["count_now"]}&" of "&{held["count_all"]})',
    }
    return shown | {_HELD[key]: formula for key, formula in formulas.items()}


def summary_formulas(block: Block) -> dict[str, str]:
    """The figures at the top, by cell. "Enough" is never too low: it supposes that open marks are not dropped."""

    def parts(earned: str, whole: str) -> _Parts:
        return _Parts(earned, block.held(whole), block.held("weight"), block.held("extra"))

    best_earned = f"({block.held('earned_best')}+{block.held('open_best')})"
    usual = f"(1-{block.held('extra')})"
    whole, weight = block.held("whole_best"), block.held("weight")
    base = f"SUMPRODUCT({usual}*{weight}*({whole}>0))"
    open_by_weight = (
        f"IF({base}=0,0,SUMPRODUCT({usual}*{weight}*{block.held('open_best')}/({whole}+({whole}=0)))/{base})"
    )
    total = f"SUMPRODUCT({usual}*{whole})"
    open_by_marks = f"IF({total}=0,0,SUMPRODUCT({usual}*{block.held('open_best')})/{total})"
    target, enough = block.target, f"({block.target}-{block.fixed})/{block.open_share}"
    minima = f"$K${block.first_category}:$K${block.last_scale}"
    letters = f"$J${block.first_category}:$J${block.last_scale}"
    reached = f'SUMPRODUCT(MAX(({minima}<=ROUND({block.current},9))*({minima}<>"")*{minima}))'
    return {
        block.current: _grade(block, parts(block.held("earned_now"), "whole_now")),
        block.letter: f'IF({block.current}="","no marks yet",'
        f'IFERROR(INDEX({letters},MATCH({reached},{minima},0))&"",""))',
        block.lowest: _grade(block, parts(block.held("earned_worst"), "whole_worst")),
        block.highest: _grade(block, parts(best_earned, "whole_best")),
        block.fixed: _grade(block, parts(block.held("earned_best"), "whole_best")),
        block.open_share: f'IF({block.method}="weights",{open_by_weight},{open_by_marks})',
        block.enough: f'IF(NOT(ISNUMBER({target})),"set a target",IF({block.highest}="","nothing to count yet",'
        f'IF(ROUND({block.lowest}-{target},9)>=0,"secured",IF(ROUND({block.highest}-{target},9)<0,"out of reach",'
        f'IF({block.open_share}=0,"out of reach",IF(ROUND({enough},6)>1,"only with extra credit",'
        f"MAX(0,{enough})))))))",
    }
