"""The sea chart: depths and soundings, border, roses, signs after INT 1, names, and its notes."""
