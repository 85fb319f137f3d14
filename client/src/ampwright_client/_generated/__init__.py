# Made by client/generator/generate.py from the contract with SHA-256 c53c61e639d6f2a7807bff52321be10c7775d2fb075bb1c835a92c0be9826e5a. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "c53c61e639d6f2a7807bff52321be10c7775d2fb075bb1c835a92c0be9826e5a"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
