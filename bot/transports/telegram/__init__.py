"""The caddie on Telegram: raw updates in, a conversation, an outbox.

What arrives is stored before it is confirmed; what a message changes and what is to be sent
for it are one transaction; sends leave the outbox in the order of their chat.
"""
