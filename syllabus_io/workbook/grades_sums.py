"""Formulas of the hidden sheet for categories, parts of the course and the grade in each state.

Twin in Python: ``plan.grades``. The states are those of ``grades_block.STATES``.
"""

from __future__ import annotations

from syllabus_io.workbook.grades_block import NUMBER, STATES, GradesBlock
from syllabus_io.workbook.grades_marks import UNCLEAR, limit_key, products

__all__ = ["category_formulas", "letter_formula", "part_formulas", "single_formulas"]

_COUNT_OF = {"now": "now", "low": "high", "high": "high", "try": "try"}  # as many marks count at worst as at best


def category_formulas(block: GradesBlock) -> dict[str, str]:
    """What is computed for a category, by key, the same in every row."""
    cell = block.category
    formulas = _read_category(block)
    for state in STATES[:4]:
        formulas |= _sums(block, state)
    formulas["earned_full"] = f"IF({cell('c_extra')}=1,{cell('earned_low')},{cell('earned_high')})"
    for state in STATES:
        formulas |= _result(block, state)
    formulas["result_now"] = _after_final(block, "now")
    return formulas


def _read_category(block: GradesBlock) -> dict[str, str]:
    cell, table = block.category, block.place.categories

    def read(key: str) -> str:
        return f"INDEX({block.place.table_column(table, key)},{cell('c_n')}+1)"

    inside = f"{cell('c_n')}<=ROWS({block.place.table_column(table, 'name')})-2"
    part = f'TRIM({read("part")}&"")'
    found = f"SUMPRODUCT(MAX(({block.parts('p_name')}={part})*(1000-{block.parts('p_n')})))"
    named = f'{cell("c_name")}<>""'

    def number(key: str) -> str:
        return f"IF({named},MAX(0,N({read(key)})),0)"

    def tick(key: str) -> str:
        return f'IF({named},IF({read(key)}="yes",1,0),0)'

    wholes = f"{block.marks('whole')},{block.marks('cat')},{cell('c_n')},{block.marks('state')}"
    return {
        "c_n": NUMBER,
        "c_name": f'IF({inside},TRIM({read("name")}&""),"")',
        "c_weight": number("weight"),
        "c_drop": number("drop"),
        "c_keep": number("keep"),
        "c_even": tick("even"),
        "c_extra": tick("extra"),
        "c_flag": tick("replaced"),
        "c_part": f'IF({named},IF({block.one("parts")}=0,1,IF({part}="",0,MOD(1000-{found},1000))),0)',
        "c_all": f"SUMIFS({wholes},1)+SUMIFS({wholes},2)",
        "on_top_of": f"{block.one('weighted')}*{cell('c_extra')}",
    }


def _sums(block: GradesBlock, state: str) -> dict[str, str]:
    """How many marks count in a state, how many are left out, and what the kept ones earn of how much."""
    cell, counted = block.category, _COUNT_OF[state]
    keys, number = block.marks(f"key_{state}"), cell("c_n")
    drop, keep, count = cell("c_drop"), cell("c_keep"), cell(f"num_{counted}")
    own, over = f"({block.marks('cat')}={number})", f"({keys}>{cell(f'lim_{state}')})"
    kept = f"({over}+({block.marks('whole')}=0))"
    earned = products(own, kept, block.marks("tried_earned" if state == "try" else "earned"))
    if state == "high":
        earned += "+" + products(own, over, f"({block.marks('state')}=2)", block.marks("whole"))
    formulas = {
        f"lim_{state}": limit_key(keys, number, cell(f"k_{counted}")),
        f"earned_{state}": earned,
        f"whole_{state}": products(own, over, block.marks("whole")),
    }
    if counted == state:
        formulas[f"num_{state}"] = f'COUNTIFS({block.marks("cat")},{number},{keys},">0")'
        formulas[f"k_{state}"] = f"MAX(0,MIN(MAX({drop},IF({keep}>0,{count}-{keep},0)),{count}-1))"
    return formulas


def _after_final(block: GradesBlock, state: str) -> str:
    """What a category has earned once the final of its part has stood in, if it may and is higher."""
    cell = block.category
    earned, whole = cell(f"earned_{state}"), cell("whole_high" if state == "full" else f"whole_{state}")
    final = f"INDEX({block.parts(f'final_{state}')},MAX(1,{cell('c_part')}))"
    return f"IF({cell('c_flag')}=0,{earned},MAX({earned},{final}*{whole}))"


def _result(block: GradesBlock, state: str) -> dict[str, str]:
    """What a category brings into its part, and what it weighs there."""
    cell, weighted = block.category, block.one("weighted")
    whole = cell("whole_high" if state == "full" else f"whole_{state}")
    weight = f"{cell('c_weight')}*({_after_final(block, state)})/{whole}"
    return {
        f"over_{state}": f"IF({weighted}=1,IF({whole}>0,{weight},0),{_after_final(block, state)})",
        f"base_{state}": f"(1-{cell('c_extra')})*IF({weighted}=1,IF({whole}>0,{cell('c_weight')},0),{whole})",
    }


def part_formulas(block: GradesBlock) -> dict[str, str]:
    """What is computed for a part of the course, by key. Without parts, the first stands for the whole course."""
    cell, table = block.part, block.place.parts
    number, name = cell("p_n"), cell("p_name")

    def read(key: str) -> str:
        return f"INDEX({block.place.table_column(table, key)},{number}+1)"

    inside = f"{number}<=ROWS({block.place.table_column(table, 'name')})-2"
    of_part, on_top = block.categories("c_part"), block.categories("on_top_of")
    alone = f"IF({number}=1,1,0)"
    formulas = {
        "p_n": NUMBER,
        "p_name": f'IF({inside},TRIM({read("name")}&""),"")',
        "p_weight": f'IF({block.one("parts")}=0,{alone},IF({name}="",0,MAX(0,N({read("weight")}))))',
        "p_sum": f"SUMIFS({block.categories('c_weight')},{of_part},{number},{block.categories('c_extra')},0)",
    }
    for state, share in _finals(block).items():
        formulas[f"final_{state}"] = share
    for state in STATES:
        over, den = block.categories(f"over_{state}"), cell(f"den_{state}")
        formulas[f"den_{state}"] = f"SUMIF({of_part},{number},{block.categories(f'base_{state}')})"
        formulas[f"part_{state}"] = (
            f"IF({den}=0,0,SUMIFS({over},{of_part},{number},{on_top},0)/{den}"
            f"+SUMIFS({over},{of_part},{number},{on_top},1))"
        )
    present = products(block.parts("p_weight"), f"({block.parts('den_high')}>0)")
    formulas["p_value"] = f"IF(OR({present}=0,{cell('den_high')}=0),0,{cell('p_weight')}/{present})"
    return formulas


def _finals(block: GradesBlock) -> dict[str, str]:
    """The final's share in each state, -1 when there is none."""
    final = f"{block.marks('fin')}*({block.marks('part')}={block.part('p_n')})"
    whole, is_open = block.marks("whole"), f"({block.marks('state')}=2)"
    earned = products(final, block.marks("earned"))
    waiting = products(final, is_open, whole)
    full = products(final, is_open, whole, f"(1-{block.marks('extra')})")

    def share(won: str, key: str) -> str:
        total = products(final, f"({block.marks(key)}>0)", whole)
        return f"IF({total}=0,-1,({won})/{total})"

    return {
        "now": share(earned, "key_now"),
        "low": share(earned, "key_low"),
        "high": share(f"{earned}+{waiting}", "key_high"),
        "try": share(products(final, block.marks("tried_earned")), "key_try"),
        "full": share(f"{earned}+{full}", "key_high"),
    }


def letter_formula(block: GradesBlock, grade: str) -> str:
    """The letter of a grade: the highest step it reaches."""
    needs, letters = block.steps("needs"), block.steps("letter_text")
    reached = f"({needs}<={grade}+0.000000001)"
    lowest = f"INDEX({letters},MATCH(MIN({needs}),{needs},0))"
    return (
        f'IF(OR({grade}="",{block.one("steps")}=0),"",IF(SUMPRODUCT({reached}*1)=0,"below "&{lowest},'
        f"INDEX({letters},MATCH(SUMPRODUCT(MAX({reached}*{needs})),{needs},0))))"
    )


def single_formulas(block: GradesBlock) -> dict[str, str]:
    """Settings as numbers, the grade in each state, and the figures that say what does not add up."""
    place = block.place

    def setting(key: str) -> str:
        return place.far(place.setting(key))

    rounding, marks = setting("rounding"), place.mark_column("id")
    in_use = f"(({block.parts('p_sum')}>0)+({block.parts('den_high')}>0)>0)"
    off = f"(({block.parts('p_sum')}-1)*({block.parts('p_sum')}-1)>0.00000025)"  # off by 0.05 % or more
    rows = (
        (marks, block.mark_count),
        (place.table_column(place.categories, "name"), block.category_count),
        (place.table_column(place.parts, "name"), block.part_count),
        (place.table_column(place.scale, "letter"), block.step_count),
    )
    formulas = {
        "marks": f"MIN({block.mark_count},ROWS({marks})-2)",
        "weighted": f'IF({setting("method")}="weights",1,0)',
        "off_full": f'IF({setting("late")}="of the mark",0,1)',
        "even_unit": f'IF({rounding}="to a tenth of a percent",0.001,IF(OR({rounding}="to a whole percent",'
        f'{rounding}="down to a whole percent"),0.01,0))',
        "half_unit": f'IF({rounding}="down to a whole percent",0,{block.one("even_unit")}/2)',
        "final": f'TRIM({setting("final")}&"")',
        "on_top": f"N({setting('on_top')})",
        "parts": f'SUMPRODUCT(({block.parts("p_name")}<>"")*1)',
        "steps": f"SUMPRODUCT(({block.steps('needs')}<99)*1)",
        "weights_off": f"IF({block.one('weighted')}=1,{products(in_use, off)},0)",
        "unclear": "+".join(f'COUNTIF({block.marks("note")},"{words}~?")' for words in UNCLEAR),
        "missing_rows": "+".join(f"MAX(0,ROWS({cells})-2-{count})" for cells, count in rows),
        "letter": letter_formula(block, block.one("grade_now")),
        "letter_try": letter_formula(block, block.one("grade_try")),
    }
    for state in STATES:
        present = f"({block.parts(f'den_{state}')}>0)"
        weights = products(block.parts("p_weight"), present)
        total = products(block.parts("p_weight"), present, block.parts(f"part_{state}"))
        formulas[f"grade_{state}"] = f'IF({weights}=0,"",{total}/{weights}+{block.one("on_top")})'
    return formulas
