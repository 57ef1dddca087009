"""Which steps a store has to have seen, without the library that takes them."""

SET = "caddie"
TABLE = "_sqlite_migrations"
NAMES = ("0001_first", "0002_marks_and_guests", "0003_plain_views")
