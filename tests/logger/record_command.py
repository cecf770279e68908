"""The record command as a process of its own, for tests: python -m tests.logger.record_command SOURCE OUT."""

import sys

from logger.commands import main

sys.exit(main(["record", "--acks", "--source", sys.argv[1], "--out", sys.argv[2], *sys.argv[3:]]))
