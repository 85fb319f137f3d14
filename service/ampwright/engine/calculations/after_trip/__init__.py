"""What opens first, what comes back, who walks where and what each tool does when power returns."""
