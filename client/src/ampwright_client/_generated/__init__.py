# Made by client/generator/generate.py from the contract with SHA-256 0c922c5ebbc40685d4ba23717e03f4b1444bd05a669859bf71611ea25f02bbd5. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "0c922c5ebbc40685d4ba23717e03f4b1444bd05a669859bf71611ea25f02bbd5"
CONTRACT_VERSION = "1.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
