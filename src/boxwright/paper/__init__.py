"""From an edition to print-outs: layout, PDF, and reading back what was printed."""
