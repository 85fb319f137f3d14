# Made by client/generator/generate.py from the contract with SHA-256 9e1386afbc420a919469be6d84257824b4f5659858069be2b824d9db61182df5. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "9e1386afbc420a919469be6d84257824b4f5659858069be2b824d9db61182df5"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
