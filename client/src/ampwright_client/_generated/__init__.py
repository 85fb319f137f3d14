# Made by client/generator/generate.py from the contract with SHA-256 a096fb91fc556d4d676b7dac1dde90154a23236d422ec1962762bc6c70eb4adb. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "a096fb91fc556d4d676b7dac1dde90154a23236d422ec1962762bc6c70eb4adb"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
