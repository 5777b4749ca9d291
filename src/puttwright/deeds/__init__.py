"""What a fitter does, one file a deed."""
