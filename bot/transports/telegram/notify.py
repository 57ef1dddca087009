"""Tell the service manager that the bot is ready, alive or stopping."""

import socket


def notify(address: str | None, state: str) -> None:
    """Send one state to the socket the service manager named; silence where there is none."""
    if not address:
        return
    path = "\0" + address[1:] if address.startswith("@") else address
    with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM) as manager:
        try:
            manager.connect(path)
            manager.send(state.encode())
        except OSError:
            return
