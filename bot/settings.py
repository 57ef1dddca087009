"""Settings of a running bot, from a mapping."""
