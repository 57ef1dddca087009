"""Carry messages in and replies out; no golf here."""
