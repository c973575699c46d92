"""Reads a calendar file that the app wrote, with the library `icalendar` and line by line against RFC 5545.

    python3 tests/oracle/read_calendar.py < FILE

Prints its name and its events as JSON, moments in ms since 1970: what the spec of the calendar compares with the plan.
"""

import json
import sys
from datetime import UTC

import icalendar

from calendars import of_form


def milliseconds(moment):
    assert moment.tzinfo is not None and moment.utcoffset().total_seconds() == 0
    return round(moment.astimezone(UTC).timestamp() * 1000)


def event(read):
    start = read.decoded("DTSTART")
    return {
        "id": str(read["UID"]),
        "start": milliseconds(start),
        "end": milliseconds(read.decoded("DTEND")) if "DTEND" in read else milliseconds(start),
        "title": str(read["SUMMARY"]),
        "note": str(read["DESCRIPTION"]),
        "alarms": [milliseconds(start + alarm.decoded("TRIGGER")) for alarm in read.walk("VALARM")],
    }


def main():
    text = sys.stdin.buffer.read().decode()
    of_form(text)
    calendar = icalendar.Calendar.from_ical(text)
    events = calendar.walk("VEVENT")
    assert not calendar.errors and not any(event.errors for event in events)
    json.dump({"name": str(calendar["X-WR-CALNAME"]), "events": [event(read) for read in events]}, sys.stdout)


if __name__ == "__main__":
    main()
