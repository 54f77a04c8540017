"""How long a game will take, how likely it ends in time, and what holds it up.

    network     what waits for what, and what each thing takes: plain frozen values
    parameters  every number that is not in the game, with its unit and its source
    timing      what each thing takes for such pupils, before chance
    draws       chance: seconds for many groups at once
    plan        the network as numbers
    trials      many groups playing, in step with one another
    answers     what a teacher asks of them
    reckoning   how that is found

A forecast is only as good as its parameters, and few of these have a source: it tells
slow games from quick ones, and what a change would change, better than it tells minutes.
"""
