"""What does the service cost, on this machine, in one run?

Prints ratios and rates; no test is timed by it, and no figure of it is a promise. `ampwright bench` chooses the rows.
"""
