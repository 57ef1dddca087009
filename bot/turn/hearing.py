"""What of a message is meant for the caddie, and still worth answering."""

from bot.model import reading as read
from bot.model.message import Message

OVERHEARD = (read.Shot, read.Result, read.Score, read.Safety)
BARE = 6  # characters: no more than a number and its unit
TOO_LATE = (
    read.Shot, read.FollowUp, read.RulesHelp, read.Answered, read.Nonsense, read.Talk,
)  # fmt: skip


def heard(message: Message, reading: read.Reading) -> read.Reading | None:
    """Return the reading to act on, or None where silence is the right answer.

    Talk in a group that was not said to the bot counts only where it is plainly golf: a shot
    with its number, what became of one, a score, a danger. A message that comes too late gets
    no advice; what it reports is kept.
    """
    acts = reading.acts
    if message.late:
        acts = tuple(act for act in acts if not isinstance(act, TOO_LATE))
    if not message.addressed:
        bare = len(message.text.strip()) <= BARE
        acts = tuple(a for a in acts if isinstance(a, OVERHEARD) and _plain(a, bare))
    if not acts and (message.late or not message.addressed):
        return None
    return reading if acts == reading.acts else reading.model_copy(update={"acts": acts})


def _plain(act: read.Act, bare: bool) -> bool:
    """Whether an overheard act carries what makes it golf and not chatter."""
    match act:
        case read.Shot():
            facts = act.facts
            number = (facts.distance, facts.plays_as, facts.middle, facts.putt)
            if all(x is None for x in number):
                return False
            told = [n for n in facts.model_fields_set if getattr(facts, n) not in (None, ())]
            return bare or len(told) > 1
        case read.Result():
            return act.club is not None
        case read.Score():
            return act.hole is not None or act.to_par is not None
        case _:
            return True
