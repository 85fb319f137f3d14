"""Which cord for this tool and distance, and is this one good enough?"""
