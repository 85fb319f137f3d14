# Made by client/generator/generate.py from the contract with SHA-256 ed77816174712b534da90390db38a58f24ca19fe8ba75cbee32bcb2921a14a41. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "ed77816174712b534da90390db38a58f24ca19fe8ba75cbee32bcb2921a14a41"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
