# Made by client/generator/generate.py from the contract with SHA-256 a78f4d70054e1680c2eace8bbafc4b3a3008f54ddb126b2bdb2fd5f463e6865c. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "a78f4d70054e1680c2eace8bbafc4b3a3008f54ddb126b2bdb2fd5f463e6865c"
CONTRACT_VERSION = "1.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
