# Made by client/generator/generate.py from the contract with SHA-256 6d7983b5d5856c386529ba0c72bed7c52318e1a0df2c38e9526c964368599208. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "6d7983b5d5856c386529ba0c72bed7c52318e1a0df2c38e9526c964368599208"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
