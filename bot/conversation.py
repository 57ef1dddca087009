"""The seam: a message in, a reply out, everything kept in one transaction."""
