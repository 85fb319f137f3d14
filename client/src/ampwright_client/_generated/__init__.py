# Made by client/generator/generate.py from the contract with SHA-256 74c270074af08086158ddb708f1a17f4b1f459973618a59f6cc0584b707daf7d. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "74c270074af08086158ddb708f1a17f4b1f459973618a59f6cc0584b707daf7d"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
