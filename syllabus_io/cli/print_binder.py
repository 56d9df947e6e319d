"""``print``: one PDF of a workbook, ready for a ring binder."""

from __future__ import annotations

from syllabus_io.cli.workbook_options import PrintOptions
from syllabus_io.errors import OutputNotWritable

__all__ = ["print_binder"]


def print_binder(options: PrintOptions) -> int:
    """Writes the PDF. Returns 0; a missing LibreOffice or an unknown sheet is raised as a SyllabusError."""
    from syllabus_io.workbook.binder import BinderOptions, make_binder
    from syllabus_io.workbook.write import write_file

    output = options.output or options.workbook.with_suffix(".pdf")
    if output.suffix.lower() != ".pdf":
        raise OutputNotWritable(output, "is not named as a PDF", "give a name that ends in .pdf")
    if not output.parent.is_dir():
        raise OutputNotWritable(output, "its folder does not exist", "make the folder first, or choose another")
    binder = BinderOptions(options.sheets, front=not options.bare, two_sided=options.two_sided)
    write_file(output, make_binder(options.workbook, binder))
    if not options.quiet:
        print(f"Written: {output}")
    return 0
