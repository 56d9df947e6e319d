"""``extract``: what was read from one outline, as JSON or as a list for people."""

from __future__ import annotations

from syllabus_io.cli.clock import local_day
from syllabus_io.cli.explain import explain_course
from syllabus_io.cli.options import ExtractOptions
from syllabus_io.cli.output import write_text
from syllabus_io.cli.reading import load_resolving, reading_settings
from syllabus_io.cli.report import list_course
from syllabus_io.export.json_out import outline_to_json
from syllabus_io.pipeline import explain_outline_file, read_outline_file, resolve_outlines
from syllabus_io.term_file import read_term_file

__all__ = ["extract"]


def extract(options: ExtractOptions) -> int:
    """Writes the records of one outline. Returns 0; a fault is raised as a SyllabusError."""
    facts = read_term_file(options.term) if options.term else None
    settings = reading_settings(options.no_cache, meanwhile=load_resolving)
    if options.explain:
        load_resolving()
        outline = explain_outline_file(options.file, settings.limits)
    else:
        outline = read_outline_file(options.file, settings)
    (course,) = resolve_outlines([outline], facts, local_day()).courses
    if options.json:
        write_text(options.json, outline_to_json(course))
    elif not options.quiet:
        for line in explain_course(course) if options.explain else list_course(course):
            print(line)
    return 0
