"""Numbers only: nodes, members, springs, guys and the answers; knows no post and no panel."""
