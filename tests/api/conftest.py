"""What pytest leaves alone here: a page that needs pdoc, and a program that is run by itself."""

collect_ignore = ["reference.py", "consumer.py"]
