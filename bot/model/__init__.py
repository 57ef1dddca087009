"""Frozen types that every part of the bot shares; they carry no behaviour."""
