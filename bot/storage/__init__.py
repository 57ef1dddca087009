"""Keep documents and the log: nothing lost, nothing twice."""
