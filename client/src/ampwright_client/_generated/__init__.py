# Made by client/generator/generate.py from the contract with SHA-256 595b5e12524941e8a5531dcf42bc701fecd1b80d31009ca18924603f91b82a98. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "595b5e12524941e8a5531dcf42bc701fecd1b80d31009ca18924603f91b82a98"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
