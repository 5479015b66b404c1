"""Run -> what the client walks through: the page for any browser and the model file."""
