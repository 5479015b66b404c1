"""Runs of a house's variants -> the choice side by side: anchors, cost, labour, weakest mark, wind it is good to."""
