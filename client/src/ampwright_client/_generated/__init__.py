# Made by client/generator/generate.py from the contract with SHA-256 4314623976fe355ae3df4dabe143e8e573bfb37972d36aa09dcbd4831fe5cca6. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "4314623976fe355ae3df4dabe143e8e573bfb37972d36aa09dcbd4831fe5cca6"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
