# Made by client/generator/generate.py from the contract with SHA-256 fa9c21d6837b3c7b81ffe5c4e29f9b30953821892d857cc3ffedcbbf45625c90. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "fa9c21d6837b3c7b81ffe5c4e29f9b30953821892d857cc3ffedcbbf45625c90"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
