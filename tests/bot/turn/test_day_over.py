"""Does yesterday's weather stay out of today's shots?"""

from tests.support.chats import play

TALK = """# a report, and a shot the next day
@ demo
> METAR EGXX 010850Z 36025KT 9999 FEW030 12/07 Q1009
@ +30h
> 160, hole runs north
"""
CALM = """# the same shot, no report
@ demo
@ +30h
> 160, hole runs north
"""


def test_a_wind_of_yesterday_blows_no_ball_today() -> None:
    assert play(TALK)[1][-1] == play(CALM)[1][-1]


def test_a_wind_of_today_does() -> None:
    assert play(TALK.replace("+30h", "+2h"))[1][-1] != play(CALM)[1][-1]


def test_news_told_today_brings_nothing_old_back() -> None:
    warm = "> it is 20 C today\n@ +5m\n"
    said = TALK.replace("> 160", f"{warm}> 160")
    assert play(said)[1][-1] == play(CALM.replace("> 160", f"{warm}> 160"))[1][-1]
