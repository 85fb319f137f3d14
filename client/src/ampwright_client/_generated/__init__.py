# Made by client/generator/generate.py from the contract with SHA-256 ba238ce98342fbeb35d24cb9f611c4b6cc6d1be7455400324789207c02161626. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "ba238ce98342fbeb35d24cb9f611c4b6cc6d1be7455400324789207c02161626"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
