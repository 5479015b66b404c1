"""Run -> what the crew lead takes along the wall: tape marks, strips on paper, the page for the phone."""
