"""Load on the real service: what is asked, by whom, of how many processes, behind which proxy."""
