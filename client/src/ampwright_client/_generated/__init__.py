# Made by client/generator/generate.py from the contract with SHA-256 00e5da713afb7e79d81a1e7336a5537874909cf63af8bb76219506919748d2d2. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "00e5da713afb7e79d81a1e7336a5537874909cf63af8bb76219506919748d2d2"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
