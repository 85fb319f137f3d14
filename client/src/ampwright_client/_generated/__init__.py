# Made by client/generator/generate.py from the contract with SHA-256 f97c82406c0d5f429c7ca5d9912b631e2e91b1f3d1a801294fa829eea35931f8. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "f97c82406c0d5f429c7ca5d9912b631e2e91b1f3d1a801294fa829eea35931f8"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
