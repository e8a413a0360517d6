"""The processes behind `footvalve serve`: connections and their limits, the way to an end, and the care of workers."""
