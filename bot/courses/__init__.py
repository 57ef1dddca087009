"""Courses as data: our own file, open map extracts, and what is wrong with them."""

from bot.courses.check import Problem, check
from bot.courses.geojson import read_extract
from bot.courses.layout import BadCourse, read_course

__all__ = ["BadCourse", "Problem", "check", "read_course", "read_extract"]
