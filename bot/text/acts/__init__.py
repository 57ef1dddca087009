"""Which acts does a row of read tokens make?"""
