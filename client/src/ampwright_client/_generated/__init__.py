# Made by client/generator/generate.py from the contract with SHA-256 1e0d7d1b37838f3ac4ebd6fc6169d78c68f5f53e438693dcd4a015698fd578bd. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "1e0d7d1b37838f3ac4ebd6fc6169d78c68f5f53e438693dcd4a015698fd578bd"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
