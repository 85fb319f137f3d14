"""Why did it stop?"""
