"""What is taught: modules, lessons, hands-on tasks and the glossary. Knows no web, no records, no clock and no learner.

`from course import load_course` reads the files; `from course.reading_room import read_lesson` makes pages of them and
stands apart, because it loads the Markdown library.
"""

from course.blueprint import Blueprint, load_blueprints
from course.errors import CourseError
from course.glossary import Glossary, Term
from course.outline import Course, Lesson, Module, load_course
from course.tasks import Task

__all__ = [
    "Blueprint",
    "Course",
    "CourseError",
    "Glossary",
    "Lesson",
    "Module",
    "Task",
    "Term",
    "load_blueprints",
    "load_course",
]
