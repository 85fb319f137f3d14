# Made by client/generator/generate.py from the contract with SHA-256 ef90e0464b3e351e6033a4cd5f3578f70aa365337f8eb2d2100702e945c38628. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "ef90e0464b3e351e6033a4cd5f3578f70aa365337f8eb2d2100702e945c38628"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
