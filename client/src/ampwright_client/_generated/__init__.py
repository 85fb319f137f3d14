# Made by client/generator/generate.py from the contract with SHA-256 720cd1bbf0a4a20f144a2b3531e99b1d455724286367b7546e1717b0ea9f34c3. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "720cd1bbf0a4a20f144a2b3531e99b1d455724286367b7546e1717b0ea9f34c3"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
