# Made by client/generator/generate.py from the contract with SHA-256 97be4d226e08d72c51d76a4ad788577d9a42c5ca8d672c57b577a17ba96b6a15. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "97be4d226e08d72c51d76a4ad788577d9a42c5ca8d672c57b577a17ba96b6a15"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
