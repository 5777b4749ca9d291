"""The decision: levers, belief about a fitting, choice, next trial, reasons and cautions."""
