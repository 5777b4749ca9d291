"""What people type: asked by the columns of the evidence, read in the units they speak."""
