# Made by client/generator/generate.py from the contract with SHA-256 ad6148ddfdc87ae2af1ccdd11f9993c56212e8d76a8389c89d880775fa9c98d0. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "ad6148ddfdc87ae2af1ccdd11f9993c56212e8d76a8389c89d880775fa9c98d0"
CONTRACT_VERSION = "1.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
