"""The worth of the best plan of each request, by a general-purpose solver of whole-number programmes (HiGHS)."""

import json
import os
import sys
from importlib.metadata import version

import highspy


def best(request):
    notes, players = request["notes"], request["players"]
    order = sorted(range(len(notes)), key=lambda at: notes[at]["from"])
    solver = highspy.Highs()
    solver.silent()
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 1e-7)
    plays = {}
    worth = 0
    for at, note in enumerate(notes):
        for player, person in enumerate(players):
            if note["player"] in (None, player):
                for crook in person["crooks"]:
                    gain = note["gains"][crook]
                    if gain > 0:
                        plays[at, player, crook] = solver.addBinary()
                        worth += gain * plays[at, player, crook]

    def all_of(at, player, but=None):
        """A player's ways to play a note, but for one crook."""
        return [plays[at, player, to] for to in players[player]["crooks"] if to != but and (at, player, to) in plays]

    for at in range(len(notes)):
        own = [one for (note, _, _), one in plays.items() if note == at]
        if own:
            solver.addConstr(sum(own) <= 1)
    for i, one in enumerate(order):
        for other in order[i + 1:]:
            rest = notes[other]["from"] - notes[one]["to"]
            for player, person in enumerate(players):
                if rest < 0 and all_of(one, player) and all_of(other, player):
                    solver.addConstr(sum(all_of(one, player)) + sum(all_of(other, player)) <= 1)
                # Two crooks of one team within a rest too short.
                for mate, companion in enumerate(players):
                    if person["team"] != companion["team"] or rest >= request["changeTime"]:
                        continue
                    for crook in person["crooks"]:
                        first = plays.get((one, player, crook))
                        others = all_of(other, mate, but=crook)
                        if first is not None and others:
                            solver.addConstr(first + sum(others) <= 1)
    cost = request["changeCost"]
    if cost > 0:
        for player, person in enumerate(players):
            for i, one in enumerate(order):
                for j in range(i + 1, len(order)):
                    other = order[j]
                    for crook in person["crooks"]:
                        first = plays.get((one, player, crook))
                        others = all_of(other, player, but=crook)
                        if first is None or not others:
                            continue
                        changes = solver.addVariable(0, 1)
                        worth -= cost * changes
                        between = [choice for mid in order[i + 1:j] for choice in all_of(mid, player)]
                        need = first + sum(others) - 1
                        if between:
                            need = need - sum(between)
                        solver.addConstr(changes >= need)
    if not plays:
        return 0.0
    solver.maximize(worth)
    return solver.getInfo().objective_function_value


questions = json.load(sys.stdin)
# The solver greets on standard output, which is for the answer.
answer = os.fdopen(os.dup(1), "w")
os.dup2(2, 1)
json.dump({"version": version("highspy"), "best": [best(one) for one in questions["requests"]]}, answer)
