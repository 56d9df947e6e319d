"""Formulas of the hidden sheet for the marks: what was typed, what each counts, the running grade, notes.

Twin in Python: ``plan.grades``. A mark's key is a number made of its category, its percentage and its place among
equals, so that the k lowest marks of a category are those up to its k-th smallest key. A key of -1: it does not count.
"""

from __future__ import annotations

from syllabus_io.workbook.grades_block import NUMBER, GradesBlock

__all__ = ["UNCLEAR", "limit_key", "mark_formulas", "products"]

UNCLEAR = ("category", "out of how many", "part", "no mark", "points or percent")
"""Notes on a mark that ask something, without their question mark."""

_CAP = 9  # percentages above 900 % count as that when the lowest are sought
_LAST = 9999  # no further row


def products(*factors: str) -> str:
    """The sum, over the rows, of the products of columns or conditions."""
    return f"SUMPRODUCT({'*'.join(factors)})"


def limit_key(keys: str, category: str, left_out: str) -> str:
    """The key up to which marks of a category are left out, 0 when none is."""
    return f'IF({left_out}<=0,0,SMALL({keys},COUNTIF({keys},"<"&{category}*10)+{left_out}))'


def mark_formulas(block: GradesBlock) -> dict[str, str]:
    """What is computed for a mark, by key, the same in every row."""
    return {**_typed(block), **_worth(block), **_keys(block), **_running(block), **_shown(block)}


def _read(block: GradesBlock, key: str) -> str:
    """The cell of the course's sheet from which the row reads."""
    return f"INDEX({block.place.mark_column(key)},{block.mark('n')}+1)"


def _of_category(block: GradesBlock, key: str) -> str:
    return f"INDEX({block.categories(key)},{block.mark('cat')})"


def _typed(block: GradesBlock) -> dict[str, str]:
    cell = block.mark
    inside = f"{cell('n')}<={block.one('marks')}"
    category, possible, points = (_read(block, key) for key in ("category", "possible", "points"))
    found = f"SUMPRODUCT(MAX(({block.categories('c_name')}={cell('name')})*(1000-{block.categories('c_n')})))"
    words = f"UPPER(TRIM({cell('typed')}))"
    return {
        "n": NUMBER,
        "name": f'IF({inside},TRIM({category}&""),"")',
        "cat": f'IF({cell("name")}="",0,MOD(1000-{found},1000))',
        "poss": f"IF({inside},IF(ISNUMBER({possible}),MAX(0,{possible}),-1),-1)",
        "typed": f'IF({inside},IF({points}="","",{points}),"")',
        "points": _points(block, cell("typed")),
        "state": f"IF(OR({cell('cat')}=0,{cell('poss')}<0),0,IF(ISNUMBER({cell('points')}),1,"
        f'IF(TRIM({cell("typed")}&"")="",2,IF(OR({words}="EX",{words}="EXCUSED"),3,4))))',
        "pen": f"IF({inside},MAX(0,MIN(1,N({_read(block, 'penalty')}))),0)",
        "tried": _points(block, _read(block, "what_if")),
    }


def _points(block: GradesBlock, typed: str) -> str:
    """The points that were typed, a letter turned into points; "" when it is no mark. No row, no points possible."""
    possible = block.mark("poss")
    letters, counts, numbers = block.steps("letter_text"), block.steps("counts_as"), block.steps("t_n")
    found = f'SUMPRODUCT(MAX(({letters}=TRIM({typed}))*({letters}<>"")*(1000-{numbers})))'
    step = f"INDEX({counts},1000-{found})"
    letter = f'IF({found}=0,"",IF({step}<0,"",{step}*{possible}))'
    return (
        f'IF(OR({block.mark("cat")}=0,{possible}<0),"",IF(ISNUMBER({typed}),IF({typed}>=0,{typed}+0,""),'
        f'IF(TRIM({typed}&"")="","",{letter})))'
    )


def _worth(block: GradesBlock) -> dict[str, str]:
    """What the mark counts and what it earns of that."""
    cell = block.mark

    def of_category(key: str) -> str:
        return f"IF({cell('cat')}=0,0,{_of_category(block, key)})"

    counts, possible, whole = _read(block, "counts"), cell("poss"), cell("whole")
    final, work, wholes = block.one("final"), _read(block, "work"), block.marks("whole")

    def share(points: str) -> str:
        off = f"{cell('pen')}*IF({block.one('off_full')}=1,1,{points}/{possible})"
        return f"IF({possible}>0,MAX(0,{points}/{possible}-{off}),0)"

    def earned(points: str, portion: str) -> str:
        return f"IF({possible}>0,{whole}*{portion},{points}*(1-{cell('pen')}))"

    rules = f"{_of_category(block, 'c_drop')}+{_of_category(block, 'c_keep')}"
    equals = f"1+SUMPRODUCT(({wholes}>{whole})+({wholes}={whole})*({block.marks('n')}<{cell('n')}))"
    return {
        "whole": f"IF(OR({cell('cat')}=0,{possible}<=0),0,IF(ISNUMBER({counts}),MAX(0,{counts}),"
        f"IF({of_category('c_even')}=1,100,{possible})))",
        "share": f"IF({cell('state')}=1,{share(cell('points'))},0)",
        "earned": f"IF({cell('state')}=1,{earned(cell('points'), cell('share'))},0)",
        "fin": f'IF(OR({cell("cat")}=0,{final}=""),0,IF(OR({cell("name")}={final},TRIM({work}&"")={final}),1,0))',
        "extra": of_category("c_extra"),
        "part": of_category("c_part"),
        "flag": of_category("c_flag"),
        "tie": f"IF({cell('cat')}=0,0,IF({rules}=0,0,{equals}))",
        "tried_share": f"IF(ISNUMBER({cell('tried')}),{share(cell('tried'))},{cell('share')})",
        "tried_earned": f"IF(ISNUMBER({cell('tried')}),{earned(cell('tried'), cell('tried_share'))},{cell('earned')})",
    }


def _keys(block: GradesBlock) -> dict[str, str]:
    """The mark's key in each state."""
    cell = block.mark

    def key(portion: str) -> str:
        return f"{cell('cat')}*10+ROUND(MIN({portion},{_CAP}),9)+{cell('tie')}/1000000000000"

    is_open = f"AND({cell('state')}=2,{cell('whole')}>0)"
    tried = f"AND({cell('whole')}>0,OR(ISNUMBER({cell('tried')}),{cell('state')}=1))"
    return {
        "key_now": f"IF(AND({cell('state')}=1,{cell('whole')}>0),{key(cell('share'))},-1)",
        "key_low": f"IF({is_open},{key('0')},{cell('key_now')})",
        "key_high": f"IF({is_open},{key('1')},{cell('key_now')})",
        "key_try": f"IF({tried},{key(cell('tried_share'))},-1)",
    }


def _running(block: GradesBlock) -> dict[str, str]:
    """The sums of the mark's category down to its row, those of its part, and the grade made of the latest of each."""
    cell, down = block.mark, block.down
    weighted, category, graded = block.one("weighted"), cell("cat"), f"{cell('state')}=1"
    count = f'COUNTIFS({down("cat")},{category},{down("key_now")},">0")'
    keep, drop = _of_category(block, "c_keep"), _of_category(block, "c_drop")
    left_out = f"MIN(MAX({drop},IF({keep}>0,{count}-{keep},0)),{count}-1)"
    over = f"({down('key_now')}>{cell('limit')})"
    kept = f"({over}+({down('whole')}=0))"
    own, of_part = f"({down('cat')}={category})", f"({down('part')}={cell('part')})"
    final_whole = products(down("fin"), of_part, f"({down('key_now')}>0)", down("whole"))
    weight = f"INDEX({block.categories('c_weight')},{category})"

    def following(key: str) -> str:
        same = f"({block.after(key)}={cell(key)})*({block.after('state')}=1)"
        return f"IF({graded},{_LAST}-SUMPRODUCT(MAX({same}*({_LAST}-{block.after('n')}))),0)"

    formulas = {
        "limit": f"IF({graded},IF({keep}+{drop}=0,0,{limit_key(down('key_now'), category, left_out)}),0)",
        "sum_earned": f"IF({graded},{products(own, kept, down('earned'))},0)",
        "sum_whole": f"IF({graded},{products(own, over, down('whole'))},0)",
        "sum_final": f"IF({graded},IF({final_whole}=0,-1,{products(down('fin'), of_part, down('earned'))}"
        f"/{final_whole}),-1)",
        "next": following("cat"),
        "factor": f"IF({graded},IF({weighted}=1,IF({cell('sum_whole')}>0,{weight}/{cell('sum_whole')},0),1),0)",
        "base": f"IF({graded},(1-{cell('extra')})*IF({weighted}=1,IF({cell('sum_whole')}>0,{weight},0),"
        f"{cell('sum_whole')}),0)",
        "part_next": following("part"),
    }
    final, whole, earned = cell("sum_final"), down("sum_whole"), down("sum_earned")
    latest = f"{of_part}*({down('state')}=1)*({down('next')}>{cell('n')})"
    stands_in = f"({final}>=0)*{down('flag')}*({final}*{whole}>{earned})*({final}*{whole}-{earned})"
    worth = f"{down('factor')}*({earned}+{stands_in})"
    on_top = f"({weighted}*{down('extra')})"
    formulas["part_base"] = f"IF({graded},{products(latest, down('base'))},0)"
    formulas["part_grade"] = (
        f"IF({cell('part_base')}=0,0,{products(latest, f'(1-{on_top})', worth)}/{cell('part_base')}"
        f"+IF({weighted}=1,{products(latest, down('extra'), worth)},0))"
    )
    shares = f"SUMIF({block.parts('p_n')},{down('part')},{block.parts('p_weight')})"
    stands = f"({down('part_next')}>{cell('n')})*({down('part_base')}>0)*{shares}"
    total = products(stands)
    formulas["running"] = (
        f'IF({graded},IF({total}=0,"",{products(stands, down("part_grade"))}/{total}+{block.one("on_top")}),"")'
    )
    return formulas


def _shown(block: GradesBlock) -> dict[str, str]:
    """What the course's sheet shows beside the mark, and the points of the chart."""
    cell = block.mark
    work, points, possible, typed = _read(block, "work"), cell("points"), cell("poss"), cell("typed")
    blank = f'AND({work}="",{typed}="",{cell("name")}="")'
    category = _of_category(block, "c_all")
    all_parts, part, extra = block.categories("c_all"), block.categories("c_part"), block.categories("c_extra")
    part_sum = f"SUMIFS({all_parts},{part},{cell('part')},{extra},0)"
    value = f"INDEX({block.categories('value')},{cell('unit')})"
    counts = f"AND({cell('state')}>=1,{cell('state')}<=2,{cell('unit')}>0)"
    total = f"IF({block.one('weighted')}=1,{category},{part_sum})"
    share = f"IF({total}=0,0,{value}*{cell('whole')}/{total})"
    left_out = f"AND({cell('key_now')}>0,{cell('key_now')}<={_of_category(block, 'lim_now')})"
    order = block.marks("order")
    notes = (
        (f"{cell('cat')}=0", "category?"),
        (f"{possible}<0", "out of how many?"),
        (f"{cell('part')}=0", "part?"),
        (f"{cell('state')}=3", "excused"),
        (f"{cell('state')}=4", "no mark?"),
        (f"{cell('state')}<>1", ""),
        (left_out, "left out"),
        (f"{possible}=0", "extra points"),
        (f"AND(ISNUMBER({typed}),{points}>0,{points}<=1,{possible}>=10)", "points or percent?"),
        (f"{points}>{possible}", "above full marks"),
        (f"{cell('pen')}>0", "late"),
    )
    note = '""'
    for condition, words in reversed(notes):
        note = f'IF({condition},"{words}",{note})'
    return {
        "shown": f'IF(AND({cell("state")}=1,{possible}>0),{cell("share")},"")',
        "share_of_grade": f'IF({cell("extra")}=1,"extra",IF({counts},{share},""))',
        # Not joined by OR, which looks at both: past the last mark there is no row to look at.
        "note": f'IF({cell("n")}>{block.one("marks")},"",IF({blank},"",{note}))',
        "order": f"IF(ISNUMBER({cell('running')}),COUNT({block.down('running')}),0)",
        "chart": f'IF({cell("n")}>MAX({order}),"",INDEX({block.marks("running")},MATCH({cell("n")},{order},0)))',
    }
