"""Unit-aware answers to golf questions: flight, pattern, choice, putts, learning."""
