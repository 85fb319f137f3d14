# Made by client/generator/generate.py from the contract with SHA-256 e3674603ad0143690651cacfd13f635780d73347dce1e7e09faa6942ae4f10d6. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "e3674603ad0143690651cacfd13f635780d73347dce1e7e09faa6942ae4f10d6"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
