"""Which version of the client is this?"""

__version__ = "1.1.0"
