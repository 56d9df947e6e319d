"""``share``: a copy of a workbook without what is private."""

from __future__ import annotations

from syllabus_io.cli.clock import local_day
from syllabus_io.cli.workbook_options import ShareOptions
from syllabus_io.errors import OutputNotWritable
from syllabus_io.revise.files import open_workbook_file
from syllabus_io.revise.share import PRIVATE, share_workbook
from syllabus_io.workbook.write import write_file

__all__ = ["share"]


def share(options: ShareOptions) -> int:
    """Writes the copy. Returns 0; a fault is raised as a SyllabusError."""
    output = options.output
    if output.suffix.lower() != ".xlsx":
        raise OutputNotWritable(output, "is not named as a workbook", "give a name that ends in .xlsx")
    if output.exists():
        raise OutputNotWritable(output, "exists already", "choose another name with -o")
    if not output.parent.is_dir():
        raise OutputNotWritable(output, "its folder does not exist", "make the folder first, or choose another")
    file = open_workbook_file(options.workbook, to_change=False)
    write_file(output, share_workbook(options.workbook, file.content, options.keep, local_day()))
    if not options.quiet:
        print(f"Written: {output}, without:")
        for word, about in PRIVATE.items():
            if word not in options.keep:
                print(f"  {word}: {about}")
    return 0
