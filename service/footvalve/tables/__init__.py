"""Numbers of the trade, each with its source: CSV files, and a typed module that reads each of them."""
