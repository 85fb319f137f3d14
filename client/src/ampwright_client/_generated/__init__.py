# Made by client/generator/generate.py from the contract with SHA-256 59a81b056e29927f4527e8a17b3035e26e3210585139c92971974d8d8fc41a97. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "59a81b056e29927f4527e8a17b3035e26e3210585139c92971974d8d8fc41a97"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
