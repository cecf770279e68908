"""Find out what is plugged in: listens to all ports at once for less than five seconds and says what to use.

Nothing is sent, unless you ask for it with --ask: a meter that only answers is then asked who it is. Opening
a port restarts many boards.
"""

from __future__ import annotations

import argparse
import json
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drivers.formats.text_survey import SurveyedColumn
    from drivers.listening import Heard


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of this command."""
    parser.add_argument(
        "ports",
        nargs="*",
        metavar="PORT",
        help="listen to these only: /dev/ttyUSB0, COM5, socket://host:port (else to all that are found)",
    )
    parser.add_argument(
        "--ask", metavar="PORT", help="ask the meter at this port who it is (sends *IDN? to it)"
    )
    parser.add_argument(
        "--optical",
        metavar="PORT",
        help="listen to a meter behind an optical cable, with the lines of the port set in every way (up to "
        "9 s; sends nothing)",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document and nothing else")


@dataclass(frozen=True, slots=True)
class _Line:
    """What is said about one port. `columns` : of a board, what each column or input looks like."""

    port: str
    description: str
    state: str
    address: str
    addresses: tuple[str, ...]
    shown: str
    message: str
    columns: tuple[SurveyedColumn, ...] = ()


def run(arguments: argparse.Namespace) -> int:
    """Listen, or ask, and print what was learned."""
    from drivers.errors import AddressError

    named = [one for one in (arguments.ask, arguments.optical, *arguments.ports) if one is not None]
    is_single = arguments.ask is not None or arguments.optical is not None
    if is_single and len(named) > 1:
        raise AddressError("--ask and --optical take one port each time; leave the others out")
    if not all(port.strip() for port in named):
        raise AddressError(
            "a port without a name; write for example /dev/ttyUSB0, COM5 or socket://host:port"
        )
    if arguments.ask is not None:
        lines = _asked(arguments.ask)
    elif arguments.optical is not None:
        lines = _through_optics(arguments.optical)
    else:
        lines = _heard(arguments.ports)
    if arguments.json:
        print(json.dumps([asdict(line) for line in lines], ensure_ascii=False, indent=2))
    else:
        _print(lines)
    return 0


def _asked(port: str) -> list[_Line]:
    from drivers.errors import CannotOpen
    from drivers.listening import ask_identity

    address, identity = ask_identity(port)
    if not address:
        raise CannotOpen(
            f"nothing at {port} says who it is. Is the meter on, its remote interface set to 9600 or 115200 "
            "baud 8N1, and the cable the right one (crossed or straight)?"
        )
    return [_Line(port, "", "answered", address, (address,), "", identity)]


def _through_optics(port: str) -> list[_Line]:
    from drivers.listening import listen_through_optics

    return [_line(listen_through_optics(port), None)]


def _heard(ports: list[str]) -> list[_Line]:
    from drivers.listening import listen_to_all
    from drivers.port_list import PortInfo, find_ports

    known = {port.device: port for port in find_ports()}
    if ports:
        chosen = [known.get(port) or PortInfo(port, "") for port in ports]
    else:
        chosen = [port for port in known.values() if port.is_worth_listening]
    heard = listen_to_all(port.device for port in chosen)
    lines = [_line(one, known.get(one.port)) for one in heard]
    if not ports:
        skipped = [port for port in known.values() if not port.is_worth_listening]
        lines += [
            _Line(port.device, port.description, "skipped", "", (), "", "name it to listen to it")
            for port in skipped
        ]
    return lines


def _line(heard: Heard, info: object) -> _Line:
    is_one = heard.state == "recognised"
    return _Line(
        heard.port,
        getattr(info, "description", ""),
        heard.state,
        heard.addresses[0] if is_one else "",
        heard.addresses,
        heard.candidates[0].shown if is_one else "",
        heard.message,
        heard.candidates[0].columns if heard.candidates else (),
    )


def _print(lines: list[_Line]) -> None:
    if not lines:
        print(
            "No port was found. Plug the instrument in; a port that is not listed can be named: "
            "galvanote sources PORT"
        )
    for line in lines:
        name = f"{line.port} ({line.description})" if line.description else line.port
        print(f"{name}: {line.state.replace('_', ' ')}")
        for address in line.addresses:
            print(f"  {address}")
        if line.message:
            print(f"  {line.message}")
