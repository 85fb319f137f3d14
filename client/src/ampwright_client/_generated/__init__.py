# Made by client/generator/generate.py from the contract with SHA-256 32bafda324e0d39732c10432f373f813da82394c78bded24c251e37dac58ba90. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "32bafda324e0d39732c10432f373f813da82394c78bded24c251e37dac58ba90"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
