"""Turn a message into a reading: pure text in, frozen values out."""
