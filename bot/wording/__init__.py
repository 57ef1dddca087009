"""Put an answer into words: the only place where numbers are rounded."""
