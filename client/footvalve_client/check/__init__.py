"""The command `footvalve-check`: the verdict on a site in a file."""
