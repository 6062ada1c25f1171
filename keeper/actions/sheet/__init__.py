"""The sheet: any span of nights as a grid to type into, a row a night."""
