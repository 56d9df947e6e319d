"""Formulas of the hidden sheet for what is still needed: the final grade as a function of one percentage.

Let every open mark get the same percentage x, and open extra credit 0. A mark is then kept from some x on, or up to
some x, because marks are left out by their order; and the final stands in for a category from some x on, or up to it.
Between these points the grade is a straight line, fixed + open * x; at a point there is a jump and a bend. The line
that ends at x = 1 is known, so that the grade at any x is

    grade(x) = last_fixed + last_open * x - sum over points above x of (jump + bend * x)

What is enough for a target is found on the last piece that begins below it. Should there be more points than rows for
them, the highest are looked at and the lowest of these is given: more than enough. Twin in Python:
``plan.grades_needed``, which tries percentages inside the pieces instead.
"""

from __future__ import annotations

from syllabus_io.workbook.grades_block import POINTS, GradesBlock
from syllabus_io.workbook.grades_marks import limit_key, products

__all__ = ["category_pieces", "mark_pieces", "part_pieces", "piece_formulas", "piece_singles"]

_NEVER = "9"  # a point that no percentage up to 1 reaches
_APART = "10000000000000"  # tells equal points of different rows apart, by less than counts


def mark_pieces(block: GradesBlock) -> dict[str, str]:
    """From which x and up to which a mark is kept, and the point at which that changes, 0 for none."""
    cell, down = block.mark, block.down

    def of_category(key: str) -> str:
        return f"INDEX({block.categories(key)},{cell('cat')})"

    own, graded = f"({block.marks('cat')}={cell('cat')})", f"({block.marks('key_now')}>0)"
    is_graded, is_open = f"{cell('key_now')}>0", f"{cell('open_x')}>0"
    left_out, count = of_category("k_high"), of_category("num_now")
    waiting = f"({of_category('num_high')}-{count})"
    overtaken = products(
        own, graded, f"({block.marks('rank')}={left_out}-{cell('open_rank')}-1)", block.marks("share")
    )  # fmt: skip
    for_extra = f"IF({cell('key_low')}>{of_category('lim_low')},-1,{_NEVER})"
    for_graded = f"IF(AND({cell('rank')}<{left_out},{cell('rank')}+{waiting}<{left_out}),{_NEVER},-1)"
    for_open = (
        f"IF({cell('open_rank')}>={left_out},-1,IF({count}>={left_out}-{cell('open_rank')},{overtaken},{_NEVER}))"
    )
    leaves = f"AND({is_graded},{cell('extra')}=0,{cell('rank')}<{left_out},{cell('rank')}+{waiting}>={left_out})"
    known = f"SUMPRODUCT(({down('unit')}={cell('unit')})*({down('to')}={cell('to')}))"
    return {
        "unit": f"IF({cell('cat')}=0,0,IF({block.one('weighted')}=1,{cell('cat')},{cell('part')}))",
        "below": f"IF({cell('key_low')}>0,{cell('whole')}*IF({block.one('weighted')}=1,1,1-{cell('extra')}),0)",
        "open_x": f"IF(AND({cell('state')}=2,{cell('extra')}=0),{cell('whole')},0)",
        "rank": f"IF({is_graded},IF({left_out}=0,0,"
        + products(own, graded, f"({block.marks('key_now')}<{cell('key_now')})")
        + "),-1)",
        "open_rank": f"IF({is_open},IF({left_out}=0,0,"
        + products(own, f"({block.marks('open_x')}>0)", f"({block.marks('tie')}<{cell('tie')})")
        + "),0)",
        "from": f"IF({cell('cat')}=0,{_NEVER},IF({cell('key_low')}<0,IF({cell('state')}=1,-1,{_NEVER}),"
        f"IF({cell('extra')}=1,{for_extra},IF({is_graded},{for_graded},{for_open}))))",
        "to": f"IF({cell('cat')}=0,{_NEVER},IF({leaves},{cell('share')},{_NEVER}))",
        "point": f"IF(AND({cell('to')}>0,{cell('to')}<1,{cell('unit')}>0),"
        f"IF({known}>1,0,{cell('to')}-{cell('n')}/{_APART}),0)",
    }


def category_pieces(block: GradesBlock) -> dict[str, str]:
    """Where the final stands in for a category, what the unit of that number is worth, and its last line."""
    cell, number, weighted = block.category, block.category("c_n"), block.one("weighted")

    def of_part(key: str) -> str:
        return f"INDEX({block.parts(key)},MAX(1,{cell('c_part')}))"

    plain = f"OR({cell('k_high')}=0,{cell('num_high')}={cell('num_now')})"  # no mark is kept for some x only
    flagged = f"AND({cell('c_flag')}=1,{of_part('final_high')}>=0,{cell('whole_high')}>0,{plain})"
    open_x = f"SUMIFS({block.marks('open_x')},{block.marks('cat')},{number})"
    lead, slope = cell("lead"), cell("lead_open")
    by_weight = (
        f"IF(OR({cell('c_part')}=0,{cell('whole_high')}=0),0,IF({of_part('den_high')}=0,0,{of_part('p_value')}"
        f"*{cell('c_weight')}/IF({cell('c_extra')}=1,1,{of_part('den_high')})))"
    )
    by_points = f"IF({number}<={block.part_count},INDEX({block.parts('p_value')},MIN({number},{block.part_count})),0)"
    at_end = _unit_sums(block, number, *_kept(block, "1", before=True))
    return {
        "value": f"IF({weighted}=1,{by_weight},{by_points})",
        "c_unit": f"IF({weighted}=1,{number},{cell('c_part')})",
        "lead": f"IF({flagged},{cell('whole_high')}*{of_part('final_fixed')}-{cell('earned_low')},0)",
        "lead_open": f"IF({flagged},{cell('whole_high')}*{of_part('final_open')}-{open_x},0)",
        "act_from": f"IF({slope}>0,-{lead}/{slope},IF(OR({slope}<0,{lead}>0),-1,{_NEVER}))",
        "act_to": f"IF({slope}<0,-{lead}/{slope},{_NEVER})",
        "line_fixed": f"IF({cell('value')}=0,0,{cell('value')}*({at_end['fixed']})/{at_end['whole']})",
        "line_open": f"IF({cell('value')}=0,0,{cell('value')}*({at_end['open']})/{at_end['whole']})",
        **_alone(block),
    }


def _kept(block: GradesBlock, at: str, before: bool = False) -> tuple[str, str]:
    """Which marks are kept, and for which categories the final stands in, just after a point or just before it."""
    ranges = (block.marks("from"), block.marks("to")), (block.categories("act_from"), block.categories("act_to"))
    signs = ("<", ">=") if before else ("<=", ">")
    marks, categories = (f"({start}{signs[0]}{at})*({end}{signs[1]}{at})" for start, end in ranges)
    return marks, categories


def _unit_sums(block: GradesBlock, unit: str, marks: str, categories: str) -> dict[str, str]:
    own, category = f"({block.marks('unit')}={unit})", f"({block.categories('c_unit')}={unit})"
    lead = products(category, categories, block.categories("lead"))
    slope = products(category, categories, block.categories("lead_open"))
    return {
        "fixed": f"{products(own, marks, block.marks('earned'))}+{lead}",
        "open": f"{products(own, marks, block.marks('open_x'))}+{slope}",
        "whole": products(own, marks, block.marks("below")),
    }


def piece_formulas(block: GradesBlock, row: int) -> dict[str, str]:
    """A point: where it is, its unit, the unit's sums on both sides, what changes, and the grade just after it.

    The first rows belong to the categories; the rest take the points of marks from the highest down. The formulas of
    the second category, and of the first mark, hold for those after it with their references moved along.
    """
    at, unit, worth = (block.piece(key) for key in ("at", "of_unit", "worth"))
    offset = row - block.first_piece
    if offset < block.category_count:
        category = block.first_category + offset
        lead, slope = block.category("lead", category), block.category("lead_open", category)
        crossing = f"-{lead}/{slope}"
        known = f"SUMPRODUCT(({block.marks('unit')}={unit})*({block.marks('to')}={crossing}))"
        first = block.piece("at", block.first_piece)
        if offset:
            above = f"{first.rstrip('0123456789')}${block.first_piece}:{block.piece('at', row - 1)}"
            units = f"{block.piece('of_unit', block.first_piece).rstrip('0123456789')}${block.first_piece}"
            known += f"+SUMPRODUCT(({units}:{block.piece('of_unit', row - 1)}={unit})*({above}={crossing}))"
        formulas = {
            "of_unit": block.category("c_unit", category),
            "at": f"IF({slope}=0,{_NEVER},IF(AND({crossing}>0,{crossing}<1,{unit}>0),"
            f"IF({known}>0,{_NEVER},{crossing}),{_NEVER}))",
        }
    else:
        points = block.marks("point")
        number = f"(ROW()-{block.first_piece + block.category_count - 1})"
        highest = f"SMALL({points},{block.mark_count + 1}-{number})"
        formulas = {
            "of_unit": f"IF({block.one('points')}<{number},0,MATCH({highest},{points},0))",
            "at": f"IF({unit}=0,{_NEVER},INDEX({block.marks('to')},{unit}))",
        }
        unit = f"INDEX({block.marks('unit')},{unit})"
    inside = f"{at}<1"
    formulas["worth"] = f"IF({inside},INDEX({block.categories('value')},{unit}),0)"
    for side, before in (("after", False), ("before", True)):
        for key, sums in _unit_sums(block, unit, *_kept(block, at, before)).items():
            formulas[f"{key}_{side}"] = f"IF({worth}=0,0,{sums})"
    for key, part in (("jump", "fixed"), ("bend", "open")):
        after, before_it = (f"{block.piece(f'{part}_{s}')}/{block.piece(f'whole_{s}')}" for s in ("after", "before"))
        formulas[key] = f"IF({worth}=0,0,{worth}*({after}-{before_it}))"
    above = f"({block.pieces('at')}>{at})"
    formulas["grade_at"] = (
        f"IF({inside},{block.one('last_fixed')}-{products(above, block.pieces('jump'))}"
        f"+{at}*({block.one('last_open')}-{products(above, block.pieces('bend'))}),{_NEVER})"
    )
    return formulas


def _alone(block: GradesBlock) -> dict[str, str]:
    """The same for the final alone, other open marks left out of account.

    The final is taken to be kept: that holds where it is above every mark that is left out, see ``alone_dropped``.
    """
    cell, weighted, extra = block.category, block.one("weighted"), block.category("c_extra")

    def of_part(key: str) -> str:
        return f"INDEX({block.parts(key)},MAX(1,{cell('c_part')}))"

    whole, own, value = cell("alone_sum"), cell("alone_own"), cell("alone_value")
    lead, slope, active = cell("alone_lead"), cell("alone_lead_open"), cell("alone_active")
    flagged = f"AND({cell('c_flag')}=1,{of_part('alone_fixed')}>=0,{whole}>0)"
    keys, keep = block.marks("key_now"), cell("c_keep")
    final = f'COUNTIFS({block.marks("cat")},{cell("c_n")},{block.marks("fin")},1,{block.marks("open_x")},">0")'
    count = f"({cell('num_now')}+{final})"
    marks, over = f"({block.marks('cat')}={cell('c_n')})", f"({keys}>{cell('lim_alone')})"
    base, part_value = of_part("alone_den"), of_part("alone_part")
    crossing = f"-{lead}/{slope}"
    reached = f"({block.categories('alone_at')}<={cell('alone_at')})"
    return {
        "alone_own": f"SUMIFS({block.marks('open_x')},{block.marks('cat')},{cell('c_n')},{block.marks('fin')},1)",
        "alone_left": f"MAX(0,MIN(MAX({cell('c_drop')},IF({keep}>0,{count}-{keep},0)),{count}-1))",
        "alone_k": f"MIN({cell('num_now')},{cell('alone_left')})",
        "lim_alone": limit_key(keys, cell("c_n"), cell("alone_k")),
        "earned_alone": products(marks, f"({over}+({block.marks('whole')}=0))", block.marks("earned")),
        "alone_sum": f"{products(marks, over, block.marks('whole'))}+{own}",
        "alone_base": f"(1-{extra})*IF({weighted}=1,IF({whole}>0,{cell('c_weight')},0),{whole})",
        "alone_value": f"IF({cell('c_part')}=0,0,IF({base}=0,0,IF({weighted}=1,IF({whole}=0,0,{part_value}"
        f"*{cell('c_weight')}/{whole}/IF({extra}=1,1,{base})),{part_value}/{base})))",
        "alone_lead": f"IF({flagged},{whole}*{of_part('alone_fixed')}-{cell('earned_alone')},0)",
        "alone_lead_open": f"IF({flagged},{whole}*{of_part('alone_open')}-{own},0)",
        "alone_active": f"IF(OR({lead}>0,AND({lead}=0,{slope}>0)),1,0)",
        "alone_line": f"{value}*({cell('earned_alone')}+{active}*{lead})",
        "alone_slope": f"{value}*({own}+{active}*{slope})",
        "alone_at": f"IF({slope}=0,{_NEVER},IF(AND({crossing}>0,{crossing}<1),{crossing},{_NEVER}))",
        "alone_jump": f"IF({cell('alone_at')}<1,{value}*{lead}*(1-2*{active}),0)",
        "alone_bend": f"IF({cell('alone_at')}<1,{value}*{slope}*(1-2*{active}),0)",
        "alone_grade": f"IF({cell('alone_at')}<1,{block.one('alone_l')}"
        f"+{products(reached, block.categories('alone_jump'))}+{cell('alone_at')}*({block.one('alone_s')}"
        f"+{products(reached, block.categories('alone_bend'))}),{_NEVER})",
    }


def part_pieces(block: GradesBlock) -> dict[str, str]:
    """The final of a part as a line in x, with all open marks and with the final alone; what the part weighs then."""
    cell = block.part
    final = f"{block.marks('fin')}*({block.marks('part')}={cell('p_n')})"
    whole, open_x = block.marks("whole"), products(final, block.marks("open_x"))
    earned = products(final, block.marks("earned"))
    total = products(final, f"({block.marks('key_low')}>0)", whole)
    near = f"({products(final, '(' + block.marks('key_now') + '>0)', whole)}+{open_x})"
    present = products(block.parts("p_weight"), f"({block.parts('alone_den')}>0)")
    return {
        "final_fixed": f"IF({total}=0,0,{earned}/{total})",
        "final_open": f"IF({total}=0,0,{open_x}/{total})",
        "alone_fixed": f"IF({near}=0,-1,{earned}/{near})",
        "alone_open": f"IF({near}=0,0,{open_x}/{near})",
        "alone_den": f"SUMIF({block.categories('c_part')},{cell('p_n')},{block.categories('alone_base')})",
        "alone_part": f"IF(OR({present}=0,{cell('alone_den')}=0),0,{cell('p_weight')}/{present})",
    }


def piece_singles(block: GradesBlock) -> dict[str, str]:
    """Figures of the whole block: the line that ends at x = 1, the number of points, the same for the final alone."""
    own = block.categories("alone_own")
    limits = f"SUMIF({block.categories('c_n')},{block.marks('cat')},{block.categories('lim_alone')})"
    in_final = f"(SUMIF({block.categories('c_n')},{block.marks('cat')},{own})>0)"
    dropped = f"({block.marks('key_now')}>0)*({block.marks('key_now')}<={limits})"
    highest = f"{in_final}*{dropped}*{block.marks('share')}"
    last = block.pieces("at")
    return {
        "last_fixed": f"{block.one('on_top')}+SUM({block.categories('line_fixed')})",
        "last_open": f"SUM({block.categories('line_open')})",
        "points": f'COUNTIF({block.marks("point")},">0")',
        "least": f"IF({block.one('points')}>{POINTS},MIN({last}),-1)",
        "alone_doubt": products(f"({own}>0)", f"({block.categories('alone_k')}>0)"),
        # By points, how much the final counts hangs on how many of its own open marks are left out.
        "alone_mixed": f"(1-{block.one('weighted')})*"
        + products(f"({own}>0)", f"({block.categories('alone_left')}>{block.categories('num_now')})"),
        "alone_open_x": products(block.marks("fin"), block.marks("open_x")),
        "alone_dropped": f"IF({block.one('alone_open_x')}=0,0,SUMPRODUCT(MAX({highest})))",
        "alone_l": f"{block.one('on_top')}+SUM({block.categories('alone_line')})",
        "alone_s": f"SUM({block.categories('alone_slope')})",
        "alone_full": f"{block.one('alone_l')}+SUM({block.categories('alone_jump')})+{block.one('alone_s')}"
        f"+SUM({block.categories('alone_bend')})",
    }
