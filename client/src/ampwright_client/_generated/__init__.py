# Made by client/generator/generate.py from the contract with SHA-256 7c82966f585f4398dfb8ac8330a4460cdf1e869d4925576b6f5af1745088dac3. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "7c82966f585f4398dfb8ac8330a4460cdf1e869d4925576b6f5af1745088dac3"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
