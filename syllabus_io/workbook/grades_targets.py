"""Formulas of the hidden sheet for each letter of the scale and the student's target: what is enough for it."""

from __future__ import annotations

from syllabus_io.workbook.grades_block import NUMBER, GradesBlock
from syllabus_io.workbook.grades_marks import products

__all__ = ["target_formulas"]

_HAIR = "0.00000000001"  # less than that is a matter of how fractions are stored
_NO_STEP = "99"


def target_formulas(block: GradesBlock, is_own: bool) -> dict[str, str]:
    """A letter and the grade it needs, or the student's own target, and what is enough on the rest and on the final."""
    cell, scale = block.target, block.place.scale
    inside = f"{cell('t_n')}<=ROWS({block.place.table_column(scale, 'letter')})-2"

    def read(key: str) -> str:
        return f"INDEX({block.place.table_column(scale, key)},{cell('t_n')}+1)"

    def rounded(minimum: str) -> str:
        unit = block.one("even_unit")
        reached = f"ROUNDUP(ROUND({minimum}/{unit},6),0)*{unit}-{block.one('half_unit')}"
        return f"IF(ISNUMBER({minimum}),IF({unit}=0,{minimum},MAX(0,{reached})),{_NO_STEP})"

    formulas = {"t_n": NUMBER}
    if is_own:
        formulas["needs"] = rounded(block.place.far(block.place.setting("target")))
    else:
        formulas["letter_text"] = f'IF({inside},TRIM({read("letter")}&""),"")'
        formulas["counts_as"] = f"IF({inside},IF(ISNUMBER({read('counts_as')}),{read('counts_as')},-1),-1)"
        formulas["needs"] = f'IF({cell("letter_text")}="",{_NO_STEP},{rounded(read("minimum"))})'
    return formulas | _enough(block) | _enough_alone(block)


def _next(at: str, below: str) -> str:
    nearest = f"SUMPRODUCT(MAX(({at}>{below})*({at}<1)*(2-{at})))"
    return f"IF({nearest}=0,1,2-{nearest})"


def _reached(needs: str, below: str, line: str, slope: str, following: str) -> str:
    """Where on the piece the line reaches what is needed: not before the piece begins, not after it ends."""
    return (
        f"IF({below}<0,0,IF({slope}<=0.000000000001,{following},"
        f"MAX({below},MIN({following},({needs}-{line})/{slope}))))"
    )


def _enough(block: GradesBlock) -> dict[str, str]:
    cell = block.target
    needs, below = cell("needs"), cell("last_below")
    at, jump, bend = (block.pieces(key) for key in ("at", "jump", "bend"))
    low = f"({at}<1)*({block.pieces('grade_at')}<{needs}-{_HAIR})"
    first = f"{block.one('last_fixed')}-SUMPRODUCT(({at}<1)*{jump})"
    least = f"IF({block.one('least')}>0,{block.one('least')},IF({first}<{needs}-{_HAIR},0,-1))"
    above = f"({at}>{below})"
    best, full = block.one("grade_high"), block.one("grade_full")
    skip = f'OR({needs}>={_NO_STEP},{best}="")'
    return {
        "last_below": f"IF({skip},-1,IF(SUMPRODUCT({low})>0,SUMPRODUCT(MAX({low}*{at})),{least}))",
        "line": f"IF({below}<0,0,{block.one('last_fixed')}-{products(above, jump)})",
        "slope": f"IF({below}<0,0,{block.one('last_open')}-{products(above, bend)})",
        "next_at": f"IF({below}<0,0,{_next(at, below)})",
        "raw": _reached(needs, below, cell("line"), cell("slope"), cell("next_at")),
        "answer": f'IF({needs}>={_NO_STEP},"",IF({best}="","nothing to count yet",IF({best}<{needs}-{_HAIR},'
        f'"out of reach",IF({below}<0,"secured",IF({full}<{needs}-{_HAIR},"only with extra credit",{cell("raw")})))))',
    }


def _enough_alone(block: GradesBlock) -> dict[str, str]:
    cell = block.target
    needs, below = cell("needs"), cell("alone_below")
    at, jump, bend = (block.categories(key) for key in ("alone_at", "alone_jump", "alone_bend"))
    low = f"({at}<1)*({block.categories('alone_grade')}<{needs}-{_HAIR})"
    start = f"IF({block.one('alone_l')}<{needs}-{_HAIR},0,-1)"
    until = f"({at}<={below})"
    skip = f"OR({needs}>={_NO_STEP},{block.one('alone_open_x')}=0)"
    raw = _reached(needs, below, cell("alone_line_at"), cell("alone_slope_at"), cell("alone_next"))
    return {
        "alone_below": f"IF({skip},-1,IF(SUMPRODUCT({low})>0,SUMPRODUCT(MAX({low}*{at})),{start}))",
        "alone_line_at": f"IF({below}<0,0,{block.one('alone_l')}+{products(until, jump)})",
        "alone_slope_at": f"IF({below}<0,0,{block.one('alone_s')}+{products(until, bend)})",
        "alone_next": f"IF({below}<0,0,{_next(at, below)})",
        "alone_raw": f"IF({below}<0,0,MAX({raw},{block.one('alone_dropped')}))",
        "alone_answer": f'IF({needs}>={_NO_STEP},"",IF({block.one("alone_open_x")}=0,"–",'
        f'IF({block.one("alone_mixed")}>0,"depends on what is left out",IF({block.one("alone_full")}'
        f'<{needs}-{_HAIR},IF({block.one("alone_doubt")}>0,"depends on what is left out","out of reach"),'
        f'IF({below}<0,"secured",{cell("alone_raw")})))))',
    }
